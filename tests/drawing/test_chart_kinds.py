"""Charts of the constructions of the craft: ripples, ovals, blocks from corner to corner, shawls begun in a ring, flowers, filet."""

import re
import tomllib
from math import hypot
from pathlib import Path
from xml.etree import ElementTree

import pytest

import hookwright
from hookwright.drawing.chart_corner import is_corner_to_corner, lay_blocks
from hookwright.drawing.chart_fit import in_half_rings, in_rings
from hookwright.drawing.chart_lines import WORKED, lines_of
from hookwright.drawing.chart_oval import Oval, is_oval
from hookwright.drawing.chart_repeats import fold_along
from hookwright.drawing.chart_rings import half_rounds, rounds
from hookwright.drawing.chart_ripples import are_ripples
from hookwright.drawing.chart_rows import rows
from hookwright.drawing.chart_tube import is_tube, lay_tube
from hookwright.drawing.row_folding import fold

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
BLOCKS = """Note: ch 3 at the start of a block counts as dc.

## Square

Row 1 (RS): Ch 6, dc in 4th ch from hook and in next 2 chs, turn. (1 block)
Row 2: Ch 6, dc in 4th ch from hook and in next 2 chs, [sl st, ch 3, 3 dc] in ch-3 sp of next block, turn. (2 blocks)
Row 3: Ch 6, dc in 4th ch from hook and in next 2 chs, *[sl st, ch 3, 3 dc] in ch-3 sp of next block; rep from * across, turn. (3 blocks)
Rows 4-6: Rep Row 3. (6 blocks)
"""
MAT = """## Mat

Ch 11.
Rnd 1: Dc in 4th ch from hook (3 skipped chs count as dc), dc in each of next 6 chs, 6 dc in last ch; working along other side of foundation ch, dc in each of next 6 chs, 4 dc in last ch, join with sl st in top of beg ch. (24 dc)
Rnd 2: Ch 3 (counts as dc), dc in same st, dc in next 7 sts, 2 dc in each of next 5 sts, dc in next 7 sts, 2 dc in each of next 4 sts, join with sl st in top of beg ch-3. (34 dc)
"""
SHAWL = """## Shawl

Ch 4, join with sl st to form a ring.
Row 1 (RS): Ch 3 (counts as dc here and throughout), 3 dc in ring, ch 2, 4 dc in ring, turn. (8 dc)
Row 2: Ch 3, dc in first dc, dc in each dc to ch-2 sp, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in each dc to last st, 2 dc in last st, turn. (14 dc)
Row 3: Rep Row 2. (20 dc)
"""
FLOWER = """## Flower

Ch 6, join with sl st to form a ring.
Rnd 1: Ch 1, 16 sc in ring, join with sl st in first sc. (16 sc)
Rnd 2: Ch 6 (counts as dc and ch 3), skip next sc, *dc in next sc, ch 3, skip next sc; rep from * around, join with sl st in 3rd ch of beg ch-6. (8 dc, 8 ch-3 sps)
Rnd 3: Ch 1, *(sc, hdc, 3 dc, hdc, sc) in next ch-3 sp; rep from * around, join with sl st in first sc. (8 petals)
Rnd 4: Ch 1, *sc between next 2 petals, ch 5; rep from * around, join with sl st in first sc.
"""


def lines(text, piece):
    return lines_of(hookwright.check(text).fabrics[0], piece).lines


def blanket():
    return lines((EXAMPLES / "slack-water-blanket.md").read_text("utf-8"), "Blanket")


def test_a_ripple_is_laid_evenly_in_waves():
    """Rows of a ripple have their stitches at even steps, one row over the other; between peak and hollow they fall by a third at least."""
    found = blanket()
    assert are_ripples(found)
    ground = rows(found)
    for line in found[1:]:
        us = [item.u for item in line.items if not item.turning]
        steps = {round(b - a, 3) for a, b in zip(us, us[1:])}
        assert max(steps) - min(steps) < 0.01
    (first, last), xs = (ground.at[0], ground.at[-1]), range(200)
    ys = [ground.point(first + (last - first) * x / 200, 0)[1] for x in xs]
    ways = [a > b for a, b in zip(ys, ys[1:]) if abs(a - b) > 1e-6]
    assert sum(one and not other for one, other in zip(ways, ways[1:])) == 8 and not are_ripples(lines((EXAMPLES / "spindrift-scarf.md").read_text("utf-8"), "Scarf"))


