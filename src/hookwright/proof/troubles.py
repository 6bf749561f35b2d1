"""Rows that don't come out, gathered from the worked fabrics: one entry for all sizes, later rows off for the same reason folded in.

A row that is two stitches short makes every row above it two stitches short. Said once, it helps; said twenty times, it hides
the next mistake. So each trouble is asked: would it be gone if the row below had come out as it states? Then it is an echo.
"""

from dataclasses import dataclass, field

from hookwright.fabric import Trouble
from hookwright.ground import Span

# The sum of a row that does not come out shows in several ways at once; the first of these that is there says it best.
_BREAKS = ("no-such-place", "unread", "no-end")
_SUMS = ("runs-out", "repeat-leaves", "left-over", "count")


@dataclass(slots=True)
class Off:
    """One written row that does not come out, in one or several sizes.

    at: size index -> (index of the worked row, the worked row, the trouble). echoes: labels of later rows off for the same reason.
    """

    kind: str
    row: object
    label: str
    span: Span
    at: dict = field(default_factory=dict)
    echoes: dict = field(default_factory=dict)  # label -> set of sizes

    @property
    def first(self):
        """(index of the worked row, worked row, trouble) of the first size concerned."""
        return self.at[min(self.at)]

    def facts(self, size: int | None = None) -> dict:
        return (self.first if size is None else self.at[size])[2].facts

    def each(self, fact: str):
        """{size index: value of the fact} for the sizes concerned."""
        return {size: trouble.facts.get(fact) for size, (_, _, trouble) in self.at.items()}


def gather(fabrics, total_stated, roots=None) -> tuple[list[Off], set[tuple[int, int]]]:
    """(all that does not come out, in working order of the first size concerned; (size, index) of worked rows that echo one).

    total_stated(size, index): the stitches that a worked row states, None where it states none. roots: id of a written row -> Off that
    is known beforehand to put the row off, such as a list without a number for each size: what does not come out in it and above it is
    folded into that.
    """
    found: dict[tuple, Off] = {}
    echoing: set[tuple[int, int]] = set()
    for size, fabric in enumerate(fabrics):
        _gather_size(size, fabric, found, echoing, total_stated, roots or {})
    return list(found.values()), echoing


def stated_total(trouble, row) -> tuple[int, int] | None:
    """(stated, worked) of a count trouble about all stitches of the row, else None.

    A single kind stands for all of them where the row states nothing else ("(45 sc)").
    """
    facts = trouble.facts
    if trouble.kind != "count" or facts.get("per"):
        return None
    of = facts.get("of")
    if of not in ("st", "", None) and not any(len(said.items) == 1 and said.items[0][1] == of and not said.per for said in row.stated):
        return None
    if of in ("sp", "ch", "row") or isinstance(of, str) and of.startswith("group"):
        return None
    expected, found = facts.get("expected"), facts.get("found")
    return (expected, found) if isinstance(expected, int) and isinstance(found, int) else None


def asked_for(trouble) -> int | None:
    """Stitches that a row which runs out asks for, up to and with the step that finds too few; None where that is not known."""
    facts = trouble.facts
    there, needed, left = facts.get("there"), facts.get("needed"), facts.get("left")
    if not isinstance(there, int) or not isinstance(needed, int):
        return None
    passes, takes = facts.get("passes"), facts.get("takes")
    if "pass" in facts:  # one pass of a repeat finds too few: all its passes are asked for
        whole = (facts.get("before") or 0) + passes * takes if isinstance(passes, int) and isinstance(takes, int) else 0
        needed = max(needed, whole)
    elif passes is not None and isinstance(left, int):  # what comes after a repeat finds too few
        needed += there - left
    return needed if needed > there else None


