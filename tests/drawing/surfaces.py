"""Surfaces laid out by hand over real worked fabrics, so that what draws them is tested without the solver."""

import numpy as np

import hookwright
from hookwright.fabric import FLAG_COUNTS, FLAG_JOIN, FLAG_TURNING, KIND_NAMES
from hookwright.shape import Surface
from hookwright.stitches import stitch

WIDTH_MM = 7.0
HEIGHTS = {1: 6.4, 1.5: 7.6, 2: 9.0, 3: 12.4, 4: 16.0, 5: 20.0}


def surface(text: str, form: str = "sheet", piece: str | None = None, **more) -> Surface:
    """The first piece of a manuscript as a sheet (pinned flat), a "tube" round z, or a "disc"; rows stand on each other at their heights."""
    fabric = hookwright.check(text).fabrics[0]
    piece = fabric.rows[0].piece if piece is None else piece
    rows = [row for row in fabric.rows if row.piece == piece and len(row.kind)]
    fabric_index = {id(row): index for index, row in enumerate(fabric.rows)}
    own = {fabric_index[id(row)]: number for number, row in enumerate(rows)}
    colours, colour = [], -1
    out = {name: [] for name in ("at", "normal", "row", "place", "kind", "before", "width", "height", "towards", "colour", "feet", "ring")}
    first_of = []  # per row: first node of each place
    level = 0.0
    longest = max(sum(_nodes(row, place) for place in range(len(row.kind))) for row in rows)
    for number, row in enumerate(rows):
        tall = max((_height(KIND_NAMES[kind]) for kind in row.kind), default=0)
        foundation = KIND_NAMES[row.kind[0]] == "foundation ch"
        level += 0 if foundation else tall
        if foundation and form == "sheet":
            tall = 0.0
        changes, first = dict(row.colours), []
        along = [place for place in range(len(row.kind)) if not _turns(row, place)]
        count = sum(_nodes(row, place) for place in along)
        spread = (longest - 1 if form == "sheet" else count) * WIDTH_MM
        step, at = spread / max(count, 1), 0.0
        for place in range(len(row.kind)):
            if place in changes:
                if changes[place] not in colours:
                    colours.append(changes[place])
                colour = colours.index(changes[place])
            first.append(len(out["at"]))
            turning = _turns(row, place)
            if turning and not row.flags[place] & FLAG_COUNTS or row.flags[place] & FLAG_JOIN:
                first[-1] -= 1
                continue
            for _ in range(1 if turning else _nodes(row, place)):
                if turning:
                    x, y = 0.0, level
                else:
                    x, y = at + step / 2, level
                    at += step
                feet = []
                if row.foot[place] >= 0 and row.below in own and own[row.below] < number:
                    below = first_of[own[row.below]]
                    feet = [below[foot] for foot in (row.foot[place], *row.feet.get(place, ())) if 0 <= foot < len(below)]
                for other, far in [row.far[place]] if place in row.far else []:
                    feet = [first_of[own[other]][far]]
                right = row.side != "WS"
                if form == "sheet":
                    x = (spread - x) if right else x
                    x = out["at"][first_of[-1][-1]][0] if turning and first_of else _over(out, feet, row, place, x, right)
                    point, normal = (x, y, 0.0), (0.0, 0.0, 1.0)
                elif form == "tube":
                    turn = -x / (spread or 1) * 2 * np.pi * (1 if right else -1)
                    radius = longest * WIDTH_MM / 2 / np.pi
                    point = (radius * np.cos(turn), radius * np.sin(turn), y)
                    normal = (np.cos(turn), np.sin(turn), 0.0)
                else:
                    turn = -x / (spread or 1) * 2 * np.pi * (1 if right else -1)
                    point, normal = (y * np.cos(turn), y * np.sin(turn), 0.0), (0.0, 0.0, 1.0)
                kind = row.kind[place]
                index = len(out["at"])
                for name, value in (("at", point), ("normal", normal), ("row", number), ("place", place), ("kind", kind), ("before", index - 1),
                                    ("width", WIDTH_MM), ("height", tall), ("towards", 1 if right else -1), ("colour", colour), ("feet", feet),
                                    ("ring", row.foot[place] == -2)):
                    out[name].append(value)
        first_of.append(first)
    return _surface(out, fabric, rows, colours, piece, form, more)


def _surface(out, fabric, rows, colours, piece, form, more) -> Surface:
    at, count = np.array(out["at"], float), len(out["at"])
    base, starts, flat, share = at.copy(), [0], [], []
    for index in range(count):
        feet = out["feet"][index]
        if feet:
            base[index] = at[feet].mean(axis=0)
        elif out["ring"][index]:
            base[index] = (0.0, 0.0, 0.0) if form == "disc" else base[index]
        flat += feet
        share += [1 / max(1, len(feet))] * len(feet)
        starts.append(len(flat))
    faces = []
    for index in range(1, count):
        first, last = out["feet"][index - 1][-1:], out["feet"][index][:1]
        if out["row"][index] == out["row"][index - 1] and first and last:
            faces.append((index, index - 1, first[0]))
            if first != last:
                faces.append((index, first[0], last[0]))
    column = {"row": np.int32, "place": np.int32, "kind": np.uint16, "before": np.int64, "width": float, "height": float, "towards": np.int8, "colour": np.int16}
    shown = {"sheet": "flat", "disc": "flat", "tube": "form"}[form]
    given = {"shown": shown, "construction": form, "yarn_mm": 2.9, **more}
    return Surface(piece, fabric.size, list(KIND_NAMES), rows, colours, at, base, np.array(out["normal"], float),
                   **{name: np.array(out[name], kind) for name, kind in column.items()}, foot_start=np.array(starts), foot_of=np.array(flat, np.int64),
                   foot_share=np.array(share), faces=np.array(faces, np.int64).reshape(-1, 3), **given)


def _over(out, feet, row, place, x, right) -> float:
    """Across a sheet a stitch stands over its foot; those of a group beside each other."""
    if not feet:
        return x
    over = float(np.mean([out["at"][foot][0] for foot in feet]))
    mates = [other for other in range(len(row.foot)) if row.foot[other] == row.foot[place] and not _turns(row, other)]
    return over + (mates.index(place) - (len(mates) - 1) / 2) * WIDTH_MM * 0.8 * (-1 if right else 1) if place in mates else over


def _turns(row, place) -> bool:
    return bool(row.flags[place] & FLAG_TURNING) and row.chains[place] > 0 and KIND_NAMES[row.kind[place]] != "foundation ch"


def _nodes(row, place) -> int:
    return max(1, row.chains[place])


def _height(kind: str) -> float:
    fact = stitch(kind)
    return 0.0 if kind in ("ch", "foundation ch") or fact is None else HEIGHTS.get(fact.height_ch, 6.4 * max(fact.height_ch, 0.3))
