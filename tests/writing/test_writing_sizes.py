"""Sizes, gauge and the foundation chain on the sheets of whole manuscripts, and the numbers found for the designer."""

import re
from html import escape
from pathlib import Path

import page as validation
import pytest
from click.testing import CliRunner

import hookwright
from hookwright import pipeline
from hookwright.desk.main import main
from hookwright.writing import written

FOLDER = Path(__file__).parents[1] / "sized"
NAMES = sorted(path.stem for path in FOLDER.glob("*.md"))


def report_of(name: str):
    return hookwright.check((FOLDER / f"{name}.md").read_text("utf-8"))


def sheet(name: str, to: str = "txt", terms: str = "US") -> str:
    return hookwright.write(report_of(name), to, terms).decode()


def between(text: str, first: str, last: str) -> str:
    return text[text.index(first) : text.index(last, text.index(first))]


def test_a_hat_tells_whom_each_size_fits_and_where_that_is_from():
    """Each size has the bodies to choose it for, joining up, and the people it fits; the survey is no general population."""
    text = sheet("shingle-bank-beanie")
    rows = re.findall(r"Choose for a head of: ([\d.]+)–([\d.]+) cm \(", text)
    assert len(rows) == 6 and all(a[1] == b[0] for a, b in zip(rows, rows[1:]))
    assert re.search(r"^Toddler: Fits about \d+% of children at 3–6 months, \d+% at 6–12 months", text, re.M)
    assert re.search(r"^Adult L: Fits about \d+% of women, \d+% of men\.", text, re.M)
    assert "WHO Child Growth Standards" in text and "not a general population" in text and "stretches by 20%" in text
    assert re.search(r"take the smaller for a close fit, [\d–.]+ cm \(.*? in\) less than the head, and the larger for a looser one", text)


def test_ease_in_both_units():
    """By hand: 32 cm round for a head of 33 to 36."""
    assert "Ease: −4 to −1 cm (−1⅝ to −⅜ in)" in sheet("shingle-bank-beanie")


def test_a_top_has_its_bodies_from_the_table_and_no_shares():
    """Sizes by the names of the table of women have its bust as the body; nobody is said to fit, since no survey stands behind it."""
    text = sheet("salt-pan-tee", terms="UK")
    assert "Size XS. To fit: 71–76 cm" in text and "Choose for a bust of" in text and "Ease is the bust as finished less the bust as measured." in text
    assert "% of women" not in text and "close fit" in text and "more than the bust" in text


def test_counts_that_were_found_stand_with_their_length():
    """One table of what differs by size; what is the same in all is told once."""
    text = sheet("salt-pan-tee")
    counts = between(text, "Counts in each size", "\n\n")
    assert "Size XS. Body stitches: 66 sts, 41 cm (16¼ in); Armhole rows: 22 rows, 18.5 cm (7¼ in)" in counts and "Body rows" not in counts
    assert "Body rows: 40 rows, 33.5 cm (13 in)" in text


def test_a_number_without_a_name_for_buyers_is_not_on_the_sheet():
    """`around`, `deep` and `long` are words of the designer: without `as:` no table, heading or line of the sheet holds them, and `check` does."""
    text = re.sub(r", as: [a-z ]+(?=})", "", (FOLDER / "salt-pan-tee.md").read_text("utf-8"))
    report = hookwright.check(text)
    made = hookwright.write(report, "txt").decode()
    assert "Counts in each size" not in made and not re.search(r"^(?:Around|Deep|Long)\b|(?:Around|Deep|Long):", made, re.M)
    assert {one.name for one in report.numbers} >= {"around", "deep", "long"}


def test_a_table_that_is_parted_has_a_caption_for_each_part():
    """Seven measures of the finished piece take two tables; the second says that it goes on."""
    measures = "\n".join(f"  measure {letter}: {40 + at} ({50 + at}) cm" for at, letter in enumerate("abcdefg"))
    made = hookwright.write(f"---\nterms: US\nsizes: [S, M]\nfinished:\n{measures}\n---\n\nCh 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)", "txt").decode()
    captions = [line for line in made.splitlines() if re.match(r"(?:Sizes and f|F)inished measurements", line)]
    assert len(captions) == len(set(captions)) == 2 and captions[1].endswith(", continued:")


@pytest.mark.parametrize(("gauge", "told"), [
    ("3.5 sts and 4 rows over 1 in", "14 sts and 16 rows = 10 cm (4 in)"),
    ("8 sts and 9 rows over 2 in", "16 sts and 18 rows = 10 cm (4 in)"),
    ("8 sts and 9 rows over 5 cm", "16 sts and 18 rows = 10 cm (4 in)"),
    ("14 sts and 16 rows over 4 in", "14 sts and 16 rows = 10 cm (4 in)"),
    ("30 sts and 32 rows over 20 cm", "30 sts and 32 rows = 20 cm"),
])
def test_a_gauge_over_little_is_brought_to_ten_centimetres(gauge, told):
    """Four inches hold four times what one holds; five centimetres half of what ten hold; more than ten stays as it was measured."""
    made = hookwright.write(f"---\nterms: US\ngauge: {gauge}\n---\n\nCh 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)", "txt").decode()
    assert told in made


