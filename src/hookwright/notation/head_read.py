"""Reads the YAML head of a manuscript into a Head, and says of every key or value that it could not use what is meant and where.

Finding kinds: head-not-read (the YAML breaks off), head-key-unknown ("did you mean"), head-value (a value that is not of its kind),
head-twice (a key that stands twice).
"""

import re

from hookwright.ground import LOOK, MUST_MEND, Finding, Span, Suggestion

from . import tree
from .head import Gauge, Head, Measure, Silence, SizeFact, Yarn
from .head_tree import Node, read_tree
from .head_values import LEVELS, OLD_LEVELS, hook, length_value, measure, number_per_size, plain_number, size_from_words, weight

_OPEN = re.compile(r"[\ufeff \n]*---[ \t]*(?:#[^\n]*)?\n")
_CLOSE = re.compile(r"^(?:---|\.\.\.)[ \t]*$", re.M)
KEYS = (
    "title", "designer", "terms", "summary", "version", "date", "copyright", "level", "sizes", "hook", "yarn", "materials", "gauge", "finished", "ease",
    "numbers", "stitches", "for", "cautions", "silence",
)
# Other words for the keys that are understood without a word about it.
ALSO = {
    "name": "title", "author": "designer", "by": "designer", "terminology": "terms", "hooks": "hook", "yarns": "yarn", "tension": "gauge", "size": "sizes",
    "materials needed": "materials", "notions": "materials", "skill level": "level", "difficulty": "level", "finished measurements": "finished",
    "finished size": "finished", "caution": "cautions", "special stitches": "stitches", "description": "summary", "about": "summary",
}
_YARN_KEYS = ("name", "weight", "fibre", "metres", "grams", "balls", "colours")
_YARN_ALSO = {"fiber": "fibre", "meters": "metres", "colors": "colours", "colour": "colours", "color": "colours", "yards": "metres", "ounces": "grams", "skeins": "balls", "yarn": "name"}
_GAUGE_KEYS = ("stitches", "rows", "over", "in", "blocked", "hook")
_GAUGE_ALSO = {"sts": "stitches", "rounds": "rows", "stitch": "in", "pattern": "in", "measured over": "over", "rnds": "rows"}
_SILENCE_KEYS = ("kind", "because", "rows")
_SIZE_KEYS = ("name", "to fit")


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


_HEAD_LINE = re.compile(r"[ \t]*(?:[-#][ \t]|[A-Za-z][\w -]{0,30}:|[\]})])|[ \t]+\S")


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


