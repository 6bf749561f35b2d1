"""What a pattern lists, and what it uses: colours, hooks, notions."""

import re
from functools import cache

from hookwright.ground import Span
from hookwright.notation.tree import Colour, JoinYarn, Mark, Prose, Row

from .case import Case
from .tables import table

_LISTS = ("materials", "gauge", "abbreviations", "about")


@cache
def notions() -> tuple[tuple[str, re.Pattern, re.Pattern], ...]:
    """(name, words that call for it, words that list it) for each thing of the table of notions."""
    return tuple((each["name"], _whole(each["called"]), _whole(each["listed"])) for each in table("notions")["notion"])


def _whole(words) -> re.Pattern:
    return re.compile(r"(?<!\w)(?:" + "|".join(words) + r")(?!\w)", re.IGNORECASE)


def listed(case: Case) -> str:
    """All that is listed as material, as one text; "" where nothing is."""
    parts = [*(case.from_head("materials") or ())]
    parts += [item.text for piece, item in case.prose if piece.section == "materials"]
    return "\n".join(parts)


def instructions(case: Case) -> list[tuple[str, Span, str]]:
    """(text, its place, piece) of all that tells how to make the piece: rows and the prose between them."""
    kept = case.__dict__.get("_instructions")
    if kept is None:
        kept = case.__dict__["_instructions"] = [
            (case.text[item.span.start : item.span.end] or item.text, item.span, piece.name)
            for piece in case.pattern.pieces
            if piece.section not in _LISTS
            for item in piece.items
            if isinstance(item, (Prose, Row))
        ]
    return kept


def instruction_text(case: Case) -> str:
    """All of the instructions as one text."""
    kept = case.__dict__.get("_instruction_text")
    if kept is None:
        kept = case.__dict__["_instruction_text"] = "\n".join(text for text, _, _ in instructions(case))
    return kept


_DENIED = re.compile(r"\b(?:no|not|never|nor|without|instead of|rather than|leave out|avoid|[a-z]+n't)\b[^.;!?]*$", re.IGNORECASE)


def first_call(case: Case, words: re.Pattern) -> tuple[Span, str] | None:
    """Where the instructions first use one of these words: (its place, the words). "No beads, no buttons" uses none."""
    if words.search(instruction_text(case)) is None:
        return None
    for text, span, _ in instructions(case):
        for found in words.finditer(text):
            if _DENIED.search(text, max(0, found.start() - 80), found.start()) is None:
                return Span(span.start + found.start(), span.start + found.end()), found[0]
    return None


def colours_listed(case: Case) -> dict[str, str]:
    """Letter or short name -> what it is, of all yarns of the head."""
    out: dict[str, str] = {}
    for yarn in case.from_head("yarn") or ():
        out.update({str(key): str(value or "") for key, value in yarn.colours.items()})
    return out


def colours_used(case: Case) -> list[tuple[object, str, Span]]:
    """(row, colour as named, place) for every colour a row is worked in."""
    used = [(seen, node.name, node.span) for seen, node in case.nodes(Colour)]
    used += [(seen, node.colour, node.span) for seen, node in case.nodes(JoinYarn) if node.colour]
    return used


def markers_used(case: Case) -> bool:
    """Whether a row places or moves a marker."""
    return bool(case.nodes(Mark))
