"""The document model: blocks and inlines, free of any file format. Writers turn it into bytes and decide nothing about words.

Inlines are tuples of `str`, Strong, Emphasis, Link and Break. All text is plain: no markup of any format is understood in it.
"""

import re
from dataclasses import dataclass, field

from hookwright.drawing import Picture

# ---------------------------------------------------------------- inlines


@dataclass(frozen=True, slots=True)
class Strong:
    inlines: tuple


@dataclass(frozen=True, slots=True)
class Emphasis:
    inlines: tuple


@dataclass(frozen=True, slots=True)
class Link:
    """A link to a page or a mail address; `href` begins with https:, http: or mailto:."""

    href: str
    inlines: tuple


@dataclass(frozen=True, slots=True)
class Break:
    """The next word stands on a new line."""


# ---------------------------------------------------------------- blocks


@dataclass(frozen=True, slots=True)
class Paragraph:
    """role: "" or "lead" (what it is), "legend" (how sizes or counts are read), "small" (colophon)."""

    inlines: tuple
    role: str = ""


@dataclass(frozen=True, slots=True)
class Listing:
    """A list with bullets, or numbered from `start`; each item is a tuple of blocks."""

    items: tuple
    ordered: bool = False
    start: int = 1


@dataclass(frozen=True, slots=True)
class Definitions:
    """Terms with their meanings, each pair (inlines, inlines). role: "", "short" (abbreviations, set in columns) or "long" (meanings of several lines)."""

    items: tuple
    role: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """head: texts of the column heads; rows: tuples of inlines, the first cell of each row being its head."""

    caption: str
    head: tuple[str, ...]
    rows: tuple


@dataclass(frozen=True, slots=True)
class RowText:
    """One written row. `label` without its colon; `count` without brackets, "" where none is owed; `only`: sizes it is for, in words."""

    label: str
    text: str
    count: str = ""
    only: str = ""


@dataclass(frozen=True, slots=True)
class Rows:
    """Rows that follow each other without words between them."""

    rows: tuple


@dataclass(frozen=True, slots=True)
class Note:
    """A remark set apart, as blocks."""

    blocks: tuple


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution owed: title, and points as texts."""

    title: str
    points: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture; `id` is unique in the document. told: its facts also stand in words beside it, so that text without pictures leaves it out."""

    picture: Picture
    id: str
    told: bool = True


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and what stands under it. name: fixed word for what it is ("materials", "piece"), whatever the language.

    level 2 is a part of the sheet, 3 a piece of the instructions, and so on down; `id` is unique in the document.
    """

    name: str
    title: str
    blocks: tuple
    level: int = 2
    id: str = ""


Inline = str | Strong | Emphasis | Link | Break
Block = Paragraph | Listing | Definitions | Table | Rows | Note | Caution | Figure | Section


# ---------------------------------------------------------------- the whole


@dataclass(frozen=True, slots=True)
class Change:
    """Words of her prose changed for the other terms: in which part of the sheet, what stood there, what stands there now, how often."""

    part: str
    was: str
    now: str
    times: int = 1


@dataclass(frozen=True, slots=True)
class Front:
    """The top of the first page. `terms` says the terms in plain words; `byline` are short texts; `draft` is set where not proved."""

    title: str
    terms: str
    byline: tuple[str, ...] = ()
    draft: str = ""
    blocks: tuple = ()


@dataclass(frozen=True, slots=True)
class Document:
    """A whole sheet. `language` is "en-US" or the like; `sections` in order; `changes` is for the designer and is not printed.

    `words` holds the few texts that writers add themselves ("contents", "page", "of", "draft").
    """

    front: Front
    sections: tuple
    terms: str
    language: str
    designer: str = ""
    several_sizes: bool = False
    changes: tuple[Change, ...] = ()
    words: dict = field(default_factory=dict)


def plain(inlines) -> str:
    """The text of inlines, without any marks.

    >>> plain(("Work ", Strong(("loosely",)), "."))
    'Work loosely.'
    """
    if isinstance(inlines, str):
        return inlines
    return "".join("\n" if isinstance(part, Break) else part if isinstance(part, str) else plain(part.inlines) for part in inlines)


def count_lines(count: str) -> list[str]:
    """A count on one line, or one line a kind where it is long; commas of size lists do not part it.

    >>> count_lines("24 dc, 6 ch-1 sps")
    ['24 dc, 6 ch-1 sps']
    """
    if len(count) <= 56:
        return [count] if count else []
    return re.split(r", (?![^()]*\))", count)


def words_of(blocks) -> str:
    """All words of some blocks, one stretch a line, for looking words up in them.

    >>> words_of((Paragraph(("Work ", Strong(("loosely",)))), Listing(((Paragraph(("one",)),),))))
    'Work loosely\\none'
    """
    return "\n".join(_stretches(tuple(blocks)))


_WORDED = ("title", "caption", "only", "label", "text", "count", "inlines", "head", "items", "rows", "points", "blocks")


def _stretches(part):
    if isinstance(part, str):
        if part:
            yield part
    elif isinstance(part, tuple) and any(isinstance(inside, (str, Strong, Emphasis, Link, Break)) for inside in part):
        yield plain(part)
    elif isinstance(part, tuple):
        for inside in part:
            yield from _stretches(inside)
    else:
        for name in _WORDED:
            if hasattr(part, name):
                yield from _stretches(getattr(part, name))
