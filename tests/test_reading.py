"""Rows of our own, in US and UK terms, read into the tree that stands beside them; and that any words at all are answered."""

import random
import string
import time
import tomllib
from dataclasses import fields, is_dataclass
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.ground import MUST_MEND, Span
from hookwright.notation import read as read_manuscript
from hookwright.notation import tree
from hookwright.notation.clean import clean
from hookwright.notation.named_numbers import with_numbers
from hookwright.notation.spell import spell_steps
from hookwright.notation.steps import read_steps
from hookwright.notation.words import Lexicon

TABLE = Path(__file__).parent / "manuscripts" / "reading.toml"
ROWS = tomllib.loads(TABLE.read_text("utf-8"))["row"]
NUMBERS = {"body": 7}


def read(words: str, terms: str = "US", sizes: int = 1, in_round: bool = False, first_row: bool = False):
    text = clean(with_numbers(words, 0, NUMBERS, sizes, [])[0])
    return read_steps(text, 0, len(text), Lexicon(terms, sizes=sizes), in_round=in_round, first_row=first_row)


def reading_of(row):
    return read(row["text"], row.get("terms", "US"), row.get("sizes", 1), row.get("round", False), row.get("first", False))


@pytest.mark.parametrize("row", ROWS, ids=[f"{row['section']}: {row['text'][:50]}" for row in ROWS])
def test_row_is_read_as_its_tree(row):
    """A row's words give the steps and the stated counts that stand beside it, and no finding but those it names."""
    found = reading_of(row)
    assert short(found.steps) == row["steps"]
    assert stated(found.stated) == row.get("stated", "")
    assert sorted({finding.kind for finding in found.findings if finding.grade == MUST_MEND}) == row.get("finds", [])


def test_every_section_is_covered_in_both_terms():
    """Placing, repeats, groups, counts, chains, joins, size lists, messy text: each has rows in US and in UK terms."""
    covered = {(row["section"], row.get("terms", "US")) for row in ROWS}
    assert covered >= {(section, terms) for section in ("openings", "repeats", "places", "counts", "chains", "joins", "groups", "sizes", "messy") for terms in ("US", "UK")}


def _likeliest(steps):
    """Steps with the likeliest of two readings taken, as they are written out."""
    out = []
    for step in steps:
        if isinstance(step, tree.Either):
            out += _likeliest(step.readings[0])
            continue
        for name in ("steps", "ending", "parts"):
            if getattr(step, name, None):
                setattr(step, name, _likeliest(getattr(step, name)))
        out.append(step)
    return out


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_what_is_spelt_reads_back_as_the_same_tree(terms):
    """Each row of the table, spelt in either terms, reads back as the equal tree (unless it says `once`)."""
    for row in ROWS:
        if row.get("once"):
            continue
        steps = _likeliest(reading_of(row).steps)
        written = spell_steps(steps, terms, in_round=row.get("round", False))
        again = _likeliest(read(written, terms, row.get("sizes", 1), row.get("round", False), row.get("first", False)).steps)
        assert short(again) == short(steps), f"{row['text']!r} written {written!r}"


# ---------------------------------------------------------------- words that are not known, lists of another length

def test_slip_of_the_fingers_is_guessed_and_said():
    """A word a letter away from one of the craft's is taken for it, with the suggestion at its place."""
    found = read("sc in the nxet 3 sts, inc")
    assert short(found.steps) == "sc@(n=3), inc"
    (finding,) = found.findings
    assert (finding.kind, finding.found, finding.expected) == ("unknown-word", "nxet", "next")
    assert finding.suggestions[0].text == "next" and finding.suggestions[0].span == finding.span == Span(10, 14)


def test_look_alike_letters_and_words_run_together():
    """Cyrillic letters, a dotless i and two words without a space between are read without a word."""
    assert short(read("(1 sc, ınc) × 7").steps) == "R[sc, inc]x7 total"
    found = read("\u0422urn. \u0415ach st: 2 sctbl")
    assert [finding.kind for finding in found.findings] == []
    assert short(found.steps) == "turn, 2 sc@(n=None loop=back ~end)"


def test_list_of_another_length_than_the_sizes_is_said():
    """Three numbers in a pattern of four sizes: a finding with both numbers, and the row is read all the same."""
    found = read("ch 10 (12, 14)", sizes=4)
    assert short(found.steps) == "ch10/12/14"
    assert [(finding.kind, finding.expected, finding.found) for finding in found.findings] == [("size-list-length", 4, 3)]


def test_a_list_for_some_of_the_sizes():
    """A list for two of four sizes is put in their places."""
    text = "ch 10 (12)"
    found = read_steps(text, 0, len(text), Lexicon("US", sizes=4, only=(1, 3)))
    assert short(found.steps) == "ch-/10/-/12"


