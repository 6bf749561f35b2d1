"""The parts of the head that have keys of their own: hooks, yarns, gauges, silences."""

import re

from hookwright.ground import LOOK, NOTE, Finding, Suggestion

from .head import Gauge, Silence, Yarn
from .head_keys import GAUGE_ALSO, GAUGE_KEYS, SILENCE_KEYS, YARN_ALSO, YARN_KEYS, HeadKeys
from .head_tree import Node
from .head_values import WEIGHTS, hook, length_value, number_per_size, plain_number, weight
from .patterns import Lazy


class HeadParts(HeadKeys):
    """Reads hooks, yarns, gauges and silences into the head."""

    def _hook(self, node: Node) -> None:
        items = node.items if node.kind == "list" else [node]
        if node.kind == "words":
            items = [Node("words", node.span, part) for part in re.split(r"\s+and\s+|\s*;\s*(?=\d)|,\s+(?=\d)|(?<!\d),(?=\d)", node.words) if part.strip()]
        made = []
        for item in items:
            if item.kind != "words":
                self.refuse("hook", item, "a size in mm such as `5 mm`")
                continue
            found = hook(item.words)
            if found.mm is None:
                self.refuse("hook", item, "a size in mm such as `5 mm (US H-8)`")
            elif found.mm_assumed:
                self.findings.append(
                    Finding(
                        "head-value", NOTE, f"`hook: {item.words.strip()}` is taken as {found.text}; write the unit, since US and UK numbers of hooks are others",
                        item.span, found=item.words.strip(), expected=found.text, suggestions=(Suggestion(f"write `{found.text}`", "likely", found.text, item.span),),
                    )
                )
            made.append(found)
        self.head.hook = tuple(made)

    def _yarn(self, node: Node) -> None:
        made = []
        for index, item in enumerate(node.items if node.kind == "list" else [node]):
            if item.kind == "words":
                word = item.words.strip()
                if word:  # a word of the weights alone is the weight and no name
                    made.append(Yarn(weight=WEIGHTS[word.lower()]) if word.lower() in WEIGHTS else Yarn(word))
                continue
            if item.kind != "map":
                self.refuse("yarn", item, "a name, or keys such as name, weight, metres, grams, balls")
                continue
            made.append(self._one_yarn(item, f"yarn.{index}."))
        self.head.yarn = tuple(made)

    def _one_yarn(self, node: Node, path: str) -> Yarn:
        parts = self.entries(node, YARN_KEYS, YARN_ALSO, path, "a yarn")
        yarn = Yarn()
        for key in ("name", "fibre"):
            if key in parts:
                setattr(yarn, key, parts[key].words.strip() if parts[key].kind == "words" else "")
        if "weight" in parts:
            yarn.weight = weight(parts["weight"].words) if parts["weight"].kind == "words" else None
            if yarn.weight is None:
                self.refuse("weight", parts["weight"], "a category from 0 to 7, or its word such as `worsted`", known=tuple(WEIGHTS))
        for key, scale_word, scale in (("metres", "y", 0.9144), ("grams", "o", 28.349523)):  # international yard and avoirdupois ounce, 1959 agreement
            if key in parts:
                words = parts[key].words if parts[key].kind == "words" else ""
                value = plain_number(words)
                if value is None or value <= 0:
                    self.refuse(key, parts[key], f"a number, the {key} of one ball")
                    continue
                if re.search(rf"\d\s*{scale_word}", words, re.I):
                    value *= scale
                setattr(yarn, key, round(value, 3))
        if "balls" in parts:
            words = parts["balls"].words if parts["balls"].kind == "words" else ""
            yarn.balls = number_per_size(re.sub(r"\s*(?:balls?|skeins?)\s*$", "", words), len(self.head.sizes))
            if yarn.balls is None:
                self.refuse("balls", parts["balls"], "how many, one number or one a size such as `1 (2, 2)`")
            elif not isinstance(yarn.balls, int):
                self.count_check("balls", len(yarn.balls), parts["balls"])
        if "colours" in parts:
            yarn.colours = self._colours(parts["colours"])
        if "strands" in parts:
            value = plain_number(parts["strands"].words) if parts["strands"].kind == "words" else None
            if value is None or value != int(value) or not 1 <= value <= 20:
                self.refuse("strands", parts["strands"], "how many strands are held together, such as `2`")
            else:
                yarn.strands = int(value)
        if "price" in parts:
            words = parts["price"].words if parts["price"].kind == "words" else ""
            found = _PRICE.search(words)
            if found is None:
                self.refuse("price", parts["price"], "the price of one ball such as `6.50 EUR`")
            else:
                yarn.price, yarn.coin = float(found[0].replace(",", ".")), " ".join((words[: found.start()] + words[found.end() :]).split())[:12]
        return yarn

    def _colours(self, node: Node) -> dict[str, str]:
        if node.kind == "map":
            return {key.words.strip(): value.words.strip() if value.kind == "words" else "" for key, value in node.entries if key.words.strip()}
        return dict.fromkeys(self.listed("colours", node), "")

    def _gauge(self, node: Node) -> None:
        made = []
        for index, item in enumerate(node.items if node.kind == "list" else [node]):
            if item.kind == "map":
                made.append(self._one_gauge(item, f"gauge.{index}."))
            elif item.kind == "words":
                found = gauge_from_words(item.words)
                if found is None:
                    self.refuse("gauge", item, "stitches, rows and what they are measured over, such as `14 sts and 17 rows over 10 cm in sc`")
                else:
                    made.append(found)
            else:
                self.refuse("gauge", item, "keys such as stitches, rows, over, in")
        self.head.gauge = tuple(made)

    def _one_gauge(self, node: Node, path: str) -> Gauge:
        parts = self.entries(node, GAUGE_KEYS, GAUGE_ALSO, path, "a gauge")
        gauge = Gauge()
        for key in ("stitches", "rows"):
            if key in parts:
                value = plain_number(parts[key].words) if parts[key].kind == "words" else None
                if value is None or not 0 < value < 1000:
                    self.refuse(key, parts[key], "a number such as `14` or `14.5`")
                else:
                    setattr(gauge, key, value)
        if "over" in parts and (both := self.across_and_up(parts["over"])):
            gauge.over_mm, gauge.rows_over_mm = both
        if "in" in parts:
            gauge.in_ = parts["in"].words.strip() if parts["in"].kind == "words" else ""
        if "blocked" in parts:
            gauge.blocked = {"true": True, "yes": True, "false": False, "no": False}.get(parts["blocked"].words.strip().lower())
            if gauge.blocked is None:
                self.refuse("blocked", parts["blocked"], "`true` or `false`")
        if "hook" in parts and parts["hook"].kind == "words":
            gauge.hook = hook(parts["hook"].words)
        return gauge

    def across_and_up(self, node: Node) -> tuple[float, float] | None:
        """Width and height in mm of what is counted over: `10 cm`, `4 x 5 in`; None, with a finding, for what is no length."""
        words = node.words if node.kind == "words" else ""
        across, _, up = words.partition(" x ") if " x " in words else words.partition(" by ")
        value = length_value(across) or length_value(f"{across} {re.sub(r'[^a-z]', '', up)}" if up else across)
        if value is None or value[0] <= 0:
            self.refuse("over", node, "a length with its unit such as `10 cm` or `4 in`")
            return None
        upward = length_value(up) if up else None
        return value[0], upward[0] if upward and upward[0] > 0 else value[0]

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
                self.refuse("silence", item, "a kind and a reason such as `{kind: size-list-outlier, because: \"...\"}`")
                continue
            parts = self.entries(item, SILENCE_KEYS, {"reason": "because", "row": "rows", "why": "because"}, "", "a silence")
            kind = parts["kind"].words.strip() if "kind" in parts else ""
            because = parts["because"].words.strip() if "because" in parts and parts["because"].kind == "words" else ""
            if not kind or not because:
                missing = "which kind of finding" if not kind else "a reason after `because:`"
                self.findings.append(Finding("head-value", LOOK, f"`silence` needs {missing}, so that the finding can be let stand", item.span))
            if kind and because:
                rows = self.listed("rows", parts["rows"]) if "rows" in parts else ()
                made.append(Silence(kind, because, rows, item.span))
        self.head.silence = tuple(made)

    def count_check(self, name: str, number: int, node: Node, grade: str = LOOK) -> None:
        sizes = len(self.head.sizes)
        if number > 1 and sizes and number != sizes:
            self.findings.append(
                Finding(
                    "head-value", grade, f"`{name}` has {number} values for {sizes} size{'s' if sizes != 1 else ''}; give one value a size, or one for all", node.span,
                    expected=sizes, found=number,
                )
            )


