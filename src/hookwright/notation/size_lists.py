"""Numbers with one value a size: "36 (40, 44)", "8 (8-10-12)", "(2, 4, -)" become one number."""

from hookwright.ground import PerSize

from .words import Lexicon

_PARTS = frozenset((",", "HY", "DASH", ":", "/", ";", "|"))
_AFTER_A_LIST = frozenset(("STN", "ST", "OWN", "CH", "SP", "TIMES", "MORE", "TIMESN", "X", "ROW", "ROUND", "REM", "TCH", "NEXT", "TOTAL", "IN", "EVENLY"))
_MAY_BEGIN = frozenset(("NUM", "ORD", "TIMESN", "W", "U", "SHADE", "(", "[", "DASH", "HY"))
_CLOSES = {"(": ")", "[": "]", "{": "}"}


def merge_size_lists(tokens, lexicon: Lexicon) -> None:
    """Put each size list of `tokens` into one NUM token; lists of another length than the sizes are noted in `tokens.lists`."""
    kinds = tokens.kinds
    if lexicon.sizes < 3 and not any(kind in ("(", "[", "{", "HY", "/", ":", "|") for kind in kinds):
        return
    wanted = {lexicon.sizes} if lexicon.only is None else {len(lexicon.only), lexicon.sizes}
    values, starts, ends = tokens.values, tokens.starts, tokens.ends
    columns = (kinds, values, starts, ends)
    at, kept, count = 0, 0, len(kinds)  # kept: the tokens before it are in `new`
    new = ([], [], [], [])
    while at < count:
        kind = kinds[at]
        if kind not in _MAY_BEGIN:
            at += 1
            continue
        found = None
        if kind == "ORD":
            found = _ordinals(tokens, at, wanted) if kinds[at + 1] in ("(", "[") and kinds[at + 2] == "ORD" else None
            if found:
                _keep(new, columns, kept, at)
                for column, one in zip(new, ("ORD", _per_size(found[0], lexicon), starts[at], ends[found[1] - 1]), strict=True):
                    column.append(one)
                kept = found[1]
            at = found[1] if found else at + 1
            continue
        often = _how_often(tokens, at, wanted) if kind in ("TIMESN", "NUM") and lexicon.sizes > 1 else None
        if often:  # "once (twice, 3 times)"
            numbers, after = often
            _keep(new, columns, kept, at)
            for column, one, two in zip(new, ("NUM", _per_size(numbers, lexicon), tokens.starts[at], tokens.ends[after - 1]), ("TIMES", None, tokens.ends[after - 1], tokens.ends[after - 1]), strict=True):
                column.extend((one, two))
            at = kept = after
            continue
        if kind == "NUM" and not isinstance(values[at], PerSize):
            found = _led(tokens, at, wanted, lexicon.only is not None) or (_named_after(tokens, at, wanted) if lexicon.sizes > 1 else None)
        elif kind in ("W", "U", "SHADE") and lexicon.sizes > 1 and kinds[at + 1] == ":":
            found = _named(tokens, at, wanted)
        elif kind in ("(", "[") and lexicon.sizes > 1:
            found = _unled(tokens, at, wanted)
        elif kind in ("DASH", "HY") and at + 1 < count and kinds[at + 1] in ("(", "[") and lexicon.sizes > 1:
            found = _bracketed(tokens, at + 1)
            found = ([None, *found[0]], found[1]) if found and len(found[0]) + 1 in wanted else None
        if not found:
            at += 1
            continue
        numbers, after = found
        if len(numbers) not in wanted:
            tokens.lists.append((starts[at], ends[after - 1], len(numbers), lexicon.sizes))
        _keep(new, columns, kept, at)
        for column, one in zip(new, ("NUM", _per_size(numbers, lexicon), starts[at], ends[after - 1]), strict=True):
            column.append(one)
        at = kept = after
    if not kept:
        return  # no list in it
    _keep(new, columns, kept, count)
    tokens.kinds, tokens.values, tokens.starts, tokens.ends = new


