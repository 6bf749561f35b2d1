"""Stitch names of several tokens put into one: "sc 2 tog", "5-tr cluster", "dc dec", "front post" round a stitch."""

from typing import NamedTuple

from .words import Lexicon

SEVERAL_PARTS = frozenset(("cl", "bobble", "popcorn", "puff", "shell", "fan", "dec", "picot", "inc"))  # stitches whose name may have several parts
_MAY_BEGIN = frozenset(("ST", "NUM", "CH"))
_LEGGED = frozenset(("cl", "bobble", "popcorn", "puff"))
_PLACED = frozenset(("IN", "NEXT", "SAME"))


class Named(NamedTuple):
    """A stitch made of `legs` legs of `base`: a 5-dc bobble is Named("bobble", 5, "dc")."""

    kind: str
    legs: int | None = None
    base: str | None = None


def merge_stitch_words(tokens, lexicon: Lexicon) -> None:
    """Join the tokens that make up one stitch name, in place."""
    kinds, values, starts, ends = tokens.kinds, tokens.values, tokens.starts, tokens.ends
    words = {at: tokens.text[starts[at]:ends[at]].lower() for at, kind in enumerate(kinds) if kind == "TOG"}
    columns = (kinds, values, starts, ends)
    new = ([], [], [], [])
    at, kept, count = 0, 0, len(kinds)  # kept: the tokens before it are in `new`
    while at < count:
        found = _together(kinds, values, at, lexicon, words) or _legs(kinds, values, at, lexicon) if kinds[at] in _MAY_BEGIN else None
        if not found:
            at += 1
            continue
        value, after = found
        for column, old, entry in zip(new, columns, ("OWN" if not isinstance(value, str | Named) else "ST", value, starts[at], ends[after - 1]), strict=True):
            column += old[kept:at]
            column.append(entry)
        at = kept = after
    if not kept:
        return  # nothing in it belongs together
    for column, old in zip(new, columns, strict=True):
        column += old[kept:]
    tokens.kinds, tokens.values, tokens.starts, tokens.ends = new


def _past(kinds, at: int) -> int:
    return at + 1 if kinds[at] == "HY" else at


def _known(kind: str, lexicon: Lexicon) -> str | None:
    return kind if lexicon.fact(kind) else None


def _apart(kinds, values, at: int, shaped: int) -> bool:
    """ "(2 sc inc) x 6", "5 sc inc 8 sc": plain stitches and then a shaped one, though no comma parts them."""
    if kinds[at - 1] != "NUM" or not isinstance(values[at - 1], int) or values[at - 1] < 2:
        return False
    before, after = kinds[at - 2] if at > 1 else "", kinds[shaped + 1]
    return before in ("(", "[", "{", "MARK") and after in (")", "]", "}", "MARK") or after == "NUM" and kinds[shaped + 2] == "ST"


