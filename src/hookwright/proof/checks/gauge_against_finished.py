"""A finished width that no row of the pattern comes to at the stated gauge.

The width of a row is its stitches divided by the stitches of the gauge. Here a width (or circumference) is stated that no row of the
pattern has, not even twice or half a row, and no number of rows either. So the gauge, the measure or the count is of an earlier version.

With it::

    ---
    gauge:
      - stitches: 16
        rows: 20
        over: 10 cm
        in: sc
    finished: {width: 70 cm}
    ---
    Ch 81.
    Row 1: Sc in 2nd ch from hook and in each ch across. (80 sc)
    Rows 2-20: Ch 1, turn, sc in each st across. (80 sc)

Without it::

    ---
    gauge:
      - stitches: 16
        rows: 20
        over: 10 cm
        in: sc
    finished: {width: 50 cm}
    ---
    Ch 81.
    Row 1: Sc in 2nd ch from hook and in each ch across. (80 sc)
    Rows 2-20: Ch 1, turn, sc in each st across. (80 sc)

Working::

    80 stitches at 16 in 10 cm are 80 / 16 x 10 = 50 cm
    70 cm would be 70 / 10 x 16 = 112 stitches

    in three sizes 60, 66 and 72 stitches are 40, 44 and 48 cm; where 50 cm stand for the third, 72 stitches are 2 cm short

One size alone is found, too, where a row makes the width in every other size to the stitch.

What to do: measure the gauge and the piece again, and mend whichever is old.
Lengths and heights are looked at by `finished-length-differs`; `hookwright measure` tells what the solved shape comes to.
"""

from hookwright.ground import LOOK, Finding, Suggestion, of_size
from hookwright.notation import Gauge

from ..case import Case
from ..wording import count, number_text, sentence

KIND = "gauge-against-finished"
_WIDTHS = ("width", "wide", "circumference", "around", "brim", "chest", "bust", "waist", "hip")
_ALLOWED = 0.12  # blocking, edgings and stretch; common practice, no source
_STITCHES, _SHARE = 2.0, 0.035  # of one size alone: off by so many stitches and by this share; common practice, no source
_TIMES = (1, 2, 0.5)  # once, a front and a back, half


def find(case: Case):
    finished = case.from_head("finished") or {}
    measured = [_as_gauge(swatch) for swatch in case.from_head("swatches") or ()]
    gauges = [gauge for gauge in (*(case.from_head("gauge") or ()), *measured) if gauge.stitches and gauge.over_mm]
    if not finished or not gauges or not case.fabrics:
        return
    for name, measure in finished.items():
        if not any(word in name.lower() for word in _WIDTHS):
            continue
        off = {}
        for size, fabric in enumerate(case.fabrics):
            wanted = measure.at(size)
            if wanted is None or not fabric.rows:
                continue
            low, high = wanted[0] * (1 - _ALLOWED), wanted[1] * (1 + _ALLOWED)
            widths = _widths(fabric, gauges)
            if widths and not any(low <= width <= high for width in widths):
                off[size] = (wanted, *min(((width, words) for width, words in widths.items()), key=lambda pair: ("st" not in pair[1], abs(pair[0] - wanted[0]))))
        if len(off) < max(1, len(case.fabrics)):
            yield from _one_size(case, name, measure, gauges)
            continue
        size, (wanted, nearest, made_of) = min(off.items())
        gauge = gauges[0]
        stitches = wanted[0] / gauge.over_mm * gauge.stitches
        span = case.span_in_head(f"finished.{name}")
        in_size = f" of {of_size(case.sizes[size])}" if len(case.sizes) > 1 else ""
        message = sentence(
            f"no row comes to the finished {name} of {number_text(wanted[0] / 10)} cm{in_size}:",
            f"at {number_text(gauge.stitches)} stitches in {number_text(gauge.over_mm / 10)} cm",
            f"that would be {count(round(stitches), 'stitch')},",
            f"and the nearest of the pattern is {number_text(nearest / 10)} cm, {made_of}",
        )
        yield Finding(
            KIND,
            LOOK,
            message,
            span if span.end else case.span_in_head("finished"),
            None,
            case.size_names(off),
            expected=round(stitches),
            found=round(nearest / gauge.over_mm * gauge.stitches),
            whose="the gauge",
            working=(
                ("size", "finished", "stitches for it", "nearest row"),
                *(
                    (
                        case.sizes[one],
                        f"{number_text(pair[0] / 10)} cm",
                        number_text(pair[0] / gauge.over_mm * gauge.stitches),
                        f"{number_text(near / 10)} cm, {words}",
                    )
                    for one, (pair, near, words) in off.items()
                ),
            ),
            suggestions=(Suggestion("measure the gauge and the piece again", "your choice"),),
        )