_PRICE = Lazy(r"\d{1,6}(?:[.,]\d{1,2})?")
_GAUGE_WORDS = Lazy(
    r"\s*(?P<stitches>[\d½¼¾./ ]{1,8}?)\s*(?P<in1>[a-z][a-z ]{0,20}?)?\s*(?:sts?|stitches)?\s*(?:,|and|&|x|by|/)\s*(?P<rows>[\d½¼¾./ ]{1,8}?)\s*(?:rows?|rounds?|rnds?)(?:\s+(?:in|of)\s+(?P<in2>[a-z][\w ]{0,40}?))?\s*(?:=|over|to|per|(?:makes?|measures?|equals?|is|are|in)(?:\s+(?:about|approx(?:imately|\.)?))?|in)\s*(?P<over>.{2,40}?)(?:\s+(?:in|of|over)\s+(?P<in3>[a-z][\w ]{0,60}))?\s*",
    re.I,
)

_GAUGE_ACROSS = Lazy(
    r"\s*(?P<stitches>[\d½¼¾./ ]{1,8}?)\s*(?P<in1>[a-z][a-z ]{0,20}?)?\s*(?:sts?|stitches)\s*(?:=|over|to|per|(?:makes?|measures?|equals?|is|are|in)(?:\s+(?:about|approx(?:imately|\.)?))?|in)\s*(?P<over>.{2,40}?)(?:\s+(?:in|of|over)\s+(?P<in3>[a-z][\w ]{0,60}))?\s*", re.I
)
_LENGTH = r"[\d.½¼¾]{1,6}\s*(?:cms?|in(?:ch(?:es)?)?|ins|\"|mm)"
_SQUARE = Lazy(rf"(?:an?\s+)?(?:[\d.½¼¾]{{1,6}}\s*(?:cms?|in(?:ch(?:es)?)?|ins|\"|mm)?\s*(?:x|×|by)\s*(?P<side>{_LENGTH}))(?:\s*[\[(/][^\])]{{3,30}}[\])]?)?|(?P<article>\ba\s+)(?={_LENGTH})", re.I)
_OVER_FIRST = Lazy(rf"\s*{_LENGTH}\s*(?:[\[(/]\s*{_LENGTH}\s*[\])]?)?\s*=", re.I)


