"""Pieces for the tests of shapes, written by rule in the ordinary way; all at 20 stitches and 25 rows of sc to 10 cm unless said."""

import hookwright
from hookwright.shape import form

WIDTH, HEIGHT = 5.0, 4.0  # mm of a single crochet


def head(stitches: float = 20, rows: float = 25, stitch: str = "sc", more: str = "") -> str:
    return f"---\n{more}gauge: {{stitches: {stitches}, rows: {rows}, over: 10 cm, in: {stitch}}}\n---\n\n## Piece\n\n"


def sheet(wide: int, rows: int) -> str:
    return head() + (f"Ch {wide + 1}.\n\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. ({wide} sts)\n\n"
                     f"Rows 2-{rows}: Ch 1, sc in each st across, turn. ({wide} sts)\n")


def tube(around: int, rounds: int, joined: bool = False) -> str:
    end = "join with sl st in first sc. " if joined else ""
    begin = "Ch 1, sc" if joined else "Sc"
    return head() + (("" if joined else "Do not join rounds.\n\n") + f"Ch {around}, join with sl st in first ch to form a ring.\n\n"
                     f"Rnd 1: {begin} in each ch around, {end}({around})\n\nRnds 2-{rounds}: {begin} in each st around, {end}({around})\n")


def in_rounds(counts, stitch: str = "sc", before: str = "") -> str:
    """Spiral rounds of these counts from a ring, increases and decreases spread evenly and shifted from round to round."""
    rows = [f"Rnd 1: {counts[0]} {stitch} in magic ring ({counts[0]})"]
    for number, (under, count) in enumerate(zip(counts, counts[1:], strict=False), 2):
        change = abs(count - under)
        parts, at = [], 0
        for step in range(change):
            end = (2 * step + 1 + number % 2) * under // (2 * change) if change else under
            end = min(max(end, at + (1 if count > under else 2)), under)
            plain = end - at - (1 if count > under else 2)
            parts += [f"{plain} {stitch}"] * (plain > 0) + [f"2 {stitch} in next st" if count > under else f"{stitch}2tog"]
            at = end
        if at < under:
            parts.append(f"{under - at} {stitch}")
        rows.append(f"Rnd {number}: {', '.join(parts)} ({count})")
    return "Do not join rounds.\n\n" + before + "\n\n".join(rows) + "\n"


def granny(rounds: int) -> str:
    """A square of clusters with chain-2 corners."""
    out = ["Make an adjustable ring.", "Rnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, [3 dc in ring, ch 2] 3 times, join with sl st in top of ch 3. (12 dc, 4 ch-2 sps)"]
    for number in range(2, rounds + 1):
        sides = number - 2
        middle = f"ch 1, [3 dc in next ch-1 sp, ch 1] {sides} times, " if sides else "ch 1, "
        out.append(f"Rnd {number}: Sl st in next 2 dc, sl st in next ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, *{middle}(3 dc, ch 2, 3 dc) in next ch-2 sp; "
                   f"rep from * twice more, {middle}join with sl st in top of ch 3.")
    return head(15, 8, "dc") + "\n\n".join(out) + "\n"


def ripple(waves: int, rows: int) -> str:
    across = 12 * waves + 1
    row = "dc2tog over first 2 sts, *dc in each of next 4 sts, 3 dc in next st, dc in each of next 4 sts**, dc3tog over next 3 sts; rep from * across, ending last rep at **, dc2tog over last 2 sts, turn."
    return head(15, 8, "dc") + (f"Ch {across + 2}.\n\nRow 1 (RS): Dc2tog over 3rd and 4th ch from hook, *dc in each of next 4 chs, 3 dc in next ch, dc in each of next 4 chs**, "
                                f"dc3tog over next 3 chs; rep from * across, ending last rep at **, dc2tog over last 2 chs, turn. [{across} sts]\n\nRows 2-{rows}: Ch 2, {row} [{across} sts]\n")


def surface(text: str, shown: str | None = None):
    report = hookwright.check(text, terms="US")
    assert not report.must_mend, list(report.findings)[:3]
    return form(report.fabrics[0], pattern=report.pattern, shown=shown)
