"""The points the yarn passes in one stitch, put together from the parts of yarn_points.toml as the catalogue says the stitch is made."""

import re
import tomllib
from functools import cache
from pathlib import Path

import numpy as np

from hookwright.stitches import leg as leg_steps
from hookwright.stitches import stitch

ALONG, ACROSS, TALL, UP, OUT, LEG = range(6)
_DRAW = re.compile(r"d(\d+)")


@cache
def parts() -> dict:
    """The table of parts as plain values."""
    return tomllib.loads(Path(__file__).with_name("yarn_points.toml").read_text("utf-8"))


@cache
def points_of(kind: str, legs: int = 1, right: bool = True, last: bool = False, first: bool = False, chains: int = 0) -> np.ndarray:
    """(m, 6) points [along, across, tall, up, out, leg] of one stitch; `leg` is the number of the foot the point is measured from.

    kind: a catalogue id, "ch" for one chain. legs: feet of a decrease, or legs of a group. right: whether the right side faces the worker,
    which decides where a bobble stands out. first, last: whether the row begins or ends here. chains: of a turning chain that stands for a stitch.

    >>> points_of("sc").shape[1], len(points_of("dc")) > len(points_of("hdc")) > len(points_of("sc")) > len(points_of("ch"))
    (6, True)
    """
    made = _column(chains) if chains else _points(kind, legs, right, last)
    if first and kind not in ("ch", "foundation ch") and not chains:
        made = np.concatenate([_array(parts()["plain"]["turn"]), made])
    return made


def _points(kind: str, legs: int, right: bool, last: bool) -> np.ndarray:
    if kind in ("ch", "foundation ch"):
        return _array(parts()["chain"]["link"] + parts()["chain"]["loop"])
    fact = stitch(kind)
    head = parts()["plain"]["head_last" if last else "head"]
    if kind in ("slst", "picot", "solomon"):
        return _array(parts()["slip" if kind == "slst" else kind]["points"] + head)
    if fact is None:
        return _points("sc", 1, right, last)
    if kind in parts()["group"]:
        return _group(kind, fact, legs if legs > 1 else fact.legs or 3, right, head)
    if fact.kind == "decrease" or kind == "cdc":
        return _decrease(fact, max(legs, fact.takes, 2), head)
    plain = fact if fact.steps else stitch(fact.base) or stitch("sc")
    stages, wraps = _stages(plain.steps)
    out = [_array(parts()["plain" if stages == 1 else "post"]["drop"])]
    if kind == "loopst":
        loop = _array(parts()["loop"]["points"])
        loop[:, OUT] *= 1 if not right else -1
        out.append(loop)
    out += _leg(stages, wraps, fact.post)
    made = np.concatenate([*out, *([_third()] if _has_third(plain.steps) else []), _array(head)])
    if kind == "spike":  # it lies over the stitches it goes past
        made[:, OUT] += np.where(made[:, OUT] > 0.3, parts()["spike"]["lift"] * np.clip(1.2 - made[:, TALL], 0, 1), 0.0)
    return made


def _array(points) -> np.ndarray:
    made = np.zeros((len(points), 6))
    made[:, :5] = points
    return made


def _stages(steps) -> tuple[int, list[bool]]:
    """(pairs of strands that stand on each other, whether a yarn over lies round each join): from the steps after the loop is drawn up.

    >>> _stages(("yo", "in", "up", "d2", "d2")), _stages(("in", "up", "d1", "d2"))
    ((2, [True]), (2, [False]))
    """
    drawn = [int(found[1]) for found in map(_DRAW.fullmatch, steps) if found]
    joins = [loops > 1 for loops in drawn[:-1]]
    return 1 + len(joins), joins


def _has_third(steps) -> bool:
    """Whether a yarn over is left behind below the head: drawn through with the rest at the end."""
    drawn = [int(found[1]) for found in map(_DRAW.fullmatch, steps) if found]
    return "yo" in steps and bool(drawn) and drawn[-1] > 2


def _third() -> np.ndarray:
    return _array(parts()["third"]["strand"])


def _between(points, low: float, high: float) -> np.ndarray:
    """Points of one stage, from `low` to `high` of the stitch."""
    made = _array(points)
    made[:, TALL] = low + (high - low) * made[:, TALL]
    return made


def _leg(stages: int, joins, post: str = "", low: float = 0.0, high: float = 1.0) -> list[np.ndarray]:
    """One leg from where the yarn is behind at the top, down to its foot and up again through all its stages."""
    own = parts()["plain" if stages == 1 else "post"]
    cuts = np.linspace(low, high, stages + 1)
    if stages == 2:
        cuts[1] = low + 0.52 * (high - low)
    out = []
    for at, wrapped in reversed(list(zip(cuts[1:-1], joins, strict=True))):
        if wrapped:
            wrap = _array(parts()["post"]["wrap"])
            wrap[:, TALL] = at
            out.append(wrap)
    if stages > 1:
        out.append(_between(parts()["post"]["under"], low, float(cuts[1])))
    for number in range(stages):
        first, last = number == 0, number == stages - 1
        ends = own if last or stages == 1 else parts()["post"]
        bounds = float(cuts[number]), float(cuts[number + 1])
        feet = parts()["around"] if post and first else own
        out += [_between(feet["in"], *bounds), *(_between(ends[name], *bounds) for name in ("up", "over", "down")), _between(feet["out"], *bounds)]
        out.append(_between(feet["rise"] if post and first and stages == 1 else own["rise"], *bounds))
    if post:
        lifted = np.concatenate(out)
        share = np.clip(1.3 - lifted[:, TALL], 0.0, 1.0)
        lifted[:, OUT] += parts()["around"]["lift"] * share * (lifted[:, TALL] > 0.02)
        if post == "back":
            lifted[:, OUT] *= -1
        out = [lifted]
    return out


