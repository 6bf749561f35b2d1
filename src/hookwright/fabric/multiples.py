"""For which foundation counts all the rows hold: the multiple, found by working the rows at many counts."""

from dataclasses import replace
from math import gcd

from hookwright.ground import at
from hookwright.notation.tree import Chain, Either, Pattern, Piece, Repeat, Ring, Stitch

from . import kinds
from .choosing import hard
from .row_signs import starts_fresh
from .sequence import Sequence
from .settings import Settings
from .worked import FOOT_RING

MOST_FOUNDATION = 5000  # stitches of a foundation from which a multiple is derived
WINDOW = 61  # counts looked at
NEAR = 6  # counts to either side that tell whether any number will do
CYCLES = 12  # rows of a range looked at


def derive_multiples(pattern, work, *, below=None, in_round=False):
    """(of, words) for each piece begun with a foundation: "any multiple of 6, plus 4 chains (at least 16)".

    A count holds where every row comes out over it without a stitch left over or wanting; stated counts are left aside, since
    they were made for one count. Checked by working the rows inside and outside the set.
    """
    out = []
    if below is not None:
        return out
    for piece, rows in _pieces(pattern):
        found = _foundation(rows)
        if found is None or any(row.only for row in rows):
            continue
        step, count, what = found
        if len(rows) > 400 or sum(len(fabric.rows) for fabric in work.fabrics[:1]) * count > 60_000:
            continue  # too long a piece to be worked again and again
        try:
            held = _held(pattern, piece, rows, step, count, work.settings.taken)
        except _IntoRing:
            continue
        words = in_words(held, _as_written(step, work) or count, what)
        if words:
            out.append((piece.name, words))
    return out


def foundation_counts(pattern, name: str):
    """(counts looked at, those for which all rows of the piece come out, the count now written in each size); None where the piece has
    no plain foundation, or a ring that its first round is worked into the middle of. For numbers that are still to be found: the count now written need not be one of them."""
    for piece, rows in _pieces(pattern):
        if name and name.lower() not in (piece.name.lower(), piece.name.lower().partition("(")[0].strip()):  # "Back (make 2)" is the Back
            continue
        found = _foundation(rows)
        if found is None:
            return None
        step, count, _ = found
        try:
            held = _held(pattern, piece, rows, step, count, {}, written=False)
        except _IntoRing:
            return None
        return *held, tuple(at(step.n, index) for index in range(max(1, len(pattern.sizes))))
    return None


def _pieces(pattern):
    """Runs of rows that begin with a foundation of their own, each with the piece it starts in."""
    run, start = [], None
    for piece, row in pattern.rows():
        if start is None or piece is not start[-1] and starts_fresh(row):
            if run:
                yield start[0], run
            run, start = [row], [piece, piece]
        else:
            run.append(row)
            start[-1] = piece
    if run:
        yield start[0], run


def _foundation(rows):
    """(step, its count, what it makes) of the foundation; None where there is no plain one."""
    for step in rows[0].steps[:3]:
        if isinstance(step, Ring):
            return None
        if isinstance(step, Chain) and step.says is None:
            count = step.n if isinstance(step.n, int) else next((n for n in step.n if n), None)
            if count is None or count < 7 or count > MOST_FOUNDATION:
                return None
            return step, count, "chains"
        if isinstance(step, Stitch):
            if kinds.takes_makes(step.kind)[0] == 0 and step.kind != "picot" and isinstance(step.n, int) and 7 <= step.n <= MOST_FOUNDATION:
                return step, step.n, step.kind
            return None
    return None


def _as_written(step, work):
    """The counts of all sizes in the trade's notation, where they differ by size and every row comes out in each; else None."""
    if isinstance(step.n, int) or any(hard(fabric.rows) for fabric in work.fabrics):
        return None
    first, *others = ["-" if n is None else str(n) for n in step.n]
    return f"{first} ({', '.join(others)})"


