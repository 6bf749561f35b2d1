"""Her own list of abbreviations, where she has one, against the words of the rows."""

import re
from dataclasses import dataclass
from functools import cache

from hookwright.ground import Span
from hookwright.stitches import dialect, fold, stitch

from .case import Case

_SEPARATOR = r"(?:[ \t]*(?:=|:|\||–|—)[ \t]*| +- *|- +)"
_LEAD = re.compile(r"[\s*_]*abbrev[a-z]*(?:\s+used)?(?:\s*\([^()\n]*\))?[*_]*\s*:[*_]*\s*(?=\S)", re.I)
_ENTRY = re.compile(rf"[ \t>*+|_-]*(?P<abbr>[A-Za-z][A-Za-z0-9()/.', -]{{0,26}}?)[*_]*{_SEPARATOR}[*|]*(?P<means>\S.*)")
_NEXT_ENTRY = re.compile(rf"[;,][ \t]*(?=[A-Za-z][A-Za-z0-9()/.' -]{{0,22}}?{_SEPARATOR})")
_TOKEN = re.compile(r"[A-Za-z][A-Za-z0-9]*")
# Words of a row that need no entry: everyday English and what every list leaves out. Common practice, no source.
_TAKEN_AS_KNOWN = {"ch-sp", "tog", "tch", "approx", "m", "cm", "mm", "in", "yd", "g", "oz"}


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of the list: as written, its forms ("sp", "sps"), and the stitches these stand for (none where not known)."""

    abbr: str
    forms: tuple[str, ...]
    span: Span
    stitches: tuple[str, ...]


def entries(case: Case) -> list[Entry]:
    """The entries of her list, [] where she has none that can be told apart; kept on the case."""
    kept = case.__dict__.get("_entries")
    if kept is None:
        kept = case.__dict__["_entries"] = list(_entries(case))
    return kept


def _entries(case: Case):
    words = dialect(case.terms)
    for piece, item in case.prose:
        if piece.section != "abbreviations":
            continue
        text = case.text[item.span.start : item.span.end] or item.text
        for start, end in _parts(text):
            lead = _LEAD.match(text, start, end)
            start = lead.end() if lead else start
            found = _ENTRY.match(text, start, end)
            if found is None:
                continue
            abbr = found["abbr"].strip(" *_,")
            if not abbr or len(abbr.split()) > 4:
                continue
            at = item.span.start + found.start("abbr")
            forms = tuple(form.strip() for form in re.split(r"[,/]| or ", abbr) if form.strip())
            yield Entry(abbr, forms, Span(at, at + len(abbr)), tuple(id for form in forms if (id := words.find(_bare(form)))))


def _parts(text: str):
    """(start, end) of each entry: a line, or a part of a line that holds several."""
    at = 0
    for line in text.splitlines(keepends=True):
        start = at
        for cut in _NEXT_ENTRY.finditer(text, at, at + len(line)):
            if _ENTRY.match(text, start, cut.start()) is None:
                continue  # "sp, sps: space, spaces" is one entry
            yield start, cut.start()
            start = cut.end()
        yield start, at + len(line.rstrip())
        at += len(line)


def _bare(abbr: str) -> str:
    return fold(re.sub(r"\(e?s\)|\(.*?\)", "", abbr)).strip()


@cache
def short_forms(terms: str) -> dict[str, re.Pattern]:
    """Stitch id -> its abbreviations as a pattern of whole words."""
    by_id: dict[str, list[str]] = {}
    for spelling, id in dialect(terms).words.items():
        if len(spelling) <= 7 and not any(
            long in spelling for long in ("chain", "treble", "crochet", "stitch", "bobble", "cluster", "shell", "picot", "puff", "fan")
        ):
            by_id.setdefault(id, []).append(spelling)
    return {
        id: re.compile(
            r"(?<![A-Za-z])(?:" + "|".join(re.escape(each) for each in sorted(spellings, key=len, reverse=True)) + r")s?(?![A-Za-z])",
            re.IGNORECASE,
        )
        for id, spellings in by_id.items()
    }


def other_words(case: Case) -> dict[str, str]:
    """Abbreviation -> meaning of the words of rows that are no stitches ("rnd", "sk") and need an entry."""
    return {abbr: means for abbr, means in dialect(case.terms).abbreviations.items() if abbr not in _TAKEN_AS_KNOWN}


def row_tokens(case: Case) -> set[str]:
    """All words of the rows, as they stand."""
    kept = case.__dict__.get("_row_tokens")
    if kept is None:
        kept = case.__dict__["_row_tokens"] = {
            word for seen in case.seen for word in _TOKEN.findall(case.text, seen.row.span.start, seen.row.span.end)
        }
    return kept


def is_covered(id: str, defined: set[str], abbrs: set[str]) -> bool:
    """Whether a stitch needs no entry of its own: it is listed, or made of what is listed (fpdc of FP and dc, dc2tog of dc and tog)."""
    if id in defined:
        return True
    fact = stitch(id)
    if fact is None:
        return True
    if fact.kind == "decrease" and fact.base in defined and abbrs & {"tog", "dec"}:
        return True
    if fact.post and fact.base in defined and abbrs & {"fp", "bp", "post", "fpst", "bpst"}:
        return True
    return any(
        other != id and stitch(other) is not None and stitch(other).base == fact.base and stitch(other).kind == fact.kind == "decrease"
        for other in defined
    )
