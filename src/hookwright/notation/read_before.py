"""Rows read in an earlier text of the same manuscript, taken again where their words stand there still.

While she writes, all rows but one say what they said a moment ago, only further up or down. What was read of them is used again with its
spans moved to where the words stand now, in place: the tree that held them before is no longer good. Only what hangs on nothing but
the row's own words and the lexicon is kept: no row with a finding in it, none for which the rest of the text was looked at, and none with a span
that points out of the row.
"""

from dataclasses import fields, is_dataclass

from hookwright.ground import NOWHERE, Span

_MOST = 20_000  # rows kept
_AROUND = 3  # letters before and after the row that belong to what is compared


class _Kept:
    """One reading: what was read, where it began, the (node, name of its span) pairs in it, and in which text it was used last."""

    __slots__ = ("read", "start", "spans", "used")

    def __init__(self, read, start, spans, used):
        self.read, self.start, self.spans, self.used = read, start, spans, used

    def moved(self, start: int):
        far = start - self.start
        if far:
            for node, name in self.spans:
                span = getattr(node, name)
                setattr(node, name, Span(span.start + far, span.end + far))
            self.start = start
        return self.read


class ReadBefore:
    """The rows read so far, by their words."""

    def __init__(self):
        self._by_words: dict[tuple, list[_Kept]] = {}
        self._text = 0
        self._count = 0
        self._signs: dict[int, tuple] = {}
        self._plain: dict[str, int] = {}  # bodies of numbered rows that refer to no other row, and the text they were seen in last

    def begin(self) -> None:
        """Another text is read now; rows that the last one did not have are dropped."""
        before, self._text = self._text, self._text + 1
        kept = {}
        for words, readings in self._by_words.items():
            readings = [one for one in readings if one.used == before]
            if readings:
                kept[words] = readings
        self._by_words = kept
        self._count = sum(map(len, kept.values()))
        self._plain = {words: used for words, used in self._plain.items() if used == before}
        self._signs = {}

    def is_plain(self, words: str) -> bool:
        """Whether the body of a numbered row was seen to refer to no other row."""
        if words not in self._plain:
            return False
        self._plain[words] = self._text
        return True

    def keep_plain(self, words: str) -> None:
        self._plain[words] = self._text

    def steps(self, text: str, hers: str, start: int, end: int, lexicon, how: tuple, read):
        """What `read()` gives for `text[start:end]`, from before where the same words were read in the same way. hers: the text with her letters."""
        before = text[max(0, start - _AROUND) : start]
        words = (self._sign(lexicon), how, before, text[start : end + _AROUND], end - start, hers[start:end])
        readings = self._by_words.get(words)
        for one in readings or ():
            if one.used != self._text:
                one.used = self._text
                return one.moved(start)
        lexicon.looked_about = False
        made = read()
        if self._count < _MOST and not made.findings and not lexicon.looked_about:
            spans = {}
            if _spans(made, start, end, spans):
                self._by_words.setdefault(words, []).append(_Kept(made, start, tuple(spans.values()), self._text))
                self._count += 1
        return made

    def _sign(self, lexicon):
        """What tells one lexicon from another."""
        known = self._signs.get(id(lexicon))
        if known is None:
            said = (lexicon.terms, lexicon.sizes, tuple(sorted(lexicon.colours)), lexicon.only, lexicon.blocks, repr(lexicon.own))
            known = self._signs[id(lexicon)] = (said, lexicon)
        return known[0]


def _spans(value, start: int, end: int, out: dict) -> bool:
    """Gathers the spans within a value that was read, each once though steps share places; False where one points out of [start, end), or something there holds spans in a way
    that can't be moved."""
    if isinstance(value, (str, int, float, type(None))):
        return True
    if isinstance(value, (list, tuple)):
        return type(value) is not Span and all(_spans(one, start, end, out) for one in value)
    if not is_dataclass(value):
        return isinstance(value, (frozenset, set))
    for name in _names(type(value)):
        inside = getattr(value, name)
        if type(inside) is Span:
            if inside == NOWHERE:
                continue
            if inside.start < start or inside.end > end or value.__dataclass_params__.frozen:
                return False
            out[id(value), name] = value, name
        elif not _spans(inside, start, end, out):
            return False
    return True


_known_names: dict[type, tuple[str, ...]] = {}


def _names(kind: type) -> tuple[str, ...]:
    found = _known_names.get(kind)
    if found is None:
        found = _known_names[kind] = tuple(field.name for field in fields(kind))
    return found