def test_words_that_look_like_work_and_cannot_be_read_are_kept():
    """Words with a stitch in them that make no sense stay in the tree and are said; plain remarks are only kept."""
    found = read("sc in next 3 sts, qzwv of dc 3 grml")
    assert [type(step) for step in found.steps][0] is tree.Stitch
    assert "cannot-read" in {finding.kind for finding in found.findings}
    for text in ("sc in next 3 sts, blorp in next st", "*sc in next st, blorp; rep from * across", "sc across, scallop evenly around", "single corchet in each st"):
        assert "cannot-read" in {finding.kind for finding in read(text).findings}, text
    for text in ("sc in next 3 sts. Admire the view", "sc in each st around neck edge", "sc in each st to end at underarm"):
        assert not read(text).findings, text


def test_own_stitches_by_name():
    """Her own stitches are read by their name: one that makes one stitch, and one whose parts count one by one."""
    own = {
        "pebble": tree.OwnStitch("pebble", kind="bobble", legs=4, base="dc"),
        "wave": tree.OwnStitch("wave", ("waves",), steps=[tree.Stitch("dc", 2), tree.Chain(1), tree.Stitch("dc", 2)], group=True),
        "5-dc fan": tree.OwnStitch("5-dc fan", steps=[tree.Stitch("dc", 5)], group=True),
    }
    text = "pebble in next st, wave in next ch-2 sp, 2 pebbles, 5-dc fan in next sc"
    found = read_steps(text, 0, len(text), Lexicon("US", own=own))
    assert short(found.steps) == "bobble<4 dc>@(next), G(2 dc, ch1, 2 dc) wave@(sp chains=2), 2 bobble<4 dc>, G(5 dc) 5-dc fan@(sc)"


# ---------------------------------------------------------------- any words are answered

def _spans(node):
    if isinstance(node, list | tuple) and not isinstance(node, Span):
        for one in node:
            yield from _spans(one)
    elif is_dataclass(node):
        yield node.span
        for part in fields(node):
            if part.name != "span":
                yield from _spans(getattr(node, part.name))


def _holds(found, text):
    for span in _spans(found.steps + found.stated):
        assert 0 <= span.start <= span.end <= len(text)
    for finding in found.findings:
        assert finding.message and 0 <= finding.span.start <= finding.span.end <= len(text)


@settings(max_examples=150, deadline=2000)
@given(st.text(max_size=400), st.sampled_from(["US", "UK"]), st.integers(1, 5), st.booleans())
def test_any_text_is_answered(words, terms, sizes, in_round):
    """Any characters at all: no exception, spans inside the text."""
    text = clean(words)
    assert len(text) == len(words)
    _holds(read_steps(text, 0, len(text), Lexicon(terms, sizes=sizes), in_round=in_round), text)


WORDS = (
    "sc dc hdc tr inc dec shell cl picot in next st each rep from * around across ch sk ( ) times to last ending with but of same as first and until yo through all "
    "loops on hook working continue made counts not instead of join turn 1 2 3 12 , . [ ] ** again more total place marker half evenly row ends other side ring "
    "leave unworked BLO ch-2 sp corner { } | ; : - = x * back loop insert hook pull up a loop rep from * to ** twice 4 (5, 6) right side note"
).split()


@settings(max_examples=150, deadline=2000)
@given(st.lists(st.sampled_from(WORDS), max_size=120), st.booleans(), st.booleans())
def test_words_of_the_craft_in_any_order_are_answered(words, in_round, first_row):
    """The craft's words shuffled: no exception, spans inside the text, and the reading again gives the same."""
    text = clean(" ".join(words))
    lexicon = Lexicon("US", sizes=3)
    found = read_steps(text, 0, len(text), lexicon, in_round=in_round, first_row=first_row)
    _holds(found, text)
    assert short(read_steps(text, 0, len(text), lexicon, in_round=in_round, first_row=first_row).steps) == short(found.steps)


ENTANGLED = ["(", "[ ( ", "* ", "** * ", "each st to ", "of next st ", "in back loop ", "until each st ", "(sc) x2 but ", "*sc, rep from * ending with ", "1-", "1 (2, 3) ",
             "rep from * ", "sc in next st. Repeat around. ", "yo, insert hook in next st, ", "counts as ", "a" * 50 + " ", "‘ ", "2 sc in next st around "]


@pytest.mark.parametrize("words", ENTANGLED)
def test_entangled_rows_take_bounded_time(words):
    """Thousands of open brackets, stars and unfinished phrases are answered at once, or refused in words."""
    text = clean((words * 3000)[:40_000])
    begun = time.perf_counter()
    found = read_steps(text, 0, len(text), Lexicon("US", sizes=3), in_round=True)
    assert time.perf_counter() - begun < 5
    _holds(found, text)


def test_a_long_row_of_noise_takes_time_in_proportion():
    """Ten thousand random words are refused or read within a few seconds."""
    dice = random.Random(7)
    words = ["".join(dice.choices(string.ascii_lowercase, k=dice.randint(1, 9))) for _ in range(10_000)]
    text = " ".join(words)
    found = read_steps(text, 0, len(text), Lexicon("US"))
    assert [finding.kind for finding in found.findings] == ["cannot-read"]


# ---------------------------------------------------------------- a tree in one short line

