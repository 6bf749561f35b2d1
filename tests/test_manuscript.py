"""Reading whole texts: outline, notes, own stitches, sizes, terms; and any text at all."""

import time
import tomllib
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from hookwright.ground import Finding
from hookwright.notation import read, read_below
from hookwright.notation.notes import read_notes
from hookwright.notation.own_stitches import read_definitions
from hookwright.notation.sizes import count_sizes
from hookwright.notation.terms_guess import guess_terms
from hookwright.notation.tree import Chain, Pattern, Prose, Ring, Row, Stitch
from hookwright.notation.words import Lexicon
from hookwright.stitches import dialect

READING = Path(__file__).parent / "reading"
MANUSCRIPTS = tomllib.loads((READING / "manuscripts.toml").read_text("utf-8"))["manuscript"]
NOTES = tomllib.loads((READING / "notes.toml").read_text("utf-8"))


def outline(pattern: Pattern) -> list[str]:
    """Pieces, rows with the names of their steps, and prose, one a line."""
    lines = []
    for index, piece in enumerate(pattern.pieces):
        if piece.name or piece.section or index:
            lines.append(f"## {piece.name}")
        for item in piece.items:
            if isinstance(item, Prose):
                lines.append("-")
                continue
            only = f" [{' '.join(item.only)}]" if item.only else ""
            parts = (["again"] if item.again else []) + [type(step).__name__ for step in item.steps if type(step).__name__ != "Note"]
            label = item.name if item.name and not item.word and item.name != "Foundation" else Row(item.word, item.numbers).label()
            lines.append(f"{label}{only}: {' '.join(parts)}".strip())
    return lines


@pytest.mark.parametrize("case", MANUSCRIPTS, ids=lambda case: case["why"][:50])
def test_the_outline_of_a_text(case):
    """Pieces, rows and prose come out as the case says, and no step is left unread."""
    pattern, findings = read(case["text"], terms="US", sizes=case.get("sizes"))
    assert outline(pattern) == case["outline"]
    assert [finding.message for finding in findings] == []


def test_prose_is_kept_word_for_word():
    """Every word of the text stands in a row, a heading or prose of the pattern."""
    text = (Path(__file__).parent / "reading" / "kept.md").read_text("utf-8")
    pattern, _ = read(text, terms="US")
    kept = " ".join(
        part for piece in pattern.pieces for part in (piece.name, *(item.text for item in piece.items))
    )
    missing = [word for word in text.replace("#", " ").split() if word.strip("*:") and word.strip("*:") not in kept]
    assert missing == []


@pytest.mark.parametrize("case", NOTES["note"], ids=lambda case: case["text"][:50])
def test_what_a_note_settles(case):
    """A sentence gives the conventions it states, and no others."""
    found = read_notes(case["text"], 0, len(case["text"]), dialect("US").find)
    facts = [
        [
            one.kind, one.chains or 0, one.stitch or "", one.value, one.says.counts if one.says else "", (one.says.kind or "") if one.says else "",
            one.says.chains if one.says else 0, one.says.stitches if one.says else 0,
        ]
        for one in found
    ]
    assert facts == case["settles"]


@pytest.mark.parametrize("case", NOTES["own"], ids=lambda case: case["text"][:50])
def test_her_own_stitches(case):
    """A definition gives name, kind, legs, and whether its parts count one by one."""
    findings = []
    (own,) = read_definitions(case["text"], 0, len(case["text"]), Lexicon(case.get("terms", "US")), case.get("section", "notes"), findings)
    assert [own.name, list(own.spellings), own.kind, own.legs or 0, own.base or "", own.group, own.takes] == case["own"]
    assert findings == []


def test_stitches_under_headings_of_their_own():
    """A heading under Special stitches names the stitch that the words under it make."""
    text = "## Special stitches\n\n### Dune\n\n(dc, ch 2, dc) in the same st.\n\n## Body\n\nRow 1: ch 3, dune in next st"
    pattern, findings = read(text, terms="US")
    assert [type(step).__name__ for step in pattern.own["Dune"].steps] == ["Stitch", "Chain", "Stitch"]
    assert pattern.own["Dune"].group
    assert findings == []


@pytest.mark.parametrize(
    ("text", "sizes"),
    [
        ("Ch 36 (40, 46). 35 (39, 45) sc.", 3), ("Work 12 (13-14-15) rows", 4), ("two (three, -) times", 3), ("Rnd 3: inc x 6 (18)", 0),
        ("(sc, inc) x 6 (24)", 0), ("1 (2, 3, 4) (5, 6, 7) sts", 7), ("no list at all", 0),
    ],
)
def test_how_many_sizes_a_text_has(text, sizes):
    """Size lists tell the number of sizes where nobody names them; a count after a number does not."""
    assert count_sizes(text, 0, len(text)) == sizes


