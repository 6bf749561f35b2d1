"""A circle that is to lie flat gains too few stitches, so that it cups, or too many, so that it ruffles.

Each round of a flat circle is longer than the one before by 2 x 3.14 times the height of a round; in stitches that is about 6 a round in single
crochet, 8 in half double, 12 in double (UK: double, half treble, treble). It is looked at only where a circle is said to lie flat: by its name (coaster, mandala, rug,
doily, mat), by a finished diameter, or in words beside its rounds; and only where the last round is off by more than an eighth both at the
gauge of the head and by the rule of thumb. Sides that go straight up after a flat base, lace, motifs with corners, ruffles and toys are left alone.

With it::

    ---
    gauge: 13 sts and 14 rows over 10 cm in sc
    ---
    ## Coaster

    Rnd 1: 6 sc in magic ring. (6)
    Rnd 2: 2 sc in each st around. (12)
    Rnd 3: [3 sc in next st, sc in next st] 6 times. (24)
    Rnd 4: [2 sc in next st, sc in next st] 12 times. (36)
    Rnd 5: [2 sc in next st, sc in next 2 sts] 12 times. (48)
    Rnd 6: [2 sc in next st, sc in next 3 sts] 12 times. (60)

Without it::

    ---
    gauge: 13 sts and 14 rows over 10 cm in sc
    ---
    ## Coaster

    Rnd 1: 6 sc in magic ring. (6)
    Rnd 2: 2 sc in each st around. (12)
    Rnd 3: [2 sc in next st, sc in next st] 6 times. (18)
    Rnd 4: [2 sc in next st, sc in next 2 sts] 6 times. (24)
    Rnd 5: [2 sc in next st, sc in next 3 sts] 6 times. (30)
    Rnd 6: [2 sc in next st, sc in next 4 sts] 6 times. (36)

Working::

    a stitch is 7.7 mm wide and a round 7.1 mm high: a flat round is 2 x 3.14 x 7.1 / 7.7 = 5.8 stitches longer than the one before
    6 rounds of 5.8 are 35 stitches, and there are 60

What to do: gain in each round the stitches that keep it flat, in other places than in the round before so that no corners form. Where it is to
cup or ruffle, say so beside the rounds, or silence this finding with the reason.
"""

import re
from functools import cache

from hookwright import sizing
from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..tables import table
from ..wording import count, number_text

KIND = "circle-not-flat"


def find(case: Case):
    if not case.fabrics or not any(row.in_round for row in case.fabrics[0].rows) or not _may_be_flat(case):
        return
    from hookwright.shape import flare, rest_sizes

    told: dict = {}
    for size, fabric in enumerate(case.fabrics):
        if 0 < size < len(case.fabrics) - 1:
            continue  # sizes differ in how many rounds there are, hardly in how these grow
        sizes = rest_sizes(case.head or getattr(case.pattern, "front", None), case.terms, fabric.rows, fabric.kinds)
        for run in _circles(fabric.rows, flare(fabric.rows, sizes, fabric.kinds)):
            piece = fabric.rows[run[0].row].piece
            run = _said_flat(case, fabric.rows, run)
            if run and piece not in told and not _is_unsure(case, size, fabric.rows, run):
                off = _off(fabric.rows, run, fabric.kinds)
                if off:
                    told[piece] = True
                    yield _finding(case, size, fabric.rows, run, *off)


# ---------------------------------------------------------------- what is a circle, and said to be flat

@cache
def _words(key: str) -> re.Pattern:
    words = sorted(table("flat")[key], key=len, reverse=True)
    return re.compile(r"(?<![A-Za-z])(?:" + "|".join(re.escape(word) for word in words) + ")(?![A-Za-z])" if key != "unless" else "|".join(re.escape(word) for word in words), re.IGNORECASE)


def _may_be_flat(case: Case) -> bool:
    """Whether anything in the manuscript says that something is flat: a cheap first look."""
    low = case.text.lower()
    return any(any(word.lower() in low for word in table("flat")[key]) and _words(key).search(case.text) for key in ("names", "says", "measures"))


def _circles(rows, rounds) -> list[list]:
    """Runs of rounds from a ring that grow about the middle, up to where the side goes straight up. Lace and motifs with corners are none."""
    runs: list[list] = []
    for one in rounds:
        if runs and rows[one.row].below == runs[-1][-1].row:
            runs[-1].append(one)
        else:
            runs.append([one])
    out = []
    for run in runs:
        first = rows[run[0].row]
        if not any(foot == -2 for foot in first.foot) or any(rows[one.row].spaces for one in run):
            continue
        out.append(run[: _ends_at(run)])
    return [run for run in out if len(run) > 2]


def _ends_at(run) -> int:
    """How many rounds there are before the side: before so many rounds in succession that gain nothing."""
    straight = 0
    for place, one in enumerate(run):
        straight = straight + 1 if one.gain <= 0 else 0
        if one.gain < 0 or straight == table("flat")["straight"]:
            return place + 1 - (straight or 1)
    return len(run)