def _held(pattern, piece, rows, step, count, taken, *, written=True):
    """(counts looked at, those that hold). written: the count that stands there must itself hold, else nothing is said.

    Where a dozen counts next to each other all hold, every number does from a least one on: that is looked for by halves, and the two
    largest are tried, too. Else all counts are, but for those of which a repeat would leave some, as it did of one before.
    """
    low = max(3, count - WINDOW // 2)
    counts = list(range(low, low + WINDOW))
    memo, sources, known = {}, {}, {}
    ruled_out: set[int] = set()

    def comes_out(n: int) -> bool:
        if n not in known:
            made = None if any(n % takes != count % takes for takes in ruled_out) else _worked_over(pattern, piece, rows, step, n, taken, memo, sources)
            known[n] = made is not None and made[1]
            if made is not None and not known[n] and known.get(count):
                ruled_out.update(_taken_whole(*made[0], n))
        return known[n]

    if not comes_out(count) and written:
        return [], set()  # it doesn't even hold as written: the findings say so
    near = [n for n in counts if abs(n - count) <= NEAR]
    if all(comes_out(n) for n in near) and all(comes_out(n) for n in counts[-2:]):
        no, yes = low - 1, near[0]
        while yes - no > 1:
            middle = (no + yes) // 2
            no, yes = (no, middle) if comes_out(middle) else (middle, yes)
        return counts, set(range(yes, counts[-1] + 1))
    return counts, {n for n in counts if comes_out(n)}


def _taken_whole(row, made, n: int):
    """Stitches that a repeat takes, where a row failed that has one repeat, over as many stitches as the foundation has: it comes out only for
    counts that leave as many in it as the written one does."""
    troubles = [trouble for worked in made if worked is not None for trouble in worked.troubles]
    if row is None or len(troubles) != 1 or troubles[0].kind != "repeat-leaves" or sum(isinstance(step, (Repeat, Either)) for step in row.steps) != 1:
        return
    takes, there = troubles[0].facts.get("takes") or 0, troubles[0].facts.get("there")
    if takes > 1 and there in (n, n - 1) and not any(isinstance(step, Either) for step in row.steps):
        yield takes


def _worked_over(pattern, piece, rows, step, n, taken, memo, sources):
    """The first row of the piece that does not come out over a foundation of n, as worked in each size, and whether all do."""
    first = rows[0]
    steps = [replace(other, n=n) if other is step else other for other in first.steps]
    begun = replace(first, steps=steps)
    trial = Pattern(pattern.text, pattern.terms, pattern.head, [Piece(piece.name, items=[begun, *rows[1:]])], pattern.conventions, pattern.own,
                    ("1",))
    settings = Settings(list(pattern.conventions), dict(taken))
    sequence = Sequence(trial, settings, sizes=("1",), counts=False, cycles=CYCLES)
    sequence.memo, sequence.sources = memo, sources
    sequence.stop_at_trouble = True
    sequence.keep = begun
    _KEEP.append(begun)
    sequence.go()
    del _KEEP[:-WINDOW - 1]
    made = sequence.threads[0].fabric.rows
    if any(FOOT_RING in row.foot for row in made[:3]):
        raise _IntoRing
    return sequence.stopped_by, bool(made) and not sequence.too_much and not hard(made) and not sequence.restart and not sequence.stopped


class _IntoRing(Exception):
    """The first round is worked into the middle of the ring of chains: how many there are binds nothing."""


_KEEP: list = []  # keeps trial rows alive while their identity stands in a memo


def in_words(held, count, what) -> str:
    """The set of counts in the trade's words; "" where it is no multiple. count: as written, in the notation of the trade where it differs by size.

    >>> in_words((range(3, 64), set(range(6, 64, 5))), 31, "chains")
    'any multiple of 5, plus 1 chain'
    >>> in_words((range(3, 64), {9}), "9 (11, 13)", "chains")
    'only 9 (11, 13) chains'
    """
    counts, holds = held
    if not holds:
        return ""
    ordered = sorted(holds)
    if len(ordered) == 1:
        return f"only {count} {what}"
    step = 0
    for a, b in zip(ordered, ordered[1:]):
        step = gcd(step, b - a)
    expected = [n for n in counts if n >= ordered[0] and (n - ordered[0]) % step == 0]
    if expected != ordered:
        return ""
    least = ordered[0]
    rest = least % step
    at_least = f" (at least {least})" if least > rest and least > counts[0] + step - 1 else ""
    if step == 1:
        return f"any number of {what}" + (f", at least {least}" if least > counts[0] else "")
    if rest == 0:
        return f"any multiple of {step} {what}{at_least}"
    return f"any multiple of {step}, plus {rest} {'chain' if (rest, what) == (1, 'chains') else what}{at_least}"