def _ordinals(tokens, at: int, wanted):
    """ "4th (5th, 6th)", "3rd (4th-4th-5th)": one a size, with the index after them; None where they are not so many."""
    kinds, values = tokens.kinds, tokens.values
    numbers, here, close = [values[at]], at + 2, _CLOSES[kinds[at + 1]]
    while kinds[here] == "ORD":
        numbers.append(values[here])
        here += 1
        if kinds[here] == close:
            return (numbers, here + 1) if len(numbers) in wanted else None
        here += kinds[here] in _PARTS
    return None


def _keep(new, columns, first: int, after: int) -> None:
    """Takes over the tokens [first, after) as they are."""
    for column, old in zip(new, columns, strict=True):
        column += old[first:after]


def _how_often(tokens, at: int, wanted):
    """Times with their word in each size: "once (twice, 3 times)", "1 time (2 times, 3 times)"; None where it is none."""
    kinds, values = tokens.kinds, tokens.values

    def one(here: int):
        if kinds[here] == "TIMESN":
            return values[here], here + 1
        if kinds[here] in ("NUM", "HY", "DASH") and (values[here] is None or isinstance(values[here], int)):
            return values[here], here + 1 + (kinds[here + 1] == "TIMES")
        return None

    first = one(at)
    if first is None or kinds[first[1] - 1] not in ("TIMESN", "TIMES") or kinds[first[1]] not in ("(", "["):
        return None
    numbers, close, here = [first[0]], _CLOSES[kinds[first[1]]], first[1] + 1
    worded = False
    while True:
        found = one(here)
        if found is None:
            return None
        worded = worded or kinds[found[1] - 1] in ("TIMESN", "TIMES")
        numbers.append(found[0])
        here = found[1]
        if kinds[here] == close:
            return (numbers, here + 1 + (kinds[here + 1] == "TIMES")) if worded and len(numbers) in wanted else None
        if kinds[here] not in _PARTS:
            return None
        here += 1


def _per_size(numbers, lexicon: Lexicon):
    if lexicon.only is not None and len(numbers) == len(lexicon.only) and len(numbers) != lexicon.sizes:
        spread = [None] * lexicon.sizes
        for index, number in zip(lexicon.only, numbers, strict=True):
            if index < lexicon.sizes:
                spread[index] = number
        return PerSize(spread)
    if len(numbers) == lexicon.sizes and numbers[0] is not None and all(number == numbers[0] for number in numbers):
        return numbers[0]  # "2 (2, 2)": the same in every size
    return PerSize(numbers)


def _bracketed(tokens, at: int):
    """Numbers between brackets from `at` on, with the index after the closing bracket; None where other things stand there."""
    kinds, values = tokens.kinds, tokens.values
    close = _CLOSES[kinds[at]]
    numbers, at = [], at + 1
    while True:
        kind = kinds[at]
        if kind == "NUM" and isinstance(values[at], int):
            numbers.append(values[at])
        elif kind in ("DASH", "HY"):
            numbers.append(None)
        else:
            return None
        at += 1
        if kinds[at] == close:
            return (numbers, at + 1) if any(number is not None for number in numbers) else None
        if kinds[at] not in _PARTS:
            return None
        at += 1


