"""How much yarn it takes, on sheets of patterns that do not state their balls."""

from hookwright.ground import PerSize

from .measures import yards
from .sheet import Sheet
from .size_lists import only_one, size_list

_ALL = "all"  # the colour of a need that stands for all colours
_BASIS = {"pieces": "rests_pieces", "swatch": "rests_swatch", "swatch in other stitches": "rests_other"}


def estimated(sheet: Sheet, yarn) -> list[str]:
    """A line a colour with metres, yards, grams and balls of every size; [] where the balls of the yarn are stated or nothing was estimated."""
    found, yarns = sheet.facts.yarn, list(sheet.from_head("yarn", ()))
    if found is None or yarn.balls is not None:
        return []
    index = next((at for at, one in enumerate(yarns) if one is yarn), -1)
    letters = list(dict.fromkeys(need.colour for need in found.needs if need.yarn == index))
    lines = []
    for letter in letters:
        needs = [next((need for need in found.of(size) if need.yarn == index and need.colour == letter), None) for size in found.sizes]
        line = _amounts(sheet, needs)
        colour = sheet.strings("materials.estimated_all") if letter == _ALL else letter
        lines.append(sheet.strings("materials.estimated_each", colour=colour, rest=line) if letter == _ALL or len(letters) > 1 else line)
        lines += _optional(sheet, needs)
    return lines


def _optional(sheet: Sheet, needs) -> list[str]:
    """A line for each extra left to the maker: how much more it takes, and how many balls there are with it."""
    lines = []
    for kind in dict.fromkeys(kind for need in needs if need is not None for kind in need.optional):
        more = [need.optional.get(kind) if need is not None else None for need in needs]
        metres = tuple(None if one is None else one[0] for one in more)
        balls = PerSize(None if one is None else one[1] for one in more)
        lines.append(sheet.strings(
            "materials.with", what=sheet.strings(f"materials.extra.{kind}"), metres=size_list(metres, _round), yards=size_list(metres, lambda one: _round(float(yards(one)))),
            balls=sheet.strings("materials.with_balls", n=1 if only_one(balls) else 2, list=size_list(balls)) if any(one is not None for one in balls) else "",
        ))
    return lines


def rests_on(sheet: Sheet) -> str:
    """What the estimate rests on, and how much more it may be."""
    hand = sheet.facts.yarn.calibration
    return sheet.strings("materials.rests_on", basis=sheet.strings(f"materials.{_BASIS.get(hand.rests_on, 'rests_nothing')}"), high=str(round((hand.high - 1) * 100)))


def _amounts(sheet: Sheet, needs) -> str:
    say = sheet.strings
    metres = [None if need is None else need.metres[0] for need in needs]
    grams = [None if need is None or need.grams is None else need.grams[0] for need in needs]
    balls = PerSize(None if need is None else need.balls for need in needs)
    return say(
        "materials.estimated", metres=size_list(tuple(metres), _round), yards=size_list(tuple(metres), lambda one: _round(float(yards(one)))),
        weight=say("materials.estimated_weight", grams=size_list(tuple(grams), _round)) if any(one is not None for one in grams) else "",
        balls=say("materials.estimated_balls", n=1 if only_one(balls) else 2, list=size_list(balls)) if any(one is not None for one in balls) else "",
    )


def _round(value: float) -> str:
    """To the metre or gram below a hundred, to five from there on: an estimate is not surer.

    >>> _round(47.4), _round(212.0)
    ('47', '210')
    """
    return str(round(value) if value < 100 else round(value / 5) * 5)