def test_a_swatch_is_told_in_the_form_of_the_trade():
    """30 sts over 21 cm are 14.3 to 10 cm, told to the half; it was washed, and before that it was 14 (30 / 21.4 cm) and 10.5 (24 / 22.8 cm)."""
    text = sheet("shingle-bank-beanie")
    assert "14.5 sts and 10 rows = 10 cm (4 in) in ridge pattern, with the 5 mm (US H-8) hook, after washing." in text
    assert "Before washing the same piece has 14 sts and 10.5 rows to 10 cm (4 in)." in text


def test_a_swatch_goes_before_the_stated_gauge_of_the_same_fabric():
    text = (FOLDER / "shingle-bank-beanie.md").read_text("utf-8").replace("body: {stretch", "gauge: [{stitches: 99, over: 10 cm, in: Ridge Pattern}, {stitches: 13, over: 10 cm, in: ribbing}]\nbody: {stretch")
    written = hookwright.write(hookwright.check(text), "txt").decode()
    assert "99 sts" not in written and "13 sts = 10 cm (4 in) in ribbing." in written and "14.5 sts" in written


def test_the_foundation_chain_has_its_length():
    """22 chains of 7 mm are 15.5 cm; short chains are not worth a word, nor where she says it herself."""
    text = sheet("shingle-bank-beanie")
    assert "The foundation chain is to be at least 15.5 (17.5, 19.5, 21.5, 23, 25) cm" in text and "make 2 to 4 more than you need" in text
    short = (FOLDER / "shingle-bank-beanie.md").read_text("utf-8").replace("to fit * 0.42", "to fit * 0.2")
    assert "Chains draw in" not in hookwright.write(hookwright.check(short), "txt").decode()
    hers = (FOLDER / "shingle-bank-beanie.md").read_text("utf-8").replace("## Hat", "## Notes\n\nWork the foundation chain with a larger hook.\n\n## Hat")
    assert "Chains draw in" not in hookwright.write(hookwright.check(hers), "txt").decode()


@pytest.mark.parametrize("terms", ["US", "UK"])
@pytest.mark.parametrize("name", NAMES)
def test_the_picture_is_on_the_page_and_in_the_pdf(name, terms):
    """On the page it is named and described, in the PDF a figure with words in its place (PDF/UA-1, 7.3); text leaves it out."""
    report = report_of(name)
    page = hookwright.write(report, "html", terms).decode()
    assert page.count("<figure>") == 1 and 'aria-labelledby="sizes-plot-title"' in page
    words = re.search(r'<desc id="sizes-plot-words">(.*?)</desc>', page)[1]
    for size in report.sizes:
        assert re.search(rf"{re.escape(size)} [\d.]+–[\d.]+\s*cm \(.*? in\), finished [\d.]+\s*cm \(.*? in\)", words)
    assert list(validation.validate_pdf_bytes(hookwright.write(report, "pdf", terms), profile=validation.ValidationProfile.PDF_UA_1).failures) == []
    for to in ("txt", "md"):
        assert "svg" not in hookwright.write(report, to, terms).decode()


@pytest.mark.parametrize("name", ["\u05e9\u05dc\u05d5\u05dd", "\u5c0f \U0001f600", "<b>&"])
def test_any_name_of_a_size_stands_in_the_picture(name):
    """Letters that our fonts lack are boxes in the PDF, in the picture too, and are told; no name is markup."""
    report = hookwright.check((FOLDER / "shingle-bank-beanie.md").read_text("utf-8").replace("name: Toddler", f'name: "{name}"'))
    made = written(pipeline.sheet(report), "pdf")
    assert list(validation.validate_pdf_bytes(made.data, profile=validation.ValidationProfile.PDF_UA_1).failures) == []
    assert [finding.kind for finding in made.findings] == ([] if name.isascii() else ["letter-not-in-font"])
    assert f"{escape(name)} 4" in hookwright.write(report, "html").decode()


def test_one_maker_has_one_size_and_no_strangers():
    """Made to measure: her own head as the body, its ease, the counts, and nobody else's heads."""
    text = hookwright.write(hookwright.made_to_measure((FOLDER / "shingle-bank-beanie.md").read_text("utf-8"), measures={"head": "57 cm"}), "txt").decode()
    assert "Size: made to measure, to fit 57 cm (22½ in)" in text and "Circumference: 52 cm" in text
    assert "Ease: −5 cm (−2 in), the circumference as finished less the head as measured" in text
    assert "34 sts" in text and "Rows: 52 rows, 52 cm (20½ in)" in text and "% of" not in text and "(Baby" not in text
    assert "<figure>" not in hookwright.write(hookwright.made_to_measure((FOLDER / "shingle-bank-beanie.md").read_text("utf-8"), measures={"head": "57 cm"}), "html").decode()


