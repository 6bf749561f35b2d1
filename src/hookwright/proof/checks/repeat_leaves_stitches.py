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

from dataclasses import dataclass

from hookwright.ground import LOOK, MUST_MEND, Finding, Suggestion, of_size
from hookwright.notation.tree import Join

from ..case import Case
from ..sums import is_foundation, places_of, repeat_at, sum_table, takes_and_makes, with_echoes
from ..wording import count, counts, size_list

KIND = "repeat-leaves-stitches"


def find(case: Case):
    for off in case.off("repeat-leaves"):
        yield _finding(case, off)


@dataclass(frozen=True, slots=True)
class _Sum:
    """The sum of one repeat: there = edges + passes x takes + left, where it adds up (`plain`)."""

    there: int
    edges: int
    takes: int
    passes: int
    left: int

    @property
    def plain(self) -> bool:
        return self.takes > 0 and self.there == self.edges + self.passes * self.takes + self.left and self.left < self.takes

    @property
    def adds_up(self) -> bool:
        return self.takes > 0 and self.there == self.edges + self.passes * self.takes + self.left

    def __str__(self) -> str:
        if not self.adds_up:
            return f"{count(self.passes, 'whole repeat')} of {count(self.there, 'stitch')}"
        inside = self.there - self.edges
        fits = f"{inside} = {self.passes} x {self.takes} + {self.left}"
        return f"{self.there} - {self.edges} outside it = {inside}, and {fits}" if self.edges else fits

    @property
    def multiple(self) -> str:
        return f"a multiple of {self.takes}" + (f" plus {self.edges}" if self.edges else "")

    def of(self, stitches: int) -> str:
        """ "52 = 4 + 8 x 6" """
        passes = (stitches - self.edges) // self.takes
        return f"{stitches} = {self.edges} + {passes} x {self.takes}" if self.edges else f"{stitches} = {passes} x {self.takes}"


def _sum(facts: dict) -> _Sum:
    numbers = {name: facts.get(name) or 0 for name in ("there", "takes", "passes", "left")}
    edges = (facts.get("before") or 0) + (facts.get("after") or 0)
    if not edges and numbers["takes"]:  # what was passed before it is told by the sum itself
        edges = max(0, numbers["there"] - numbers["passes"] * numbers["takes"] - numbers["left"])
    return _Sum(edges=edges, **numbers)


def _finding(case: Case, off) -> Finding:
    size, (index, _, trouble) = min(off.at.items())
    total = _sum(trouble.facts)
    name = case.name_of(off.row, off.label)
    lefts = sorted({_sum(trouble.facts).left for _, _, trouble in off.at.values()})
    repeat = repeat_at(off)
    left_words = counts(lefts, "stitch")
    message = case.says_of(off, f"the repeat of {name} leaves", left_words, "over:", str(total))
    labels = ()
    summed = takes_and_makes(repeat.steps, size) if repeat is not None else None
    makes = summed[1] if summed and summed[0] == total.takes else None
    if repeat is not None and total.takes:
        labels = ((repeat.span, f"each repeat takes {total.takes}" + (f" and makes {makes}" if makes else "")),)
    return Finding(
        KIND,
        case.grade(off, _grade(case, off, total)),
        message,
        off.span,
        name,
        case.size_names(off.at),
        expected=total.multiple if total.takes else None,
        found=total.there,
        whose="the repeat",
        working=sum_table(case, off, _columns(case, off, total)),
        labels=labels,
        suggestions=tuple(_suggestions(case, off, total, makes, repeat)),
        echoes=with_echoes(case, off),
    )


def _grade(case: Case, off, total: _Sum) -> str:
    """To be mended where the sum can be shown; to be looked at where the repeat may run on into the next round of a spiral, unstated."""
    if not total.passes and not total.takes:
        return LOOK
    spiral = all(worked.in_round for _, worked, _ in off.at.values()) and not any(type(step) is Join for step in off.row.steps)
    return LOOK if spiral and not off.row.stated else MUST_MEND


def _columns(case: Case, off, total: _Sum) -> dict:
    """How often the repeat fits and what it leaves, in the sizes concerned and where that is plain in the others."""
    size, (index, _, _) = min(off.at.items())
    repeats: dict = {}
    over: dict = {}
    for other, pair in enumerate(case.same_row(size, index)):
        if other in off.at:
            here = _sum(off.at[other][2].facts)
            repeats[other], over[other] = f"{here.passes} x {here.takes}" if here.takes else None, here.left
        elif pair is not None and total.plain:
            inside = (places_of(pair[1]) or 0) - total.edges
            if inside > 0 and inside % total.takes == 0:
                repeats[other], over[other] = f"{inside // total.takes} x {total.takes}", 0
    outside = {"outside it": {other: _sum(off.at[other][2].facts).edges for other in off.at}} if total.edges and not total.plain and total.adds_up else {}
    return {**outside, "repeats": repeats, "left over": over}


def _suggestions(case: Case, off, total: _Sum, makes: int | None, repeat):
    """Counts of the row below that would fit, those that give the stated counts first."""
    size, (index, _, _) = min(off.at.items())
    same = case.same_row(size, index)
    below = same[size][1]
    on_chain = is_foundation(below)
    noun = "chain" if on_chain else "stitch"
    under = "" if on_chain else f" in {below.label}" if below is not None and below.row is not None else " below"
    wanted = _for_stated(case, off, total, makes)
    if wanted:
        numbers = [wanted[one][0] if one in wanted else places_of(pair[1]) if pair is not None else None for one, pair in enumerate(same)]
        stated = [case.total_stated(one, pair[2]) if pair is not None else None for one, pair in enumerate(same)]
        nouns = f"{noun}s" if on_chain else "stitches"
        yield Suggestion(
            f"{size_list(numbers)} {nouns}{under} would give the {size_list(stated)} stated",
            "certain",
            effect="; ".join((f"{case.sizes[one]}: " if len(case.sizes) > 1 else "") + words for one, (_, words) in wanted.items()),
        )
    if total.plain:
        down = total.there - total.left
        fits = [fit for fit in (down, down + total.takes) if fit > total.edges and (size not in wanted or fit != wanted[size][0])]
        if fits:
            in_size = f"{of_size(case.sizes[size])}: " if len(case.sizes) > 1 else ""
            effect = "; ".join(total.of(fit) for fit in fits)
            yield Suggestion(f"{in_size}{counts(fits, noun)}{under} fit ({total.multiple})", "likely", effect=effect)
    if repeat is not None and total.passes:
        rest = total.left + (off.facts().get("after") or 0)
        yield Suggestion(
            f"stop the repeat at the last {count(rest, 'stitch')} and say what is worked in them",
            "your choice",
            effect=f"{count(total.passes, 'repeat')} and {count(total.left, 'stitch')} more at the end",
        )


def _for_stated(case: Case, off, total: _Sum, makes: int | None) -> dict[int, tuple[int, str]]:
    """{size: (stitches below that give the stated count, the sum)}; {} unless that comes out for every size concerned."""
    out = {}
    for size, (index, _, trouble) in off.at.items():
        stated, here = case.total_stated(size, index), _sum(trouble.facts)
        if not stated or not makes or here.edges or not here.plain or here.takes != total.takes or stated % makes:
            return {}
        times = stated // makes
        out[size] = times * here.takes, f"{times} x {here.takes} = {times * here.takes}, {times} x {makes} = {stated}"
    return out
