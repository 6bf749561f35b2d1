"""Her prose on the page: Markdown into blocks, {names} filled in, words put into the terms of the sheet, and a list of what was changed."""

import re
from collections import Counter

from hookwright.stitches import dialect, translate_prose

from .both_units import both_units
from .document import Break, Change, Emphasis, Link, Listing, Note, Paragraph, Strong, Table, plain
from .measures import lengths
from .size_lists import size_list

_NAME = re.compile(r"\{ *([^{}\n]{1,60}?) *\}")
_POSTS = re.compile(r"(?<![\w-])(?:fp|bp)(?:htr|h?dc|d?tr|trtr|sc)(?:\d{1,2}tog)?(?![\w])", re.IGNORECASE)
_BULLETS = re.compile(r"^[ \t]*(?:[–—•·][ \t]*|-)(?=[^\s\-–—])", re.MULTILINE)  # "– hook 2.5 mm", "-marker": list marks that Markdown has not
_SAFE = re.compile(r"(?:https?://|mailto:)[^\s<>\"']+", re.IGNORECASE)


class ProseWriter:
    """Turns prose in the manuscript's terms into blocks in the sheet's terms; `changes` counts what was changed, part by part."""

    def __init__(self, source: str, target: str, values: dict, sizes: int = 1, keep=()):
        """keep: names whose words stay as they are, such as those of the sizes."""
        self.source, self.target = source, target
        self.keep = frozenset(word for name in keep for word in re.findall(r"[a-z]+", name.casefold()))
        self.values = {_key(name): value for name, value in values.items()}
        self.sizes = sizes
        self._changed: Counter = Counter()
        self._reader = None

    @property
    def changes(self) -> tuple[Change, ...]:
        """What was changed so far, in the order in which it was met."""
        return tuple(Change(part, was, now, times) for (part, was, now), times in self._changed.items())

    def line(self, text: str, part: str, *, in_brackets: bool = False) -> str:
        """One line of her words with no marks: a name, a caption, a material, a remark that will stand in brackets."""
        return self._text(" ".join(text.split()), part, in_brackets)

    def title(self, text: str) -> str:
        """A title: stitches in it go by the terms of the sheet, all else is the name of the thing and stays."""
        here = dialect(self.source)
        text = " ".join(self._fill(text).split())
        out, at = [], 0
        for change in translate_prose(text, self.source, self.target)[1]:
            if here.find(change.was) or here.find(change.was.removesuffix("s")):
                out += [text[at : change.at], change.now]
                at = change.at + len(change.was)
        return "".join([*out, text[at:]])

    def blocks(self, text: str, part: str, *, listed: bool = False) -> tuple:
        """A stretch of Markdown as blocks. HTML in it stays the text it is. listed: short lines one below the other are a list."""
        if self._reader is None:
            from markdown_it import MarkdownIt  # 40 ms, and only prose needs it

            self._reader = (
                MarkdownIt("commonmark", {"html": False, "maxNesting": 20}).enable("table").disable(["html_block", "html_inline"])
            )
        if len(_BULLETS.findall(text)) > 1:
            text = _BULLETS.sub("- ", text)
        return _Blocks(self._reader.parse(text), self, part, listed).all()

    def inlines(self, text: str, part: str) -> tuple:
        """One line of Markdown as inlines."""
        for block in self.blocks(text, part):
            if isinstance(block, Paragraph):
                return block.inlines
        return (self.line(text, part),)

    def _text(self, text: str, part: str, in_brackets: bool = False) -> str:
        text, changes = translate_prose(self._fill(text), self.source, self.target, keep=self.keep)
        for change in changes:
            self._changed[part, change.was, change.now] += 1
        return both_units(_POSTS.sub(self._post, text), in_brackets=in_brackets)

    def _post(self, found: re.Match) -> str:
        """A post stitch with the letters that the rows have: "FPdc" for "fpdc"."""
        id = dialect(self.target).find(found[0])
        return dialect(self.target).abbr(id) if id else found[0]

    def _fill(self, text: str) -> str:
        return _NAME.sub(self._value, text) if "{" in text else text

    def _value(self, found: re.Match) -> str:
        key = _key(found[1])
        return shown(self.values[key], self.sizes) if key in self.values else found[0]

_LONGEST_THING = 140  # letters of a line of materials with all that is said of the yarn
_GOES_ON = re.compile(r"\s*[a-z][\w'’-]*(?!\s*(?:[=:]|[–—-]\s))(?=[\s,.;)]|$)")


def _parted(inlines: tuple) -> list[tuple]:
    """Inlines cut at their breaks."""
    items: list[list] = [[]]
    for part in inlines:
        if isinstance(part, Break):
            items.append([])
        else:
            items[-1].append(part)
    return [tuple(item) for item in items if plain(tuple(item)).strip()]


