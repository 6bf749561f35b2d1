"""The keys of the head that the yarn is reckoned from: weighed pieces, yarn beside the rows, speed. Only read here."""

import re

from .head import Extra, Weighed
from .head_sizing import HeadSizing
from .head_tree import Node
from .head_values import measure, number_per_size, plain_number

WEIGHED_KEYS = ("size", "weight", "colour")
WEIGHED_ALSO = {"grams": "weight", "color": "colour", "of": "size"}
EXTRAS = ("pompoms", "fringe", "seams", "ends", "border")
EXTRAS_ALSO = {"pompom": "pompoms", "seam": "seams", "sewing": "seams", "tails": "ends", "edging": "border"}
EXTRA_KEYS = ("number", "length", "rows", "in", "wraps", "colour", "optional")
EXTRA_ALSO = {"across": "length", "around": "length", "strands": "number", "rounds": "rows", "color": "colour", "cut": "length"}
_WHOLE_NUMBER = {"ends"}  # the extras of which a number alone says all
_OUNCE_G = 28.349523  # avoirdupois ounce, 1959 agreement


class HeadYarn(HeadSizing):
    """Reads weighed pieces, extras and speeds into the head."""

    def _weighed(self, node: Node) -> None:
        made = []
        if node.kind == "map" and not any(key.kind == "words" and key.words.strip().lower() in ("size", "weight") for key, _ in node.entries):
            pairs = [(key.words.strip(), value, "") for key, value in node.entries if key.kind == "words"]
        else:
            pairs = []
            for item in node.items if node.kind == "list" else [node]:
                if item.kind != "map":
                    self.refuse("weighed", item, "a size and what the finished piece weighs, such as `{M: 212 g}`")
                    continue
                parts = self.entries(item, WEIGHED_KEYS, WEIGHED_ALSO, "", "a weighed piece")
                if "weight" not in parts:
                    self.refuse("weighed", item, "a weight for each piece, such as `{size: M, weight: 212 g}`")
                    continue
                pairs.append((self._plain(parts.get("size")), parts["weight"], self._plain(parts.get("colour"))))
        names = {size.name.lower(): size.name for size in self.head.sizes}
        for size, value, colour in pairs:
            words = value.words.strip() if value.kind == "words" else ""
            grams = plain_number(words)
            if grams is None or not 0 < grams < 100_000:
                self.refuse("weight", value, "a weight such as `212 g`")
            elif names and size.lower() not in names and (size or len(names) > 1):
                self.refuse("weighed", value, f"one of the sizes {', '.join(names.values())} for each piece")
            else:
                name = names.get(size.lower()) or next(iter(names.values()), size)
                made.append(Weighed(name, grams * (_OUNCE_G if re.search(r"\d\s*oz\b|ounce", words) else 1.0), colour))
        self.head.weighed = tuple(made)

    def _extras(self, node: Node) -> None:
        if node.kind != "map":
            self.refuse("extras", node, f"what yarn is needed for beside the rows: {', '.join(EXTRAS)}")
            return
        made = []
        for kind, value in self.entries(node, EXTRAS, EXTRAS_ALSO, "extras.", "extras").items():
            extra = self._one_extra(kind, value)
            if extra is not None:
                made.append(extra)
        self.head.extras = tuple(made)

    def _one_extra(self, kind: str, node: Node) -> Extra | None:
        extra, sizes = Extra(kind), len(self.head.sizes)
        if node.kind == "words":
            node = Node("map", node.span, entries=[(Node("words", node.span, "number" if kind in _WHOLE_NUMBER else "length"), node)])
        if node.kind != "map":
            self.refuse(kind, node, "a length or number, or keys such as number and length")
            return None
        for key, value in self.entries(node, EXTRA_KEYS, EXTRA_ALSO, f"extras.{kind}.", kind).items():
            words = value.words.strip() if value.kind == "words" else ""
            if key in ("in", "colour"):
                setattr(extra, "in_" if key == "in" else key, words)
            elif key == "optional":
                extra.optional = words.lower() in ("yes", "true")
                if words.lower() not in ("yes", "true", "no", "false"):
                    self.refuse(key, value, "`yes` or `no`")
            elif key == "length":
                extra.length = measure(words, sizes)
                if extra.length is None:
                    self.refuse(key, value, "a length such as `8 cm`, or one a size")
                    return None
                self.count_check(kind, len(extra.length.mm), value)
            elif key == "number":
                extra.number = number_per_size(words, sizes)
                if extra.number is None:
                    self.refuse(key, value, "a whole number, or one a size")
                    return None
                if not isinstance(extra.number, int):
                    self.count_check(kind, len(extra.number), value)
            else:
                number = plain_number(words)
                if number is None or not 0 < number < 10_000:
                    self.refuse(key, value, "a number")
                    return None
                setattr(extra, key, int(number))
        if (extra.number if kind in _WHOLE_NUMBER else extra.length) is None:
            self.refuse(kind, node, "how many" if kind in _WHOLE_NUMBER else "a length such as `8 cm`")
            return None
        return extra

    def _speed(self, node: Node) -> None:
        pairs = [("", node)] if node.kind == "words" else [(key.words.strip(), value) for key, value in node.entries if key.kind == "words"] if node.kind == "map" else []
        if not pairs:
            self.refuse("speed", node, "stitches a minute, such as `{sc: 24, dc: 15}`")
        for word, value in pairs:
            number = plain_number(value.words) if value.kind == "words" else None
            if number is None or not 0 < number < 1000:
                self.refuse("speed", value, "stitches a minute, such as `{sc: 24, dc: 15}`")
            else:
                self.head.speed[word] = number

    @staticmethod
    def _plain(node: Node | None) -> str:
        return node.words.strip() if node is not None and node.kind == "words" else ""