class _HeadReader:
    """Turns the tree into a Head, key by key."""

    def __init__(self, text: str, findings: list[Finding]):
        self.text = text
        self.findings = findings
        self.head = Head()

    def read(self, root: Node | None) -> Head:
        head = self.head
        if root is None or (root.kind == "words" and not root.words.strip()):
            return head
        if root.kind != "map":
            self._value("the head", root, "lines such as `title: Skerry Hat`", whole=True)
            return head
        entries = self._entries(root, KEYS, ALSO, "", "the head")
        if "sizes" in entries:  # first: how many there are tells how to read every list
            self._sizes(entries["sizes"])
        for key in KEYS:
            if key in entries and key != "sizes":
                head.spans[key] = entries[key].span
                getattr(self, f"_{key}", self._words)(*((entries[key],) if hasattr(self, f"_{key}") else (key, entries[key])))
        return head

    # ------------------------------------------------------------ the tree

    def _entries(self, node: Node, keys, also: dict, path: str, where: str) -> dict[str, Node]:
        found: dict[str, Node] = {}
        for key, value in node.entries:
            word = " ".join(key.words.lower().replace("_", " ").split()) if key.kind == "words" else ""
            name = word if word in keys else also.get(word, "")
            if not name:
                self._unknown(key, word, keys, also, where)
                continue
            if name in found:
                self.findings.append(Finding("head-twice", LOOK, f"`{name}` stands twice in {where}; the first is used. Take one of them out", key.span))
                continue
            found[name] = value
            self.head.spans.setdefault(f"{path}{name}", value.span)
            if word in ("yards", "ounces"):
                value.words += f" {word}"
        return found

    def _unknown(self, key: Node, word: str, keys, also: dict, where: str) -> None:
        from difflib import get_close_matches

        near = get_close_matches(word, [*keys, *also], n=1, cutoff=0.6) if 2 < len(word) < 60 else []
        meant = also.get(near[0], near[0]) if near else ""
        ask = f"; did you mean `{meant}`?" if meant else f". Known keys are {', '.join(keys)}"
        suggestions = (Suggestion(f"write `{meant}`", "likely", meant, key.span),) if meant else ()
        self.findings.append(
            Finding("head-key-unknown", LOOK, f"`{(key.words or 'a list')[:40]}` is no key of {where}{ask}", key.span, found=key.words[:40], expected=meant or None, suggestions=suggestions)
        )

    def _value(self, key: str, node: Node, wanted: str, whole: bool = False) -> None:
        written = self._written(node)
        says = f"{key} should hold {wanted}" if whole else f"`{key}: {written}` could not be used; `{key}` takes {wanted}"
        self.findings.append(Finding("head-value", LOOK, says, node.span, found=written))

    def _written(self, node: Node) -> str:
        words = node.words if node.kind == "words" else self.text[node.span.start : node.span.end]
        words = " ".join(words.split())
        return words if len(words) <= 50 else words[:47] + "..."

    # ------------------------------------------------------------ plain words

    def _words(self, key: str, node: Node) -> None:
        if node.kind != "words":
            self._value(key, node, "words on one line")
            return
        setattr(self.head, key, " ".join(node.words.split()) if key != "summary" else node.words.strip())

    def _list(self, key: str, node: Node) -> tuple[str, ...]:
        items = node.items if node.kind == "list" else [node]
        found = []
        for item in items:
            if item.kind == "words":
                found.extend([item.words.strip()] if node.kind == "list" else [part.strip() for part in re.split(r"\s*,\s*|\n", item.words)])
            elif item.kind == "map" and len(item.entries) == 1 and all(part.kind == "words" for part in item.entries[0]):
                found.append(f"{item.entries[0][0].words}: {item.entries[0][1].words}")  # "button: 22 mm" in a list
            else:
                self._value(key, item, "a list of words, one a line")
        return tuple(word for word in found if word)

    def _terms(self, node: Node) -> None:
        words = node.words.strip().upper().replace(".", "") if node.kind == "words" else ""
        words = words.removesuffix("TERMS").removesuffix("TERMINOLOGY").strip()
        known = {"US": "US", "USA": "US", "AMERICAN": "US", "UK": "UK", "GB": "UK", "BRITISH": "UK", "AU": "UK", "AUSTRALIAN": "UK"}
        if words in known:
            self.head.terms = known[words]
        else:
            self._value("terms", node, "`US` or `UK`")

    def _level(self, node: Node) -> None:
        words = node.words.strip().lower() if node.kind == "words" else ""
        plain = OLD_LEVELS.get(words, words)
        if plain not in LEVELS:
            self._value("level", node, f"one of {', '.join(LEVELS)}")
            return
        self.head.level = plain

    def _materials(self, node: Node) -> None:
        self.head.materials = self._list("materials", node)

    def _cautions(self, node: Node) -> None:
        if node.kind == "words":
            self.head.cautions = (node.words.strip(),) if node.words.strip() else ()
        else:
            self.head.cautions = self._list("cautions", node)

    def _for(self, node: Node) -> None:
        self.head.for_ = tuple(word.lower() for word in self._list("for", node))

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
                parts = self._entries(item, _SIZE_KEYS, {"fits": "to fit", "fit": "to fit", "size": "name", "to_fit": "to fit"}, "", "a size")
                name = parts["name"].words.strip() if "name" in parts else ""
                fit = parts.get("to fit")
                value = length_value(fit.words) if fit is not None and fit.kind == "words" else None
                if fit is not None and value is None:
                    self._value("to fit", fit, "a length such as `38-42 cm`")
                if name:
                    made.append(SizeFact(name, value, fit.words.strip() if fit is not None and fit.kind == "words" else ""))
                else:
                    self._value("sizes", item, "a name for each size")
            else:
                self._value("sizes", item, "a list of names such as `[Baby, Child, Adult]`")
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
                self._value(key.words[:40], value, "a length such as `38-42 cm`")
            made.append(SizeFact(key.words.strip(), fit, value.words.strip() if value.kind == "words" else ""))
        self.head.sizes = tuple(made)

    def _named(self, key: str, node: Node):
        """(name, value) of a mapping of her own names."""
        if node.kind != "map":
            if node.kind == "words" and not node.words.strip():
                return
            self._value(key, node, f"names and values, one a line under `{key}:`")
            return
        for name, value in node.entries:
            if name.kind == "words" and name.words.strip():
                self.head.spans[f"{key}.{name.words.strip()}"] = value.span
                yield name, value

    def _finished(self, node: Node) -> None:
        if node.kind == "words":
            found = measure(node.words, len(self.head.sizes))
            if found:
                self.head.finished["size"] = found
                return
        for name, value in self._named("finished", node):
            found = measure(value.words, len(self.head.sizes)) if value.kind == "words" else None
            if found is None:
                self._value(name.words.strip()[:40], value, "a length for each size such as `44 (48, 54) cm`")
            else:
                self._count_check(name.words.strip(), len(found.mm), value)
                self.head.finished[name.words.strip()] = found

    def _ease(self, node: Node) -> None:
        self.head.ease_text = node.words.strip() if node.kind == "words" else ""
        negative = re.match(r"\s*[-−–](?=\s*[\d½¼])", node.words) if node.kind == "words" else None
        words = node.words[negative.end() :] if negative else node.words
        found = measure(words, len(self.head.sizes)) if node.kind == "words" else None
        if found is None:
            if not self.head.ease_text or re.search(r"\d", self.head.ease_text):
                self._value("ease", node, "a length such as `5 cm`, or `-2 cm` for a close fit")
            return
        if negative:
            found = Measure(tuple(None if pair is None else (-pair[1], -pair[0]) for pair in found.mm), node.words.strip())
        self.head.ease = found

    def _numbers(self, node: Node) -> None:
        for name, value in self._named("numbers", node):
            found = number_per_size(value.words, len(self.head.sizes)) if value.kind == "words" else None
            word = name.words.strip()
            if value.kind == "list" and all(item.kind == "words" for item in value.items):
                found = number_per_size(f"({', '.join(item.words for item in value.items)})", len(self.head.sizes))
            if found is None:
                self._value(word[:40], value, "whole numbers, one for all sizes or one a size such as `8 (9, 10)`")
                continue
            if not re.fullmatch(r"[A-Za-z][\w -]{0,39}", word):
                self._value("numbers", name, "names of letters, so that `{name}` can be written in a row")
                continue
            if not isinstance(found, int):
                self._count_check(word, len(found), value)
            self.head.numbers[word] = found

    def _count_check(self, name: str, number: int, node: Node) -> None:
        sizes = len(self.head.sizes)
        if number > 1 and sizes and number != sizes:
            self.findings.append(
                Finding(
                    "head-value", LOOK, f"`{name}` has {number} values for {sizes} size{'s' if sizes != 1 else ''}; give one value a size, or one for all", node.span,
                    expected=sizes, found=number,
                )
            )

    def _stitches(self, node: Node) -> None:
        for name, value in self._named("stitches", node):
            if value.kind != "words" or not value.words.strip():
                self._value(name.words.strip()[:40], value, "what the stitch is made of, such as `5 dc closed together in one stitch`")
                continue
            word = name.words.strip()[:60]
            self.head.stitches[word] = value.words.strip()
            start, end = value.span
            if not value.plain and self.text[start : start + 1] in "\"'" and self.text[end - 1 : end] in "\"'":
                self.head.spans[f"stitches.{word}"] = Span(start + 1, end - 1)

    # ------------------------------------------------------------ hook, yarn, gauge, silence

    def _hook(self, node: Node) -> None:
        items = node.items if node.kind == "list" else [node]
        if node.kind == "words":
            items = [Node("words", node.span, part) for part in re.split(r"\s+and\s+|\s*[,;]\s*(?=\d)", node.words) if part.strip()]
        made = []
        for item in items:
            if item.kind != "words":
                self._value("hook", item, "a size in mm such as `5 mm`")
                continue
            found = hook(item.words)
            if found.mm is None:
                self._value("hook", item, "a size in mm such as `5 mm (US H-8)`")
            made.append(found)
        self.head.hook = tuple(made)

    def _yarn(self, node: Node) -> None:
        made = []
        for index, item in enumerate(node.items if node.kind == "list" else [node]):
            if item.kind == "words":
                if item.words.strip():
                    made.append(Yarn(item.words.strip()))
                continue
            if item.kind != "map":
                self._value("yarn", item, "a name, or keys such as name, weight, metres, grams, balls")
                continue
            made.append(self._one_yarn(item, f"yarn.{index}."))
        self.head.yarn = tuple(made)

    def _one_yarn(self, node: Node, path: str) -> Yarn:
        parts = self._entries(node, _YARN_KEYS, _YARN_ALSO, path, "a yarn")
        yarn = Yarn()
        for key in ("name", "fibre"):
            if key in parts:
                setattr(yarn, key, parts[key].words.strip() if parts[key].kind == "words" else "")
        if "weight" in parts:
            yarn.weight = weight(parts["weight"].words) if parts["weight"].kind == "words" else None
            if yarn.weight is None:
                self._value("weight", parts["weight"], "a category from 0 to 7, or its word such as `worsted`")
        for key, scale_word, scale in (("metres", "y", 0.9144), ("grams", "o", 28.349523)):  # international yard and avoirdupois ounce, 1959 agreement
            if key in parts:
                words = parts[key].words if parts[key].kind == "words" else ""
                value = plain_number(words)
                if value is None or value <= 0:
                    self._value(key, parts[key], f"a number, the {key} of one ball")
                    continue
                if re.search(rf"\d\s*{scale_word}", words, re.I):
                    value *= scale
                setattr(yarn, key, round(value, 3))
        if "balls" in parts:
            words = parts["balls"].words if parts["balls"].kind == "words" else ""
            yarn.balls = number_per_size(re.sub(r"\s*(?:balls?|skeins?)\s*$", "", words), len(self.head.sizes))
            if yarn.balls is None:
                self._value("balls", parts["balls"], "how many, one number or one a size such as `1 (2, 2)`")
            elif not isinstance(yarn.balls, int):
                self._count_check("balls", len(yarn.balls), parts["balls"])
        if "colours" in parts:
            yarn.colours = self._colours(parts["colours"])
        return yarn

    def _colours(self, node: Node) -> dict[str, str]:
        if node.kind == "map":
            return {key.words.strip(): value.words.strip() if value.kind == "words" else "" for key, value in node.entries if key.words.strip()}
        return {word: "" for word in self._list("colours", node)}

    def _gauge(self, node: Node) -> None:
        made = []
        for index, item in enumerate(node.items if node.kind == "list" else [node]):
            if item.kind == "map":
                made.append(self._one_gauge(item, f"gauge.{index}."))
            elif item.kind == "words":
                found = _gauge_from_words(item.words)
                if found is None:
                    self._value("gauge", item, "stitches, rows and what they are measured over, such as `14 sts and 17 rows over 10 cm in sc`")
                else:
                    made.append(found)
            else:
                self._value("gauge", item, "keys such as stitches, rows, over, in")
        self.head.gauge = tuple(made)

    def _one_gauge(self, node: Node, path: str) -> Gauge:
        parts = self._entries(node, _GAUGE_KEYS, _GAUGE_ALSO, path, "a gauge")
        gauge = Gauge()
        for key in ("stitches", "rows"):
            if key in parts:
                value = plain_number(parts[key].words) if parts[key].kind == "words" else None
                if value is None or not 0 < value < 1000:
                    self._value(key, parts[key], "a number such as `14` or `14.5`")
                else:
                    setattr(gauge, key, value)
        if "over" in parts:
            words = parts["over"].words if parts["over"].kind == "words" else ""
            across, _, up = words.partition(" x ") if " x " in words else words.partition(" by ")
            value = length_value(across) or length_value(f"{across} {re.sub(r'[^a-z]', '', up)}" if up else across)
            if value is None or value[0] <= 0:
                self._value("over", parts["over"], "a length such as `10 cm` or `4 in`")
            else:
                gauge.over_mm = gauge.rows_over_mm = value[0]
                upward = length_value(up) if up else None
                if upward and upward[0] > 0:
                    gauge.rows_over_mm = upward[0]
        if "in" in parts:
            gauge.in_ = parts["in"].words.strip() if parts["in"].kind == "words" else ""
        if "blocked" in parts:
            gauge.blocked = {"true": True, "yes": True, "false": False, "no": False}.get(parts["blocked"].words.strip().lower())
            if gauge.blocked is None:
                self._value("blocked", parts["blocked"], "`true` or `false`")
        if "hook" in parts and parts["hook"].kind == "words":
            gauge.hook = hook(parts["hook"].words)
        return gauge

    def _silence(self, node: Node) -> None:
        made = []
        for item in node.items if node.kind == "list" else [node]:
            if item.kind == "words":
                if item.words.strip():
                    self.findings.append(
                        Finding("head-value", LOOK, f"`silence` needs a reason: write `{{kind: {item.words.strip()[:40]}, because: \"...\"}}`", item.span)
                    )
                continue
            if item.kind != "map":
                self._value("silence", item, "a kind and a reason such as `{kind: size-list-outlier, because: \"...\"}`")
                continue
            parts = self._entries(item, _SILENCE_KEYS, {"reason": "because", "row": "rows", "why": "because"}, "", "a silence")
            kind = parts["kind"].words.strip() if "kind" in parts else ""
            because = parts["because"].words.strip() if "because" in parts and parts["because"].kind == "words" else ""
            if not kind or not because:
                missing = "which kind of finding" if not kind else "a reason after `because:`"
                self.findings.append(Finding("head-value", LOOK, f"`silence` needs {missing}, so that the finding can be let stand", item.span))
            if kind and because:
                rows = self._list("rows", parts["rows"]) if "rows" in parts else ()
                made.append(Silence(kind, because, rows, item.span))
        self.head.silence = tuple(made)