def test_a_ripple_is_cut_through_its_peaks_and_nothing_is_lost():
    """One wave stands for seven of twelve stitches; every foot that is left is there, and no stitch stands on one that is far away."""
    found = blanket()
    whole = [len(line.items) for line in found]
    (along,) = fold_along(found, ripples=True)
    assert along.times == 7
    rows(found)
    for before, line, (first, last) in zip(whole, found, along.cuts, strict=True):
        assert last - first == 12 and before == len(line.items) + 6 * 12
        for item in line.items:
            for below, foot in item.feet:
                assert 0 <= foot < len(found[below].items) and abs(found[below].items[foot].u - item.u) < 26


def test_rows_repeat_from_where_the_manuscript_says_so():
    """Rows 9-72 are one line of the manuscript: the eight rows that repeat are shown from Row 9 on, where that saves as much."""
    shown = [(line.label, line.times, line.period) for line in blanket() if line.times > 1]
    assert shown == [("Row 9", 8, 8)]
    assert fold(list("abababab"), begins={2}).times == {0: (4, 2)} and fold(list("fbababab"), begins={2}).times == {2: (3, 2)}


def test_an_oval_goes_about_its_chain():
    """Eight chains in the middle: six stitches along each side stand over the same chains, those of the ends about the ends; all go once about."""
    found = lines(MAT, "Mat")
    assert is_oval(found) and in_rings(found)
    ground = rounds(found)
    assert isinstance(ground, Oval) and len(found[0].items) == 8
    sides = {}
    for item in found[1].items:
        x, y = ground.point(item.u, item.v)
        if item.feet and not item.join and abs(x) < ground.long / 2 - 1:
            sides.setdefault(item.feet[0][1], []).append((round(x), y > 0))
    both = [places for places in sides.values() if len(places) == 2]
    assert len(both) == 6 and all(abs(one[0] - other[0]) <= 3 and one[1] != other[1] for one, other in both)
    for line in found[1:]:
        us = [item.u for item in line.items if not item.join]
        assert all(a < b for a, b in zip(us, us[1:])) and us[-1] - us[0] < 1


def test_along_a_round_of_an_oval_and_back():
    """A length along the round and the place it leads to are each other's inverse, on sides and ends, more than once about."""
    ground = Oval(9)
    for u in (0.01, 0.2, 0.44, 0.6, 0.83, 0.99, 1.3, -0.4):
        assert ground.at(ground.along(u, 50.0), 50.0) == pytest.approx(u)
    assert ground.along(1.0, 50.0) == pytest.approx(ground.around_length(50.0))


def test_blocks_from_corner_to_corner_are_squares_side_by_side():
    """Row n has n blocks; each lies on its own square; one row up, the next to the side, and no two stitches are drawn in one place."""
    found = lines(BLOCKS, "Square")
    assert is_corner_to_corner(found) and not is_corner_to_corner(lines(SHAWL, "Shawl"))
    lay_blocks(found)
    middles, ways = [], []
    for line in found:
        if line.what == WORKED:
            ends = [item.drawn_at for item in line.items if item.kind == "dc" and not item.turning]
            ways.append({"up" if abs(foot[0] - top[0]) < 1 else "across" for foot, top in ends})
            middles += [((foot[0] + top[0]) / 2, (foot[1] + top[1]) / 2) for foot, top in ends]
    assert ways == [{"up"}, {"across"}] * 3 and len(middles) == 3 * 21
    assert min(hypot(a[0] - b[0], a[1] - b[1]) for at, a in enumerate(middles) for b in middles[:at]) > 7
    made = hookwright.chart(BLOCKS, "Square")
    assert "corner at the lower left" in made.picture.words and "corner" in made.picture.words


def test_a_shawl_begun_in_a_ring_of_chains_is_half_about_it():
    """As about a ring that is drawn tight: both ends of every row on one straight edge, the corner space in the middle."""
    found = lines(SHAWL, "Shawl")
    assert in_half_rings(found)
    ground = half_rounds(found)
    for line in found[1:]:
        (_, first), (_, last) = (ground.point(line.items[at].u, 0.0 + line.level) for at in (0, -1))
        assert abs(first - last) < 12
        (corner,) = [item for item in line.items if item.space]
        assert corner.u == pytest.approx(0.25, abs=0.01)


