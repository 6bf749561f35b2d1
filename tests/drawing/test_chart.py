"""Charts: every symbol is there and as published, stands where the stitch is worked, says what it is; repeats are shown once."""

import re
import time
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

import hookwright
from hookwright.drawing import symbol
from hookwright.drawing.chart_drawing import PALETTE
from hookwright.drawing.chart_lines import WORKED, lines_of
from hookwright.drawing.chart_repeats import fold_along
from hookwright.drawing.chart_rings import rounds
from hookwright.drawing.chart_rows import rows
from hookwright.drawing.chart_spacing import spread
from hookwright.drawing.symbols import loop_mark
from hookwright.stitches import CATALOGUE, stitch

SVG = "{http://www.w3.org/2000/svg}"
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SHELLS = """---
title: Limpet Rows
terms: US
---

## Strip

Ch 20.
Row 1 (RS): Sc in 2nd ch from hook, *skip next 2 chs, 5 dc in next ch, skip next 2 chs, sc in next ch; rep from * across, turn. (4 sc, 15 dc)
Row 2: Ch 3 (counts as dc), 2 dc in first sc, *skip next 2 dc, sc in next dc, skip next 2 dc, 5 dc in next sc; rep from * once more, skip next 2 dc, sc in next dc, skip next 2 dc, 3 dc in last sc, turn. (16 dc, 3 sc)
"""


def example(name):
    return hookwright.check((EXAMPLES / f"{name}.md").read_text("utf-8"))


def groups(made):
    """The groups of single symbols of a drawing."""
    root = ElementTree.fromstring(made.picture.svg("c"))
    return [one for one in root.iter(f"{SVG}g") if one.get("data-stitch")]


def told(text, one):
    """The words of the manuscript that a group of the drawing comes from."""
    return text[int(one.get("data-from")) : int(one.get("data-to"))]


def placed(text, piece, size=0):
    """Lines of a piece, laid out in rows."""
    found = lines_of(hookwright.check(text).fabrics[size], piece).lines
    return found, rows(found)


# ---------------------------------------------------------------- symbols

def test_every_stitch_of_the_catalogue_has_a_symbol():
    """And so has every number of them worked together."""
    ids = [*CATALOGUE, "sc2tog", "dc3tog", "hdc2tog", "tr4tog", "dc12tog", "fpdc2tog", "bphdc3tog"]
    assert [id for id in ids if symbol(id) is None] == []


def test_symbols_are_drawn_after_what_is_published_of_them():
    """The words of the symbol table are those of the catalogue, whose sources are named there; each symbol names its own."""
    assert {id: symbol(id).says for id in CATALOGUE if symbol(id).says != CATALOGUE[id].symbol} == {}
    assert [id for id in CATALOGUE if not symbol(id).sources] == []


def marks(id):
    return [name for name, _ in symbol(id).parts]


@pytest.mark.parametrize(("id", "slashes"), [("hdc", 0), ("dc", 1), ("tr", 2), ("dtr", 3), ("trtr", 4)])
def test_cross_bars_tell_the_yarn_overs(id, slashes):
    """Code-Knacker, Häkelschrift: from the dc on a bar across the stem for each yarn over; the hdc is a plain T."""
    assert marks(id).count("slash") == slashes and {"stem", "bar"} <= set(marks(id))
    assert slashes == 0 or CATALOGUE[id].yo == slashes


def test_legs_posts_and_loops():
    """As many legs as are worked together (Glossary of a crochet book); hooks of the two posts curl two ways, and so do the arcs of the loops."""
    assert [symbol(id).legs for id in ("sc2tog", "dc3tog", "cl", "bobble", "popcorn")] == [2, 3, 3, 5, 5]
    assert [name for name, _ in symbol("dc3tog").leg] == ["slash"] and symbol("hdc2tog").leg == ()
    assert marks("fpdc")[-1] == "front_hook" and marks("bpdc")[-1] == "back_hook"
    assert loop_mark("front") != loop_mark("back") and loop_mark("nowhere") == ()
    assert not [name for name, _ in symbol("puff").leg]  # a spindle of plain lines, no slashes


def light(colour):
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    parts = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def test_colours_stand_out_on_white_and_on_black():
    """WCAG 2.2, 1.4.11: 3 to 1."""
    for colour in PALETTE[1:]:
        assert 1.05 / (light(colour) + 0.05) >= 3 and (light(colour) + 0.05) / 0.05 >= 3, colour


# ---------------------------------------------------------------- places

