"""Corner to corner: blocks of a chain and a few stitches, each row of them one step further across. Every block is a square; those of one row
stand upright on the row below, those of the next lie on their sides, as they are worked."""

from hookwright.fabric import FLAG_COUNTS

from .chart_lines import WORKED, Item, Line
from .chart_rows import Straight
from .symbols import chain_length

BESIDE = 8.2  # stitches of a block, and the chain beside them
EDGE = 4.5


def is_corner_to_corner(lines: list[Line]) -> bool:
    """Whether rows are made of blocks that each begin with a chain of their own: each row but the first has more than one."""
    worked = [line for line in lines if line.what == WORKED]
    if len(worked) < 2 or any(line.in_round for line in worked):
        return False
    return all(sum(_begins(item) for item in line.items) > 1 for line in worked[1:-1] or worked[1:]) and all(any(map(_begins, line.items)) for line in worked)


def _begins(item: Item) -> bool:
    return item.turning and bool(item.flags & FLAG_COUNTS) and item.chains > 0


def lay_blocks(lines: list[Line]) -> Straight:
    """Gives every item of the blocks the two points that it is drawn between, and u and v at its top."""
    worked = [line for line in lines if line.what == WORKED]
    blocks = [_blocks_of(line) for line in worked]
    side = BESIDE * (max(len(stitches) for row in blocks for _, stitches in row) + 0.6) + EDGE
    cell_of, last = {}, (0, 0)
    for number, (line, row) in enumerate(zip(worked, blocks, strict=True)):
        upright = not number % 2
        for lead, stitches in row:
            foot = next(((below, place) for item in stitches for below, place in item.feet if number), None)
            stands = foot is not None and (foot[0], foot[1]) in cell_of
            x, y = cell_of[foot] if stands else last
            if number:
                x, y = (x, y + 1) if upright == stands else (x + 1, y)
            _lay(lead, stitches, x * side, y * side, side, upright)
            for item in (*lead, *stitches):
                cell_of[lines.index(line), line.items.index(item)] = x, y
            here = x, y
        last = here
        line.level = max(item.v for item in line.items)
        line.numbered_at = _number_beside(row[0][1][0], upright, side, cell_of[lines.index(line), line.items.index(row[0][1][0])])
    base = lines[0]
    if base.what != WORKED:
        first = next(stitches for _, stitches in blocks[0])
        for place, item in enumerate(base.items):
            item.u, item.v = (first[-1 - place].u if place < len(first) - 1 else side - EDGE), 0.0
            item.drawn_at = ((item.u - 4, 0.0), (item.u + 4, 0.0)) if item.kind != "corner" else ()
    return Straight()


def _number_beside(first: Item, upright: bool, side: float, cell) -> tuple:
    """(x, y, way) of the number of a row whose first block is in a cell: outside the piece, where the row begins."""
    x, y = cell[0] * side, cell[1] * side
    if upright:
        return (x + side / 2, -y + 14, -90.0) if not cell[1] else (x + side + 16, -(y + side / 2), 180.0)
    return (x - 16, -(y + side / 2), 0.0) if not cell[0] else (x + side / 2, -(y + side) - 14, 90.0)


def _blocks_of(line: Line) -> list:
    """(what comes before it, its stitches) of each block of a row, in the order of work."""
    out, lead = [], []
    for item in reversed(line.items) if line.rtl else line.items:
        if _begins(item):
            out.append((lead, [item]))
            lead = []
        elif item.join or item.kind in ("ch", "slst") or not out:
            lead.append(item)
        else:
            out[-1][1].append(item)
    return out


def _lay(lead, stitches, x: float, y: float, side: float, upright: bool) -> None:
    """One block with its lower left corner at x, y. upright: its stitches go up, and its chain is at the right; else they go to the right, and
    its chain is at the top."""
    def put(item, along, foot, top):
        ends = [(x + along, y + foot), (x + along, y + top)] if upright else [(x + foot, y + along), (x + top, y + along)]
        item.drawn_at = tuple(ends)
        item.u, item.v = ends[1]

    for place, item in enumerate(stitches):
        put(item, side - EDGE - place * BESIDE, 2.0, side - EDGE)
    for item in lead:
        if item.kind == "ch" and not item.join:
            more = item.chains - stitches[0].chains  # those of the base: the others stand up beside the stitches
            long, middle = more * chain_length(), (side - EDGE - BESIDE + 0.0) - (len(stitches) - 2) * BESIDE / 2
            ends = ((middle - long / 2, 0.0), (middle + long / 2, 0.0)) if upright else ((0.0, middle - long / 2), (0.0, middle + long / 2))
            item.drawn_at = tuple((x + a, y + b) for a, b in ends)
            item.u, item.v = item.drawn_at[1]
            item.shown = max(more, 0)
        else:
            put(item, side - EDGE + 1.0, -1.0, 0.0)
