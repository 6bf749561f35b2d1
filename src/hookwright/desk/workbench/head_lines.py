"""What the first lines of a pattern without a head say, as a head; and which of its lines are then said by it."""

import json
import re

from hookwright.notation import length_from_words, weight_from_words
from hookwright.notation.tree import Prose

_PLAIN = re.compile(r"(?:[A-Za-z]|\d[\d.]* (?=[A-Za-z]))[\w .'&/()-]*")
_WORDS_OF_YAML = frozenset("yes no true false null on off y n ~".split())
LEVELS = ("basic", "easy", "intermediate", "complex")
MOST_LETTERS = 300
# Words of a line that a head says by its keys, or need not say.
_PASSED_OVER = frozenset("a an and at by crochet cm designed designer dimension difficulty equal finished for gauge hook in inch is it level made material measure measurement mm needed notion of on or "
                         "over pattern per row round rnd size skill st stitch supplie suppli tension term the this title to uk use used us using with work worked written x yarn you your".split())


def head_lines(report) -> tuple[str, list[tuple[int, int]]]:
    """(the head between its lines of dashes, spans of the lines that it says). ("", []) where it would say nothing."""
    front, pattern = report.pattern.front, report.pattern
    if front is None:
        return "", []
    lines, left = [], []  # left: her words that no head can hold, so that their lines stay

    def put(key: str, value: str) -> None:
        lines.append(f"{key}: {value}")

    for key in ("title", "designer"):
        if getattr(front, key):
            put(key, quoted(getattr(front, key)))
    put("terms", pattern.terms)
    for key in ("date", "copyright"):
        if getattr(front, key):
            put(key, quoted(getattr(front, key)))
    if front.level in LEVELS:
        put("level", front.level)
    elif front.level:
        left.append(front.level)
    if len(pattern.sizes) > 1 and not all(size.isdigit() for size in pattern.sizes):
        put("sizes", "[" + ", ".join(map(quoted, pattern.sizes)) + "]")
    hooks = [hook for hook in front.hook if hook.mm]
    left += [hook.text for hook in front.hook if not hook.mm]
    if hooks:
        put("hook", quoted(hooks[0].text) if len(hooks) == 1 else "[" + ", ".join(quoted(hook.text) for hook in hooks) + "]")
    yarns = [f"{{name: {quoted(yarn.name)}{_weight(yarn.name)}}}" for yarn in front.yarn if yarn.name]
    if yarns:
        put("yarn", yarns[0] if len(yarns) == 1 else "[" + ", ".join(yarns) + "]")
    gauges = [_gauge(gauge) for gauge in front.gauge if gauge.stitches or gauge.rows]
    if gauges:
        put("gauge", "[" + ", ".join(gauges) + "]")
    if front.materials:
        put("materials", "[" + ", ".join(map(quoted, front.materials)) + "]")
    finished = []
    for name, measure in front.finished.items():
        if length_from_words(measure.text) and not re.search(r"[(\[]", measure.text):
            finished.append(f"{quoted(name.lower())}: {quoted(measure.text)}")
        else:
            left.append(measure.text)
    if finished:
        put("finished", "{" + ", ".join(finished) + "}")
    head, told = "---\n" + "\n".join(lines) + "\n---\n\n", []
    in_head = _words(head)
    for piece in pattern.pieces:
        for item in piece.items:
            for span in item.told if isinstance(item, Prose) else ():
                line = pattern.text[span.start : span.end]
                if not any(words and words in line for words in left) and not _words(line) - in_head - _PASSED_OVER:
                    told.append((span.start, span.end))
    return head, told


def _words(text: str) -> set[str]:
    return {word if word.isdigit() else word.removesuffix("es").removesuffix("s") for word in re.findall(r"\w+(?:\.\d+)?", text.lower())}


def quoted(words: str) -> str:
    """Words as YAML takes them for words, whatever is in them.

    >>> quoted("Hat"), quoted("4: a"), quoted("yes")
    ('Hat', '"4: a"', '"yes"')
    """
    words = " ".join(str(words).split())[:MOST_LETTERS]
    plain = _PLAIN.fullmatch(words) and words.lower() not in _WORDS_OF_YAML and words == words.strip()
    return words if plain else json.dumps(words, ensure_ascii=False)


def _weight(name: str) -> str:
    """The weight of a yarn, where its name says it in a word."""
    weight = weight_from_words(name)
    return "" if weight is None else f", weight: {weight}"


def _length(mm: float) -> str:
    return f"{mm / 25.4:g} in" if abs(mm / 25.4 - round(mm / 25.4)) < 1e-6 else f"{mm / 10:g} cm"


def _gauge(gauge) -> str:
    parts = [("stitches", gauge.stitches and f"{gauge.stitches:g}"), ("rows", gauge.rows and f"{gauge.rows:g}"),
             ("over", _length(gauge.over_mm) if gauge.over_mm == gauge.rows_over_mm else f'"{_length(gauge.over_mm)} x {_length(gauge.rows_over_mm)}"'),
             ("in", quoted(gauge.in_) if gauge.in_ else "")]
    return "{" + ", ".join(f"{key}: {value}" for key, value in parts if value) + "}"