@given(st.lists(st.tuples(st.floats(-200, 200), st.floats(1, 20)), min_size=1, max_size=30))
def test_places_keep_their_order_and_their_room(pairs):
    """No two come nearer than asked; where all targets leave room they are met."""
    targets, gaps = [target for target, _ in pairs], [gap for _, gap in pairs][1:]
    found = spread(targets, gaps)
    assert all(b - a >= gap - 1e-6 for a, b, gap in zip(found, found[1:], gaps))
    if all(b - a >= gap for a, b, gap in zip(targets, targets[1:], gaps)):
        assert found == pytest.approx(targets)


def test_a_stitch_stands_over_its_foot_and_a_shell_fans_out_of_it():
    """Over 20 chains, each sc and the middle of each shell is over the chain it goes into; the five dc of a shell lie to both sides alike."""
    lines, _ = placed(SHELLS, "Strip")
    for line in lines[1:]:
        shells = {}
        for item in line.items:
            if item.flags & 1 and item.feet:
                shells.setdefault(item.feet, []).append(item.u)
        for ((below, foot),), us in shells.items():
            assert sum(us) / len(us) == pytest.approx(lines[below].items[foot].u, abs=6)
            if len(us) == 5:
                assert us[2] == pytest.approx(lines[below].items[foot].u, abs=6)


def test_a_decrease_stands_between_its_feet_and_leans_on_both():
    """Sc2tog over the 2nd and 3rd stitch: its top lies between their tops."""
    lines, _ = placed("## A\n\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (8 sc)\n"
                      "Row 2: Ch 1, sc in first st, sc2tog, sc in each st across, turn. (7 sc)\n", "A")
    one = next(item for item in lines[2].items if item.kind == "sc2tog")
    feet = sorted(lines[below].items[foot].u for below, foot in one.feet)
    assert len(feet) == 2 and feet[0] < one.u < feet[1]


@pytest.mark.parametrize(("name", "piece"), [("spindrift-scarf", "Scarf"), ("samphire-edging", "Points"), ("groyne-hat", "Hat"), ("slack-water-blanket", "Blanket")])
def test_symbols_of_a_row_do_not_lie_on_each_other(name, piece):
    """The tops of neighbours keep nine tenths of their width apart, with a repeat left out, too."""
    found = lines_of(example(name).fabrics[0], piece).lines
    fold_along(found)
    rows(found)
    for line in found:
        for one, other in zip(line.items, line.items[1:]):
            assert other.u - one.u >= 0.9 * (one.wide + other.wide) / 2


def test_rounds_go_about_the_ring_once_and_outwards():
    """Every round of a square goes once about, with its corner spaces at four equal steps, and each lies outside the one before."""
    found = lines_of(example("rock-pool-squares").fabrics[0], "Square (make 9 (20, 35))").lines
    ground = rounds(found)
    assert ground.corners == 4
    for before, line in zip(found, found[1:]):
        solid = [item for item in line.items if not item.join]
        assert all(a.u < b.u for a, b in zip(solid, solid[1:])) and solid[-1].u - solid[0].u < 1
        assert line.level > before.level + 5
        corners = [item.u for item in line.items if item.cornered]
        assert [b - a for a, b in zip(corners, corners[1:])] == pytest.approx([0.25] * 3)


def test_a_frilled_edge_stays_near_the_round_it_stands_on():
    """With three ch-3 loops to each stitch the last round lies closer; its symbols keep their order and half their room."""
    text = ("## A\n\nCh 6, join with sl st to form a ring.\nRnd 1: Ch 1, 12 sc in ring, join with sl st in first sc. (12 sc)\n"
            "Rnd 2: Ch 1, *(sc, ch 3, sc, ch 3, sc, ch 3) in next sc; rep from * around, join with sl st in first sc. (36 sc)\n")
    found = lines_of(hookwright.check(text).fabrics[0], "A").lines
    ground = rounds(found)
    solid = [item for item in found[-1].items if not item.join]
    once = ground.around_length(found[-1].level)
    assert once < 0.8 * (36 * 10.5 + 36 * 18) and all((b.u - a.u) * once > 5 for a, b in zip(solid, solid[1:]))


# ---------------------------------------------------------------- the drawing

@pytest.mark.parametrize(("name", "piece"), [("rock-pool-squares", "Square"), ("harbor-light-beanie", "Crown")])
def test_every_stitch_of_the_fabric_has_one_symbol(name, piece):
    """Where nothing is left out, each column of each row is drawn once, under its own name."""
    report = example(name)
    drawn = {}
    for one in groups(hookwright.chart(report, piece)):
        if one.get("data-index"):
            drawn.setdefault(one.get("data-row"), []).append(int(one.get("data-index")))
    worked = [row for row in report.fabrics[0].rows if row.piece.startswith(piece) and row.row is not None and len(row.kind)]
    assert {row.label: list(range(len(row.kind))) for row in worked} == {label: sorted(found) for label, found in drawn.items() if label != "Foundation"}


