"""How an increase or decrease is made, told in brackets beside its name: "inc (that is, 2 sc in the one st) in every st", "dec (work the next 2 sts together)".

What is told is put to the stitch and the brackets taken out, so that whatever follows them is said of the increase or decrease itself.
"""

from .stitch_words import Named
from .words import Lexicon

_LONGEST = 16  # words in brackets that tell no more than how a stitch is made
_LEADS_IN = frozenset(("W", "U", "REMARK", "=", "THIS", ":", "WORKING", ".", ",", "HAVE", "PLACING"))
_IN_ONE = frozenset(("IN", "NEXT", "SAME", "STN", "ALL", "W", "TOG", "MADE", "THIS", "PLACE", "AT", "AS", ",", "."))
_AS_ONE = (_IN_ONE | {"OVER", "HY", "JOIN", "WORKING"})
_SHAPES = ("inc", "dec", "invdec")


def take_shaping_told(tokens, lexicon: Lexicon) -> None:
    """Takes brackets that tell how an increase or decrease is made out of `tokens`, in place."""
    kinds, values, at = tokens.kinds, tokens.values, 0
    while at < len(kinds) - 3:
        if kinds[at + 1] == "(" and kinds[at] == "ST" and values[at] in _SHAPES:
            close = next((here for here in range(at + 2, min(at + _LONGEST, len(kinds))) if kinds[here] in (")", "(", "[")), 0)
            told = _told(kinds, values, at, close, lexicon) if close and kinds[close] == ")" else None
            if told is not None:
                values[at] = told
                for column in (kinds, values, tokens.starts, tokens.ends):
                    del column[at + 1:close + 1]
            elif close and values[at] == "inc" and kinds[at - 1] != "NUM":
                _several_in_one(tokens, at, close)
        at += 1


def _several_in_one(tokens, at: int, close: int) -> None:
    """ "inc (3 sc in one st) 6 times": more than two in one stitch, which is then what is worked."""
    kinds, values = tokens.kinds, tokens.values
    first = at + 2
    while kinds[first] in _LEADS_IN and first < close:
        first += 1
    if kinds[first] != "NUM" or not isinstance(values[first], int) or not 2 < values[first] < 6 or kinds[first + 1] != "ST" or not all(
        kinds[here] in _IN_ONE or kinds[here] == "NUM" and values[here] == 1 for here in range(first + 2, close)
    ):
        return
    goes_on = kinds[close + 1] in ("IN", "EACH", "AROUND", "ACROSS")
    for column in (kinds, values, tokens.starts, tokens.ends):
        column[at:close + 1] = column[first:first + 2] if goes_on else column[first:close]


def _told(kinds, values, at: int, close: int, lexicon: Lexicon):
    """The stitch with what the brackets say of it; None where they say something else."""
    first = at + 2
    while kinds[first] in _LEADS_IN and first < close:
        first += 1
    if values[at] == "inc":
        if kinds[first] != "NUM" or values[first] != 2 or kinds[first + 1] != "ST" or not isinstance(values[first + 1], str):
            return None
        several = kinds[at - 1] == "NUM" and values[at - 1] != 1 or kinds[close + 1] in ("IN", "EACH", "AROUND", "ACROSS")
        fact = lexicon.fact(values[first + 1])
        rest = range(first + 2, close)
        if fact is None or fact.kind not in ("basic", "extended") or not all(
            kinds[here] in _IN_ONE or kinds[here] == "NUM" and values[here] == 1 or kinds[here] == "EACH" and several for here in rest
        ):
            return None
        return Named("inc", None, values[first + 1])
    two, kind, joined = 0, values[at], False
    for here in range(first, close):
        if kinds[here] == "NUM" and values[here] in (1, 2):
            two += values[here] == 2
        elif kinds[here] == "ST" and isinstance(values[here], str) and kind == values[at] and (values[here].endswith("2tog") or values[here] == "dec"):
            kind, joined = values[here], True
        elif kinds[here] == "ST" and isinstance(values[here], str) and kind == values[at] and kinds[here + 1] in ("NEXT", "NUM", "OVER", "STN") and lexicon.fact(f"{values[here]}2tog"):
            kind = f"{values[here]}2tog"  # "(sc next 2 sts together)"
        elif kinds[here] not in _AS_ONE:
            return None
        joined = joined or kinds[here] == "TOG"
    if not joined or two > 1 or "TOG" in kinds[first:close] and not two and kind == values[at]:
        return None
    if values[at] == "invdec" or kinds[close + 1] in ("AT", "EACH", "BOTH", "EVENLY"):  # "dec (sc2tog) at beginning"
        return values[at]
    return kind