_GAUGE_WORDS = re.compile(
    r"\s*(?P<stitches>[\d½¼¾./ ]{1,8}?)\s*(?P<in1>[a-z][a-z ]{0,20}?)?\s*(?:sts?|stitches)?\s*(?:,|and|&|x|by|/)\s*(?P<rows>[\d½¼¾./ ]{1,8}?)\s*(?:rows?|rounds?|rnds?)(?:\s+(?:in|of)\s+(?P<in2>[a-z][\w ]{0,40}?))?\s*(?:=|over|to|per|make|measure|in)\s*(?P<over>.{2,40}?)(?:\s+(?:in|of|over)\s+(?P<in3>[a-z][\w ]{0,60}))?\s*",
    re.I,
)


def _gauge_from_words(words: str) -> Gauge | None:
    """ "14 sts and 17 rows over 10 cm in sc"."""
    found = _GAUGE_WORDS.fullmatch(words.strip(" ."))
    if not found:
        return None
    stitches, rows, over = plain_number(found["stitches"]), plain_number(found["rows"]), length_value(found["over"])
    if not stitches or not rows or not over or over[0] <= 0:
        return None
    named = next((found[key].strip() for key in ("in3", "in2", "in1") if found[key] and found[key].strip().lower() not in ("st", "sts", "stitches")), "")
    return Gauge(stitches, rows, over[0], over[0], named)
