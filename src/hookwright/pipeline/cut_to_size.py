"""A report cut down to one of its sizes; and what made to measure asks a maker for."""

import re

from hookwright import sizing
from hookwright.notation import one_size

from .charts import one_of
from .sized import Sized


def only_size(report, size: str):
    """See pipeline.only_size. It is worked and proved anew, as a pattern of one size."""
    from . import held, proved

    if not report.pattern.sizes:
        return report
    index = report.sizes.index(one_of(size, report.sizes, "size"))
    one = one_size(report.pattern, index)
    one.conventions = [*one.conventions, *held(report)]
    return proved(report.text, one, [], Sized(), limit=report.work.limit)


def measures_asked(report) -> list[str]:
    """See pipeline.measures_asked."""
    head = report.pattern.head
    if head is None or not head.wishes:
        return []
    words = " ".join(wish.follows + " " + " ".join(wish.keys.values()) for wish in head.wishes.values()).lower()
    out = []
    known = {name for body in sizing.bodies_of(head, []) for name in body}
    for measure in sorted(known, key=len, reverse=True):  # "back waist length" is no waist
        without = re.sub(rf"(?<!\w){re.escape(measure)}(?!\w)", " ", words)
        if without != words:
            out.append(measure)
            words = without
    return sorted(out)
