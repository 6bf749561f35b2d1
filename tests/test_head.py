"""The head: every key, what is said of keys and values that can't be used, and bounds."""

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import hookwright
from hookwright.ground import PerSize
from hookwright.notation import Gauge, Hook, Silence, SizeFact, Yarn, read
from hookwright.notation.head_read import read_head
from hookwright.notation.head_values import measure, number_per_size

WHOLE = """---
title: Sandpiper Cap
designer: Marram Lane Studio
terms: UK                       # a remark
summary: A cap worked from the crown down.
version: "1.2"
date: 2026-11-01
copyright: 2026 Marram Lane Studio
level: easy
sizes:
  - {name: Child, to fit: 46-50 cm}
  - Adult
hook: [5 mm, "4.5 mm (US 7)"]
yarn:
  - name: plain wool
    weight: worsted
    fibre: wool
    metres: 200 yards
    grams: 100
    balls: 1 (2)
    colours: {A: cream, B: slate}
materials: [needle, 22 mm button]
gauge:
  - {stitches: 14, rows: 16.5, over: 4 in, in: dc, blocked: yes}
  - 13 sts and 15 rows over 10 cm in htr
finished: {brim: "48 (54) cm", height: 7 1/2 (8 1/2) in}
ease: -2 cm
numbers: {rib: 8 (10), body: 24 (28)}
stitches:
  bud: "3 tr closed together in one st"
for: [child, adult]
cautions: [Buttons are small parts.]
silence:
  - {kind: size-list-outlier, because: "both sizes share it", rows: [Row 3]}
---
Round 1: 6 dc in ring
"""


def test_every_key_is_read():
    """Lengths in mm (an inch is 25.4 mm: international agreement of 1959), numbers per size, and no finding."""
    findings = []
    head, start = read_head(WHOLE, findings)
    assert findings == []
    assert WHOLE[start:].startswith("Round 1")
    assert (head.title, head.designer, head.terms, head.version, head.date, head.level) == ("Sandpiper Cap", "Marram Lane Studio", "UK", "1.2", "2026-11-01", "easy")
    assert head.sizes == (SizeFact("Child", (460.0, 500.0), "46-50 cm"), SizeFact("Adult"))
    assert head.hook == (Hook(5.0, "5 mm"), Hook(4.5, "4.5 mm (US 7)"))
    assert head.yarn == (Yarn("plain wool", 4, "wool", 182.88, 100.0, PerSize((1, 2)), {"A": "cream", "B": "slate"}),)
    assert head.materials == ("needle", "22 mm button")
    assert head.gauge == (Gauge(14.0, 16.5, 101.6, 101.6, "dc", True), Gauge(13.0, 15.0, 100.0, 100.0, "htr"))
    assert head.finished["brim"].mm == ((480.0, 480.0), (540.0, 540.0))
    assert head.finished["height"].mm == ((190.5, 190.5), (215.9, 215.9))
    assert head.ease.mm == ((-20.0, -20.0),)
    assert head.numbers == {"rib": PerSize((8, 10)), "body": PerSize((24, 28))}
    assert head.for_ == ("child", "adult") and head.cautions == ("Buttons are small parts.",)
    assert [Silence(one.kind, one.because, one.rows) for one in head.silence] == [Silence("size-list-outlier", "both sizes share it", ("Row 3",))]
    assert WHOLE[slice(*head.spans["title"])] == "Sandpiper Cap"
    assert head.colour_names() == {"a", "b", "cream", "slate"}


def test_the_head_serves_the_rows():
    """Terms, sizes, numbers and own stitches of the head are those of the pattern."""
    pattern, findings = read(WHOLE + "Round 2: ch 1, {rib} dc, bud in next st\n")
    assert findings == []
    assert (pattern.terms, pattern.terms_said, pattern.sizes) == ("UK", True, ("Child", "Adult"))
    assert (pattern.own["bud"].kind, pattern.own["bud"].legs, pattern.own["bud"].base) == ("cl", 3, "dc")


