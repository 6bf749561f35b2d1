"""The reports of the texts a worker saw last: panels of one text share one check."""

from collections import OrderedDict

import hookwright

_MOST = 4
_MOST_LETTERS = 400_000  # of all texts kept, since a report is many times its text
_kept: OrderedDict = OrderedDict()


def report_of(text: str):
    """The report of a text."""
    found = _kept.pop(text, None)
    if found is None:
        found = hookwright.check(text)
    _kept[text] = found
    while len(_kept) > 1 and (len(_kept) > _MOST or sum(map(len, _kept)) > _MOST_LETTERS):
        _kept.popitem(last=False)
    return found