def test_a_repeat_stands_for_all_that_is_left_out():
    """Shown and left out come to what was worked: rows of the hat, and stitches along the scarf."""
    report = example("groyne-hat")
    found = lines_of(report.fabrics[0], "Hat").lines
    assert sum(line.period * (line.times - 1) for line in found) + sum(line.row is not None and line.what == WORKED for line in found) == \
        sum(row.piece == "Hat" and row.has_height for row in report.fabrics[0].rows)
    lines = lines_of(example("spindrift-scarf").fabrics[0], "Scarf").lines
    whole = [len(line.items) for line in lines]
    (along,) = fold_along(lines)
    assert along.times == 5
    for before, line, (first, last) in zip(whole, lines, along.cuts, strict=True):
        assert before == len(line.items) + (along.times - 1) * (last - first)
        assert all(0 <= foot < len(lines[below].items) for item in line.items for below, foot in item.feet)


def test_numbers_stand_where_rows_begin():
    """Right-side rows at the right and read to the left, wrong-side rows at the left (rules of charts common to the published sets)."""
    root = ElementTree.fromstring(hookwright.chart(SHELLS, "Strip").picture.svg("c"))
    at = {one.text: one for one in root.iter(f"{SVG}text")}
    assert float(at["1"].get("x")) > 0 > float(at["2"].get("x"))
    assert at["1"].get("text-anchor") == "start" and at["2"].get("text-anchor") == "end"


def test_wrong_side_rows_are_drawn_as_the_right_side_shows_them():
    """Amipark: symbols show the fabric from the right side; so a loop or a post of a wrong-side row is drawn the other way, and it is said."""
    text = ("## A\n\nCh 7.\nRow 1 (RS): Dc in 3rd ch from hook and in each ch across, turn. (5 dc)\n"
            "Row 2: Ch 2, fpdc around each st across, turn. (5 fpdc)\nRow 3: Ch 1, sc in BLO of each st across, turn. (5 sc)\n"
            "Row 4: Ch 1, sc in BLO of each st across, turn. (5 sc)\n")
    made = hookwright.chart(text, "A")
    kinds = {one.get("data-row"): one for one in groups(made) if one.get("data-stitch") != "ch"}
    assert kinds["Row 2"].get("data-stitch") == "bpdc"
    assert "back loop" in kinds["Row 3"].find(f"{SVG}title").text and "front loop" in kinds["Row 4"].find(f"{SVG}title").text
    assert "from the right side" in made.picture.words


def test_a_symbol_names_its_stitch_its_row_and_its_place_in_the_manuscript():
    """The span leads back to the step as she wrote it, also where numbers were put into her text; that of the row to the row."""
    text = (EXAMPLES / "groyne-hat.md").read_text("utf-8")
    root = ElementTree.fromstring(hookwright.chart(text, "Hat").picture.svg("c"))
    row = next(one for one in root.iter(f"{SVG}g") if one.get("data-row") == "Row 5" and not one.get("data-stitch"))
    assert told(text, row).startswith("Row 5 (RS, barnacles)")
    one = next(one for one in groups(hookwright.chart(text, "Hat")) if one.get("data-stitch") == "puff")
    assert told(text, one) == "puff in next st"
    assert one.find(f"{SVG}title").text.lower() == "puff, row 5"
    assert hookwright.chart(text, "Hat", terms="UK").picture.svg("c").count("FPtr: front post treble") == 1


WORDS = {"spindrift-scarf": {"fsc": "fsc", "dc": "dc|shell|v-st", "sc": "sc", "ch": "ch|v-st"}, "rock-pool-squares": {"popcorn": "limpet", "dc": "tr|ch", "sc": "dc", "ch": "ch", "slst": "ss"},
         "slack-water-blanket": {"cl": "cl", "dc3tog": "dc3tog", "dc2tog": "dc2tog", "dc": "dc", "ch": "ch"}}


@pytest.mark.parametrize("name", sorted(WORDS))
def test_every_symbol_is_told_where_it_says(name):
    """Rows worked by reference lead to the row they repeat; what is said once for many stitches is the place of them all."""
    text = (EXAMPLES / f"{name}.md").read_text("utf-8")
    found = groups(hookwright.chart(text))
    assert len(found) > 50
    for one in found:
        assert re.search(WORDS[name][one.get("data-stitch")], told(text, one), re.I), (one.get("data-stitch"), told(text, one))