@pytest.mark.parametrize(
    ("key", "kind", "says", "at"),
    [
        ("tittle: Cap", "head-key-unknown", "did you mean `title`?", "tittle"),
        ("guage: 14", "head-key-unknown", "did you mean `gauge`?", "guage"),
        ("terms: French", "head-value", "`terms` takes `US` or `UK`", "French"),
        ("level: superb", "head-value", "basic, easy, intermediate, complex", "superb"),
        ("hook: large", "head-value", "a size in mm", "large"),
        ("numbers: {rib: some}", "head-value", "whole numbers", "some"),
        ("finished: {brim: wide}", "head-value", "a length for each size", "wide"),
        ("gauge: tight", "head-value", "14 sts and 17 rows over 10 cm", "tight"),
        ("yarn: {name: wool, weigth: 4}", "head-key-unknown", "did you mean `weight`?", "weigth"),
        ("silence: [row-runs-out]", "head-value", "needs a reason", "row-runs-out"),
        ("title: One\ntitle: Two", "head-twice", "`title` stands twice", "title"),
        ("sizes: [S, M]\nnumbers: {rib: 8 (9, 10)}", "head-value", "3 values for 2 sizes", "8 (9, 10)"),
        ("title: Cap: a study", "head-not-read", "quotation marks", ""),
        ("title: *name", "head-not-read", "", ""),
        ("title: Cap\nsizes: [S, M\nlevel: easy", "head-not-read", "line 2 of the head, `sizes: [S, M`", "[S, M"),
        ("title Cap\nlevel: easy", "head-not-read", "a colon and a space after the key", "title Cap"),
        ('title: "Cap\nlevel: easy', "head-not-read", "close the quotation mark", '"Cap'),
        ("level: intermediat", "head-value", "did you mean `intermediate`?", "intermediat"),
        ("level: begginer", "head-value", "did you mean `basic`?", "begginer"),
        ("yarn: {weight: wrsted}", "head-value", "did you mean `worsted`?", "wrsted"),
        ("hook: 5.5", "head-value", "is taken as 5.5 mm", "5.5"),
        ("hook: 55", "head-value", "a size in mm", "55"),
        ("for: [bebies]", "head-value", "did you mean `baby`?", "[bebies]"),
        ("for: [wedding]", "head-value", "Known are baby, child", "[wedding]"),
        ("weight: dk", "head-key-unknown", "it belongs under `yarn:`", "weight"),
    ],
)
def test_what_cannot_be_used_is_said_where_it_stands(key, kind, says, at):
    """Each finding names the key, what it takes, and points at the very words."""
    text = f"---\n{key}\n---\nRow 1: sc across\n"
    pattern, findings = read(text, terms="US")
    assert kind in [finding.kind for finding in findings]
    finding = next(finding for finding in findings if finding.kind == kind)
    assert says in finding.message
    if at:
        assert text[slice(*finding.span)] == at
    assert len(list(pattern.rows())) == 1


def test_other_words_are_understood():
    """Plurals and other words for what a piece is for; a word of the yarn weights alone is the weight (dk: category 3)."""
    findings = []
    head, _ = read_head("---\nfor: [Babies, cats, dolls, infants]\nyarn: DK\nhook: 5,5\n---\n", findings)
    assert head.for_ == ("baby", "pet", "toy")
    assert head.yarn == (Yarn(weight=3),)
    assert [hook.mm for hook in head.hook] == [5.5]
    assert [finding.grade for finding in findings] == ["for your information"]


def test_what_is_off_for_one_reason_is_said_once():
    """Three unknown keys and three lines with a colon too many: two findings, the others folded into them."""
    findings = []
    read_head("---\nqqq: 1\nzzz: 2\nxxx: 3\ntitle: Cap: a\nsummary: Hat: b\ncopyright: Scarf: c\n---\n", findings)
    assert sorted((finding.kind, len(finding.echoes)) for finding in findings) == [("head-key-unknown", 2), ("head-not-read", 2)]


def test_the_rest_of_a_head_is_read_after_a_line_that_cannot_be():
    """A colon too many costs its line and no more."""
    findings = []
    head, _ = read_head("---\ntitle: Cap: a study\ndesigner: Marram Lane Studio\nterms: UK\n---\n", findings)
    assert (head.title, head.designer, head.terms) == ("", "Marram Lane Studio", "UK")
    assert len(findings) == 1


