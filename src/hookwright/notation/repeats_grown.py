"""Rows of a range whose repeat grows: "Rnds 5-8: *3 sc, inc; rep around, working 1 more sc between increases on each rnd"."""

from hookwright.ground import Span

from .tree import Note

_LEADS = frozenset(("WITH", "WORKING", "HAVE", "W", "U", "AND", "BUT"))
_STOPS = frozenset((",", ".", ";", "(", "[", "END", "=", "DASH", ":", ")", "]"))
_LESS = ("fewer", "less")
_SHAPED = ("inc", "dec", "invdec")


def take_growth(tokens) -> Note | None:
    """The clause that says by how many stitches each round's stretches differ, taken out of the tokens; None where there is none."""
    kinds, values = tokens.kinds, tokens.values
    for at in range(2, len(kinds) - 2):
        if kinds[at] != "BETWEEN" and not (kinds[at] == "REMARK" and kinds[at + 1] == "EACH" and _word(tokens, at) == "before"):
            continue
        shaped = at + 1 + (kinds[at + 1] in ("EACH", "THIS"))
        if kinds[shaped] != "ST" or values[shaped] not in _SHAPED and not str(values[shaped]).endswith("2tog"):
            continue
        start, grows = at - 1, False
        while start >= 0 and (kinds[start] in ("ST", "STN", "NUM", "MORE") or kinds[start] in _LEADS):
            word = _word(tokens, start)
            grows = grows or kinds[start] == "MORE" or word in _LESS or word == "adding"
            start -= 1
        end = shaped + 1
        while kinds[end] not in _STOPS:
            end += 1
        if not grows or start < 0 or kinds[start] not in (",", ";", ".", ")", "AROUND", "TIMES") or kinds[start + 1] not in _LEADS and kinds[start + 2] != "MORE":
            continue
        span = Span(tokens.starts[start + 1], tokens.ends[end - 1])
        first = start + (kinds[start] not in (",", ";"))
        for column in (tokens.kinds, tokens.values, tokens.starts, tokens.ends):
            del column[first:end]
        return Note(tokens.text[span.start:span.end], span, lead=",")
    return None


def _word(tokens, at: int) -> str:
    return tokens.text[tokens.starts[at]:tokens.ends[at]].lower()
