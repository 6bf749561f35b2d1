"""The blocks of a manuscript: headings, lines of text, list items, and blocks that are kept as they stand (tables, fences).

CommonMark says where blocks begin and end; what a crocheter's star at the start of a line means is decided later,
so a line that begins with `*` keeps it, and tells that it does.
"""

import re
from dataclasses import dataclass
from functools import cache

from .patterns import Lazy

_MARKED_UP = Lazy(r"^[ \t]{0,8}(?:#(?!#{0,5} +[^\s#])|```|~~~|\||>|<|[-+*•✿❀❁❥❖➤➢✓✔☑☐☞▸](?:[ \t]|$)|\d{1,9}[.)][ \t]|-{3,}[ \t]*$|={3,}[ \t]*$|\*{3,}[ \t]*$|_{3,}[ \t]*$)|^.*\|.*\n[ \t]*\|?[ \t:|-]+$", re.M)
_ITEM = Lazy(r"(?P<lead>[ \t>]*)(?:(?P<bullet>[-+*•✿❀❁❥❖➤➢✓✔☑☐☞▸])(?:[ \t]+\[[ xX]\])?(?=[ \t]|$)|(?P<number>\d{1,9})[.)](?=[ \t]))?[ \t]*")
_HEADING = Lazy(r"[ \t]*(?P<level>#{1,6})[ \t]*")
_PLAIN_HEADING = Lazy(r"#{1,6} +[^\s#]")  # one that needs no parser: most manuscripts have no other marks
_ADORNED = Lazy(r"^([ \t]{0,3})(~{3,}|`{3,})(?=[^\n~`]*[A-Za-z][^\n~`]*[~`]{2,}[ \t]*$)", re.M)
_HEADING_TAIL = Lazy(r"[ \t]+#+[ \t]*$")


@dataclass(slots=True)
class Line:
    """One line. `[start, end)` is what it says, without list mark, quote mark and spaces around; raw_start where the line begins.

    kind: "text", "heading" (level 1 to 6), "kept" (a block kept as it stands, all its lines in one).
    mark: "-", "*", "1" (a numbered item) or "" ; gap: a blank line or another block stands before it; block: number of its block.
    """

    start: int
    end: int
    raw_start: int
    raw_end: int
    kind: str = "text"
    level: int = 0
    mark: str = ""
    gap: bool = False
    block: int = 0


def read_lines(text: str, start: int) -> list[Line]:
    """All lines from `start` on that hold something, in order. `text` has plain line feeds."""
    if not _MARKED_UP.search(text, start):
        return _plain_lines(text, start, len(text), 0, True)
    return _marked_lines(text, start)


def _heading_line(text: str, start: int, end: int, block: int) -> Line:
    """A heading from its line ("## Body")."""
    found = _HEADING.match(text, start, end)
    tail = _HEADING_TAIL.search(text, found.end(), end)
    return Line(found.end(), tail.start() if tail else end, start, end, "heading", len(found["level"]), gap=True, block=block)


def _plain_lines(text: str, start: int, end: int, block: int, gap: bool) -> list[Line]:
    lines: list[Line] = []
    position = start
    while position < end:
        stop = text.find("\n", position, end)
        stop = end if stop < 0 else stop
        content = text[position:stop]
        stripped = content.strip()
        if stripped.startswith("#") and _PLAIN_HEADING.match(stripped):
            block += 1
            lines.append(_heading_line(text, position, position + len(content.rstrip()), block))
            gap = True
        elif stripped:
            first = position + len(content) - len(content.lstrip())
            if gap:
                block += 1
            lines.append(Line(first, first + len(stripped), position, stop, gap=gap, block=block))
            gap = False
        else:
            gap = True
        position = stop + 1
    return lines


@cache
def _markdown():
    from markdown_it import MarkdownIt  # built only where the text is marked up

    parser = MarkdownIt("commonmark").enable("table").disable(["reference", "code"])
    parser.options["maxNesting"] = 12
    return parser


def _marked_lines(text: str, start: int) -> list[Line]:
    parser = _markdown()
    body = _ADORNED.sub(lambda found: found[1] + "=" * len(found[2]), text[start:])  # "~~~ Base ~~~" opens no fence
    tokens: list = []
    parser.block.parse(body.replace("\0", " "), parser, {}, tokens)
    starts = [start]
    found = text.find("\n", start)
    while found >= 0:
        starts.append(found + 1)
        found = text.find("\n", found + 1)
    starts.append(len(text) + 1)
    lines: list[Line] = []
    block = 0
    last_line = 0
    for token in tokens:
        if token.level or token.map is None or token.type.endswith("_close"):
            continue
        first, after = token.map
        after = min(after, len(starts) - 1)
        if first < last_line:
            first = last_line
        if first >= after:
            continue
        block += 1
        gap = first == 0 or not text[starts[first - 1] : starts[first] - 1].strip() or bool(lines and lines[-1].kind != "text")
        last_line = after
        raw_start, raw_end = starts[first], min(starts[after] - 1, len(text))
        while raw_end > raw_start and text[raw_end - 1] in " \t\n":
            raw_end -= 1
        if token.type == "heading_open":
            lines.extend(_heading(text, raw_start, raw_end, token, block, gap))
        elif token.type in ("paragraph_open", "bullet_list_open", "ordered_list_open", "blockquote_open"):
            lines.extend(_text_lines(text, starts[first:after], raw_end, token.type != "paragraph_open", block, gap))
        else:
            lines.append(Line(raw_start, raw_end, raw_start, raw_end, "kept", gap=True, block=block))
    return lines


def _heading(text: str, start: int, end: int, token, block: int, gap: bool) -> list[Line]:
    if token.markup.startswith("#"):
        return [_heading_line(text, start, end, block)]
    # A line of dashes under a paragraph: a heading only where the paragraph is one short line.
    under = text.rfind("\n", start, end)
    above = text[start:under]
    if "\n" not in above.strip() and len(above) <= 80:
        first = start + len(above) - len(above.lstrip())
        return [Line(first, first + len(above.strip()), start, end, "heading", int(token.tag[1]), gap=True, block=block)]
    lines = _plain_lines(text, start, under, block, gap)
    for line in lines:
        line.block = block
    return lines


def _text_lines(text: str, starts: list[int], end: int, listed: bool, block: int, gap: bool) -> list[Line]:
    lines: list[Line] = []
    for raw_start in starts:
        stop = text.find("\n", raw_start, end)
        stop = end if stop < 0 or stop > end else stop
        if raw_start > end:
            break
        content_end = stop
        while content_end > raw_start and text[content_end - 1] in " \t":
            content_end -= 1
        mark = ""
        first = raw_start
        if listed:
            found = _ITEM.match(text, raw_start, content_end)
            first = found.end()
            if found["bullet"]:
                mark = "*" if found["bullet"] == "*" else "-"
                if mark == "*":
                    first = found.start("bullet")
            elif found["number"]:
                mark, first = "1", found.start("number")
        else:
            while first < content_end and text[first] in " \t":
                first += 1
        if first >= content_end:
            gap = True
            continue
        lines.append(Line(first, content_end, raw_start, stop, mark=mark, gap=gap, block=block))
        gap = False
    return lines