def test_the_step_of_a_stitch_costs_a_check_nothing_and_is_that_of_its_own_row():
    """Two rows of the same words have each its own place; stitches laid by the pass lead each to its step of the pass."""
    text = ("## A\n\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (12 sc)\n"
            "Row 2: Ch 1, *hdc in next st, 2 dc in next st, sc2tog; rep from * across, turn. (12 sts)\n"
            "Row 3: Ch 1, sc in each st across, turn. (12 sc)\nRow 4: Ch 1, sc in each st across, turn. (12 sc)\n")
    found = {}
    for one in groups(hookwright.chart(text)):
        found.setdefault(one.get("data-row"), []).append((int(one.get("data-index") or 0), one))
    words = {row: [told(text, one) for _, one in sorted(ones, key=lambda pair: pair[0])] for row, ones in found.items()}
    assert words["Row 2"] == ["Ch 1"] + ["hdc in next st", "2 dc in next st", "2 dc in next st", "sc2tog"] * 3
    third, fourth = (text.index(f"Row {number}") for number in (3, 4))
    assert all(third < int(one.get("data-from")) < fourth for _, one in found["Row 3"]) and all(int(one.get("data-from")) > fourth for _, one in found["Row 4"])


def test_it_is_told_in_words():
    """Title, how to read it, what repeats, and each row with its counts."""
    picture = hookwright.chart(example("spindrift-scarf")).picture
    assert picture.title == "Chart: Scarf, size Scarf"
    for words in ("bottom up", "Row 2 to Row 5 are worked 29 times in all", "worked 5 times in all", "Row 4 (WS): "):
        assert words in picture.words
    assert "right side" not in picture.words


@pytest.mark.parametrize("name", ["<script>alert(1)</script>", '" onload="x', "a & b", "]]>"])
def test_her_words_stay_words(name):
    """Names of pieces and rows are text, whatever is in them; only signs, words and groups are in the drawing."""
    made = hookwright.chart(f"## {name}\n\nCh 4.\nRow 1: Sc in 2nd ch from hook and in each ch across. (3 sc)\n")
    root = ElementTree.fromstring(made.picture.svg("c"))
    assert {element.tag.removeprefix(SVG) for element in root.iter()} <= {"svg", "title", "desc", "g", "path", "text", "circle"}
    assert not any(key.startswith("on") for element in root.iter() for key in element.attrib)


def test_the_same_manuscript_gives_the_same_drawing():
    """Byte for byte."""
    first, second = (hookwright.chart(example("causeway-shawl"), "Shawl").picture.svg("c") for _ in range(2))
    assert first == second and not re.search(r"\bnan\b|\binf\b", first)


@pytest.mark.parametrize("name", sorted(path.stem for path in EXAMPLES.glob("*.md") if path.stem != "README"))
def test_every_piece_of_every_example_can_be_drawn(name):
    """In the first and the last size, well-formed, with a key, and no symbol for a kind that the catalogue lacks."""
    report = example(name)
    for piece in dict.fromkeys(row.piece for row in report.fabrics[0].rows if row.row is not None and row.has_height):
        for size in (report.sizes[0], report.sizes[-1]):
            made = hookwright.chart(report, piece, size)
            assert made.symbols and all(one.get("data-stitch") in ("ch", "slst") or stitch(one.get("data-stitch")) for one in groups(made))


def test_a_hat_of_sixty_rows_is_drawn_at_once():
    """Under 0.3 s once it is worked, the best of three."""
    report = example("groyne-hat")
    hookwright.chart(report, "Hat", "Adult L")
    taken = []
    for _ in range(3):
        begun = time.perf_counter()
        hookwright.chart(report, "Hat", "Adult L")
        taken.append(time.perf_counter() - begun)
    assert min(taken) < 0.3


@pytest.mark.parametrize(("piece", "size", "words"), [("Brim", None, "no piece 'Brim'; there are 'Hat', 'Back seam'"), ("Hat", "XL", "no size 'XL'")])
def test_what_is_not_there_is_said_in_words(piece, size, words):
    """With the names that there are."""
    with pytest.raises(ValueError, match=re.escape(words)):
        hookwright.chart(example("groyne-hat"), piece, size)


FLAG = """## Panel

With A, ch 9.
Row 1 (RS): With A, sc in 2nd ch from hook and in each of next 7 chs, turn. (8 sc)
Row 2: Ch 1, with A sc in next 2 sts, with B sc in next 4 sts, with C sc in next st, with A sc in last st, turn. (8 sc)
Row 3: Ch 1, with A sc in next st, with C sc in next st, with B sc in next 5 sts, with A sc in last st, turn. (8 sc)
Row 4: Ch 1, with A sc in each st across. (8 sc)
"""


