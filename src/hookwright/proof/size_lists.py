"""Every number that differs by size, with its place."""

import re
from dataclasses import dataclass

from hookwright.ground import PerSize, Span
from hookwright.notation.tree import Chain, Colour, Group, Leave, Note, Place, Repeat, Skip, Stitch

from .case import Case, Seen


@dataclass(frozen=True, slots=True)
class SizeList:
    """values: the list; what: "count", "chains", "times", "rows" or "stitches"; seen: its row."""

    values: PerSize
    what: str
    span: Span
    seen: Seen


def size_lists(case: Case) -> list[SizeList]:
    """All lists in the rows, each once, in the order written; kept on the case, since several checks ask."""
    kept = case.__dict__.get("_size_lists")
    if kept is None:
        kept = case.__dict__["_size_lists"] = list(_in_rows(case)) if len(case.sizes) > 1 else []
    return kept


_LIST = re.compile(r"(?<![\d.,/])\d+ ?\((?:\d+|-|–)(?:, ?(?:\d+|-|–))*\)(?! ?(?:times|x))")
_ROW_BEFORE = re.compile(r"(?:rows?|rnds?|rounds?|r|and|to|&|-)\s*$", re.IGNORECASE)
_FURTHER_GROUP = re.compile(r"^ ?\(\d")


def lists_in_text(case: Case) -> list[tuple[Seen, Span, list[str]]]:
    """Lists as they stand in the text of the rows: (row, place, numbers); kept on the case. References to rows are none."""
    kept = case.__dict__.get("_lists_in_text")
    if kept is None:
        kept = case.__dict__["_lists_in_text"] = list(_in_text(case))
    return kept


def _in_text(case: Case):
    text = case.text
    for seen in case.seen:
        body = seen.body
        for found in _LIST.finditer(text, body.start, body.end):
            if _ROW_BEFORE.search(text, max(0, found.start() - 10), found.start()):
                continue
            if _FURTHER_GROUP.match(text[found.end() : found.end() + 3]):
                continue
            yield seen, Span(found.start(), found.end()), re.findall(r"\d+|-|–", found[0])


def _in_rows(case: Case):
    for seen in case.seen:
        row = seen.row
        for stated in row.stated:
            for item in stated.items:
                if isinstance(item[0], PerSize):
                    yield SizeList(item[0], "count", stated.span, seen)
        for number, what in ((row.last_number, "rows"), (row.count_of_rows, "rows"), (row.again.times if row.again else None, "times")):
            if isinstance(number, PerSize):
                yield SizeList(number, what, row.again.span if what == "times" and row.again.span.end else row.label_span, seen)
    for kind, what in ((Chain, "chains"), (Stitch, "stitches"), (Leave, "stitches")):
        for seen, node in case.nodes(kind):
            if isinstance(node.n, PerSize):
                yield SizeList(node.n, what, node.span, seen)
    for seen, node in case.nodes(Repeat):
        if isinstance(node.times, PerSize):
            yield SizeList(node.times, "times", node.span, seen)
        if node.extent is not None and isinstance(node.extent.n, PerSize):
            yield SizeList(node.extent.n, "stitches", node.extent.span if node.extent.span.end else node.span, seen)
    for kind in (Stitch, Skip, Group):
        for seen, node in case.nodes(kind):
            place: Place | None = node.place
            if place is None:
                continue
            if isinstance(place.n, PerSize):
                yield SizeList(place.n, "stitches", place.span if place.span.end else node.span, seen)
            if place.extent is not None and isinstance(place.extent.n, PerSize):
                yield SizeList(place.extent.n, "stitches", place.extent.span if place.extent.span.end else node.span, seen)


def foundation_chain(row) -> Chain | None:
    """The chain a row begins with, None where it begins with anything else than a chain or a colour."""
    for step in row.steps:
        if type(step) is Chain:
            return step
        if type(step) not in (Colour, Note):
            return None
    return None
