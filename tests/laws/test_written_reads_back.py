"""What is spelt is read back as the equal tree, in both dialects.

Stitches that say no place go into the next ones: "3 sc" and "sc in next 3 sts" are taken as the same here, since the longer form is
written where the shorter could be taken for something else.
"""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from trees import again_rows, rows, steps, steps_with_remarks, worked_pieces

from hookwright.notation import read
from hookwright.notation.clean import clean
from hookwright.notation.spell import spell, spell_steps
from hookwright.notation.steps import read_steps
from hookwright.notation.tree import Note, Place, Repeat, Row, Stitch
from hookwright.notation.words import Lexicon

SIZES = ("S", "M", "L")
DIALECTS = st.sampled_from(("US", "UK"))
WORDS = {(terms, sizes): Lexicon(terms, sizes=sizes, colours=frozenset("ABC")) for terms in ("US", "UK") for sizes in (1, 3)}


def told(steps: list) -> list:
    """The steps with "in next n sts" said wherever it is meant."""
    out = []
    for step in steps:
        if isinstance(step, Stitch) and step.place is None and not step.loop:
            step = replace(step, n=1, place=Place(n=step.n))
        elif isinstance(step, Repeat):
            step = replace(step, steps=told(step.steps))
        out.append(step)
    return out


def read_back(text: str, terms: str, sizes: int, in_round: bool):
    """Steps, counts and findings of the text of a row's body."""
    text = clean(text)
    return read_steps(text, 0, len(text), WORDS[terms, sizes], in_round=in_round)


@settings(max_examples=150)
@given(steps(), DIALECTS, st.booleans())
def test_steps(tree, terms, in_round):
    """The steps of a row."""
    text = spell_steps(tree, terms, in_round=in_round)
    back = read_back(text, terms, 1, in_round)
    assert told(back.steps) == told(tree), text
    assert not back.findings and not back.stated, text


@settings(max_examples=150)
@given(steps(sizes=3), DIALECTS, st.booleans())
def test_steps_with_numbers_for_three_sizes(tree, terms, in_round):
    """Steps with size lists."""
    text = spell_steps(tree, terms, in_round=in_round)
    back = read_back(text, terms, 3, in_round)
    assert told(back.steps) == told(tree), text
    assert not back.findings and not back.stated, text


@settings(max_examples=100)
@given(rows(3, SIZES), DIALECTS)
def test_rows(row, terms):
    """A labelled row with its counts, read as a manuscript of its own."""
    text = spell(row, terms)
    pattern, findings = read(text, terms=terms, sizes=SIZES)
    found = [found for _, found in pattern.rows()]
    assert [replace(one, steps=told(one.steps)) for one in found] == [replace(row, steps=told(row.steps))], text
    assert not findings, text


@settings(max_examples=150)
@given(steps_with_remarks(), DIALECTS, st.booleans())
def test_remarks(tree, terms, in_round):
    """A row with remarks: the steps are the same, and each remark comes back whole, in its order."""
    row = Row("Round" if in_round else "Row", (7,), steps=tree)
    text = spell(row, terms)
    pattern, findings = read(text, terms=terms)
    found = [found for _, found in pattern.rows()]
    assert len(found) == 1 and not findings, text
    assert told(work(found[0].steps)) == told(work(tree)), text
    assert remarks_in(found[0].steps) == remarks_in(tree), text


def work(steps: list) -> list:
    return [step for step in steps if not isinstance(step, Note)]


def remarks_in(steps: list) -> str:
    """All that is remarked in a row, one after the other: two that stand side by side may come back as one."""
    said = " ".join(step.text for step in steps if isinstance(step, Note))
    return " ".join(said.replace(",", " ").casefold().split())


@settings(max_examples=60)
@given(again_rows(), DIALECTS)
def test_rows_worked_again(row, terms):
    """A row that refers to others."""
    text = spell(row, terms)
    pattern, findings = read(text, terms=terms)
    assert [found for _, found in pattern.rows()] == [row], text
    assert not findings, text


@settings(max_examples=60)
@given(worked_pieces(), DIALECTS)
def test_the_other_dialect_says_the_same(piece, terms):
    """A piece written in one dialect, read and written in the other, gives the same text as writing it in the other at once."""
    other = "UK" if terms == "US" else "US"
    text = "\n\n".join(spell(row, terms) for row in piece.rows)
    pattern, findings = read(text, terms=terms)
    assert not findings, text
    assert [spell(row, other) for _, row in pattern.rows()] == [spell(row, other) for row in piece.rows]
