"""The rows of one size one after the other, each in words of its own: for working through a piece."""

from dataclasses import replace

from hookwright.fabric import step_spans
from hookwright.notation import OwnNames, spell_body
from hookwright.notation.tree import Prose, Repeat, Row
from hookwright.stitches import dialect

from .reports import report_of
from .utf16 import Utf16

MOST_ROWS = 5000


def keeper_rows(text: str, size: str | None, terms: str | None = None) -> dict:
    """{"sizes", "size", "terms", "rows": [...], "words": [...]}; rows: label, piece, words, count, repeats, and where the row stands in the text.

    words: what is said between the rows, each with the index of the row it stands before.
    """
    from hookwright.pipeline import only_size

    report = report_of(text)
    names = list(report.sizes)
    size = size if size in names else names[0] if names else None
    terms = (terms or report.pattern.terms).upper()
    whole = only_size(report, size) if size is not None and report.pattern.sizes else report
    there = Utf16(text).there
    spell = _Speller(whole, "UK" if terms == "UK" else "US")
    back = report.pattern.shifts
    rows, first = [], {}
    for worked in whole.fabrics[0].rows if whole.fabrics else ():
        if worked.row is None or len(rows) >= MOST_ROWS:
            continue
        first.setdefault(id(worked.row), len(rows))
        span = worked.row.span if back is None else back.back(worked.row.span)
        rows.append({
            "label": worked.label, "piece": worked.piece or "", "side": worked.side, "words": spell.words(worked),
            "count": worked.stitches or None, "repeats": spell.repeats(worked), "from": there(span.start), "to": there(span.end),
        })
    return {"sizes": [] if names == ["1"] else names, "size": size, "terms": terms, "rows": rows, "between": _between(whole, first, spell)}


def _between(report, first: dict, spell) -> list[dict]:
    """Words of hers between the rows of a piece, and headings: {"before": index of a row, "words"}."""
    out, waiting = [], []
    for piece in report.pattern.pieces:
        if piece.section:
            continue
        for item in piece.items:
            if isinstance(item, Prose):
                waiting += [" ".join(item.text.split())]
            elif isinstance(item, Row) and id(item) in first:
                out += [{"before": first[id(item)], "words": words} for words in waiting if words]
                waiting = []
    return out


class _Speller:
    """Spells rows of one pattern; rows of the same words are spelt once."""

    def __init__(self, report, terms: str):
        from hookwright.pipeline import row_height_mm

        self.dialect = dialect(terms)
        self.spans = step_spans(report.pattern, report.work, row_height_mm=row_height_mm(report.pattern)) if report.work.too_much is None else {}
        self.own = OwnNames(report.pattern.own, report.pattern.terms, terms, report.pattern.text)
        self._words: dict[int, tuple] = {}

    def words(self, worked) -> str:
        return self._spelt(worked)[0]

    def repeats(self, worked) -> list[dict]:
        """Each repeat of the row in words, with how often it is worked: as the words say, else as it came out; None where neither tells."""
        spans = self.spans.get(id(worked), ())
        return [{"words": words, "times": _said(repeat) or _passes(repeat, spans)} for words, repeat in self._spelt(worked)[1]]

    def _spelt(self, worked):
        source = worked.source if worked.source is not None and worked.source.steps else worked.row
        key = id(source)
        if key not in self._words:
            in_round = worked.row.word == "Round" or bool(worked.in_round)
            plain = replace(source, only=(), stated=[])
            words = spell_body(plain, self.dialect, in_round=in_round, own=self.own)
            repeats = [(self._inside(step, in_round), step) for step in _repeats(source.steps)]
            self._words[key] = words, repeats, source
        return self._words[key]

    def _inside(self, repeat, in_round: bool) -> str:
        return spell_body(Row(steps=repeat.steps), self.dialect, in_round=in_round, own=self.own).rstrip(".")


def _said(repeat: Repeat) -> int | None:
    """How often a repeat is worked in all, where its words say it."""
    if not isinstance(repeat.times, int) or repeat.sense == "unclear":
        return None
    return repeat.times + (repeat.sense == "more")


def _passes(repeat: Repeat, spans) -> int | None:
    """How often a repeat was worked, by the steps that made the stitches of the row one after the other."""
    inside = [(at, span) for at, span in enumerate(spans) if span and repeat.span.start <= span.start < repeat.span.end]
    if not inside:
        return None
    first = min(span.start for _, span in inside)
    steps = {span.start for _, span in inside}
    if len(steps) == 1:  # one step alone: as many passes as it makes stitches for
        step = repeat.steps[0] if len(repeat.steps) == 1 else None
        each = (getattr(step, "n", None) or 1), (getattr(getattr(step, "place", None), "n", None) or 1)
        return len(inside) // (each[0] * each[1]) if step is not None and all(isinstance(number, int) for number in each) else None
    begun, before = 0, None
    for at, span in inside:
        if span.start == first and (before is None or before[1].start != first or before[0] != at - 1):
            begun += 1
        before = at, span
    return begun


def _repeats(steps) -> list:
    """Repeats that stand in the row itself, not within one another."""
    return [step for step in steps if isinstance(step, Repeat)]
