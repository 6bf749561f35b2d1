"""Increases and decreases that are explained just where they are worked: "inc (2 sc in the same st)", "dec twice (a dec is 2 tr worked together)"."""

_SHAPING = frozenset(("inc", "dec", "invdec"))
_OPENS = {"(": ")", "[": "]", "DASH": "DASH"}
_SAID = frozenset(("W", "U", ",", "REMARK", "THIS", "YOU", "=", ":", "MADE", "JOIN", "FORM", "AS", "ASFOLLOWS", "GO", "WORKING", "PLACING", "HAVE", "IN", "FOR", "STN", "DRAW"))  # before what it is: "that means", "= ", "we make"
_PLACED = frozenset(("IN", "SAME", "NEXT", "ONEAFTER", "NUM", "STN", "ST", "FIRST", "TOG", "W", "U", "MADE", "THIS", "ALL", "OF", "YOU"))
_LONGEST = 12  # words of an explanation


def drop_explained(tokens) -> None:
    """Takes explanations of "inc" and "dec" out of a row's words; one that says three stitches stays for what is worked. `tokens` is changed in place."""
    kinds, values, at = tokens.kinds, tokens.values, 0
    while at < len(kinds) - 3:
        if kinds[at] == "ST" and isinstance(values[at], str) and values[at] in _SHAPING:
            opening = _past_times(kinds, at + 1)
            closing = _OPENS.get(kinds[opening])
            close = next((here for here in range(opening + 2, min(opening + _LONGEST, len(kinds))) if kinds[here] == closing), 0) if closing else 0
            number = _explained(tokens, opening + 1, close, values[at]) if close else 0
            if number == 2:
                _drop(tokens, opening, close + 1)
            elif number == 3 and opening == at + 1 and kinds[close + 1] not in ("IN", "OVER"):
                _drop(tokens, close, close + 1)
                _drop(tokens, at, opening + 1)
        at += 1


def _past_times(kinds, at: int) -> int:
    """Index after "twice", "x 2", "2 times", "1" at `at`."""
    if kinds[at] == "TIMESN":
        return at + 1
    if kinds[at] == "X" and kinds[at + 1] == "NUM":
        return at + 2
    if kinds[at] == "NUM":
        return at + 1 + (kinds[at + 1] in ("TIMES", "X", "STN"))
    return at


def _explained(tokens, at: int, close: int, kind: str) -> int:
    """Into or out of how many stitches the words up to `close` say that the shaping goes; 0 where they are no explanation."""
    kinds, values = tokens.kinds, tokens.values
    start = at
    while kinds[at] in _SAID or kinds[at] == "ST" and values[at] == kind or kinds[at] == "." and at < close - 3:
        at += 1
    if at >= close:
        return 0
    if kind != "inc":
        named = values[at] if kinds[at] == "ST" and isinstance(values[at], str) else ""
        if named[-4:] in ("2tog", "3tog") and at + 1 == close:
            return int(named[-4]) if at > start else 0  # alone it gives the stitch's other name
        number = next((values[here] for here in range(at, min(at + 2, close)) if kinds[here] == "NUM"), 0)
        return number if number in (2, 3) and "TOG" in kinds[at:close] and _PLACED.issuperset(kinds[at:close]) else 0
    if kinds[at] != "NUM" or values[at] not in (2, 3) or "IN" not in kinds[at + 1:close] or not _PLACED.issuperset(kinds[at:close]):
        return 0
    inside = kinds.index("IN", at, close)
    if any(kinds[here] == "NUM" and values[here] != 1 for here in range(inside, close)) or any(kinds[here] == "ST" and not isinstance(values[here], str) for here in range(at, close)):
        return 0
    return values[at]


def _drop(tokens, start: int, end: int) -> None:
    for column in (tokens.kinds, tokens.values, tokens.starts, tokens.ends):
        del column[start:end]