def test_colour_work_is_a_grid_of_cells():
    """One square a stitch, in even steps, each over the one it stands on; a wrong-side row runs from the left; what stands in a cell tells colours apart."""
    made = hookwright.chart(FLAG)
    cells = {}
    for one in groups(made):
        x, y = re.match(r"M(\S+) (\S+?)h", one.find(f"{SVG}path").get("d")).groups()
        cells.setdefault(one.get("data-row"), {})[int(one.get("data-index"))] = (float(x), float(y), one.get("color") or "", len(list(one.iter(f"{SVG}g"))))
    assert [len(found) for found in cells.values()] == [8, 8, 8, 8]
    columns = [sorted(x for x, *_ in found.values()) for found in cells.values()]
    assert all(column == pytest.approx(columns[0]) for column in columns) and columns[0][1] - columns[0][0] == pytest.approx(11)
    second, third = ([colour for _, _, colour, _ in sorted(cells[row].values())] for row in ("Row 2", "Row 3"))
    b, c = PALETTE[1], PALETTE[2]
    assert second == ["", "", b, b, b, b, c, ""] and third == ["", b, b, b, b, b, c, ""]
    assert len({number for _, _, colour, number in cells["Row 2"].values() if colour == b} | {number for _, _, colour, number in cells["Row 2"].values() if colour == c}) == 2
    assert "Each cell is one sc" in made.picture.words
    assert "Each cell" not in hookwright.chart(SHELLS).picture.words


def test_stitches_and_rows_of_a_grid_can_be_counted_by_tens():
    """A stronger line after every tenth stitch from the right, where rows begin, with its number, and after every tenth row."""
    text = "## Panel\n\nWith A, ch 24.\nRow 1 (RS): With A, sc in 2nd ch from hook and in each of next 22 chs, turn. (23 sc)\n"
    for number in range(2, 13):
        text += f"Row {number}: Ch 1, with A sc in next {number} sts, with B sc in next 5 sts, with A sc in each st across, turn. (23 sc)\n"
    root = ElementTree.fromstring(hookwright.chart(text).picture.svg("c"))
    strong = [one.get("d") for one in root.iter(f"{SVG}path") if one.get("stroke-width") == "1.6"]
    ends = [[float(number) for number in re.findall(r"-?[\d.]+", path)] for path in strong]
    upright, level = [end for end in ends if end[0] == end[2]], [end for end in ends if end[1] == end[3]]
    assert len(upright) == 2 and len(level) == 1 and abs(upright[0][0] - upright[1][0]) == pytest.approx(110)
    right = max(end[2] for end in level)
    assert right - max(end[0] for end in upright) == pytest.approx(110, abs=0.2)
    assert {"10", "20"} <= {one.text for one in root.iter(f"{SVG}text")}


def test_of_rows_too_wide_to_print_an_end_is_shown():
    """Where nothing repeats along them: the end at which right-side rows begin, and it is said; such a chart is not put on the sheet."""
    widths = " ".join(f"2 dc in next st, {kind} in next {number} sts," for number, kind in zip((3, 11, 5, 17, 7, 13, 9, 4, 8, 15, 6), ("sc", "dc", "hdc") * 4))
    text = f"## Wide\n\nCh 131.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (130 sc)\nRow 2 (WS): Ch 1, sc in each st across, turn. (130 sc)\nRow 3: Ch 1, {widths} sc in each st across. (141 sts)\n"
    made = hookwright.chart(text)
    assert made.width < 700 and not made.fits_a_page and "right-hand end" in made.picture.words
    assert {one.get("data-row") for one in groups(made)} >= {"Row 1", "Row 2", "Row 3"}


# ---------------------------------------------------------------- on the sheet

def test_the_sheet_has_charts_of_lace_and_none_of_plain_rows():
    """A motif is shown as a figure with words in its place (PDF/UA-1, 7.3); rows of plain stitches need none, and text leaves it out."""
    import page as validation

    report = example("rock-pool-squares")
    html = hookwright.write(report, "html").decode()
    assert html.count('data-stitch="popcorn"') == 28 and 'aria-label="Chart: Square, size Cushion front"' in html
    assert "Limpet: popcorn of 4" in html and "double crochet" in html
    pdf = hookwright.write(report, "pdf")
    assert list(validation.validate_pdf_bytes(pdf, profile=validation.ValidationProfile.PDF_UA_1).failures) == []
    assert "<svg" not in hookwright.write(report, "md").decode()
    assert "data-stitch" not in hookwright.write(example("saltmarsh-smock"), "html").decode()
