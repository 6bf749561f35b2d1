"""Ripples: rows that rise and fall in waves, because stitches are added on the peaks and taken away in the hollows, as many as are added.

Their stitches drift from each peak to the hollows beside it, one place a row. Laid over their feet they would pull the peaks apart, so they
are laid evenly, and the rows slope so that the stitches stand square to them.
"""

from hookwright.fabric import FLAG_GROUP

from .chart_lines import RING, WORKED, Line
from .chart_spacing import filled

STEP, STEEPEST = 10.0, 0.6
MOST = 1.15  # times the least room, which the widest symbol may ask of all others
RUN = 2  # stitches that drift side by side, at least


def are_ripples(lines: list[Line]) -> bool:
    """Whether most rows are ripples."""
    worked = [line for line in lines if line.what == WORKED and not line.in_round and 0 <= line.below < len(lines) and len(line.items) > 8]
    return len(worked) > 1 and sum(_ripples(line, lines) for line in worked) * 2 > len(worked)


def _ripples(line: Line, lines) -> bool:
    """Whether along a row the stitches are now ahead of the places they stand on, now behind, in runs, and at its end where they were."""
    ahead, runs, last = [], [], None
    for index, item in enumerate(line.items):
        if len(item.feet) != 1 or item.feet[0][0] != line.below or item.feet[0][1] < 0 or item.turning or item.join:
            last = None
            continue
        at = index - item.feet[0][1]
        if last == at:
            runs[-1] += 1
        else:
            ahead.append(at)
            runs.append(1)
        last = at
    steps = [after - before for before, after in zip(ahead, ahead[1:], strict=False)]
    drifting = sum(run for run in runs if run >= RUN)
    up, down = sum(step > 0 for step in steps), sum(step < 0 for step in steps)
    return up > 0 and down > 0 and 2 * drifting > sum(runs) and abs(len(line.items) - len(lines[line.below].items)) <= 3


def lay_ripples(lines: list[Line]) -> None:
    """Gives every item its u: evenly along each row, each row where its stitches lean to both sides alike."""
    wide = max((item.wide for line in lines for item in line.items if not item.turning and not item.space), default=10.0)
    wide = min(wide, MOST * min((item.wide for line in lines for item in line.items if item.tall > 8 and not item.turning), default=wide))
    for line in lines:
        at = 0.0
        for index, item in enumerate(line.items):
            if not item.turning or item.kind == "foundation ch":
                item.wide = wide if not item.space else min(item.wide, wide)
            at += (line.items[index - 1].wide + item.wide) / 2 if index else 0.0
            item.u = at
        leans = [lines[below].items[foot].u - item.u for item in line.items for below, foot in item.feet if below == line.below and 0 <= foot]
        shift = sum(leans) / len(leans) if leans else -at / 2
        for item in line.items:
            item.u += shift


def waves(lines: list[Line]) -> list[tuple[float, float]]:
    """(u, how much higher all rows are there), in order of u, so that stitches stand square to their rows; [] where they do not lean alike."""
    leans = {}
    for line in lines:
        for item in line.items:
            if len(item.feet) == 1 and not item.turning and not item.flags & FLAG_GROUP and item.tall > 8:
                below, foot = item.feet[0]
                if 0 <= foot < len(lines[below].items) and lines[below].what != RING:
                    leans.setdefault(int(item.u // STEP), []).append((item.u - lines[below].items[foot].u) / max(item.tall, 12.0))
    if not leans:
        return []
    first, last = min(leans), max(leans)
    slopes = [sum(leans[at]) / len(leans[at]) if at in leans else None for at in range(first, last + 1)]
    slopes = [max(-STEEPEST, min(STEEPEST, slope)) for slope in filled(slopes)]
    slopes = [sum(slopes[max(at - 1, 0) : at + 2]) / len(slopes[max(at - 1, 0) : at + 2]) for at in range(len(slopes))]
    if sum(map(abs, slopes)) / len(slopes) < 0.12:
        return []
    out, high = [((first - 0.5) * STEP, 0.0)], 0.0
    for at, slope in enumerate(slopes):
        high -= slope * STEP
        out.append(((first + at + 0.5) * STEP, high))
    tilt = out[-1][1] / (out[-1][0] - out[0][0])
    return [(u, v - tilt * (u - out[0][0])) for u, v in out]
