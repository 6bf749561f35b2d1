"""From the text of a manuscript to its Pattern: head, pieces, rows, notes, prose. Nothing she wrote is thrown away."""

import re

from hookwright.ground import MUST_MEND, Finding, Span

from .clean import clean
from .labels import read_label
from .ordinal_stops import without_stops
from .patterns import Lazy
from .row_frames import without_frames

MOST_CHARACTERS = 2_000_000
_BOLD = Lazy(r"\*\*(?=\S)([^*\n]{1,80}?)(?<=\S)\*\*|(?:(?<=\n)|\A)([ \t>-]*)\*(?=\S)([^*\n]{1,60}?)(?<=\S)\*(?=[\s:])")
_COUNT_IN_ITALICS = Lazy(r"(?<![\w*_])(\*{1,3}|_)(\(\s*=?\s*\d[^()*\n]{0,80}\))\1(?=[ \t]*(?:\n|$))")  # "Turn. *(12 sc, 11 ch-3 sps)*"
_STRESSED = Lazy(r"(?<![\w*_])(\*{1,2}|_{1,2})((?:do(?:es)?\s+)?not|don't|doesn't|never|only|always|all|every|each|both|back|front|loosely|evenly|same|first|last|next|twice|once)\1(?![\w*_])", re.I)  # "does **not** count"
_STAR_FIRST = Lazy(r"^[ \t>-]*\*", re.M)
_STRESSED_WORD = Lazy(r"[a-z][*_]")
_COLON_BETWEEN = Lazy(r"[\d½¼¾)–—-]\s?:\s?[\d–—-]")
_COLON_LIST = Lazy(r"(?<=[\d\s])[\(\[]\s*(?:\d{1,5}(?:[.,]\d{1,2})?(?: ?[½¼¾])?|[-–—])(?:\s*:\s*(?:\d{1,5}(?:[.,]\d{1,2})?(?: ?[½¼¾])?|[-–—])){1,20}\s*[\)\]]")  # "76 [84:92:100]"
_BREAK = Lazy(r"<br\s*/?>|</?(?:b|i|strong|em|u)>", re.I)
# "a 12 in. tail": the full stop of a unit, and no end of a sentence.
_UNIT_STOP = Lazy(r"(\d[ -]?(?:ins?|cms?|mm|yds?))\.(?=\s(?:tail|long|length|end|of yarn|yarn|loop|wide|tall|high|deep|square|across|from|piece|strip)\b)", re.I)
_DOTTED = Lazy(r"(?<![\w.])(?:h\. ?)?(?:s|d|tr)\. ?c\.(?P<ends>(?=\s+(?:(?-i:[A-Z])|\*)|\s*$|\s*\n))?", re.I)  # "1 s.c. in each s.c. Turn."
_FASTEN_OFF = Lazy(r"(?<![\w/])[Ff]/[Oo](?![\w/])")
_ODD = Lazy(r"[\ud800-\udfff\0]")


def read(text: str, *, terms: str | None = None, sizes=None, in_round: bool = False, find_numbers=None, before=None, all_rows: bool = False):
    """The Pattern of a manuscript, whole or a few rows, and the findings made in reading.

    terms: "US" or "UK" where they are known from elsewhere (the head decides before them; without either they are guessed and
    said). sizes: the size names where no head gives them. in_round: a fragment worked in the round. find_numbers: given the head and
    the findings, gives the numbers that the head only wishes for (name -> Number), since the rows hold them. before: a ReadBefore, by which
    rows that an earlier text had are not read anew. all_rows: every line is a row, also one that does not look like one (a fragment over a row below).
    Findings: too-much-text, head kinds (see head_read), terms-guessed, too-much-work, cannot-read, and those of the steps.
    """
    from .pattern_read import read_pattern

    findings: list[Finding] = []
    if len(text) > MOST_CHARACTERS:
        findings.append(
            Finding(
                "too-much-text", MUST_MEND,
                f"the manuscript is {len(text):,} characters long; up to {MOST_CHARACTERS:,} are read. What follows is left out: put it into a manuscript of its own",
                Span(MOST_CHARACTERS, MOST_CHARACTERS + 1), expected=MOST_CHARACTERS, found=len(text),
            )
        )
        text = text[:MOST_CHARACTERS]
    if before is not None:
        before.begin()
    pattern = read_pattern(text, plain_text(text), findings, terms, sizes, in_round, find_numbers, before, all_rows)
    return pattern, findings


def plain_text(text: str) -> str:
    """`text` with plain line ends and without characters that no text should hold; every offset stays."""
    if "\r" in text:
        text = text.replace("\r\n", " \n").replace("\r", "\n")
    return _ODD.sub(" ", text)


def head_end(text: str) -> int:
    """The offset where the head of a manuscript ends; 0 for a text without one."""
    from .head_read import head_end as end  # only manuscripts with a head need its reader

    return end(plain_text(text))


def working_text(plain: str) -> str:
    """The cleaned text in which labels are not bold; every offset stays."""
    work = clean(plain)
    if "**" in work or "*" in work and _STAR_FIRST.search(work):
        work = _BOLD.sub(_unbold, work)
    if "*" in work and _STRESSED_WORD.search(work):
        work = _STRESSED.sub(lambda found: f"{' ' * len(found[1])}{found[2]}{' ' * len(found[1])}", work)
    if ")*" in work or ")_" in work:
        work = _COUNT_IN_ITALICS.sub(lambda found: f"{' ' * len(found[1])}{found[2]}{' ' * len(found[1])}", work)
    if "/O" in work or "/o" in work:
        work = _FASTEN_OFF.sub(lambda found: found[0].replace("/", "") + " ", work)
    if ".c." in work or ".C." in work or ". c." in work:
        work = _DOTTED.sub(_undotted, work)
    if ":" in work and ("[" in work or "(" in work) and _COLON_BETWEEN.search(work):
        work = _COLON_LIST.sub(lambda found: found[0].replace(":", ","), work)
    if "in. " in work or "cm. " in work or "ins. " in work:
        work = _UNIT_STOP.sub(r"\1 ", work)
    if "<" in work:
        work = _BREAK.sub(lambda found: " " * len(found[0]), work)
    return without_stops(without_frames(work))


def _undotted(found: re.Match) -> str:
    """ "s.c." as "sc", as long as before; a full stop stays where a sentence may end."""
    plain = re.sub(r"[. ]", "", found[0]) + ("." if found["ends"] is not None else "")
    return plain.ljust(len(found[0]))


def _unbold(found: re.Match) -> str:
    inner = found[1] or found[3]
    whole = found[0]
    label = read_label(inner, 0, len(inner))
    is_label = label is not None and not label.bare and label.end >= len(inner) - 1
    alone = found[1] and not found.string[found.string.rfind("\n", 0, found.start()) + 1 : found.start()].strip(" #>") and found.string[found.end() : found.end() + 1] in ("", "\n")
    named = not re.search(r"\d", inner) and (found[1] and inner.rstrip().endswith(":") or alone or found.string[found.end() : found.end() + 1] == ":")
    if not (is_label or named):
        return whole
    if found[1]:
        return f"  {inner}  "
    return f"{found[2]} {inner} "