def gauge_from_words(words: str) -> Gauge | None:
    """ "14 sts and 17 rows over 10 cm in sc"; "14 sts to 10 cm" tells of no rows."""
    words = _SQUARE.sub(r"\g<side>", words.strip(" ."))
    if "=" in words and _OVER_FIRST.match(words):  # "4 in = 14 sts and 8 rows"
        over, _, rest = words.partition("=")
        words = f"{rest} = {over}"
    found = _GAUGE_WORDS.fullmatch(words) or _GAUGE_ACROSS.fullmatch(words)
    if not found:
        return None
    parts = found.groupdict()
    stitches, rows, over = plain_number(found["stitches"]), plain_number(parts.get("rows") or ""), length_value(found["over"])
    if not stitches or ("rows" in parts and not rows) or not over or over[0] <= 0:
        return None
    named = next((parts[key].strip() for key in ("in3", "in2", "in1") if parts.get(key) and parts[key].strip().lower() not in ("st", "sts", "stitches")), "")
    return Gauge(stitches, rows, over[0], over[0], named)


_GAUGE_SAID = Lazy(r"\s*(?:my |the )?(?:gauge|tension)\s*(?:is\b|:|=|-|\n|$)\s*", re.I)


def gauge_of_prose(pattern) -> Gauge | None:
    """The first gauge that the prose states: under a heading of its own, or in a line that begins with the word ("Gauge: 14 sts and 17 rows = 4 in")."""
    for piece in pattern.pieces:
        for item in piece.items:
            text = getattr(item, "text", "")
            said = _GAUGE_SAID.match(text) if text else None
            if not text or not (said or piece.section == "gauge"):
                continue
            for sentence in re.split(r"[.;](?:\s|$)|\n|,? (?:with|using|after|on) ", text[said.end() if said else 0 :][:2000]):
                found = gauge_from_words(re.sub(r"^\s*in ([a-z ]{2,30}),\s*", "", sentence, flags=re.I))
                if found is not None:
                    return found
    return None