def test_a_flower_is_drawn_in_rings_though_its_rounds_frill():
    """Rounds of loops behind petals have fewer stitches; nothing is worked together, so nothing closes."""
    assert in_rings(lines(FLOWER, "Flower"))
    ball = "## Ball\n\nRnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: Inc around. (12 sc)\nRnd 3: Dec 6 times. (6 sc)\n"
    assert not in_rings(lines(ball, "Ball"))


def test_stitches_that_share_a_space_stand_along_it():
    """Two dc in a ch-2 space of filet stand upright beside each other; a shell in one chain has one foot."""
    text = ("## Net\n\nCh 15.\nRow 1 (RS): Dc in 6th ch from hook (counts as dc and ch 2), *ch 2, skip next 2 chs, dc in next ch; rep from * across, turn.\n"
            "Row 2: Ch 3 (counts as dc), *2 dc in next ch-2 sp, dc in next dc; rep from * across.\n")
    root = ElementTree.fromstring(hookwright.chart(text).picture.svg("c"))
    leans = []
    for one in root.iter("{http://www.w3.org/2000/svg}g"):
        if one.get("data-row") == "Row 2" and one.get("data-stitch") == "dc":
            path = next((found.get("d") for found in one.iter("{http://www.w3.org/2000/svg}path") if "L" in found.get("d") and "transform" not in found.attrib), None)
            if path:
                x1, y1, x2, y2 = map(float, re.findall(r"-?[\d.]+", path))
                leans.append(abs(x2 - x1) / abs(y2 - y1))
    assert len(leans) >= 8 and max(leans) < 0.2


def test_rows_are_told_as_they_are_written_for_one_size():
    """In place of the drawing stand the rows in full, in the terms asked for, lists of sizes as that of the size drawn."""
    text = (EXAMPLES / "groyne-hat.md").read_text("utf-8")
    words = hookwright.chart(text, "Hat", "Adult L", terms="UK").picture.words
    assert "Row 3 (RS, ridges): Ch 1, dc in BLO of first 7 sts, htr in next st, [FPtr around next 2 sts" in words
    assert not re.search(r"\d \(\d+, \d", words)
    assert words.count("Rep Row 2.") == 1


CIRCLE_TO_SQUARE = """## Square

Ch 4, join with sl st to form a ring.
Rnd 1: Ch 3 (counts as dc here and throughout), 15 dc in ring, join with sl st in 3rd ch of beg ch-3. (16 dc)
Rnd 2: Ch 4 (counts as dc and ch 1), *dc in next dc, ch 1; rep from * around, join with sl st in 3rd ch of beg ch-4. (16 dc, 16 ch-1 sps)
Rnd 3: Sl st in ch-1 sp, ch 1, sc in same sp, *[ch 3, sc in next ch-1 sp] 3 times, ch 6, sc in next ch-1 sp; rep from * 3 more times, omitting last sc, join with sl st in first sc. (16 sc, 12 ch-3 sps, 4 ch-6 sps)
Rnd 4: Sl st in ch-3 sp, ch 3, 2 dc in same sp, 3 dc in each of next 2 ch-3 sps, (5 dc, ch 2, 5 dc) in ch-6 sp, *3 dc in each of next 3 ch-3 sps, (5 dc, ch 2, 5 dc) in next ch-6 sp; rep from * around, join with sl st in 3rd ch of beg ch-3. (76 dc, 4 ch-2 sps)
"""


def test_a_square_about_a_circle_begins_round_and_ends_square():
    """The rounds without corners are circles; of the last the corners lie further out than the middles of its sides by a fifth at least."""
    found = lines(CIRCLE_TO_SQUARE, "Square")
    ground = rounds(found)

    def reaches(line):
        return [hypot(*ground.point(item.u, line.level)) for item in line.items if not item.join]

    assert max(reaches(found[2])) - min(reaches(found[2])) < 1 and max(reaches(found[4])) > 1.2 * min(reaches(found[4]))
    corners = [item.u for item in found[4].items if item.cornered]
    assert [b - a for a, b in zip(corners, corners[1:])] == pytest.approx([0.25] * 3)