def short(node) -> str:
    """Steps in shorthand: "ch3<dc>", "2 dc@(next)", "R[sc, inc]x6 total", "G(dc, ch1, dc)@(sp chains=2)", "R[...]~last 3 st"."""
    if isinstance(node, list):
        return ", ".join(map(short, node))
    return _SHORT[type(node)](node)


def _at(place) -> str:
    return "" if place is None else f"@({short(place)})"


def _place(place) -> str:
    words = [place.which] if place.which != "next" else []
    if place.n != 1:
        words.append(f"n={_number(place.n)}")
    if place.of != "st":
        words.append(place.of)
    words += [f"{name}={_number(getattr(place, name))}" for name in ("ordinal", "chains", "group", "part", "loop", "post", "row") if getattr(place, name)]
    if place.rows_down:
        words.append(f"down={place.rows_down}")
    if place.layers != 1:
        words.append(f"layers={place.layers}")
    if place.extent is not None:
        words.append(short(place.extent))
    if place.says is not None:
        words.append(short(place.says))
    return " ".join(words or ["next"])


def _number(number) -> str:
    return "/".join("-" if one is None else str(one) for one in number) if isinstance(number, tuple) else str(number)


def _extent(extent) -> str:
    words = f"~{extent.kind}"
    if extent.n is not None:
        words += f" {_number(extent.n)} {extent.of}"
    return words + _at(extent.place)


def _stitch(step) -> str:
    words = f"{_number(step.n)} {step.kind}" if step.n != 1 else step.kind
    if step.legs or step.base:
        words += f"<{step.legs or ''} {step.base or ''}>".replace("< ", "<").replace(" >", ">")
    if step.loop:
        words += f".{step.loop}"
    return words + " over" * step.over + " evenly" * step.evenly + _at(step.place)


def _counts(says) -> str:
    words = says.kind or "st"
    if says.stitches != 1:
        words = f"{says.stitches} {words}"
    if says.chains:
        words += f" ch{says.chains}"
    return f"<{'' if says.counts else 'not '}{words}{' on' * says.onward}>"


def _repeat(step) -> str:
    inner = ", ".join("** " * (index == step.stop) + short(one) for index, one in enumerate(step.steps))
    words = f"R[{inner}]"
    if step.times is not None:
        words += f"x{_number(step.times)} {step.sense}"
    if step.extent is not None:
        words += short(step.extent)
    if step.partial:
        words += f" {step.partial}"
    if step.ending is not None:
        words += f" ending {step.ending_word}({short(step.ending)})"
    return words


def stated(counts) -> str:
    """Stated counts in shorthand: "24 dc, 6 sp 1"."""
    out = []
    for count in counts:
        items = ", ".join(f"{_number(number)} {of}{'' if chains is None else f' {chains}'}" for number, of, chains in count.items)
        out.append(items + (f" {count.per}" if count.per else "") + " series" * count.series)
    return "; ".join(out)


_SHORT = {
    tree.Place: _place,
    tree.Extent: _extent,
    tree.Stitch: _stitch,
    tree.Counts: _counts,
    tree.Repeat: _repeat,
    tree.Chain: lambda step: f"ch{_number(step.n)}{'~' if step.role else ''}{short(step.says) if step.says else ''}",
    tree.Skip: lambda step: f"skip{_at(step.place)}{short(step.says) if step.says else ''}",
    tree.Group: lambda step: f"G({short(step.steps)}){f' {step.name}' if step.name else ''}{f' makes {step.makes}' if step.makes else ''}{_at(step.place)}",
    tree.Each: lambda step: f"each({short(step.parts)}){short(step.extent)}",
    tree.Either: lambda step: "either{" + " | ".join(map(short, step.readings)) + "}",
    tree.Join: lambda step: f"join{'' if step.kind == 'slst' else ' ' + step.kind}{_at(step.place)}",
    tree.JoinYarn: lambda step: f"yarn {step.colour} {step.standing}".strip() + _at(step.place),
    tree.Colour: lambda step: f"colour {step.name}",
    tree.Ring: lambda step: f"ring {step.kind}",
    tree.Turn: lambda step: "turn",
    tree.NoJoin: lambda step: "no turn" if step.turn else "no join",
    tree.FastenOff: lambda step: "fasten off",
    tree.Mark: lambda step: f"mark {step.act}{_at(step.place)}",
    tree.Leave: lambda step: "leave" if step.n is None else f"leave {_number(step.n)}",
    tree.Go: lambda step: f"go{short(step.extent) if step.extent else ''}",
    tree.Note: lambda step: f"note {step.text!r}",
    tree.Unread: lambda step: f"unread {step.text!r}",
}


def test_a_full_stop_after_a_chain_of_the_row_below_ends_the_sentence():
    """"In next ch. 2 sc" ends in the count; "ch. 2" of a terse row is a chain of two."""
    pattern, _ = read_manuscript("Row 1: Ch 3, sc in 2nd ch from hook and in next ch. 2 sc", terms="US")
    (_, row), = pattern.rows()
    assert [stated.items for stated in row.stated] == [((2, "sc", None),)]
    assert short(read("sc in next st, ch. 2, sc in next st").steps).count("ch2") == 1