def _together(kinds, values, at: int, lexicon: Lexicon, words):
    """ "sc2tog", "sc 2 tog", "2 sc tog", "sc tog", "sc dec", "3-dc dec": the stitch and the index after it."""
    if kinds[at] == "ST" and isinstance(values[at], str):
        here = _past(kinds, at + 1)
        if kinds[here] == "NUM":
            after = _past(kinds, here + 1)
            after += kinds[after] == "STN" and kinds[after + 1] == "TOG"  # "double crochet two stitches together"
            if kinds[after] == "TOG" and isinstance(values[here], int):
                if values[at] == "dec" and values[here] == 2:
                    return "dec", after + 1  # "dec 2 tog"
                kind = _known(f"{values[at]}{values[here]}tog", lexicon)
                named = kinds[after + 1] == "ST" and values[after + 1] == "cl"  # "dc3tog cluster"
                return (kind, after + 1 + named) if kind else None
        elif kinds[here] == "TOG":
            if words[here] != "tog" and kinds[here + 1] == "IN" and kinds[here + 2] in ("NEXT", "SAME", "FIRST", "LAST") and kinds[here + 3] != "NUM":
                return None
            kind = _known(f"{values[at]}2tog", lexicon)
            return (kind, here + 1) if kind else None
        elif kinds[here] == "ST" and values[here] in ("inc", "dec") and at and _apart(kinds, values, at, here):
            return None
        elif kinds[here] == "ST" and values[here] == "inc" and values[at] not in ("inc", "dec") and _plain(values[at], lexicon):
            return Named("inc", None, values[at]), here + 1  # "dc inc"
        elif kinds[here] == "ST" and values[here] == "dec":
            kind = _known(f"{values[at]}2tog", lexicon)
            return (kind, here + 1) if kind else None
        elif values[at] == "dec" and kinds[here] == "ST" and kinds[here - 1] != "IN":
            kind = _known(f"{values[here]}2tog", lexicon)
            return (kind, here + 1) if kind else None
        return None
    if kinds[at] == "CH":  # "ch-3 picot"
        here = _past(kinds, at + 1)
        if kinds[here] == "NUM" and isinstance(values[here], int):
            after = _past(kinds, here + 1)
            if kinds[after] == "ST" and values[after] == "picot":
                return Named("picot", values[here], "ch"), after + 1
        return None
    if kinds[at] == "NUM" and kinds[_past(kinds, at + 1)] == "CH" and isinstance(values[at], int):  # "3-ch picot"
        after = _past(kinds, _past(kinds, at + 1) + 1)
        return (Named("picot", values[at], "ch"), after + 1) if kinds[after] == "ST" and values[after] == "picot" else None
    if kinds[at] == "NUM" and isinstance(values[at], int) and values[at] > 1:
        here = _past(kinds, at + 1)
        if kinds[here] == "ST" and isinstance(values[here], str):
            after = _past(kinds, here + 1)
            if kinds[after] == "TOG":
                if kinds[after + 1] == "IN" and kinds[after + 2] in ("NEXT", "SAME", "ORD", "FIRST", "LAST") and kinds[after + 3] != "NUM":
                    if words[after] != "tog":
                        return None  # "2 dc together in the next st": an increase
                    return Named("cl", values[at], values[here]), after + 1
                kind = _known(f"{values[here]}{values[at]}tog", lexicon)
                return (kind, after + 1) if kind else None
            if kinds[after] == "ST" and values[after] == "dec" and kinds[after + 1] != "EVENLY" and not _apart(kinds, values, here, after) and (kinds[here - 1] == "HY" or values[at] < 6):
                if kinds[after + 1] in _PLACED and kinds[after + 1] != "NEXT" or kinds[here - 1] == "HY":
                    return Named("cl", values[at], values[here]), after + 1
                kind = _known(f"{values[here]}{values[at]}tog", lexicon)
                return (kind, after + 1) if kind else None
    return None


def _legs(kinds, values, at: int, lexicon: Lexicon):
    """ "5-tr cluster", "4 dc cl", "dc cluster", "5-dc shell", "ch-3 picot": the stitch with its legs."""
    legs, here = None, at
    if kinds[at] == "CH":
        return None
    if kinds[at] == "NUM":
        if not isinstance(values[at], int):
            return None
        legs, here = values[at], _past(kinds, at + 1)
    if kinds[here] != "ST" or not isinstance(values[here], str) or not _plain(values[here], lexicon):
        return None
    after = _past(kinds, here + 1)
    if kinds[after] == "ST" and values[after] in _LEGGED:
        return Named(values[after], legs, values[here]), after + 1
    if kinds[after] == "ST" and values[after] in ("shell", "fan"):
        return Named(values[after], legs, values[here]), after + 1
    if kinds[after] == "OWN" and getattr(values[after], "kind", "") in _LEGGED:
        own = values[after]
        return Named(own.kind, legs or own.legs, values[here]), after + 1
    return None


def _plain(kind: str, lexicon: Lexicon) -> bool:
    fact = lexicon.fact(kind)
    return fact is not None and fact.kind in ("basic", "extended", "post")