def _as_gauge(swatch) -> Gauge:
    """A swatch as the gauge it shows, after washing where that was measured."""
    return Gauge(swatch.stitches, swatch.rows, swatch.washed_width_mm or swatch.width_mm or 0.0, swatch.washed_height_mm or swatch.height_mm or 0.0, swatch.of)


def _one_size(case: Case, name: str, measure, gauges):
    """One size whose measure is off, where the same row makes it in all others."""
    sizes = range(len(case.fabrics))
    wanted = [measure.at(size) for size in sizes]
    if len(wanted) < 3 or None in wanted or len(set(wanted)) < len(wanted):
        return
    best = None
    for gauge in gauges:
        unit = gauge.over_mm / gauge.stitches
        for counted in _main_rows(case):
            for times in _TIMES:
                widths = [stitches * unit * times for stitches in counted]
                apart = [max(low - width, width - high, 0.0) for width, (low, high) in zip(widths, wanted)]
                wrong = [size for size in sizes if apart[size] > max(_STITCHES * unit * times, _SHARE * wanted[size][0])]
                if not wrong:
                    return  # a row makes all of them
                if len(wrong) == 1 and all(apart[size] <= max(unit * times / 2, 2.5) for size in sizes if size != wrong[0]):
                    best = best or (wrong[0], gauge, counted[wrong[0]], times, widths)
    if best is None:
        return
    size, gauge, stitches, times, widths = best
    need = sum(wanted[size]) / 2 / (gauge.over_mm / gauge.stitches) / times
    span = case.span_in_head(f"finished.{name}")
    yield Finding(
        KIND, LOOK,
        f"in {of_size(case.sizes[size])} the finished {name} of {number_text(wanted[size][0] / 10)} cm is not what the {count(stitches, 'stitch')} come to, "
        f"{number_text(widths[size] / 10)} cm at {number_text(gauge.stitches)} stitches in {number_text(gauge.over_mm / 10)} cm; in every other size the same row makes it",
        span if span.end else case.span_in_head("finished"), None, (case.sizes[size],), expected=round(need), found=stitches, whose="the other sizes",
        working=(("size", "finished", "the row makes"), *((case.sizes[one], f"{number_text(wanted[one][0] / 10)} cm", f"{number_text(widths[one] / 10)} cm") for one in sizes)),
        suggestions=(Suggestion(f"{number_text(widths[size] / 10)} cm in {of_size(case.sizes[size])}", "likely"), Suggestion(f"{count(round(need), 'stitch')} in this size", "your choice")),
    )


def _main_rows(case: Case) -> set[tuple[int, ...]]:
    """The stitches, one a size, of each piece's widest row and of its most usual one."""
    by_piece: list[dict[str, list[int]]] = []
    for fabric in case.fabrics:
        pieces: dict[str, list[int]] = {}
        for worked in fabric.rows:
            if worked.stitches:
                pieces.setdefault(worked.piece, []).append(worked.stitches)
        by_piece.append(pieces)
    out = set()
    for piece in by_piece[0]:
        if all(piece in pieces for pieces in by_piece):
            for pick in (max, lambda counts: max(set(counts), key=counts.count)):
                out.add(tuple(pick(pieces[piece]) for pieces in by_piece))
    return out


def _widths(fabric, gauges) -> dict[float, str]:
    """All lengths in mm that rows and numbers of rows of the fabric come to, by any of the gauges, once, twice and halved; each with what it is of."""
    counts = {worked.stitches for worked in fabric.rows if worked.stitches}
    counts |= {worked.stitches + sum(worked.spaces) for worked in fabric.rows if worked.stitches}
    rows: dict[str, int] = {}
    for worked in fabric.rows:
        rows[worked.piece] = rows.get(worked.piece, 0) + 1
    out: dict[float, str] = {}
    for gauge in gauges:
        wide = {number / gauge.stitches * gauge.over_mm: count(number, "stitch") for number in counts}
        if gauge.rows and gauge.rows_over_mm:
            wide.update({number / gauge.rows * gauge.rows_over_mm: count(number, "row") for number in (*rows.values(), len(fabric.rows))})
        for times in _TIMES:
            for width, words in wide.items():
                out.setdefault(width * times, {1: "", 2: "twice ", 0.5: "half of "}[times] + words)
    return out
