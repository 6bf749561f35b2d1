"""Reads the YAML head of a manuscript into a Head, and says of every key or value that it could not use what is meant and where.

Finding kinds: head-not-read (the YAML breaks off), head-key-unknown ("did you mean"), head-value (a value that is not of its kind),
head-twice (a key that stands twice).
"""

import re

from hookwright.ground import LOOK, MUST_MEND, NOTE, Finding, Span, Suggestion

from . import tree
from .head import Head, Measure, SizeFact
from .head_keys import ALSO, KEYS, SIZE_KEYS, nearest, sized_words
from .head_sizing import SUM
from .head_tree import Node, read_tree
from .head_values import ALSO_USES, LEVELS, OLD_LEVELS, USES, ease_shares, length_value, measure, number_per_size, size_from_words
from .head_yarn import HeadYarn
from .patterns import Lazy

_OPEN = Lazy(r"[\ufeff \n]*---[ \t]*(?:#[^\n]*)?\n")
_CLOSE = Lazy(r"^(?:---|\.\.\.)[ \t]*$", re.M)


def read_head(text: str, findings: list[Finding]) -> tuple[Head | None, int]:
    """(Head, offset where the body starts); (None, 0) where the text has none. `text` has plain line feeds."""
    opened = _OPEN.match(text)
    if not opened:
        return None, 0
    closed = _CLOSE.search(text, opened.end())
    if not closed:
        if not re.match(r"[ \t]*[A-Za-z][\w -]{0,30}:", text[opened.end() : opened.end() + 60]):
            return None, 0
        end = _end_of_open_head(text, opened.end())
        findings.append(
            Finding("head-not-read", MUST_MEND, "the head begins with `---` but no line of three dashes ends it; put one after its last key", Span(opened.start(), opened.end()))
        )
        body_start = end
    else:
        end, body_start = closed.start(), min(len(text), closed.end() + 1)
    reader = _HeadReader(text, findings)
    root = read_tree(text, opened.end(), end, findings)
    return reader.read(root), body_start


def head_end(text: str) -> int:
    """The offset where the body starts; 0 for a text without a head. `text` has plain line feeds."""
    opened = _OPEN.match(text)
    closed = opened and _CLOSE.search(text, opened.end())
    return closed.end() if closed else 0


_HEAD_LINE = Lazy(r"[ \t]*(?:[-#][ \t]|[A-Za-z][\w -]{0,30}:|[\]})])|[ \t]+\S")


def _end_of_open_head(text: str, start: int) -> int:
    """Where a head without its last line of dashes ends: at a blank line, a heading or a row."""
    from .labels import read_label

    position = start
    while position < len(text):
        stop = text.find("\n", position)
        stop = len(text) if stop < 0 else stop
        label = read_label(text, position, stop)
        if not _HEAD_LINE.match(text, position, stop) or (label and label.core and not label.bare and label.firm) or text.startswith("#", position):
            return position
        position = stop + 1
    return len(text)


def own_of_head(head: Head, work: str, lexicon, findings: list[Finding]) -> list[tree.OwnStitch]:
    """Her own stitches from the head's `stitches:`, read with the reader of the rows."""
    from .own_stitches import define

    made: list[tree.OwnStitch] = []
    for name, words in head.stitches.items():
        span = head.spans.get(f"stitches.{name}")
        if span is None or not words:
            continue
        label = re.fullmatch(r"\s*([^()]{1,60}?)\s*(?:\(([^()]{1,40})\))?\s*", name)
        known = lexicon.but(own={**lexicon.own, **{own.name: own for own in made}}) if made else lexicon
        own = define(label[1] if label else name, (label[2] or "") if label else "", work, span.start, span.end, known, "special stitches", findings)
        if own is not None:
            own.words = words
            made.append(own)
    return made


