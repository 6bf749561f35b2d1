"""A chain said to stand where a stitch would be: "replace the 1st dc by 3 ch", "ch 3 in place of the first dc", "instead of 1st tr, ch 4".

All of it says what "ch 3 (counts as first dc)" says, and is put into those words before the row is read.
"""

_BY = frozenset(("WITH", "ASFOLLOWS", "WORKING", ",", ":", "BEG", "MADE"))
_AFTER = frozenset((",", ";", ".", ":", ")", "]", "AND", "DASH", "END", "ST", "OWN", "MARK", "*", "IN", "NUM"))
_AT_END = frozenset((",", ";", ".", ")", "]", "END", "TURN", "JOIN", "AND"))


def say_what_counts(tokens) -> None:
    """Puts what the first stitch of a row is replaced by into the words for what counts as it; `tokens` of the row are changed in place."""
    kinds, at = tokens.kinds, 0
    while at < len(kinds) - 3:
        if kinds[at] == "REPLACE" or kinds[at] == "INSTEAD":
            if not _said_after(tokens, at):
                _said_before(tokens, at)
        at += 1


def _first_stitch(kinds, values, at: int) -> int:
    """Index after "[of] first dc", "1st tr", "first st" at `at`; 0 where it is none."""
    at += kinds[at] == "OF"
    if kinds[at] != "FIRST" and not (kinds[at] == "ORD" and values[at] == 1):
        return 0
    return at + 2 if kinds[at + 1] in ("ST", "OWN", "STN") else 0


def _chain(kinds, at: int) -> int:
    """Index after "ch 3", "3 ch", "ch-3" at `at`; 0 where it is none."""
    if kinds[at] == "NUM" and kinds[at + 1] == "CH":
        return at + 2
    if kinds[at] == "CH":
        at += 1 + (kinds[at + 1] == "HY")
        return at + 1 if kinds[at] == "NUM" else 0
    return 0


def _said_after(tokens, at: int) -> bool:
    """ "ch 3 in place of the first dc", "3 ch (instead of 1st tr)", "3 ch to replace the 1st dc", "ch 3 as a replacement for the first dc"."""
    kinds = tokens.kinds
    first = at - (at > 0 and kinds[at - 1] in ("(", "[", ",", "AS", "TO"))
    if first < 2 or not (kinds[first - 1] == "CH" or kinds[first - 1] == "NUM" and kinds[first - 2] in ("CH", "HY")):
        return False
    named = at + 1 + (kinds[at + 1] in ("FOR", "OF"))
    after = _first_stitch(kinds, tokens.values, named)
    if not after or kinds[after] not in _AFTER:
        return False
    kinds[at] = "COUNT"
    for gone in ([named - 1] if named > at + 1 else []) + ([at - 1] if kinds[at - 1] in ("AS", "TO") else []):
        for column in (kinds, tokens.values, tokens.starts, tokens.ends):
            del column[gone]
    return True


def _said_before(tokens, at: int) -> bool:
    """ "replace the 1st dc by 3 ch", "instead of first dc, ch 3", "substitute ch 3 for the first dc"; also told after the row."""
    kinds, values = tokens.kinds, tokens.values
    chain = _chain(kinds, at + 1)
    if chain and kinds[at] == "REPLACE" and kinds[chain] in ("FOR", "IN"):
        after = _first_stitch(kinds, values, chain + 1)
        if not after:
            return False
        made = list(zip(kinds[at + 1:chain], values[at + 1:chain], strict=True))
        named = list(zip(kinds[chain + 1:after], values[chain + 1:after], strict=True))
    else:
        by = _first_stitch(kinds, values, at + 1)
        if not by:
            return False
        begin = by
        while kinds[begin] in _BY:
            begin += 1
        after = _chain(kinds, begin)
        if not after or kinds[at] == "REPLACE" and begin == by:
            return False
        made = list(zip(kinds[begin:after], values[begin:after], strict=True))
        named = list(zip(kinds[at + 1:by], values[at + 1:by], strict=True))
    if kinds[after] not in _AFTER:
        return False
    begins = not at or all(kind in ("(", "[", ",", "WORKING", "BEG", "RS", "WS") for kind in kinds[:at])
    if not begins and (kinds[after] not in _AT_END or "REP" in kinds[after:]):
        return False
    start, end = tokens.starts[at], tokens.ends[after - 1]
    said = [*made, ("COUNT", None), *(one for one in named if one[0] != "OF")]
    if begins:
        _put(tokens, at, after, said, start, end)
    else:  # "1 dc in each dc, replacing the first dc with 3 ch": told last, worked first
        _put(tokens, at - (kinds[at - 1] == ","), after, [], start, end)
        _put(tokens, 0, 0, [*said, (",", None)], tokens.starts[0], tokens.starts[0])
    return True


def _put(tokens, first: int, after: int, said, start: int, end: int) -> None:
    tokens.kinds[first:after] = [kind for kind, _ in said]
    tokens.values[first:after] = [value for _, value in said]
    tokens.starts[first:after] = [start] * len(said)
    tokens.ends[first:after] = [end] * len(said)