def _key(name: str) -> str:
    return re.sub(r"[\s_-]+", " ", name).strip().casefold()


def shown(value, sizes: int) -> str:
    """A value as prose quotes it: a number per size, a measure in both units, or a text."""
    if hasattr(value, "at"):
        return lengths([value.at(size) for size in range(max(sizes, 1))])
    if isinstance(value, str):
        return value
    return size_list(value)


class _Blocks:
    """Walks the tokens of one stretch of Markdown."""

    def __init__(self, tokens, writer: ProseWriter, part: str, listed: bool = False):
        self.tokens, self.writer, self.part, self.listed, self.at = tokens, writer, part, listed, 0

    def all(self) -> tuple:
        return self._until(None)

    def _until(self, closing: str | None) -> tuple:
        out = []
        while self.at < len(self.tokens):
            token = self.tokens[self.at]
            self.at += 1
            if token.type == closing:
                break
            block = self._block(token)
            if block is not None:
                out.append(block)
        return tuple(out)

    def _block(self, token):
        kind = token.type
        if kind == "inline":
            lines = self._lines_apart(token)
            inlines = self._inlines(token, apart=lines)
            if lines and self.listed and not token.level > 1:
                return Listing(tuple((Paragraph(item),) for item in _parted(inlines)))
            return Paragraph(inlines) if plain(inlines).strip() else None
        if kind in ("fence", "code_block"):
            return Paragraph(tuple(self._lines(token.content)))
        if kind == "heading_open":
            inside = self._until("heading_close")
            return Paragraph((Strong(inside[0].inlines),)) if inside else None
        if kind in ("bullet_list_open", "ordered_list_open"):
            items = self._until(kind.replace("open", "close"))
            start = int(token.attrGet("start") or 1)
            return Listing(tuple(item.blocks for item in items), kind.startswith("ordered"), start)
        if kind == "list_item_open":
            return Note(self._until("list_item_close"))
        if kind == "blockquote_open":
            inside = self._until("blockquote_close")
            return Note(inside) if inside else None
        if kind == "table_open":
            return self._table()
        return None

    def _lines(self, content: str):
        for number, line in enumerate(content.strip("\n").split("\n")):
            if number:
                yield Break()
            yield self.writer._text(line, self.part)

    def _table(self) -> Table | None:
        rows: list[list] = []
        while self.at < len(self.tokens) and self.tokens[self.at].type != "table_close":
            token = self.tokens[self.at]
            self.at += 1
            if token.type == "tr_open":
                rows.append([])
            elif token.type == "inline" and rows:
                rows[-1].append(self._inlines(token))
        self.at += 1
        return Table("", tuple(plain(cell) for cell in rows[0]), tuple(map(tuple, rows[1:]))) if rows else None

    def _lines_apart(self, token) -> bool:
        """Whether her lines are each a thing of its own, and no sentence that was only broken to fit: short, and none begins small."""
        lines = token.content.split("\n")
        longest = max(map(len, lines))
        if len(lines) < 2 or longest > (_LONGEST_THING if self.listed else 60):
            return False
        if self.listed and longest > 60:
            return all(line.lstrip()[:1].isupper() or line.lstrip()[:1].isdigit() for line in lines[1:])
        return self.listed and longest <= 44 or not any(_GOES_ON.match(line) for line in lines[1:])

    def _inlines(self, token, apart: bool = False) -> tuple:
        stack: list[list] = [[]]
        opened: list = []
        for child in token.children or ():
            kind = child.type
            if kind in ("text", "code_inline"):
                if child.content:
                    stack[-1].append(self.writer._text(child.content, self.part))
            elif kind == "softbreak":
                stack[-1].append(Break() if apart else " ")
            elif kind == "hardbreak":
                stack[-1].append(Break())
            elif kind == "image":
                stack[-1].append(self.writer._text(child.content, self.part))
            elif kind in ("strong_open", "em_open", "link_open"):
                opened.append(child)
                stack.append([])
            elif kind in ("strong_close", "em_close", "link_close") and opened:
                opener, inside = opened.pop(), tuple(stack.pop())
                stack[-1].append(self._wrapped(opener, inside))
        while len(stack) > 1:
            inside = stack.pop()
            stack[-1].extend(inside)
        return tuple(stack[0])

    @staticmethod
    def _wrapped(opener, inside: tuple):
        if opener.type == "strong_open":
            return Strong(inside)
        if opener.type == "em_open":
            return Emphasis(inside)
        href = str(opener.attrGet("href") or "")
        return Link(href, inside) if _SAFE.fullmatch(href) and plain(inside).strip() else Emphasis(inside)