def test_one_maker_starts_from_the_size_whose_body_is_nearest():
    """A chest of 104 cm is that of size L in the table of women (101.6 to 106.7 cm); the pattern calls it bust, and finds its numbers from it."""
    report = hookwright.made_to_measure((FOLDER / "salt-pan-tee.md").read_text("utf-8"), measures={"chest": "104 cm"})
    assert report.findings == [] or "changes nothing" not in " ".join(finding.message for finding in report.findings)
    assert report.as_dict()["numbers"]["around"] == {"values": [90], "wanted_mm": [560.0], "off_mm": [2.5]}
    assert report.as_dict()["numbers"]["deep"]["values"] == [26]  # the armhole of size L


def test_a_sheet_without_bodies_is_as_it_was():
    """Nothing is said of ease or people where the manuscript tells of neither."""
    text = hookwright.write(hookwright.check("---\ntitle: Mat\nsizes: [S, L]\nfinished: {width: 20 (30) cm}\n---\nCh 21 (31).\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 (30) sc)"), "txt").decode()
    assert "Size S. Width: 20 cm (7¾ in)" in text and "ase" not in between(text, "Sizes\n", "Abbreviations") and "choose" not in text


# ---------------------------------------------------------------- for the designer

def test_the_numbers_found_are_in_the_report():
    """JSON: values, the length wanted and how far off, one a size; 28 stitches of 5.56 mm against 14.5 + 0.5 cm. null where nothing was wanted."""
    numbers = report_of("kelp-fingerless-mitts").as_dict()["numbers"]
    assert list(numbers) == ["around", "tall"] and numbers["around"]["values"] == [28, 32, 34, 40]
    made = [round(28 * 100 / 18 - off, 1) for off in numbers["around"]["off_mm"][:1]]
    assert made[0] == pytest.approx(numbers["around"]["wanted_mm"][0], abs=0.1)
    follows = hookwright.check("---\ngauge: {stitches: 10, rows: 10, over: 10 cm}\nnumbers:\n  a: {want: 21 cm, count: stitches, even: yes}\n  b: a / 2\n---\nCh {a + 1}.\n"
                               "Row 1: Sc in 2nd ch from hook and in each ch across. ({b * 2} sc)").as_dict()["numbers"]
    assert follows["b"] == {"values": [follows["a"]["values"][0] // 2], "wanted_mm": [None], "off_mm": [None]}
    assert hookwright.check("Row 1: 3 sc in ring.").as_dict()["numbers"] == {}


def test_check_shows_numbers_and_gauge(tmp_path):
    """A table of the numbers with their lengths, and how sure the swatch is; in columns that fit the width."""
    done = CliRunner().invoke(main, ["check", str(FOLDER / "shingle-bank-beanie.md"), "--width", "70"])
    assert done.exit_code == 0 and all(len(line) <= 70 for line in done.output.splitlines() if "/" not in line)
    assert re.search(r"numbers found +Newborn +Baby", done.output) and re.search(r"height \(sts\) +21 +24", done.output)
    assert re.search(r"is, cm +14\.7 +16\.8", done.output) and re.search(r"off what is wanted, cm +\+0\.2 +0", done.output)
    told = " ".join(done.output.split())
    assert "gauge of ridge pattern after washing: 14.3 sts to 10 cm (14.5 to 4 in), give or take 0.5, since 1 st in 30 may be misread" in told


def test_count_shows_numbers():
    done = CliRunner().invoke(main, ["count", str(FOLDER / "kelp-fingerless-mitts.md")])
    assert re.search(r"numbers found +4-6 years +8-10 years +Women +Men\naround +28 +32 +34 +40\ntall", done.output)


def test_each_foundation_chain_is_as_long_as_its_own_fabric():
    """61 chains at 5 mm a stitch are 30.5 cm, 52 of a rib of 4 mm 20.8, said by the half."""
    text = """---
terms: US
swatches: [{of: body, stitches: 40, width: 20 cm, rows: 40, height: 20 cm}, {of: rib, stitches: 50, width: 20 cm, rows: 50, height: 20 cm}]
numbers: {across: {want: 30 cm, count: stitches, in: body}, band: {want: 20 cm, count: stitches, in: rib}}
---

## Back

Ch {across + 1}.

Row 1: Sc in 2nd ch from hook and in each ch across. ({across} sc)

## Band

Ch {band + 2}.

Row 1: Hdc in 3rd ch from hook and in each ch across. ({band} hdc)
"""
    told = " ".join(hookwright.write(hookwright.check(text), to="txt", terms="US").decode().split())
    assert "at least this long as they lie, without being pulled: Back 30.5 cm (12 in); Band 21 cm (8¼ in)." in told
