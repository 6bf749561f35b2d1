"""Every number that differs by size, with its place."""

import re
from dataclasses import dataclass

from hookwright.ground import LOOK, MUST_MEND, Finding, PerSize, Span
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


@dataclass(slots=True)
class WrongList:
    """A list with more or fewer numbers than there are sizes.

    numbers: as written; span: where; rows: the rows in which it stands, several where it is a number of the head with `name`;
    told: the reader's finding about it, if it has one.
    """

    numbers: list[str]
    span: Span
    rows: list[Seen]
    grade: str = MUST_MEND
    name: str = ""
    told: Finding | None = None


_OF_STITCHES = re.compile(r" ?(?:(?:more|fewer|remaining) )?(?:sts?|stitches|chs?|chains?|sps?|spaces|times|rows|rnds|rounds)\b", re.IGNORECASE)
_NAMED = re.compile(r"\{([^{}]{1,40})\}")


def wrong_lists(case: Case) -> list[WrongList]:
    """Lists that don't give one number a size, each once, in the order found; kept on the case, since what follows from one is folded into it."""
    kept = case.__dict__.get("_wrong_lists")
    if kept is None:
        kept = case.__dict__["_wrong_lists"] = list(_wrong(case))
    return kept


def _wrong(case: Case):
    told = []
    for finding in case.read("size-list-length"):
        rows = [seen for seen in case.seen if seen.row.span.start <= finding.span.start < seen.row.span.end]
        told.append(finding.span)
        yield WrongList(_numbers_at(case, finding.span), finding.span, rows, finding.grade, told=finding)
    sizes = len(case.sizes)
    if sizes < 2:
        return
    of_head: dict[str, WrongList] = {}
    for each in size_lists(case):
        length = len(each.values)
        if length in (0, sizes) or each.seen.row.only and length == len(each.seen.row.only) or _meets(each.span, told):
            continue
        numbers = ["-" if value is None else str(value) for value in each.values]
        name = _name_at(case, each)
        if name:
            first = of_head.setdefault(name, WrongList(numbers, case.span_in_head(f"numbers.{name}"), [], name=name))
            first.rows += [each.seen] if each.seen not in first.rows else []
            continue
        told.append(each.span)
        yield WrongList(numbers, each.span, [each.seen])
    yield from of_head.values()
    if sizes < 3:
        return  # with two sizes "5 (6)" in the text may be a count in brackets
    for seen, span, numbers in lists_in_text(case):
        if len(numbers) == sizes or seen.row.only or _meets(span, told):
            continue
        if len(numbers) > 2:
            yield WrongList(numbers, span, [seen], LOOK)
        elif _OF_STITCHES.match(case.text, span.end) or numbers[0] != numbers[1] and _only_chains(seen.row):
            yield WrongList(numbers, span, [seen])  # "next 40 (44) sts", "Ch 36 (40).": no count of the row stands so


def _only_chains(row) -> bool:
    """Whether a row is no more than the chain a piece begins with."""
    return foundation_chain(row) is not None and all(type(step) in (Chain, Colour, Note) for step in row.steps)


def _numbers_at(case: Case, span: Span) -> list[str]:
    return re.findall(r"\d+|-|\u2013", case.text[span.start : span.end])


def _name_at(case: Case, each: SizeList) -> str:
    """The name of the head's number that gives this list, "" where it is written out."""
    numbers = case.from_head("numbers") or {}
    named = [name for name in _NAMED.findall(case.text[each.span.start : each.span.end]) if numbers.get(name) == each.values]
    return named[0] if named else ""


def _meets(span: Span, told: list[Span]) -> bool:
    """Whether a list at this place was met already."""
    return any(one.start < span.end and span.start < one.end for one in told)


def foundation_chain(row) -> Chain | None:
    """The chain a row begins with, None where it begins with anything else than a chain or a colour."""
    for step in row.steps:
        if type(step) is Chain:
            return step
        if type(step) not in (Colour, Note):
            return None
    return None
