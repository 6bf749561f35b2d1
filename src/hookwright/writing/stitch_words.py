"""How a stitch is made, in words, from the steps of the catalogue."""

from collections import Counter
from dataclasses import fields, is_dataclass

from hookwright.notation.tree import Pattern, Stitch
from hookwright.stitches import Dialect, group_steps, step_words, stitch, translate_prose

from .strings import Strings

_ASSUMED = ("basic",)  # a sheet may take the basic stitches as known
_GROUPS = ("cl", "bobble", "popcorn", "puff")


def stitches_in(pattern: Pattern) -> Counter:
    """(kind, legs, base) of every Stitch of the rows -> how often it is written."""
    found: Counter = Counter()
    todo = [row for _, row in pattern.rows()]
    while todo:
        node = todo.pop()
        if isinstance(node, (list, tuple)):
            todo.extend(node)
        elif is_dataclass(node):
            if isinstance(node, Stitch):
                found[node.kind, node.legs, node.base] += 1
            todo.extend(getattr(node, part.name) for part in fields(node) if part.name not in ("span", "label_span", "text"))
    return found


def stitches_to_explain(pattern: Pattern, own) -> tuple[tuple[str, int | None, str | None], ...]:
    """Stitches of the rows that go beyond the basic ones and are not her own, each once, in the order of their ids."""
    known = {name.casefold() for name in own}
    known |= {stitch_.kind for stitch_ in own.values() if stitch_.kind}
    out: dict[str, tuple] = {}
    for kind, legs, base in stitches_in(pattern):
        fact = stitch(kind)
        if fact is None or fact.kind in _ASSUMED or kind.casefold() in known:
            continue
        if kind not in out or legs is not None:
            out[kind] = (kind, legs, base)
    return tuple(out[kind] for kind in sorted(out))


def plain_stitch(pattern: Pattern) -> str:
    """The plain stitch that most of the pattern is written in, "" where there is none."""
    counts: Counter = Counter()
    for (kind, _, _), times in stitches_in(pattern).items():
        if kind in ("sc", "hdc", "dc", "tr"):
            counts[kind] += times
    return max(counts, key=lambda kind: (counts[kind], kind), default="")


def how_made(kind: str, legs: int | None, base: str | None, plain: str, dialect: Dialect, strings: Strings) -> str:
    """A stitch's making in one sentence, "" where only the pattern could say it.

    >>> from hookwright.stitches import dialect
    >>> from .strings import strings
    >>> how_made("bobble", 5, "dc", "sc", dialect("US"), strings("en", "US"))
    '[yarn over, insert hook in the same stitch, draw up a loop, yarn over and draw through 2 loops] 5 times, yarn over and draw through all 6 loops on the hook'
    """
    if kind in ("inc", "dec"):
        if not plain:
            return strings(f"special.{kind}_plain")
        short = dialect.abbr(plain)
        return strings(f"special.{kind}", stitch=short, how=dialect.abbr(f"{plain}2tog"))
    fact = stitch(kind)
    steps = group_steps(kind, legs, base) if kind in _GROUPS else fact.steps
    if not steps:
        return ""
    words = []
    for step in steps:
        if step == "post" and fact.post:
            words.append(strings(f"special.post_{fact.post}"))
        else:
            words.append(translate_prose(step_words(step), "US", dialect.name)[0])
    return ", ".join(_folded(words, strings))


def _folded(words: list[str], strings: Strings) -> list[str]:
    """Runs of the same words told once: [a, b] 5 times."""
    out: list[str] = []
    at = 0
    while at < len(words):
        best, times = 0, 1
        for size in range(2, (len(words) - at) // 2 + 1):
            unit, count = words[at : at + size], 1
            while words[at + count * size : at + (count + 1) * size] == unit:
                count += 1
            if count > 1 and size * count > best * times:
                best, times = size, count
        if best:
            out.append(strings("special.twice" if times == 2 else "special.times", n=times, steps=", ".join(words[at : at + best])))
            at += best * times
        else:
            out.append(words[at])
            at += 1
    return out