def _decrease(fact, count: int, head) -> np.ndarray:
    """Legs from several feet under one head."""
    plain = stitch(fact.base) if fact.base and fact.base != fact.id else None
    plain = plain if plain is not None and plain.steps else stitch("sc")
    steps = (*leg_steps(plain), "d2") if fact.kind == "decrease" else plain.steps
    stages, joins = _stages(steps)
    out = [_array(parts()["plain"]["drop"])]
    for number in range(count):
        made = np.concatenate(_leg(stages, joins, plain.post))
        made[:, LEG] = number
        narrow = 1.0 - 0.55 * np.clip(made[:, TALL], 0, 1)
        made[:, ALONG] *= narrow
        made[:, ACROSS] = made[:, ACROSS] * narrow + (number - (count - 1) / 2) * 0.62 * np.clip(made[:, TALL], 0, 1)
        out.append(made)
    out[0][:, LEG] = 0
    ending = _array(head)
    ending[:, LEG] = count - 1
    return np.concatenate([*out, ending])


def _group(kind: str, fact, count: int, right: bool, head) -> np.ndarray:
    """Several legs from one foot that swell and meet at one top."""
    rule = parts()["group"][kind]
    spread = np.radians(rule.get("spread_deg", 0.0))
    side = 1.0 if right else -1.0
    out = [_array(parts()["plain"]["drop"])]
    if "strands" in rule:
        out += _bundle(count, rule, side)
        count = 0
    for number, turn in enumerate(np.linspace(-spread, spread, count) if count != 1 else np.zeros(1)):
        leg = np.concatenate(_leg(1, []))[1:-2]
        leg[:, ALONG], leg[:, ACROSS] = 0.0, np.sign(leg[:, ACROSS]) * 0.2
        if rule["wrap"]:
            wrap = _array(parts()["post"]["wrap"][1:4])
            wrap[:, TALL] = 0.50 + 0.04 * (number % 2)
            out.append(_around(wrap, turn, rule, side))
        out.append(_around(leg, turn, rule, side))
    if rule.get("crown"):
        out.append(_crown(count, spread, rule, side))
    return np.concatenate([*out, _array(parts()["plain"]["rise"][1:]), _array(head)])


def _bundle(count: int, rule: dict, side: float) -> list[np.ndarray]:
    """The long loops of a puff: strands side by side all round, going up in front and down behind by turns."""
    out, strand = [], _array([[0.0, 0.0, tall, 0.0, 0.0] for tall in rule["strands"]])
    for number in range(count + 1):
        share = 2 * number / count - 1
        front, back = share * 1.32, np.pi - share * 1.2
        out += [_around(strand, front, rule, side), _around(strand[::-1], back, {**rule, "out": rule["out"] * 0.6}, side)]
    return out


def _around(points: np.ndarray, turn: float, rule: dict, side: float) -> np.ndarray:
    """Points of a straight leg, laid like the rib of a ball `turn` round from the front."""
    made = points.copy()
    tall = np.clip(made[:, TALL], 0.0, 1.0)
    swell = np.sin(np.pi * np.clip(0.06 + 0.90 * tall, 0, 1)) ** 0.72
    across, out = made[:, ACROSS] * (0.35 + 0.65 * swell), np.clip(made[:, OUT], -0.3, 1.0) * 0.6
    made[:, ALONG] += rule["across"] * np.sin(turn) * swell
    made[:, ACROSS] = across * np.cos(turn) + out * np.sin(turn)
    made[:, OUT] = side * (rule["out"] * np.cos(turn) * swell - across * np.sin(turn) + out * np.cos(turn))
    return made


def _crown(count: int, spread: float, rule: dict, side: float) -> np.ndarray:
    """The heads of the stitches of a popcorn, drawn together: a wavy edge that stands on its top, fewer than they are since they crowd."""
    turns = np.linspace(-spread, spread, 2 * min(count, 3) + 1)
    made = np.zeros((len(turns), 6))
    outer = np.arange(len(turns)) % 2 == 1
    made[:, ALONG] = rule["across"] * np.where(outer, 0.86, 0.60) * np.sin(turns)
    made[:, TALL], made[:, UP] = 0.84, np.where(outer, 0.0, 0.55)
    made[:, OUT] = side * rule["out"] * np.where(outer, 1.02, 0.72) * np.cos(turns)
    return made


def _column(chains: int) -> np.ndarray:
    """Chains that stand up as the first stitch of a row, from its foot to its top."""
    out = []
    for number in range(chains):
        part = np.array(parts()["chain"]["link"] + parts()["chain"]["loop"])
        made = np.zeros((len(part), 6))
        made[:, TALL] = (number + 0.08 + 0.9 * part[:, 0]) / chains
        made[:, ACROSS] = part[:, 3]
        made[:, OUT] = part[:, 4]
        out.append(made)
    return np.concatenate(out)
