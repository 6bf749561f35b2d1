"""Remarks of a row as she wrote them: whole, with the small words before them, and how they hang on the steps."""

import re
from bisect import bisect_left

from hookwright.ground import Span

from .clean import clean
from .patterns import Lazy
from .tree import Either, Group, Note, Repeat

_MARKUP = frozenset("*_`\\{}<>|\n#~")
_PAUSES = frozenset((",", ";", ":", "DASH", "AND"))
_OPENING = frozenset(("(", "[", "{", "|"))


_STITCHES = Lazy(r"\b(?:[fb]p)?(?:sc|dc|hdc|htr|tr|dtr|sts?|stitch(?:es)?|chs?|chains?|ss|inc|dec|sps?|spaces?|shells?|loops?|lps?|groups?|clusters?|bobbles?|increas\w+|decreas\w+)\b", re.I)
_MANY = Lazy(r"\d|\b(?:last|first|final|each|every|one|two|three|four|five|six|both|instead|other|next|ends?|all|another|fewer|more|less|same|order)\b", re.I)


_MATTERS = Lazy(r"\d|\b(?:last|first|each|every|twice|times?|instead|other|next|all|another|fewer|more|less|increased?|decreased?|skipping|leaving)\b", re.I)
_HANGS = Lazy(r"(?:until|till|of|in|on|at|over|into|along|down|up|from|between|for|as|by)\s", re.I)  # "dc in next st until you run out", "sc down the row"
_OF_SIZE = Lazy(r"\d\s*(?:cm|mm|in|inch(?:es)?|\"|m|yds?|yards?|g|oz)\b|hook|tail|measure|colou?r|yarn|row ends?", re.I)  # a length, or how stitches spread evenly come to lie


_COUNTED_SO = Lazy(r"(?:count|treat|regard)(?:ing)?\s[^,.;]*\bas\b", re.I)  # how her numbers are meant
_OF_PART = Lazy(
    r"(?:(?:of|at|on|from|in|along|under|over)\s+(?:the\s+|each\s+|your\s+)?(?:(?:left|right|front|back|first|second|other)\s+)?(?:yoke|body|back|front|sleeve|underarm|armhole|armpit|neck(?:line|band)?|thumb(?:hole)?|hand|"
    r"cuff|palm|brim|crown|hem|waist|heel(?:\s+flap)?|foot|leg|gusset|sole|toe|collar|hood|pocket|flap|strap|handle|band|base|bottom|motif|square|panel|opening|gap)s?\b\s*)+$", re.I
)


def tells_of_work(text: str) -> bool:
    """Whether words that were taken for a remark since nothing else was known of them speak of stitches and how many or which."""
    return bool(_STITCHES.search(text)) and bool(_MANY.search(text))


def keep_whole(steps: list, tokens, start: int) -> None:
    """Makes each remark among `steps` (and in repeats and groups) whole, in place.

    Words of no weight before it ("the", "so") belong to it; remarks that only a comma or "and" parts are one. Says of each how it
    follows what stands before it, and whether it ends its sentence. start: where the row's words begin.
    """
    notes, before = 0, None
    for step in steps:
        kind = type(step)
        if kind is Note:
            _placed(step, tokens, start)
            notes += 1
            if step.tells and step.lead == " " and _goes_where(before) and _OF_PART.match(step.text):
                step.tells = False  # "in each of 40 skipped dc of the yoke": how many is said, and which they are
        elif kind is Repeat or kind is Group:
            keep_whole(step.steps, tokens, start)
        elif kind is Either:
            for reading in step.readings:
                keep_whole(reading if isinstance(reading, list) else [reading], tokens, start)
        before = step
    if notes > 1:
        _join(steps, tokens)


def _goes_where(step) -> bool:
    """Whether a step has a place of which it is said how many."""
    place = getattr(step, "place", None)
    return place is not None and place.n is not None and place.extent is None


def _placed(note: Note, tokens, start: int) -> None:
    text, kinds = tokens.text, tokens.kinds
    first = bisect_left(tokens.starts, note.span.start)
    after = bisect_left(tokens.starts, note.span.end)
    if kinds[first] in _OPENING or first and kinds[first - 1] in _OPENING:
        return
    before = kinds[first - 1] if first else "."
    if before == "MARK":  # bold, or the first words of a repeat
        before = "." if first == 1 or kinds[first - 2] == "." else ","
    begin = tokens.ends[first - 1] if first else start
    while begin < note.span.start and not text[begin].isalnum():
        begin += 1
    end = note.span.end
    if kinds[after] in (".", "END") or kinds[after] in _PAUSES:  # words of no weight at its end
        end = len(text[:tokens.starts[after]].rstrip(" \n\t.,;:-"))
    note.lead = "." if before == "." else "," if before in _PAUSES and before != "AND" else " "
    if note.lead == " " and text[begin].isupper() and text.count(" ", begin, note.span.end) > 1:
        note.lead = "."  # "sc across (31 sc) Turn the mitt inside out": a sentence, though no full stop is before it
    if before == "AND":
        begin = tokens.starts[first - 1]
    note.stop = kinds[after] in (".", "END")
    note.span = Span(begin, max(end, note.span.end))
    note.text = text[note.span.start:note.span.end]
    if note.lead in (" ", ",") and not note.tells:  # part of a sentence that is worked: what it says of how many or where may matter
        hangs = note.lead == " " and first > 0 and _HANGS.match(note.text) is not None
        note.tells = (hangs or bool(_MATTERS.search(note.text))) and not _OF_SIZE.search(note.text) and not _COUNTED_SO.match(note.text)


def _join(steps: list, tokens) -> None:
    """One remark of those that stand side by side in a sentence."""
    kept: list = []
    for step in steps:
        last = kept[-1] if kept else None
        if type(step) is Note and type(last) is Note and step.lead != "(" and last.lead != "(" and not last.stop and _side_by_side(last, step, tokens):
            span = last.span.to(step.span)
            kept[-1] = Note(tokens.text[span.start:span.end], span, last.lead, step.stop, last.tells or step.tells)
        else:
            kept.append(step)
    steps[:] = kept


def _side_by_side(one: Note, other: Note, tokens) -> bool:
    first, after = bisect_left(tokens.starts, one.span.end), bisect_left(tokens.starts, other.span.start)
    return all(kind in _PAUSES for kind in tokens.kinds[first:after])


def remarks_in(steps) -> list[Note]:
    """The remarks among steps, in order, those in repeats and groups too."""
    found = []
    for step in steps:
        if type(step) is Note:
            found.append(step)
        elif type(step) is Repeat or type(step) is Group:
            found.extend(remarks_in(step.steps))
        elif type(step) is Either:
            reading = step.readings[0]
            found.extend(remarks_in(reading if isinstance(reading, list) else [reading]))
    return found


def in_her_letters(note: Note, text: str) -> None:
    """Gives the remark the letters that she wrote in `text`, where it was read with plain ones: a dash, an apostrophe, an accent."""
    words = text[note.span.start:note.span.end]
    at = clean(words).find(note.text)
    hers = words[at:at + len(note.text)] if at >= 0 else note.text
    if hers != note.text and not _MARKUP.intersection(hers):
        note.text = hers
