"""Schematics: outlines lie where counts and gauge put them, lengths are those of every size, nothing runs out of the drawing. Figures are worked
out here from the gauge: 16 stitches and 12 rows to 10 cm are 6.25 mm and 8.33 mm."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

import hookwright
from hookwright.drawing import pieces_of

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SVG = "{http://www.w3.org/2000/svg}"
W, H = 6.25, 100 / 12
HEAD = "---\nterms: US\ngauge: 16 sts and 12 rows over 10 cm in hdc\n---\n"

FRONT = """---
terms: US
sizes: [S, M, L]
gauge: 16 sts and 12 rows over 10 cm in hdc
---
## Left front
Ch 37 (41, 45).
Row 1: Hdc in 2nd ch from hook and in each ch across. (36 (40, 44) hdc)
Rows 2-30: Ch 1, turn, hdc in each st across. (36 (40, 44) hdc)
Row 31: Sl st in first 4 sts, ch 1, hdc in each st across, turn. (32 (36, 40) hdc)
Rows 32-40: Ch 1, hdc in each st across, turn. (32 (36, 40) hdc)
Row 41: Ch 1, hdc in first 20 (24, 28) sts, turn, leaving remaining sts unworked. (20 (24, 28) hdc)
Rows 42-50: Ch 1, hdc in each st across, turn. (20 (24, 28) hdc)
"""


def pieces(text):
    report = hookwright.check(text)
    return pieces_of(report.fabrics, report.pattern.head, "US")


def dims(part):
    return {dim.name: dim for dim in part.dims}


def test_an_armhole_steps_in_on_one_side_and_the_neck_on_the_other():
    """36 stitches below, 32 above the armhole, 20 above the neck; all edges straight up: eight corners."""
    (piece,) = pieces(FRONT)
    part = piece.part(0)
    (corners,) = part.outline.fills
    assert len(corners) == 8
    left, bottom, right, top = part.outline.box
    assert (right - left, top - bottom) == (pytest.approx(36 * W), pytest.approx(50 * H))
    foot, tip = [x for x, y in corners if y == bottom], [x for x, y in corners if y == top]
    armhole, neck = max(foot) - max(tip), min(tip) - min(foot)
    assert sorted((armhole, neck)) == [pytest.approx(4 * W), pytest.approx(12 * W)]
    found = dims(part)
    assert found["width"].values == tuple(pytest.approx(n * W) for n in (36, 40, 44))
    assert found["width at the top"].values == tuple(pytest.approx(n * W) for n in (20, 24, 28))
    assert found["width of section 1 between"].values == tuple(pytest.approx(n * W) for n in (32, 36, 40))
    assert [found[f"height of section {n} from the bottom"].values[0] for n in (1, 2, 3)] == [pytest.approx(n * H) for n in (30, 10, 10)]


def test_a_sleeve_slopes_on_both_sides_alike():
    """An increase at each end of every other row, then straight: the middle stays where it is."""
    rows = ["Row 1: Hdc in 2nd ch from hook and in each ch across. (24 hdc)"]
    for number in range(2, 21, 2):
        count = 24 + number
        rows += [f"Row {number}: Ch 1, turn, 2 hdc in first st, hdc in each st to last st, 2 hdc in last st. ({count} hdc)", f"Row {number + 1}: Ch 1, turn, hdc in each st across. ({count} hdc)"]
    (piece,) = pieces(HEAD + "## Sleeve\nCh 25.\n" + "\n".join(rows) + "\nRows 22-40: Ch 1, turn, hdc in each st across. (44 hdc)\n")
    part = piece.part(0)
    corners = part.outline.fills[0]
    assert len(corners) == 6
    middles = {round((min(xs) + max(xs)) / 2, 3) for y in {y for _, y in corners} if len(xs := [x for x, other in corners if other == y]) == 2}
    assert len(middles) <= 2 and max(middles) - min(middles) <= W
    assert dims(part)["width at the top"].values == (pytest.approx(44 * W),)


def test_shoulders_stand_on_the_front_with_the_neck_between():
    """The smock's front in its first size: two shoulders of 9 stitches and what lies between them."""
    report = hookwright.check((EXAMPLES / "saltmarsh-smock.md").read_text("utf-8"))
    front = next(one for one in pieces_of(report.fabrics, report.pattern.head, "US") if one.name == "Front")
    part = front.part(0)
    found = dims(part)
    first, second, opening = (found[name].values for name in ("top of first shoulder", "top of second shoulder", "opening"))
    assert first == pytest.approx(second) and len(first) == 9
    assert [a + b + c for a, b, c in zip(first, second, opening, strict=True)] == [pytest.approx(one) for one in found["width"].values]
    assert found["height of section 1 from the bottom"].values[0] + found["height of section 2 from the bottom"].values[0] == pytest.approx(found["height"].values[0])
    assert len(part.outline.fills) == 3


