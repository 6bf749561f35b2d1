"""The sum of one row in every size, so that it can be redone on paper: what is stated, what a list of steps takes and makes, the table."""

from hookwright.fabric import KIND_NAMES
from hookwright.ground import at
from hookwright.notation.tree import Chain, Group, Mark, Note, Place, Repeat, Row, Skip, Stitch
from hookwright.stitches import stitch

from .case import Case, walk
from .troubles import Off

_FOUNDATION = "foundation ch"


def two_totals(row: Row):
    """Two statements of one row that give different numbers of the same stitch, None where there are none."""
    if len(row.stated) < 2 or len(row.numbers) > 1:
        return None
    first: dict = {}
    for stated in row.stated:
        if stated.per or stated.series or len(stated.items) != 1:
            continue
        number, of, *more = stated.items[0]
        if of in ("row", "sp", "ch") or of.startswith("group"):
            continue
        before = first.setdefault((of, *more), stated)
        if before.items[0][0] != number and before.span.end <= stated.span.start:
            return before, stated
    return None


def takes_and_makes(steps: list, size: int, row_stitch: str = "sc") -> tuple[int, int] | None:
    """(stitches of the row below used up, stitches made) by one pass over `steps`; None where that depends on more than the steps.

    Only what goes from stitch to stitch is summed; spaces, corners, posts out of order and the like answer None.
    """
    takes = makes = 0
    for step in steps:
        kind = type(step)
        if kind is Chain or kind is Note or kind is Mark:
            continue
        if kind is Skip:
            places = _places(step.place, size)
            if places is None:
                return None
            takes += places
            continue
        if kind is Stitch:
            summed = _stitch(step, size, row_stitch)
        elif kind is Group:
            places = _places(step.place, size) if step.place is not None else 1
            inner = [_made(inside, size) for inside in step.steps]
            if places is None or None in inner:
                return None
            summed = places, places * (1 if step.makes else sum(inner))
        elif kind is Repeat and step.times is not None and step.partial == "" and not step.ending:
            times, inner = at(step.times, size), takes_and_makes(step.steps, size, row_stitch)
            if inner is None or times is None or not isinstance(times, int):
                return None
            times += step.sense == "more"
            summed = inner[0] * times, inner[1] * times
        else:
            return None
        if summed is None:
            return None
        takes, makes = takes + summed[0], makes + summed[1]
    return takes, makes


def _places(place: Place | None, size: int) -> int | None:
    if place is None:
        return 1
    if place.which != "next" or place.of not in ("st", "ch") and stitch(place.of) is None or place.extent is not None:
        return 0 if place.which == "same" else None
    number = at(place.n, size) if place.n is not None else None
    return number if isinstance(number, int) else None


def _made(step, size: int) -> int | None:
    """Stitches one step makes inside a group."""
    if type(step) is Chain or type(step) is Note:
        return 0
    if type(step) is not Stitch:
        return None
    number, fact = at(step.n, size), stitch(step.kind)
    if not isinstance(number, int) or fact is None:
        return None
    return number * fact.makes if fact.counts else 0


def _stitch(step: Stitch, size: int, row_stitch: str) -> tuple[int, int] | None:
    number = at(step.n, size)
    if not isinstance(number, int) or step.over or step.evenly:
        return None
    if step.kind == "inc":
        takes, makes = 1, 2
    elif step.kind == "dec":
        takes, makes = 2, 1
    else:
        fact = stitch(step.kind)
        if fact is None or fact.kind in ("group", "edging", "crossed", "lace", "placement", "foundation"):
            if step.kind not in ("bobble", "puff", "popcorn", "cl"):
                return None
        takes, makes = (fact.takes, fact.makes) if fact.counts else (0, 0)
    if step.place is None:
        return number * takes, number * makes
    places = _places(step.place, size)
    if places is None:
        return None
    if takes > 1:  # a decrease over the next few stitches
        return number * takes, number * makes
    return places, places * number * makes


def repeat_at(off: Off) -> Repeat | None:
    """The repeat of a row that a trouble points at."""
    best = None
    for node in walk(off.row.steps):
        if type(node) is Repeat and node.span.start <= off.span.start and off.span.end <= node.span.end:
            if best is None or node.span.end - node.span.start <= best.span.end - best.span.start:
                best = node
    if best is None:
        repeats = [node for node in walk(off.row.steps) if type(node) is Repeat]
        best = repeats[0] if len(repeats) == 1 else None
    return best


def sum_table(case: Case, off: Off, columns: dict[str, dict[int, object]]) -> tuple[tuple[str, ...], ...]:
    """One line a size: what there is, the given columns ({heading: {size: cell}}), worked, stated; sizes concerned marked.

    Columns that are empty for every size are left out.
    """
    size, (index, _, _) = min(off.at.items())
    same = case.same_row(size, index)
    for number, (place, made, _) in off.at.items():  # a range may end with another row in each size
        rows = case.fabrics[number].rows
        same[number] = (made, rows[made.below] if made.below >= 0 else None, place)
    there: dict[int, object] = {}
    worked: dict[int, object] = {}
    stated: dict[int, object] = {}
    for number, pair in enumerate(same):
        if pair is None:
            continue
        facts = off.at[number][2].facts if number in off.at else {}
        made, below, at_index = pair
        have = facts.get("there")
        there[number] = have if have is not None else places_of(below)
        worked[number] = made.stitches
        stated[number] = case.total_stated(number, at_index)
    table = {"there are": there, **columns, "worked": worked, "stated": stated}
    table = {heading: cells for heading, cells in table.items() if any(cell is not None for cell in cells.values())}
    several = len(case.sizes) > 1
    lines = [(*(["size"] if several else []), *table, *([""] if several else []))]
    for number, name in enumerate(case.sizes):
        if same[number] is None:
            continue
        cells = ["-" if cells.get(number) is None else str(cells[number]) for cells in table.values()]
        lines.append((*([name] if several else []), *cells, *(["<-" if number in off.at else ""] if several else [])))
    return tuple(lines)


def places_of(below) -> int | None:
    """Stitches of the row below, or its chains where it is a foundation chain."""
    if below is None:
        return None
    return below.stitches or sum(1 for kind in below.kind or () if KIND_NAMES[kind] == _FOUNDATION)


def is_foundation(below) -> bool:
    """Whether the row below is a foundation chain."""
    return below is not None and not below.stitches and places_of(below) > 0


def with_echoes(case: Case, off: Off) -> tuple[str, ...]:
    """Labels of later rows that are off for the same reason, with their sizes where these differ."""
    out = []
    for label, sizes in off.echoes.items():
        differ = sizes != set(off.at) and len(case.sizes) > 1
        out.append(f"{label} ({', '.join(case.size_names(sizes))})" if differ else label)
    return tuple(out)