def _in_the_calendar(year: int, month: int, day: int) -> bool:
    """Whether there is such a day.

    >>> _in_the_calendar(2028, 2, 29), _in_the_calendar(2026, 2, 29), _in_the_calendar(2026, 13, 1)
    (True, False, False)
    """
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    days = (31, 28 + leap, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    return 1 <= month <= 12 and 1 <= day <= days[month - 1]


class _HeadReader(HeadYarn):
    """Turns the tree into a Head, key by key."""

    def read(self, root: Node | None) -> Head:
        head = self.head
        if root is None or (root.kind == "words" and not root.words.strip()):
            return head
        if root.kind != "map":
            self.refuse("the head", root, "lines such as `title: Skerry Hat`", whole=True)
            return head
        entries = self.entries(root, KEYS, ALSO, "", "the head")
        if "sizes" in entries:  # first: how many there are tells how to read every list
            self._sizes(entries["sizes"])
        for key in KEYS:
            if key in entries and key != "sizes":
                head.spans[key] = entries[key].span
                getattr(self, f"_{key}", self._words)(*((entries[key],) if hasattr(self, f"_{key}") else (key, entries[key])))
        return head

    # ------------------------------------------------------------ plain words

    def _words(self, key: str, node: Node) -> None:
        if node.kind != "words":
            self.refuse(key, node, "words on one line")
            return
        setattr(self.head, key, " ".join(node.words.split()) if key != "summary" else node.words.strip())

    def _date(self, node: Node) -> None:
        self._words("date", node)
        found = re.fullmatch(r"\s*(\d{4})-(\d{1,2})-(\d{1,2})\s*", node.words) if node.kind == "words" else None
        if found and not _in_the_calendar(*map(int, found.groups())):
            self.findings.append(Finding("head-value", LOOK, f"`date: {node.words.strip()}` is no day of the calendar; it is printed as it stands", node.span, found=node.words.strip()))

    def _terms(self, node: Node) -> None:
        words = node.words.strip().upper().replace(".", "") if node.kind == "words" else ""
        words = words.removesuffix("TERMS").removesuffix("TERMINOLOGY").strip()
        known = {"US": "US", "USA": "US", "AMERICAN": "US", "UK": "UK", "GB": "UK", "BRITISH": "UK", "AU": "UK", "AUSTRALIAN": "UK"}
        if words in known:
            self.head.terms = known[words]
        else:
            self.refuse("terms", node, "`US` or `UK`", known=("US", "UK"))

    def _level(self, node: Node) -> None:
        words = node.words.strip().lower() if node.kind == "words" else ""
        plain = OLD_LEVELS.get(words, words)
        if plain not in LEVELS:
            self.refuse("level", node, f"one of {', '.join(LEVELS)}", known=LEVELS, also=OLD_LEVELS)
            return
        self.head.level = plain

    def _materials(self, node: Node) -> None:
        self.head.materials = self.listed("materials", node)

    def _cautions(self, node: Node) -> None:
        if node.kind == "words":
            self.head.cautions = (node.words.strip(),) if node.words.strip() else ()
        else:
            self.head.cautions = self.listed("cautions", node)

    def _for(self, node: Node) -> None:
        uses = []
        for word in self.listed("for", node):
            use = ALSO_USES.get(word.lower(), word.lower())
            if use not in USES:
                meant = nearest(use, USES, ALSO_USES)
                use = meant or use
                says = f"did you mean `{meant}`? It is read as that" if meant else f"nothing is said for it. Known are {', '.join(USES)}"
                self.say(
                    Finding(
                        "head-value", LOOK if meant else NOTE, f"`for: {word[:40]}` is none that cautions are known for; {says}", node.span, found=word[:40], expected=meant or None,
                        suggestions=(Suggestion(f"write `{meant}`", "likely"),) if meant else (),
                    ),
                    "" if meant else "unknown use", f"`{word[:40]}`",
                )
            if use not in uses:
                uses.append(use)
        self.head.for_ = tuple(uses)

    # ------------------------------------------------------------ sizes, numbers, lengths

    def _sizes(self, node: Node) -> None:
        items = node.items if node.kind == "list" else [node]
        if node.kind == "words":
            items = [Node("words", node.span, part) for part in re.split(r"\s*[,;]\s*", re.sub(r"[()]", ",", node.words)) if part.strip()]
        elif node.kind == "map":
            self._size_map(node)
            return
        made: list[SizeFact] = []
        for item in items[:200]:
            if item.kind == "words" and item.words.strip():
                made.append(size_from_words(item.words))
            elif item.kind == "map":
                parts = self.entries(item, SIZE_KEYS, {"fits": "to fit", "fit": "to fit", "size": "name", "to_fit": "to fit"}, "", "a size")
                name = parts["name"].words.strip() if "name" in parts else ""
                fit = parts.get("to fit")
                value = length_value(fit.words) if fit is not None and fit.kind == "words" else None
                if fit is not None and value is None:
                    self.refuse("to fit", fit, "a length such as `38-42 cm`")
                if name:
                    made.append(SizeFact(name, value, fit.words.strip() if fit is not None and fit.kind == "words" else ""))
                else:
                    self.refuse("sizes", item, "a name for each size")
            else:
                self.refuse("sizes", item, "a list of names such as `[Baby, Child, Adult]`")
        seen: set[str] = set()
        for size in made:
            if size.name.lower() in seen:
                self.findings.append(Finding("head-twice", LOOK, f"the size `{size.name}` stands twice in `sizes`", node.span))
            seen.add(size.name.lower())
        self.head.sizes = tuple(made)

    def _size_map(self, node: Node) -> None:
        """sizes: {Baby: 38-42 cm, Child: 46-50 cm}."""
        made = []
        for key, value in node.entries:
            fit = length_value(value.words) if value.kind == "words" else None
            if value.kind == "words" and value.words.strip() and fit is None:
                self.refuse(key.words[:40], value, "a length such as `38-42 cm`")
            made.append(SizeFact(key.words.strip(), fit, value.words.strip() if value.kind == "words" else ""))
        self.head.sizes = tuple(made)

    def _named(self, key: str, node: Node):
        """(name, value) of a mapping of her own names."""
        if node.kind != "map":
            if node.kind == "words" and not node.words.strip():
                return
            self.refuse(key, node, f"names and values, one a line under `{key}:`")
            return
        for name, value in node.entries:
            if name.kind == "words" and name.words.strip():
                self.head.spans[f"{key}.{name.words.strip()}"] = value.span
                yield name, value

    def _finished(self, node: Node) -> None:
        if node.kind == "words" and (measure(node.words, len(self.head.sizes)) or SUM.fullmatch(node.words.strip()) and re.search(r"\b(?:stitch|row)\b", node.words)):
            node = Node("map", node.span, "", entries=[(Node("words", node.span, "size"), node)])
        for name, value in self._named("finished", node):
            words = sized_words(value)
            found = measure(words, len(self.head.sizes))
            if found is None and SUM.fullmatch(words) and re.search(r"[a-z]", words, re.I):
                self.head.finished_sums[name.words.strip()] = words
            elif found is None:
                self.refuse(name.words.strip()[:40], value, "a length for each size such as `44 (48, 54) cm`, or a sum such as `rows * row`")
            else:
                self.count_check(name.words.strip(), len(found.mm), value)
                self.head.finished[name.words.strip()] = found

    def _ease(self, node: Node) -> None:
        written = sized_words(node)
        self.head.ease_text = written
        if written == "0":
            self.head.ease = Measure(((0.0, 0.0),), written)
            return
        if shares := ease_shares(written):
            self.count_check("ease", len(shares), node)
            self.head.ease_share = shares
            return
        negative = re.match(r"[-−–](?=\s*[\d½¼])", written)
        words = re.sub(r"(?<=[(,\s])[-−–](?=[\d½¼])", "", written[negative.end() :]) if negative else written  # "-2 (-2, -3) cm", every one of them
        found = measure(words, len(self.head.sizes))
        if found is None:
            if not self.head.ease_text or re.search(r"\d", self.head.ease_text):
                self.refuse("ease", node, "a length such as `5 cm`, or `-2 cm` or `-5 %` for a close fit")
            return
        self.count_check("ease", len(found.mm), node)
        if negative:
            found = Measure(tuple(None if pair is None else (-pair[1], -pair[0]) for pair in found.mm), written)
        self.head.ease = found

    def _numbers(self, node: Node) -> None:
        others = frozenset(name.words.strip().lower() for name, _ in node.entries if name.kind == "words") if node.kind == "map" else frozenset()
        for name, value in self._named("numbers", node):
            found = number_per_size(value.words, len(self.head.sizes)) if value.kind == "words" else None
            word = name.words.strip()
            if value.kind == "list" and all(item.kind == "words" for item in value.items):
                found = number_per_size(f"({', '.join(item.words for item in value.items)})", len(self.head.sizes))
            if found is None and self.wish(word, value, others):
                continue
            if found is None:
                self.refuse(word[:40], value, "whole numbers, one for all sizes or one a size such as `8 (9, 10)`, or what is wanted of it such as `{want: head - 3 cm, count: rows}`", grade=MUST_MEND)
                continue
            if not re.fullmatch(r"[A-Za-z][\w -]{0,39}", word):
                self.refuse("numbers", name, "names of letters, so that `{name}` can be written in a row")
                continue
            if not isinstance(found, int):
                self.count_check(word, len(found), value, MUST_MEND)  # the rows hold it
            self.head.numbers[word] = found

    def _stitches(self, node: Node) -> None:
        for name, value in self._named("stitches", node):
            if value.kind != "words" or not value.words.strip():
                self.refuse(name.words.strip()[:40], value, "what the stitch is made of, such as `5 dc closed together in one stitch`")
                continue
            word = name.words.strip()[:60]
            self.head.stitches[word] = value.words.strip()
            start, end = value.span
            if not value.plain and self.text[start : start + 1] in "\"'" and self.text[end - 1 : end] in "\"'":
                self.head.spans[f"stitches.{word}"] = Span(start + 1, end - 1)