@pytest.mark.parametrize(("st", "row"), [("hdc", H)])
def test_a_circle_and_a_square(st, row):
    """A disc is twice as wide as its rounds are high; the diagonal of a square is 1.414 times its side."""
    disc = next(iter(pieces(HEAD + "## Mat\nRnd 1: 8 hdc in magic ring. (8)\nRnd 2: 2 hdc in each st around. (16)\nRnd 3: [Hdc in next st, 2 hdc in next st] 8 times. (24)\n")))
    assert disc.shape == "disc"
    assert dims(disc.part(0))["diameter"].values == (pytest.approx(6 * row),)
    report = hookwright.check((EXAMPLES / "rock-pool-squares.md").read_text("utf-8"))
    square = next(iter(pieces_of(report.fabrics, report.pattern.head, "UK")))
    found = dims(square.part(0))
    assert square.shape == "polygon"
    assert found["diagonal"].values[0] == pytest.approx(found["side"].values[0] * 2**0.5)
    assert found["side"].values[0] == pytest.approx(145, rel=0.03)  # as the head states it


def test_half_a_square_hangs_from_the_middle_of_its_edge():
    """A shawl with its corner in the middle of every row, as high as its rows: 1.414 times that deep, and twice as wide as deep; as its head states it."""
    report = hookwright.check((EXAMPLES / "causeway-shawl.md").read_text("utf-8"))
    (shawl,) = pieces_of(report.fabrics, report.pattern.head, "US")
    found = dims(shawl.part(0))
    assert shawl.shape == "half square"
    assert found["deep"].values[0] == pytest.approx(33 * 10 * 2**0.5, rel=0.01)  # 32 rows and the edging of 1 cm each
    assert found["along the edge"].values == tuple(pytest.approx(2 * one) for one in found["deep"].values)
    for name, stated in (("deep", (470, 810)), ("along the edge", (920, 1600))):
        assert found[name].values == tuple(pytest.approx(one, rel=0.03) for one in stated)


def test_a_triangle_from_its_point_is_worked_in_rows():
    """Increases at both edges have no corner in the middle: twice the slope of a stitch a row."""
    (piece,) = pieces(HEAD + "## Kerchief\nCh 4.\nRow 1: 2 dc in 4th ch from hook. (3 dc)\nRow 2: Ch 3 (counts as dc), turn, dc in first st, dc in each st to last st, 2 dc in last st. (5 dc)\nRows 3-20: Rep Row 2. (41 dc)\n")
    assert piece.shape == "rows" and len(piece.part(0).outline.fills[0]) == 4
    assert dims(piece.part(0))["width at the top"].values == (pytest.approx(41 * W),)


def test_a_crown_is_no_wider_than_a_head_at_its_height():
    """The outline of a hat narrows to the top of the crown, and its edge is as wide as a circle of the last round."""
    report = hookwright.check((EXAMPLES / "harbor-light-beanie.md").read_text("utf-8"))
    hat = next(iter(pieces_of(report.fabrics, report.pattern.head, "US")))
    part = hat.part(0)
    edge = dims(part)["around at the last round"]
    assert edge.side == "below" and edge.values[0] == pytest.approx(400)
    assert edge.end[0] - edge.start[0] == pytest.approx(400 / 3.14159, rel=1e-3)
    upside_down = hat.part(0, upside=False)
    assert dims(upside_down)["around at the last round"].side == "above"


def test_a_gusset_stands_out_at_one_side():
    """The mitten's hand is straight on the left."""
    report = hookwright.check((EXAMPLES / "kelp-cutter-mittens.md").read_text("utf-8"))
    hand = next(one for one in pieces_of(report.fabrics, report.pattern.head, "US") if one.name == "Hand")
    part = hand.part(0)
    left, _, right, _ = part.outline.box
    assert -left < right
    assert {one.name for one in pieces_of(report.fabrics, report.pattern.head, "US")} == {"Cuff", "Hand", "Thumb"}


@pytest.mark.parametrize("path", sorted(path for path in EXAMPLES.glob("*.md") if path.name != "README.md"), ids=lambda path: path.stem)
def test_every_drawing_holds_what_it_draws(path):
    """Each is XML with a title and words, and every line and word starts within it; shapes that the counts do not tell are refused in words."""
    report = hookwright.check(path.read_text("utf-8"))
    try:
        drawn = hookwright.schematic(report)
    except ValueError as told:
        assert "outline" in str(told)
        return
    root = ElementTree.fromstring(drawn.svg("drawing"))
    _, _, wide, high = map(float, root.get("viewBox").split())
    assert root.find(f"{SVG}title").text and root.find(f"{SVG}desc").text
    for group in [root, *root.iter(f"{SVG}g")]:
        move = re.match(r"translate\(([\d.]+) ([\d.]+)\)", group.get("transform", ""))
        dx, dy = (float(move[1]), float(move[2])) if move else (0.0, 0.0)
        for each in group:
            if each.tag == f"{SVG}text":
                x, y = float(each.get("x")) + dx, float(each.get("y")) + dy
                assert -1 <= x <= wide + 1 and 0 <= y <= high + 1
            elif each.tag == f"{SVG}path":
                for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", each.get("d")):
                    assert -1 <= float(x) + dx <= wide + 1 and -1 <= float(y) + dy <= high + 1


