"""The keys of the head that numbers are found from: swatches, body, and what is wanted of a number. Only read here; sums are done later."""

import re

from .head import Body, NumberWish, Swatch
from .head_keys import nearest, sized_words
from .head_parts import HeadParts, gauge_from_words
from .head_tree import Node
from .head_values import hook, length_value, measure, plain_number
from .patterns import Lazy

SWATCH_KEYS = ("of", "stitches", "width", "rows", "height", "over", "washed width", "washed height", "weight", "hook", "yarn")
SWATCH_ALSO = {"in": "of", "sts": "stitches", "rounds": "rows", "rnds": "rows", "name": "of", "pattern": "of", "blocked width": "washed width",
               "blocked height": "washed height", "grams": "weight", "wide": "width", "high": "height", "tall": "height", "measured over": "over"}
WISH_KEYS = ("want", "is", "count", "in", "fits", "multiple", "plus", "even", "odd", "at least", "at most", "same in", "grows", "within", "spread", "over", "step", "as")
WISH_ALSO = {"wanted": "want", "equals": "is", "counts": "count", "fabric": "in", "of": "in", "multiple of": "multiple", "tolerance": "within", "give or take": "within",
             "grows by": "grows", "minimum": "at least", "maximum": "at most", "called": "as", "printed as": "as", "same for": "same in"}
BODY_KEYS = ("from", "sizes", "stretch")
BODY_ALSO = {"table": "from", "size": "sizes", "stretches": "stretch"}
_SHARE = Lazy(r"\s*(\d{1,3}(?:[.,]\d+)?)\s*(?:%|per ?cent)\s*", re.I)
SUM = re.compile(r"[-+A-Za-z0-9( ]+[-+*/×÷−].*")
_NAME = re.compile(r"[A-Za-z][\w -]{0,39}")


class HeadSizing(HeadParts):
    """Reads swatches, bodies and wished numbers into the head."""

    def wish(self, name: str, node: Node, others: frozenset[str]) -> bool:
        """Takes `numbers: NAME: ...` as a wish; False where it is none. others: the names of all numbers, in small letters."""
        if not _NAME.fullmatch(name):
            return False
        if node.kind == "words" and (SUM.fullmatch(node.words.strip()) or node.words.strip().lower() in others):
            self.head.wishes[name] = NumberWish(name, follows=node.words.strip(), span=node.span)
            return True
        if node.kind != "map":
            return False
        made = NumberWish(name, span=node.span)
        for key, value in self.entries(node, WISH_KEYS, WISH_ALSO, f"numbers.{name}.", f"the number `{name}`").items():
            words = ", ".join(self.listed(key, value)) if key == "same in" and value.kind == "list" else sized_words(value)
            if not words:
                self.refuse(key, value, "words or a number on one line")
                continue
            made.keys[key], made.spans[key] = words, value.span
        self.head.wishes[name] = made
        return True

    def _swatches(self, node: Node) -> None:
        made = []
        for index, item in enumerate(node.items if node.kind == "list" else [node]):
            if item.kind == "words" and (said := gauge_from_words(item.words)):
                made.append(Swatch(said.in_, said.stitches, said.over_mm, said.rows, said.rows_over_mm if said.rows else None))
                continue
            if item.kind != "map":
                self.refuse("swatches", item, "keys such as of, stitches, width, rows, height, or words such as `32 sts and 30 rows over 20 cm in sc`")
                continue
            made.append(self._one_swatch(item, f"swatches.{index}."))
        self.head.swatches = tuple(made)

    def _one_swatch(self, node: Node, path: str) -> Swatch:
        parts = self.entries(node, SWATCH_KEYS, SWATCH_ALSO, path, "a swatch")
        swatch = Swatch()
        for key, value in parts.items():
            words = value.words.strip() if value.kind == "words" else ""
            if key in ("of", "yarn"):
                setattr(swatch, key, words)
            elif key == "hook":
                swatch.hook = hook(words)
            elif key in ("stitches", "rows", "weight"):
                number = plain_number(words)
                if number is None or not 0 < number < 10_000:
                    self.refuse(key, value, "a number such as `32`" if key != "weight" else "a weight such as `24 g`")
                    continue
                ounces = key == "weight" and re.search(r"\d\s*oz\b|ounce", words)
                setattr(swatch, "weight_g" if key == "weight" else key, number * (28.349523 if ounces else 1.0))  # avoirdupois ounce, 1959 agreement
            elif key == "over":
                if both := self.across_and_up(value):
                    swatch.width_mm, swatch.height_mm = swatch.width_mm or both[0], swatch.height_mm or both[1]
            else:
                length = length_value(words)
                if length is None or length[0] <= 0:
                    self.refuse(key, value, "a length with its unit such as `20.5 cm`")
                    continue
                setattr(swatch, key.replace(" ", "_") + "_mm", (length[0] + length[1]) / 2)
        return swatch

    def _body(self, node: Node) -> None:
        body = self.head.body = Body(span=node.span)
        if node.kind == "list" and len(node.items) == 1:
            node = node.items[0]
        if node.kind == "words":
            body.table = node.words.strip()
            return
        if node.kind != "map":
            self.refuse("body", node, "a table such as `women`, or measures such as `head: 40 (44, 48) cm`")
            return
        own = []
        for key, value in node.entries:
            word = " ".join(key.words.lower().replace("_", " ").split()) if key.kind == "words" else ""
            known = BODY_ALSO.get(word, word)
            if known in BODY_KEYS:
                if known == "from":
                    body.table = value.words.strip()
                elif known == "stretch":
                    share = _SHARE.fullmatch(value.words) if value.kind == "words" else None
                    if share is None or not 0 < float(share[1].replace(",", ".")) <= 100:
                        self.refuse("stretch", value, "how far the fabric stretches, up to twice its width, such as `15 %`")
                        continue
                    body.stretch = value.words.strip()
                else:
                    body.sizes = self.listed("sizes", value) if value.kind == "list" else tuple(
                        part.strip() for part in re.split(r"\s*,\s*", re.sub(r"[()]", ",", value.words)) if part.strip())
                self.head.spans[f"body.{known}"] = value.span
                continue
            own.append((key, word, value))
        for _, word, value in own:
            found = measure(sized_words(value), len(self.head.sizes))
            self.head.spans[f"body.{word}"] = value.span
            if not _NAME.fullmatch(word) or found is None:
                if nearest(word, BODY_KEYS, BODY_ALSO):
                    self._unknown(key, word, BODY_KEYS, BODY_ALSO, "`body`")
                else:
                    self.refuse(word[:40] or "body", value, "a length for each size such as `44 (48, 54) cm`")
                continue
            self.count_check(word, len(found.mm), value)
            body.measures[word] = found