def test_a_yoke_goes_about_its_chain_and_a_cowl_is_laid_open():
    """Both begin with a long chain joined; only one grows."""
    yoke = "## Yoke\n\nCh 40, join with sl st in first ch.\nRnd 1: Ch 3 (counts as dc), dc in same ch, 2 dc in each ch around, join with sl st in top of ch-3. (80 dc)\nRnd 2: Ch 3, dc in same st, *dc in next dc, 2 dc in next dc; rep from * around, join with sl st in top of ch-3.\n"
    cowl = "## Cowl\n\nCh 40, join with sl st in first ch.\nRnd 1: Ch 3 (counts as dc), dc in each ch around, join with sl st in top of ch-3. (40 dc)\nRnds 2-3: Ch 3, dc in each dc around, join with sl st in top of ch-3. (40 dc)\n"
    assert in_rings(lines(yoke, "Yoke")) and not in_rings(lines(cowl, "Cowl"))


def ball(many, sectors=6):
    """A ball of `many` stitches about, in like parts."""
    rows, text = many // sectors, f"## Ball\n\nRnd 1: {sectors} sc in magic ring. ({sectors} sc)\nRnd 2: Inc around. ({2 * sectors} sc)\n"
    for number in range(3, rows + 1):
        text += f"Rnd {number}: [Sc in next {number - 2} st, inc] {sectors} times. ({number * sectors} sc)\n"
    text += f"Rnds {rows + 1}-{rows + 4}: Sc in each st around. ({rows * sectors} sc)\n"
    for step in range(rows // 2):
        text += f"Rnd {rows + 5 + step}: [Sc in next {rows - 2 - step} st, invdec] {sectors} times. ({(rows - 1 - step) * sectors} sc)\n"
    return text


def test_a_ball_is_laid_open_like_a_map():
    """Every round is spread over one width, so that a stitch stands over its foot within a stitch of the emptier one."""
    found = lines(ball(48), "Ball")
    assert is_tube(found) and not in_rings(found)
    lay_tube(found)
    wide = [line.items[-1].u - line.items[0].u + (line.items[1].u - line.items[0].u) for line in found[1:]]
    assert max(wide) - min(wide) < 0.06 * max(wide)
    for line in found[2:]:
        for item in line.items:
            apart = max(found[5].wide, max(wide)) / min(len(line.items), len(found[line.below].items))
            assert all(abs(found[below].items[foot].u - item.u) < apart for below, foot in item.feet if below)


def test_of_a_ball_too_wide_one_of_its_like_parts_is_shown():
    """Six parts of a ball of 72: a sixth of each round, and it is said; one that fits is shown whole."""
    made = hookwright.chart(ball(72), "Ball")
    (along,) = made.laid.along
    assert along.times == 6 and "worked 6 times in all" in made.picture.words
    worked = [line for line in made.laid.lines if line.what == WORKED]
    assert len(worked[0].items) == 1 and max(len(line.items) for line in worked) == 12
    assert not hookwright.chart(ball(48), "Ball").laid.along and not hookwright.chart(ball(72), "Ball", whole=True).laid.along


def test_rows_are_left_out_only_where_they_go_on_alike():
    """A shawl told by "rep Row 2" may stop after a few rows; one that goes on in other stitches is shown to its end."""
    more = "".join(f"Row {number}: Ch 3, dc in first dc, {kind} in each st to ch-2 sp, (2 dc, ch 2, 2 dc) in ch-2 sp, {kind} in each st to last st, 2 dc in last st, turn.\n"
                   for number, kind in zip(range(4, 14), ("hdc", "sc") * 5))
    assert not hookwright.chart(SHAWL + more, "Shawl").repeated
    same = hookwright.chart(SHAWL + "Rows 4-20: Rep Row 2.\n", "Shawl")
    assert same.repeated and "first 8 of 20 rows" in same.picture.words


def test_rows_of_all_sorts_can_be_drawn():
    """Every twentieth of the rows that the reader is tested with, alone as they are: a drawing, whatever they stand on, and no number that is none."""
    drawn = 0
    for number, path in enumerate(sorted((EXAMPLES.parent / "tests" / "patterns").glob("rows_*.toml"))):
        for rows_of in tomllib.loads(path.read_text("utf-8")).values():
            for one in rows_of[number % 20 :: 20] if isinstance(rows_of, list) else ():
                report = hookwright.check(one["text"], below=one.get("below"), in_round=bool(one.get("in_round")))
                if any(row.row is not None and row.has_height and len(row.kind) for fabric in report.fabrics[:1] for row in fabric.rows):
                    assert not re.search(r"\bnan\b|\binf\b", hookwright.chart(report).picture.body)
                    drawn += 1
    assert drawn > 40
