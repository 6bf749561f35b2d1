"""The conditions that a number must meet, read from the keys of its wish: multiples, bounds, growth, sizes that share it, nearness.

Finding kind: number-not-found (a condition that can't be used).
"""

import re
from math import ceil

from .sums import Sums
from .wishes import Bound, Follows, Grows, Multiple, Same, Within

_YES, _NO = {"yes", "true", "always"}, {"no", "false", "never"}
_NO_CONDITION = ("want", "count", "in", "as", "fits")
YES_OR_NO = {"even": "`yes` or `no`", "odd": "`yes` or `no`", "grows": "`yes`, or by how many at least such as `4` or `2 cm`"}


def is_yes(words: str) -> bool:
    return words.lower() in _YES


def conditions_of(wish, asked, sums: Sums) -> list:
    """The conditions of a wish; what can't be used is said and left out. A sum after `is` that can't be reckoned makes the number unread."""
    out = []
    for key, words in asked.keys.items():
        if key in _NO_CONDITION:
            continue
        made = _READ[key](wish, key, words, asked, sums)
        if made is not None:
            out.append(made)
    return out


def _is(wish, key, words, asked, sums):
    values = sums.reckoned(wish.name, words, asked.spans[key], length=False)
    if values is None:
        sums.unread.add(wish.name)
        return None
    return Follows(wish.name, values, f"`{wish.name}` is {words}", asked.spans[key])


def _even(wish, key, words, asked, sums):
    if is_yes(words):
        return Multiple(wish.name, 2, key == "odd", f"`{wish.name}` is {key}", asked.spans[key])
    if words.lower() not in _NO:
        _refuse(wish, key, words, asked, sums)
    return None


def _multiple(wish, key, words, asked, sums):
    found = re.fullmatch(r"(?:of\s+)?(\d{1,4})\s*(?:(?:\+|plus)\s*(\d{1,4}))?", words.strip(), re.I)
    if not found or not int(found[1]):
        sums.say(wish.name, f"`multiple: {words}` should be a whole number, or two such as `6 plus 4`", asked.spans[key])
        return None
    plus = int(found[2] or 0)
    more = asked.keys.get("plus", "")
    if more.isdigit():
        plus = int(more)
    return Multiple(wish.name, int(found[1]), plus, f"`{wish.name}` is a multiple of {found[1]}" + (f", plus {plus}" if plus else ""), asked.spans[key])


def _plus(wish, key, words, asked, sums):
    if not words.isdigit():
        sums.say(wish.name, f"`plus: {words}` should be a whole number, such as `4`", asked.spans[key])
    elif "multiple" not in asked.keys:
        sums.say(wish.name, f"`plus: {words}` needs a `multiple:` that it is added to", asked.spans[key])


def _bound(wish, key, words, asked, sums):
    values = sums.reckoned(wish.name, words, asked.spans[key], length=None)
    if values is None:
        return None
    counted = tuple(value.times(1 / unit) if value.length else value for value, unit in zip(values, wish.unit_mm))
    return Bound(wish.name, 1 if key == "at least" else -1, counted, f"`{wish.name}` is {key} {words}", asked.spans[key])


def _same(wish, key, words, asked, sums):
    span, sizes = asked.spans[key], sums.sizes
    if words.lower() in ("all", "all sizes", "every size", "yes", "true"):
        return Same(wish.name, tuple(range(len(sizes))), f"`{wish.name}` is the same in all sizes", span)
    wanted = [part.strip() for part in re.split(r"\s*(?:,|;|\band\b)\s*", words) if part.strip()]
    known = [size.lower() for size in sizes]
    unknown = [part for part in wanted if part.lower() not in known]
    if unknown:
        sums.say(wish.name, f"`same in` names {', '.join(f'`{part}`' for part in unknown)}, which is no size here; the sizes are {', '.join(sizes)}, or `all` of them", span)
        return None
    return Same(wish.name, tuple(known.index(part.lower()) for part in wanted), f"`{wish.name}` is the same in {words}", span)


def _grows(wish, key, words, asked, sums):
    if words.lower() in _NO:
        return None
    by, told = 0, ""
    if not is_yes(words):
        found = re.fullmatch(r"(?:by\s+)?(\d.*)", words, re.I)
        values = sums.reckoned(wish.name, found[1], asked.spans[key], length=None) if found else None
        if values is None or not values[0].known:
            if not found or values is not None:
                _refuse(wish, key, words, asked, sums)
            return None
        by, told = ceil(round(values[0].constant / (wish.unit_mm[0] if values[0].length else 1), 6)), found[1]
    return Grows(wish.name, by, f"`{wish.name}` grows by {told} at least from size to size" if by else f"`{wish.name}` never gets smaller", asked.spans[key])


def _within(wish, key, words, asked, sums):
    lengths = sums.reckoned(wish.name, words, asked.spans[key], length=None)
    if lengths is None:
        return None
    if all(value.percent for value in lengths) and all(want is not None and want.known for want in wish.want):
        lengths = tuple(want.times(value.constant) for value, want in zip(lengths, wish.want))
    if not all(value.length and value.known for value in lengths):
        sums.say(wish.name, f"`within: {words}` should be a length such as `1 cm`, or a share of the length that is wanted such as `2 %`", asked.spans[key])
        return None
    return Within(wish.name, tuple(abs(value.constant) for value in lengths), f"`{wish.name}` lies within {words} of what is wanted", asked.spans[key])


def _refuse(wish, key, words, asked, sums) -> None:
    sums.say(wish.name, f"`{key}: {words}` should be {YES_OR_NO[key]}", asked.spans[key])


def _nothing(*_):
    return None


_READ = {"is": _is, "even": _even, "odd": _even, "multiple": _multiple, "plus": _plus, "at least": _bound, "at most": _bound, "same in": _same, "grows": _grows, "within": _within,
         "step": _nothing, "spread": _nothing, "over": _nothing}