def _gather_size(size, fabric, found, echoing, total_stated, roots) -> None:
    rows = fabric.rows
    cause: dict[int, Off] = {}  # worked row -> what first put it off
    passed: dict[int, int] = {}  # worked row that was let pass as a habit of counting -> the count it states
    excess: dict[int, int | None] = {}  # worked row -> stitches it has beyond those it should have, None where that is no number
    for index, worked in enumerate(rows):
        below = worked.below
        troubles = worked.troubles
        root = roots.get(id(worked.row))
        if root is not None:
            root.at.setdefault(size, (index, worked, None))
            stated = total_stated(size, index)
            if troubles or stated is None or stated != worked.stitches:
                cause[index], excess[index] = root, None
                if troubles and worked.row is not root.row:
                    root.echoes.setdefault(worked.label, set()).add(size)
                continue
        if not troubles:
            if below in cause:
                stated = total_stated(size, index)
                if stated is None:
                    cause[index], excess[index] = cause[below], excess[below]
                elif (
                    excess[below] is not None and worked.stitches - stated == excess[below]
                ):  # let pass as a habit of counting: it is the same stitches
                    cause[below].echoes.setdefault(worked.label, set()).add(size)
                    cause[index], excess[index] = cause[below], excess[below]
                    echoing.add((size, index))
            elif (stated := total_stated(size, index)) is not None and stated != worked.stitches and not worked.spaces:
                passed[index] = stated
            continue
        total = next((stated for trouble in troubles if (stated := stated_total(trouble, worked.row))), None)
        beyond = total[1] - total[0] if total else None
        for trouble in _principal(troubles, worked.row):
            if below in passed and below not in cause and _follows(trouble, worked, rows[below], passed[below], total_stated(size, index)):
                cause[below], excess[below] = _let_pass(size, below, rows[below], passed[below], found), rows[below].stitches - passed[below]
            earlier = cause.get(below)
            whole = total_stated(size, index)
            same = excess.get(below) and whole is not None and worked.stitches - whole == excess[below]
            if earlier is not None and (same and trouble.kind == "count" or _explained(trouble, worked, rows[below], excess[below])):
                earlier.echoes.setdefault(worked.label, set()).add(size)
                cause[index] = earlier
                excess[index] = excess[below] if beyond is None else beyond
                continue
            span = trouble.span if trouble.span.end else worked.row.span
            key = (span, trouble.kind, *_about(trouble))
            off = found.get(key)
            if off is None:
                off = found[key] = Off(trouble.kind, worked.row, worked.label, span)
            if size in off.at:  # the same written row worked again, as in a range
                off.echoes.setdefault(worked.label, set()).add(size)
            else:
                off.at[size] = (index, worked, trouble)
            if trouble.kind == "below-unknown" and trouble.facts["taken"] is None:
                cause.setdefault(index, off)  # how many stitches there are is not known from here on
                excess[index] = None
                continue
            if trouble.kind in _SUMS and not trouble.facts.get("per") or trouble.kind in _BREAKS:
                cause[index] = off
                apart = trouble.kind == "count" and beyond is None and (whole is None or worked.stitches == whole)
                if worked.spaces or apart:
                    excess[index] = None  # the row is of another shape, and all that is worked into it is off
                elif trouble.kind == "count" and beyond is None:
                    excess[index] = worked.stitches - whole
                elif beyond is None and trouble.kind == "left-over" and whole is not None and whole != worked.stitches:
                    excess[index] = worked.stitches - whole
                else:
                    excess[index] = beyond if beyond is not None else trouble.facts.get("left") or 0


def _follows(trouble, worked, below, stated: int, whole: int | None) -> bool:
    """Whether a trouble would be gone if the row below had the stitches that it states and not those it makes."""
    beyond = below.stitches - stated
    return _explained(trouble, worked, below, beyond) or trouble.kind == "count" and whole is not None and worked.stitches - whole == beyond


def _let_pass(size, index, worked, stated: int, found) -> Off:
    """The entry of a row whose count was understood as a habit, and which puts the row above it off: it is no habit then."""
    said = worked.row.stated[0].span
    trouble = Trouble("count", said, {"of": "st", "expected": stated, "found": worked.stitches, "per": ""})
    off = found.setdefault((said, "count", *_about(trouble)), Off("count", worked.row, worked.label, said))
    off.at.setdefault(size, (index, worked, trouble))
    return off


def _about(trouble) -> tuple:
    """What tells this trouble from others of its kind in the same words.

    The words may be worked again and again, in a range or by reference from other rows; that is said once.
    """
    facts = trouble.facts
    if trouble.kind in ("no-such-place", "other-space"):
        return facts.get("wanted"), facts.get("of")
    return facts.get("of"), facts.get("chains")


def _principal(troubles, row) -> list:
    """One trouble for the sum of the row, and all that are of another nature."""
    sums = [trouble for trouble in troubles if trouble.kind in _SUMS]
    others = [trouble for trouble in troubles if trouble.kind not in _SUMS]
    if not sums:
        return others
    sums.sort(key=lambda trouble: (_SUMS.index(trouble.kind), 0 if stated_total(trouble, row) else 1))
    return [sums[0], *others]


def _explained(trouble, worked, below, excess: int | None) -> bool:
    """Would this trouble be gone if the row below had `excess` stitches fewer? Likely so where the row below is of another shape."""
    facts = trouble.facts
    if excess is None:
        return trouble.kind != "other-space"
    if not excess:
        return False
    if trouble.kind == "count":
        expected, found = facts.get("expected"), facts.get("found")
        if stated_total(trouble, worked.row) is None:
            return True  # one kind of several: it follows from the row below
        if not isinstance(expected, int) or not isinstance(found, int):
            return False
        should = below.stitches - excess
        return found - expected == excess or (should > 0 and found * should == expected * below.stitches)
    there = facts.get("there")
    if not isinstance(there, int):
        return False
    if trouble.kind == "repeat-leaves":
        takes = facts.get("takes") or 0
        return takes > 0 and (there - excess - (facts.get("before") or 0) - (facts.get("after") or 0)) % takes == 0
    if trouble.kind == "runs-out":
        asked = asked_for(trouble)
        return asked is not None and there - excess >= asked
    if trouble.kind == "left-over":
        return facts.get("left") == excess
    return False