def test_a_head_that_is_not_closed_ends_before_the_rows():
    """The rows are read all the same, and the missing line of dashes is said."""
    pattern, findings = read("---\ntitle: Cap\nterms: US\n\nRow 1: sc across\n")
    assert [finding.kind for finding in findings] == ["head-not-read"]
    assert len(list(pattern.rows())) == 1 and pattern.head.title == "Cap"


def test_a_line_of_dashes_is_no_head():
    """A rule at the top of a text is a rule."""
    pattern, findings = read("---\n\nRow 1: sc across\n", terms="US")
    assert pattern.head is None and findings == [] and len(list(pattern.rows())) == 1


@pytest.mark.parametrize(
    "inside",
    ["a: &a [x,x,x]\nb: &b [*a,*a,*a]\nc: &c [*b,*b,*b]\nd: [*c,*c,*c]", "[" * 9000, "- " * 9000, "? " * 9000, "{a: " * 5000, "a: !!python/object:os.system x", "x: " + "y" * 300_000,
     "\n".join(f"k{n}: v" for n in range(30_000))],
    ids=["references that unfold", "brackets", "dashes", "questions", "braces", "tags", "a long value", "many keys"],
)
def test_a_head_is_bounded(inside):
    """Whatever the YAML would unfold into, reading it is quick and ends in a finding."""
    findings = []
    started = time.process_time()
    read_head(f"---\n{inside}\n---\n", findings)
    assert time.process_time() - started < 5
    assert findings


@pytest.mark.parametrize(
    ("words", "sizes", "mm"),
    [
        ("44 (48, 54) cm", 3, ((440, 440), (480, 480), (540, 540))), ("38-42 cm", 1, ((380, 420),)), ("16 1/2 in", 1, ((419.1, 419.1),)), ('4½"', 1, ((114.3, 114.3),)),
        ("40-44 (48-52) cm", 2, ((400, 440), (480, 520))), ('12 (13-14)" [30.5 (33-35.5) cm]', 3, ((304.8, 304.8), (330.2, 330.2), (355.6, 355.6))), ("180 mm", 1, ((180, 180),)),
        ("10 (-, 12) cm", 3, ((100, 100), None, (120, 120))),
    ],
)
def test_lengths(words, sizes, mm):
    """Size lists, ranges, fractions and units, in mm; 16.5 in are 419.1 mm."""
    assert measure(words, sizes).mm == mm


def test_a_number_with_a_unit_is_no_stitch_count():
    """Numbers of the head are whole and bare."""
    assert number_per_size("8 cm", 1) is None and number_per_size("8.5", 1) is None and number_per_size("8 (9, 10)", 3) == PerSize((8, 9, 10))


@settings(max_examples=120)
@given(st.lists(st.sampled_from("title: sizes: [ ] { } - yarn: gauge: 14 (15, 16) cm , : # & * ! ' \" | > \n \n  numbers: a b silence: hook: ? \t é".split(" ")), max_size=40).map(" ".join))
def test_any_head_is_read(inside):
    """Any order of the signs of a head gives a head or none, and no trouble."""
    pattern, findings = read(f"---\n{inside}\n---\nRow 1: sc across\n", terms="US")
    assert isinstance(findings, list) and pattern.pieces


@pytest.mark.parametrize(("day", "odd"), [("2026-02-28", False), ("2028-02-29", False), ("2026-02-30", True), ("2026-13-01", True), ("2026-04-31", True), ("spring 2026", False)])
def test_a_date_that_is_no_day_is_remarked_on(day, odd):
    """A day that no calendar has is told, gently, and printed; words are left alone."""
    report = hookwright.check(f"---\nterms: US\ndate: {day}\n---\n\nCh 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)")
    found = [finding for finding in report.findings if finding.kind == "head-value"]
    assert [finding.grade for finding in found] == (["look at this"] if odd else [])
    assert report.pattern.head.date == day
