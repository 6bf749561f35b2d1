"""A pasted pattern made into a manuscript, for her to confirm: what its first lines say goes into a head, each part gets its heading, each row a
paragraph of its own. All else stays in its words and its place.

What is tidied must come to the same stitches as what was pasted: each way of tidying is worked and compared, and the boldest that holds is
taken. Rows put into plain modern wording are offered beside it, never instead.
"""

import re

import hookwright
from hookwright.notation import OwnNames, head_end, spell_row
from hookwright.notation.tree import Row, Unread

from .head_lines import head_lines
from .live_report import live_report
from .strings import t

_BLANKS = re.compile(r"\n{3,}")


def tidy(text: str) -> dict:
    """text: the manuscript; respelled: the same with its rows in plain wording, None where that is not the same or no better; title; notes:
    what was done, in sentences; report: as the live one."""
    text = text.strip("\n") + "\n"
    pasted = hookwright.check(text)
    made, notes = text, []
    if head_end(text):
        notes.append(t("tidy-head-there"))
    else:
        head, told = head_lines(pasted)
        for way in (lambda: head + _in_paragraphs(pasted, told), lambda: head + _without(text, told), lambda: head + text):
            tried = _BLANKS.sub("\n\n", way()).strip("\n") + "\n"
            if same_work(pasted, hookwright.check(tried)):
                made = tried
                notes += [t("tidy-head", what=_listed(_keys(head)))] if head else []
                break
        else:
            notes.append(t("tidy-left"))
    report = hookwright.check(made)
    guessed = next((finding.message for finding in pasted.findings if finding.kind == "terms-guessed"), None)
    if guessed:
        notes.append(t("tidy-terms", terms=pasted.pattern.terms))
    unread = sum(bool(_unread(row)) for _, row in report.pattern.rows())
    rows = sum(1 for _ in report.pattern.rows())
    notes.append(t("tidy-rows", rows=rows) if rows and not unread else t("tidy-unread", unread=unread) if unread else t("tidy-no-rows"))
    title = getattr(report.pattern.head, "title", "") or getattr(pasted.pattern.front, "title", "") or ""
    return {"text": made, "respelled": respelled(report, made), "title": title, "notes": notes, "report": live_report(made)}


def same_work(one, other) -> bool:
    """Whether two reports are of the same stitches in all sizes, the second with nothing more to mend."""
    if len(one.fabrics) != len(other.fabrics) or one.pattern.terms != other.pattern.terms or other.must_mend > one.must_mend:
        return False
    for before, after in zip(one.fabrics, other.fabrics, strict=True):
        if [(row.kind, row.foot, row.chains) for row in before.rows] != [(row.kind, row.foot, row.chains) for row in after.rows]:
            return False
    return True


# ---------------------------------------------------------------- the body

def _without(text: str, told) -> str:
    """The text without the lines that went into the head."""
    for start, end in sorted(told, reverse=True):
        text = text[:start].rstrip(" \t") + text[end:].lstrip(" \t")
    return text


def _in_paragraphs(report, told) -> str:
    """The text with a heading for each part and a paragraph for each row, and without what went into the head."""
    text, edits = report.text, [(start, end, "") for start, end in told]
    for piece in report.pattern.pieces:
        start, end = piece.span
        line = text[text.rfind("\n", 0, start) + 1 : (text.find("\n", end) + 1 or len(text) + 1) - 1]
        if piece.name and end > start and not line.lstrip().startswith("#") and line.strip(" :*_.") and len(line.strip()) <= (end - start) + 2:
            edits.append((start, end, f"\n\n## {_plain(text[start:end])}\n\n"))
    seen = set()
    for _, row in report.pattern.rows():
        if row.text and row.span not in seen:
            seen.add(row.span)
            edits.append((*row.span, "\n\n" + " ".join(text[row.span.start : row.span.end].split()) + "\n\n"))
    out, at = [], 0
    for start, end, words in sorted(edits):
        if start < at:
            continue  # part of what was edited already
        out += [text[at:start].rstrip(" \t") if words.startswith("\n") else text[at:start], words]
        at = end
    return "".join([*out, text[at:]])


def _plain(heading: str) -> str:
    return " ".join(heading.strip(" \t\n*_#:").split())


# ---------------------------------------------------------------- rows in plain wording

def respelled(report, text: str) -> str | None:
    """The manuscript with every row that was understood in plain modern wording; None where nothing changes, or it is not the same work."""
    if report.pattern.shifts:
        return None
    own = OwnNames(report.pattern.own, report.pattern.terms, report.pattern.terms, report.pattern.text)
    edits, seen = [], {}
    for _, row in report.pattern.rows():
        seen.setdefault(row.span, []).append(row)
    for span, rows in seen.items():
        if len(rows) == 1 and rows[0].text and not _unread(rows[0]):
            words = spell_row(rows[0], report.pattern.terms, own=own)
            if words and " ".join(words.split()) != " ".join(rows[0].text.split()):
                edits.append((*span, words))
    made = text
    for start, end, words in sorted(edits, reverse=True):
        made = made[:start] + words + made[end:]
    return made if edits and same_work(report, hookwright.check(made)) else None


def _unread(row: Row) -> bool:
    return any(isinstance(step, Unread) for step in row.steps)


# ---------------------------------------------------------------- words

def _keys(head: str) -> list[str]:
    return re.findall(r"^(\w+):", head, re.M)


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1]
