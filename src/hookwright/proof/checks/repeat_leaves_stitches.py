"""A repeat leaves stitches over.

A repeat that goes "across", "around" or "to the last 2 sts" is worked as often as it fits, and it has to fit exactly. Here it does
not: after the last whole repeat some stitches remain that are fewer than one repeat takes.

With it::

    Ch 50.
    Row 1: Sc in 2nd ch from hook and in each ch across. (49 sc)
    Row 2: Ch 1, turn, sc in first 2 sts, *ch 1, skip next st, sc in next 5 sts; rep from * to last 2 sts, sc in last 2 sts.

Without it::

    Ch 47.
    Row 1: Sc in 2nd ch from hook and in each ch across. (46 sc)
    Row 2: Ch 1, turn, sc in first 2 sts, *ch 1, skip next st, sc in next 5 sts; rep from * to last 2 sts, sc in last 2 sts.

Working::

    49 stitches, 2 + 2 outside the repeat: 45 are left for repeats of 6
    45 = 7 x 6 + 3: three stitches are over
    46: 42 = 7 x 6, none over

What to do: start with a count that fits (the finding names the nearest ones), give the stitches left over to the edges ("to last 5 sts"),
or mend the repeat, where a stitch was dropped from it.
"""

from hookwright.ground import MUST_MEND, Finding, Suggestion

from ..case import Case
from ..sums import repeat_at, sum_table, takes_and_makes, with_echoes
from ..wording import count, listing, quoted, sentence

KIND = "repeat-leaves-stitches"


def find(case: Case):
    for off in case.off("repeat-leaves"):
        yield _finding(case, off)


def _finding(case: Case, off) -> Finding:
    size, (index, worked, trouble) = min(off.at.items())
    facts = trouble.facts
    there, takes, left = facts["there"], facts["takes"], facts["left"]
    edges = (facts.get("before") or 0) + (facts.get("after") or 0)
    name = case.name_of(off.row, off.label)
    lefts = sorted({trouble.facts["left"] for _, _, trouble in off.at.values()})
    repeat = repeat_at(off)
    message = sentence(
        case.in_sizes(off.at),
        f"the repeat of {name} leaves",
        listing([count(number, "stitch") for number in lefts], "or"),
        "over:",
        _sum(there, edges, takes, facts["passes"], left),
    )
    columns = {"repeats": {}, "left over": {}}
    for other, (_, _, found) in off.at.items():
        columns["repeats"][other] = f"{found.facts['passes']} x {found.facts['takes']}"
        columns["left over"][other] = found.facts["left"]
    for other, pair in enumerate(case.same_row(size, index)):
        if pair is not None and other not in off.at and pair[1] is not None and takes and pair[1].stitches >= edges:
            if (pair[1].stitches - edges) % takes == 0:
                columns["repeats"][other] = f"{(pair[1].stitches - edges) // takes} x {takes}"
                columns["left over"][other] = 0
    labels = []
    if repeat is not None:
        summed = takes_and_makes(repeat.steps, size)
        makes = f" and makes {summed[1]}" if summed and summed[0] == takes else ""
        labels.append((repeat.span, f"each repeat takes {takes}{makes}"))
    return Finding(
        KIND,
        MUST_MEND,
        message[0].upper() + message[1:],
        off.span,
        name,
        case.size_names(off.at),
        expected=f"a multiple of {takes}" + (f" plus {edges}" if edges else ""),
        found=there,
        whose="the repeat",
        working=sum_table(case, off, columns),
        labels=tuple(labels),
        suggestions=tuple(_suggestions(case, off, repeat)),
        echoes=with_echoes(case, off),
    )


def _sum(there: int, edges: int, takes: int, passes: int, left: int) -> str:
    if edges:
        return f"{there} - {edges} outside it = {there - edges}, and {there - edges} = {passes} x {takes} + {left}"
    return f"{there} = {passes} x {takes} + {left}"


def _suggestions(case: Case, off, repeat):
    """Counts of the row below that would fit, the one that gives the stated count first."""
    size, (index, worked, trouble) = min(off.at.items())
    facts = trouble.facts
    there, takes, left, passes = facts["there"], facts["takes"], facts["left"], facts["passes"]
    edges = (facts.get("before") or 0) + (facts.get("after") or 0)
    below = case.same_row(size, index)[size][1]
    under = f" in {below.label}" if below is not None and below.label else " below"
    stated = case.total_stated(size, index)
    summed = takes_and_makes(repeat.steps, size) if repeat is not None else None
    makes = summed[1] if summed and summed[0] == takes else None
    of_size = f"size {case.sizes[size]}: " if len(case.sizes) > 1 else ""
    named = None
    if stated is not None and makes and not edges and stated % makes == 0:
        times = stated // makes
        named = times * takes
        yield Suggestion(
            f"{of_size}{count(named, 'stitch')}{under} would give the {stated} stated",
            "certain",
            effect=f"{times} x {takes} = {named}, {times} x {makes} = {stated}",
        )
    fits = [fit for fit in (there - left, there - left + takes) if fit > 0 and fit != named]
    if fits:
        multiple = f"a multiple of {takes}" + (f" plus {edges}" if edges else "")
        effect = "; ".join(f"{fit} = {edges} + {(fit - edges) // takes} x {takes}" if edges else f"{fit} = {fit // takes} x {takes}" for fit in fits)
        yield Suggestion(f"{of_size}{listing(fits, 'or')} stitches{under} fit ({multiple})", "likely", effect=effect)
    if repeat is not None and off.span.end <= len(case.text) and quoted(case.text, repeat.span):
        after = facts.get("after") or 0
        yield Suggestion(
            f"stop the repeat at the last {count(after + left, 'stitch')} and say what is worked in them",
            "your choice",
            effect=f"{count(passes, 'repeat')} and {count(left, 'stitch')} more at the end",
        )