def test_lengths_stand_in_both_units_and_all_sizes():
    """In place where there are three sizes or fewer, by letters where there are more."""
    few = hookwright.schematic(FRONT.replace("Rows 32-40", "Rows 32-60").replace("Row 41", "Row 61").replace("Rows 42-50", "Rows 62-90"))
    assert "22.5 (25, 27.5)\u00a0cm" in few.words
    many = hookwright.schematic((EXAMPLES / "saltmarsh-smock.md").read_text("utf-8"), "Sleeve")
    assert ">A</text>" in many.body and "(31, 35.5, 35.5, 37, 40, 43, 44.5, 47.5) cm" in many.body


def test_the_sheet_shows_them_where_they_tell_more():
    """A garment in nine sizes has them; a rectangle of one size and a toy have none; nor a pattern whose rows must be mended first."""
    from hookwright.pipeline.schematics import schematics_for_sheet

    assert len(schematics_for_sheet(hookwright.check((EXAMPLES / "saltmarsh-smock.md").read_text("utf-8")), "US")) == 3
    assert schematics_for_sheet(hookwright.check((EXAMPLES / "bosun-the-puffin.md").read_text("utf-8")), "US") == ()
    plain = HEAD + "## Panel\nCh 41.\nRow 1: Hdc in 2nd ch from hook and in each ch across. (40 hdc)\nRows 2-30: Ch 1, turn, hdc in each st across. (40 hdc)\n"
    assert schematics_for_sheet(hookwright.check(plain), "US") == ()
    assert schematics_for_sheet(hookwright.check(FRONT.replace("(20 (24, 28) hdc)", "(21 (24, 28) hdc)")), "US") == ()
    assert hookwright.write(HEAD + "Some words, and no row.\n", "txt")
    assert "Left front" not in hookwright.write(plain, "txt").decode()
    sheet = hookwright.write(FRONT, "html").decode()
    assert "Schematics" in sheet and 'id="schematic-1-title"' in sheet


def test_names_of_hers_are_escaped_and_cut():
    """Markup in a heading stays words, and a heading of 300 letters does not widen the drawing."""
    text = HEAD + "## <b>Panel</b> " + "long " * 60 + "\nCh 41.\nRow 1: Hdc in 2nd ch from hook and in each ch across. (40 hdc)\nRows 2-30: Ch 1, turn, hdc in each st across. (40 hdc)\n\n## Second\nCh 11.\nRow 1: Hdc in 2nd ch from hook and in each ch across. (10 hdc)\nRow 2: Ch 1, turn, hdc in each st across. (10 hdc)\n"
    drawn = hookwright.schematic(text, "second")
    assert "Second" in drawn.title
    whole = hookwright.schematic(text)
    assert "<b>" not in whole.svg("drawing") and whole.width < 1200
    ElementTree.fromstring(whole.svg("drawing"))


def test_lace_loops_along_an_edge_make_it_no_longer():
    """Picots of chains between stitches of the last row hang from it."""
    rows = "Row 1: Hdc in 2nd ch from hook and in each ch across. (41 hdc)\nRows 2-30: Ch 1, turn, hdc in each st across. (41 hdc)\nRow 31: Ch 1, turn, sc in first st, [ch 5, skip next st, sc in next st] 20 times. (21 sc, 20 ch-5 sps)\n"
    (piece,) = pieces(HEAD + "## Panel\nCh 42.\n" + rows)
    left, _, right, _ = piece.part(0).outline.box
    assert right - left == pytest.approx(41 * W, rel=0.02)


def test_a_handle_goes_round_itself():
    """Two handles of 30 chains over 12 stitches each, and stitches worked over them, leave the bag as wide as it is."""
    bag = ("## Bag\nCh 60, join with sl st to form a ring.\nRnd 1: Ch 1, hdc in each ch around, join. (60 hdc)\nRnds 2-12: Ch 1, hdc in each st around, join. (60 hdc)\n"
           "Rnd 13: Ch 1, hdc in next 18 sts, ch 30, skip next 12 sts, hdc in next 18 sts, ch 30, skip next 12 sts, join. (36 hdc, 2 ch-30 sps)\n"
           "Rnd 14: Ch 1, hdc in next 18 sts, 34 hdc in next ch-30 sp, hdc in next 18 sts, 34 hdc in next ch-30 sp, join. (104 hdc)\n")
    (piece,) = pieces(HEAD + bag)
    assert max(piece.rounds[0].around) == pytest.approx(60 * W, rel=0.02)
