"""Keys of the head: which there are, and what is said of one that is not known or of a value that is of another kind."""

import re

from hookwright.ground import LOOK, Finding, Suggestion

from .head import Head
from .head_tree import Node

KEYS = (
    "title", "designer", "terms", "summary", "version", "date", "copyright", "level", "sizes", "hook", "yarn", "materials", "gauge", "swatches", "weighed", "extras", "speed", "body", "finished", "ease",
    "numbers", "stitches", "for", "cautions", "silence",
)
# Other words for the keys that are understood without a word about it.
ALSO = {
    "name": "title", "author": "designer", "by": "designer", "terminology": "terms", "hooks": "hook", "yarns": "yarn", "tension": "gauge", "size": "sizes",
    "materials needed": "materials", "notions": "materials", "skill level": "level", "difficulty": "level", "finished measurements": "finished",
    "finished size": "finished", "caution": "cautions", "special stitches": "stitches", "description": "summary", "about": "summary",
    "swatch": "swatches", "bodies": "body", "measurements": "body",
}
YARN_KEYS = ("name", "weight", "fibre", "metres", "grams", "balls", "colours", "strands", "price")
YARN_ALSO = {"fiber": "fibre", "meters": "metres", "colors": "colours", "colour": "colours", "color": "colours", "yards": "metres", "ounces": "grams", "skeins": "balls", "yarn": "name",
             "held together": "strands", "held": "strands", "cost": "price"}
GAUGE_KEYS = ("stitches", "rows", "over", "in", "blocked", "hook")
GAUGE_ALSO = {"sts": "stitches", "rounds": "rows", "stitch": "in", "pattern": "in", "measured over": "over", "rnds": "rows"}
SILENCE_KEYS = ("kind", "because", "rows")
SIZE_KEYS = ("name", "to fit")


def nearest(word: str, known, also: dict) -> str:
    """The known word that is close to this one, by itself or by another word for it; "" where none is."""
    from difflib import get_close_matches

    near = get_close_matches(word, [*known, *also], n=1, cutoff=0.6) if 2 < len(word) < 60 else []
    return also.get(near[0], near[0]) if near else ""


def sized_words(node: Node) -> str:
    """The words of a value that may be one a size: a list `[80 cm, 90 cm]` as "80 cm (90 cm)"; "" where it is neither words nor such a list."""
    if node.kind == "words":
        return node.words.strip()
    if node.kind != "list" or not node.items or any(item.kind != "words" for item in node.items):
        return ""
    first, *rest = (item.words.strip() for item in node.items)
    return f"{first} ({', '.join(rest)})" if rest else first


class HeadKeys:
    """Reads keys and lists of a node, and says what is unknown or of the wrong kind."""

    def __init__(self, text: str, findings: list[Finding]):
        self.text = text
        self.findings = findings
        self.head = Head()
        self.told: dict[str, int] = {}  # reason -> the finding that others of the same reason are folded into

    def say(self, finding: Finding, reason: str = "", echo: str = "") -> None:
        """Reports it; where the same `reason` was reported before, only as an echo of that."""
        at = self.told.get(reason) if reason else None
        if at is not None:
            self.findings[at] = self.findings[at].but(echoes=(*self.findings[at].echoes, echo))
            return
        if reason:
            self.told[reason] = len(self.findings)
        self.findings.append(finding)

    def entries(self, node: Node, keys, also: dict, path: str, where: str) -> dict[str, Node]:
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
        meant = nearest(word, keys, also)
        under = next((f"{name}:" for name, part in (("yarn", YARN_KEYS), ("gauge", GAUGE_KEYS)) if word in part), "") if where == "the head" else ""
        meant = "" if under else meant
        ask = f"; it belongs under `{under}`" if under else f"; did you mean `{meant}`?" if meant else f". Known keys are {', '.join(keys)}"
        suggestions = (Suggestion(f"write `{meant}`", "likely", meant, key.span),) if meant else ()
        self.say(
            Finding("head-key-unknown", LOOK, f"`{(key.words or 'a list')[:40]}` is no key of {where}{ask}", key.span, found=key.words[:40], expected=meant or None, suggestions=suggestions),
            "" if meant or under else f"no key of {where}", f"`{(key.words or 'a list')[:40]}`",
        )

    def refuse(self, key: str, node: Node, wanted: str, whole: bool = False, known: tuple = (), also: dict | None = None, grade: str = LOOK) -> None:
        """Says that a value can't be used and what the key takes; with the words it `known`s, which of them may be meant."""
        written = self._written(node)
        says = f"{key} should hold {wanted}" if whole else f"`{key}: {written}` could not be used; `{key}` takes {wanted}"
        meant = nearest(written.lower(), known, also or {}) if known else ""
        if meant:
            says += f"; did you mean `{meant}`?"
        suggestions = (Suggestion(f"write `{meant}`", "likely", meant, node.span),) if meant else ()
        self.say(Finding("head-value", grade, says, node.span, found=written, suggestions=suggestions), f"{key}: {wanted}", f"`{written}`")

    def _written(self, node: Node) -> str:
        words = node.words if node.kind == "words" else self.text[node.span.start : node.span.end]
        words = " ".join(words.split())
        return words if len(words) <= 50 else words[:47] + "..."

    def listed(self, key: str, node: Node) -> tuple[str, ...]:
        items = node.items if node.kind == "list" else [node]
        found = []
        for item in items:
            if item.kind == "words":
                found.extend([item.words.strip()] if node.kind == "list" else [part.strip() for part in re.split(r"\s*,\s*|\n", item.words)])
            elif item.kind == "map" and len(item.entries) == 1 and all(part.kind == "words" for part in item.entries[0]):
                found.append(f"{item.entries[0][0].words}: {item.entries[0][1].words}")  # "button: 22 mm" in a list
            else:
                self.refuse(key, item, "a list of words, one a line")
        return tuple(word for word in found if word)