def _said_flat(case: Case, rows, run) -> list:
    """The rounds of a run that are said to lie flat; [] where nothing says so or something speaks against it."""
    piece = next((seen.piece for seen in case.seen if seen.row is rows[run[0].row].row), None)
    if piece is None:
        return []
    near = [prose for one, prose in case.prose if one is piece]
    beside = " ".join([piece.name or "", *(prose.rest for prose in near), *(note.text for seen in case.seen if seen.piece is piece for note in seen.row.notes if hasattr(note, "text"))])
    title = f"{case.from_head('title') or ''} {case.from_head('summary') or ''}"
    if _words("not_flat").search(f"{beside} {title}") or _words("no_circles").search(f"{piece.name or ''} {case.from_head('title') or ''}"):
        return []
    whole = _is_whole(rows, run)
    for prose in near:  # words after some of the rounds speak of those
        if any(not _words("unless").search(sentence) for sentence in _sentences(prose.rest) if _words("says").search(sentence)):
            before = [one for one in run if case.seen_by_row[id(rows[one.row].row)].row.span.start < prose.span.start] if all(id(rows[one.row].row) in case.seen_by_row for one in run) else run
            return before if len(before) > 2 else run
    if not whole:
        return []
    if _words("names").search(piece.name or ""):
        return run
    rings = {row.piece for row in rows if any(foot == -2 for foot in row.foot[:1])}
    if len(rings) > 1:
        return []
    finished = case.from_head("finished") or {}
    elsewhere = [case.from_head("summary") or "", *(prose.rest for one, prose in case.prose if one.section == "notes")]
    says = any(_words("says").search(sentence) and not _words("unless").search(sentence) for words in elsewhere for sentence in _sentences(words))
    return run if says or _words("names").search(case.from_head("title") or "") or any(_words("measures").search(name) for name in finished) else []


def _is_whole(rows, run) -> bool:
    """Whether nothing stands on these rounds but a border: a base with sides is no flat piece."""
    last, over = run[-1].row, 0
    for index in range(last + 1, len(rows)):
        if rows[index].below == last:
            last, over = index, over + 1
    return over < table("flat")["straight"]


def _sentences(text: str) -> list[str]:
    return re.split(r"(?<=[.!?;:])\s+", text)


def _is_unsure(case: Case, size: int, rows, run) -> bool:
    """Whether a count on the way does not come out, so that the sum may not be hers."""
    return any(rows[one.row].troubles or (size, one.row) in case.echoing or case.is_unread(rows[one.row].row) for one in run)


# ---------------------------------------------------------------- how far off

def _off(rows, run, kinds):
    """(stitches too many at the end, by round what would lie flat) where that is much by the gauge and by the rule of thumb, else None."""
    rule = sizing.table("proportions")["flat_circle"]["per_round"]
    most, least = table("flat")["share"], table("flat")["stitches"]
    end = run[-1].stitches
    by_gauge = sum(one.flat_gain for one in run)
    thumb = [rule.get(max(rows[one.row].by_kind, key=rows[one.row].by_kind.get, default="")) for one in run]
    by_thumb = sum(each or one.flat_gain for each, one in zip(thumb, run, strict=True))
    over = [end - by_gauge, end - by_thumb]
    if min(abs(one) for one in over) < least or over[0] * over[1] < 0 or any(abs(one) / flat < most for one, flat in zip(over, (by_gauge, by_thumb), strict=True)):
        return None
    return over[0], by_gauge


def _finding(case: Case, size: int, rows, run, over: float, flat: float) -> Finding:
    cups = over < 0
    share = table("flat")["share"]
    apart = [place for place, one in enumerate(run) if (one.gain < one.flat_gain * (1 - share) if cups else one.gain > one.flat_gain * (1 + share))]
    few = run[apart[0] : apart[-1] + 1] if apart else run
    first, last = few[0], few[-1]
    seen = case.seen_by_row.get(id(rows[first.row].row))
    name = seen.name if seen is not None and len(few) == 1 else _names(rows, first, last)
    gained, wanted = sum(one.gain for one in few), sum(one.flat_gain for one in few)
    each = wanted / len(few)
    message = case.says(
        [size], f"{name} {'gains' if len(few) == 1 else 'gain'} {count(round(gained), 'stitch')} where about {round(wanted)} would lie flat,",
        f"so {rows[first.row].piece or 'the circle'} {'is likely to cup' if cups else 'is likely to ruffle'}: it ends on {count(run[-1].stitches, 'stitch')}, and a flat one has about {round(flat)}",
    )
    word = "add" if cups else "take away"
    spot = f" in {name}" if len(few) < len(run) else ""
    return Finding(
        KIND, LOOK, message, seen.body if seen is not None else case.span_in_head("finished"), seen.name if seen is not None else "", case.size_names({size}),
        expected=round(flat), found=run[-1].stitches, whose="the gauge, and the rule of thumb as well",
        working=(("round", "stitches", "gained", "flat would be", "what it does"),
                 *((rows[one.row].label, str(one.stitches), number_text(round(one.gain, 1)), number_text(round(one.flat_gain, 1)), one.words) for one in run[:30])),
        suggestions=(
            Suggestion(f"gain about {number_text(round(each * 2) / 2)} stitches a round{spot}: {word} about {count(max(round(abs(wanted - gained) / len(few)), 1), 'stitch')} in each", "likely"),
            Suggestion(f"where it is to {'cup' if cups else 'ruffle'}, say so beside the rounds", "your choice"),
        ),
    )


def _names(rows, first, last) -> str:
    one, other = rows[first.row].label, rows[last.row].label
    word, _, number = one.partition(" ")
    if other.startswith(f"{word} ") and number.isdigit():
        return f"{word}s {number}-{other.rpartition(' ')[2]}"
    return f"{one} to {other}"