def _led(tokens, at: int, wanted, lexicon_only: bool = False):
    """A list after a leading number: "36 (40, 44)", "1 (2, 3) (4, 5)", "8 (10) 12 (14)", "36-40-44", "36/40/44", "36 | 40 | 44"."""
    kinds, values = tokens.kinds, tokens.values
    numbers, here = [values[at]], at + 1
    if kinds[here] == "," and kinds[here + 1] in _CLOSES:  # "4, (5, 6) times"
        more = _bracketed(tokens, here + 1)
        if more is not None and len(more[0]) > 1 and len(more[0]) + 1 in wanted:
            return numbers + more[0], more[1]
    if kinds[here] in _CLOSES:
        while kinds[here] in _CLOSES:
            more = _bracketed(tokens, here)
            if more is None:
                break
            if len(numbers) in wanted and len(more[0]) < 2:
                break  # a list that is long enough already: this is a count
            numbers += more[0]
            here = more[1]
            if kinds[here] == "NUM" and kinds[here + 1] in ("(", "[") and len(numbers) + 1 not in wanted and max(wanted) > len(numbers):
                numbers.append(values[here])
                here += 1
        if here == at + 1:
            return None
        if len(numbers) == 2:
            if 2 not in wanted:
                return None
            if lexicon_only and kinds[here] == "END" and at and kinds[at - 1] == "X":
                return None  # "[4 sc, inc] x6 (36)" in a row of two of the sizes: the count
            stands_alone = at and kinds[at - 1] in ("DASH", "=", ".", "TURN") and kinds[here] in ("END", ".", "TURN", ",")  # "... in last st - 22 (26)"
            if not stands_alone and kinds[here] not in _AFTER_A_LIST and not (at and kinds[at - 1] in ("CH", "NEXT", "X", "TO", "LAST", "HAVE")) and not (
                at and kinds[at - 1] in ("ST", "HY", "SKIP") and kinds[here] in (",", ";", "TURN", "AND")
            ):
                return None
        return numbers, here
    if kinds[here] == "," and max(wanted) > 2 and at and kinds[at - 1] in ("CH", "NEXT", "FIRST", "LAST"):  # "ch 21, 25, 29", "next 18, 20, 22 (24, 26) sts"
        while kinds[here] == "," and kinds[here + 1] == "NUM" and isinstance(values[here + 1], int) and len(numbers) < max(wanted):
            numbers.append(values[here + 1])
            here += 2
        more = _bracketed(tokens, here) if kinds[here] in _CLOSES else None
        if more is not None and len(numbers) + len(more[0]) in wanted:
            numbers, here = numbers + more[0], more[1]
        return (numbers, here) if len(numbers) in wanted and len(numbers) > 2 and (kinds[here] in _AFTER_A_LIST or kinds[here] in (".", "END", "TURN")) else None
    if kinds[here] in ("HY", "/", "|", "DASH") and max(wanted) > 1:
        part = kinds[here]
        while len(numbers) <= max(wanted) and kinds[here] == part and kinds[here + 1] == "NUM" and isinstance(values[here + 1], int):
            numbers.append(values[here + 1])
            here += 2
        if len(numbers) in wanted and (len(numbers) > 2 or part != "DASH" and kinds[here] in _AFTER_A_LIST):
            return numbers, here
    return None


def _named(tokens, at: int, wanted):
    """A list with the names of the sizes in it: "S: 12, M: 14, L: 16"."""
    kinds, values = tokens.kinds, tokens.values
    numbers = []
    while kinds[at] in ("W", "U", "SHADE") and kinds[at + 1] == ":" and kinds[at + 2] == "NUM" and isinstance(values[at + 2], int):
        numbers.append(values[at + 2])
        at += 3
        if len(numbers) in wanted or kinds[at] not in (",", ";", "/", "AND"):
            break
        at += 1
    return (numbers, at) if len(numbers) in wanted and len(numbers) > 1 else None


def _named_after(tokens, at: int, wanted):
    """A list with the name of each size after it: "12 (S), 14 (M), 16 (L)", "12 for size S, 14 for size M and 16 for size L"."""
    kinds, values = tokens.kinds, tokens.values
    numbers = []
    while kinds[at] == "NUM" and kinds[at + 1] in ("(", "FOR") and isinstance(values[at], int):
        name = at + 2
        while kinds[name] in ("W", "U") and tokens.text[tokens.starts[name]:tokens.ends[name]].lower() in ("size", "sizes", "the"):
            name += 1
        if kinds[name] not in ("W", "U", "SHADE") or kinds[at + 1] == "(" and kinds[name + 1] != ")":
            break
        numbers.append(values[at])
        at = name + 1 + (kinds[at + 1] == "(")
        if len(numbers) in wanted or kinds[at] not in (",", ";", "/", "AND", "NUM"):
            break
        at += kinds[at] != "NUM"
        at += kinds[at] == "AND"
    return (numbers, at) if len(numbers) in wanted and len(numbers) > 1 else None


def _unled(tokens, at: int, wanted):
    """A list with no number before its bracket: "(8-14) times", "(36, 40, 44) sts"."""
    found = _bracketed(tokens, at)
    if not found or len(found[0]) not in wanted or len(found[0]) < 2:
        return None
    if at and tokens.kinds[at - 1] == "NUM":
        return None
    return found
