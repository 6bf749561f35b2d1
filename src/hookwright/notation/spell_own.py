"""Her own stitches on the way out: one stitch goes by one name, the one under which she explains it."""

import re

from hookwright.stitches import dialect as dialect_of
from hookwright.stitches import plural, translate_prose

_MORE = ("st", "cl")
_NEVER = ("inc", "dec")


class OwnNames:
    """What her own stitches are called in the rows.

    groups  her name -> the steps it stands for (None: whatever they are)
    legged  (kind, legs, base) -> word: the popcorn of 4 dc that she calls a limpet
    whole   catalogue id -> word, where she uses another stitch's word for it: "dec" where each is an invisible one
    kinds   catalogue id -> word, where all stitches of that kind are hers and have one name
    words   her name -> word as it stands in a row
    """

    __slots__ = ("groups", "legged", "kinds", "whole", "words")

    def __init__(self, own=(), source: str = "US", target: str = "US", text: str = ""):
        """own: names, or name -> OwnStitch as in a Pattern, whose terms are `source` and whose text shows how she writes them."""
        self.groups: dict = {}
        self.legged: dict = {}
        self.kinds: dict = {}
        self.whole: dict = {}
        self.words: dict = {}
        stitches = own if isinstance(own, dict) else {}
        for name in own:
            stitch = stitches.get(name)
            if stitch is None or stitch.group:
                self.groups[name] = stitch.steps if stitch is not None and stitch.steps else None
                self.words[name] = _word(name, source, target, text) if stitch is not None else name
            elif stitch.kind and stitch.legs and stitch.base and (stitch.kind, stitch.legs, stitch.base) not in self.legged:
                self.legged[stitch.kind, stitch.legs, stitch.base] = self.words[name] = _word(name, source, target, text)
            elif stitch.kind and not stitch.legs and dialect_of(source).find(name) not in (None, stitch.kind):
                self.whole[stitch.kind] = self.words[name] = _word(name, source, target, text)
        of_kind: dict = {}
        for (kind, _, _), word in self.legged.items():
            of_kind.setdefault(kind, []).append(word)
        self.kinds = self.whole | {kind: words[0] for kind, words in of_kind.items() if len(words) == 1}

    def noun(self, kind: str, many: bool) -> str | None:
        """Her word for a stitch or group, one or many of it; None where it is not hers."""
        word = self.words.get(kind) or self.kinds.get(kind)
        return _many(word) if word and many else word

    def stitch(self, kind: str, legs, base, many: bool) -> str | None:
        """Her word for a stitch made of legs; None where it has none."""
        word = self.legged.get((kind, legs, base)) if legs or base else self.whole.get(kind)
        return _many(word) if word and many else word

    def is_group(self, name: str, steps: list) -> bool:
        """Whether `steps` worked into one place are what she calls `name`."""
        return name in self.groups and self.groups[name] in (None, steps)


def _word(name: str, source: str, target: str, text: str) -> str:
    """Her name as it stands in a row: in the words of the dialect, with a small letter unless she writes it with a large one only."""
    small = name[:1].lower() + name[1:]
    if name != small and name[1:2].isalpha() and name[1:].islower() and (not text or re.search(rf"(?<![\w-]){re.escape(small)}", text) or dialect_of(source).find(small)):
        name = small
    return translate_prose(name, source, target)[0]


def _many(word: str) -> str:
    """More than one of it; an abbreviation that cannot be spoken takes no s."""
    last = word.split()[-1]
    if last in _NEVER or last not in _MORE and not re.search(r"[aeiou]", last) and "-" not in last or word.endswith("sts"):
        return word
    return plural(word)