@pytest.mark.parametrize(
    ("text", "terms"),
    [
        ("Row 2: ch 1, sc in next 3 sts, hdc in last", "US"), ("Row 2: 2 ch, 1 htr in each st, miss 1 tr", "UK"), ("3 ch (counts as 1 tr), tr in next st", "UK"),
        ("Ch 3 (counts as dc), dc in each dc", "US"), ("Written in UK terms. Row 1: dc across", "UK"), ("tension: 14 dc", "UK"),
    ],
)
def test_terms_are_guessed_from_words(text, terms):
    """Tell-tale words: htr, miss, tension and a 3-chain tr are UK; sc, hdc and a 3-chain dc are US (common practice, no source)."""
    assert guess_terms(text).terms == terms


def test_a_guess_of_terms_is_said():
    """The finding names the words that told and how to settle it."""
    _, findings = read("Row 1: 1 htr in each st")
    assert [finding.kind for finding in findings] == ["terms-guessed"]
    assert "`htr`" in findings[0].message and "`terms: UK`" in findings[0].message


def test_the_row_below():
    """Rings, chains, row ends and stitches in the order worked."""
    lexicon = Lexicon("US", sizes=3)
    assert read_below("ring", lexicon) == ([Ring()], [])
    assert read_below("65 ch", lexicon)[0] == [Chain(65, role="foundation")]
    ((ends,), findings) = read_below("22 row ends", lexicon)
    assert (ends.kind, ends.n, findings) == ("row end", 22, [])
    ((stitch,), findings) = read_below("20 (24, 28) dc", lexicon)
    assert isinstance(stitch, Stitch) and tuple(stitch.n) == (20, 24, 28) and findings == []
    steps, findings = read_below("16 sc of leg 1, 14 sc of leg 2", lexicon)
    assert [step.n for step in steps] == [16, 14] and findings == []


def test_line_ends_of_every_kind_read_alike():
    """Windows, old and plain line ends give the same rows."""
    text = "## Cuff\n\nRow 1: sc across,\nturn.\nRow 2: sc across\n"
    outlines = [outline(read(text.replace("\n", end), terms="US")[0]) for end in ("\n", "\r\n", "\r")]
    assert outlines[0] == outlines[1] == outlines[2] == ["## Cuff", "Row 1: Stitch Turn", "Row 2: Stitch"]


def test_too_long_a_text_is_said_and_not_read_to_its_end():
    """Ten megabytes: a finding, and the first part is still read."""
    pattern, findings = read("Row 1: sc across\n" + "wool " * 2_000_000, terms="US")
    assert findings[0].kind == "too-much-text" and "10,000,017" in findings[0].message
    assert len(list(pattern.rows())) == 1


_WORDS = st.sampled_from(
    "Row Rows Rnd Round row 1 2 3 2-5 9000000000 (WS) : . , ; ; ) ( ] [ * ** # { } | - — = ch sc dc tr 2 in next st sts rep repeat from last until measures 12 cm (14, 16) as "
    "sizes only S M All even odd every alternate turn join Notes: counts as = bobble: Special stitches ## --- ``` \n \n\n \t 'n times' ½ \" > | a: 1. 2) R3 x 6 times more then "
    "with B, Fasten off. \u202e \u0000 ï Ｒow １ four (a)".split(" ")
)


@settings(max_examples=150)
@given(st.lists(_WORDS, max_size=60).map(" ".join))
@example("--- \n title: [ \n ---")
@example("Row 1-2-3-4: x\nRows 4 (5) - 7 (8): sc")
def test_any_words_of_the_craft_in_any_order_are_read(text):
    """No text of craft words brings the reader down; it gives a pattern whose spans lie in the text."""
    pattern, findings = read(text)
    assert isinstance(pattern, Pattern)
    for piece in pattern.pieces:
        for item in piece.items:
            assert 0 <= item.span.start <= item.span.end <= len(text)
    assert all(isinstance(finding, Finding) and finding.message for finding in findings)


@settings(max_examples=100)
@given(st.one_of(st.text(max_size=300), st.binary(max_size=300).map(lambda data: data.decode("utf-8", "replace")), st.binary(max_size=200).map(lambda data: data.decode("latin-1"))))
def test_any_text_is_read(text):
    """Any characters, lone surrogates and control characters too."""
    pattern, findings = read(text)
    assert isinstance(pattern, Pattern) and isinstance(findings, list)


@settings(max_examples=60)
@given(st.text(max_size=120))
def test_any_row_below_is_read(text):
    """The row below may be any text."""
    steps, findings = read_below(text, Lexicon("US"))
    assert isinstance(steps, list) and isinstance(findings, list)


@pytest.mark.parametrize(
    "piece",
    ["[", "(", "*", "# ", "- ", "> ", "`", "|", "a", "1", "1. ", " ", "\n", "Row 1: ", "Rows 1-2, ", "1-", "1,", "½", "*\n", "- a\n", "Note: a\n", "a: b\n", "A\n\n",
     "Row 1:\n", "<b>", "{", "~~~\n", "counts as ch 3 ", "sc = dc, ", "3 (4, 5) ", "until 3 ", "sizes a only ", "Repeat Row 1 ", "twenty "],
)
def test_the_same_over_and_over_takes_no_longer_than_its_length(piece):
    """Sixty thousand characters of the same are read in a moment: no pattern of ours runs away."""
    text = piece * (60_000 // len(piece))
    started = time.process_time()
    read(text)
    assert time.process_time() - started < 6
