"""Laws of putting two changed texts together."""

from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.desk.workbench.merge import merge

LINES = st.lists(st.sampled_from(["a\n", "b\n", "c\n", "\n", "Row 1\n", "Row 2\n"]), max_size=12)


@st.composite
def texts(draw):
    """A text, with or without an end to its last line."""
    text = "".join(draw(LINES))
    return text[:-1] if text and draw(st.booleans()) else text


@st.composite
def changed(draw, base):
    """The text with a few lines put in, taken out or made others."""
    lines = base.splitlines(keepends=True)
    for _ in range(draw(st.integers(0, 3))):
        at = draw(st.integers(0, len(lines)))
        kind = draw(st.integers(0, 2))
        if kind == 0 or at == len(lines):
            lines.insert(at, draw(st.sampled_from(["new 1\n", "new 2\n", "a\n"])))
        elif kind == 1:
            del lines[at]
        else:
            lines[at] = draw(st.sampled_from(["other\n", "b\n"]))
    return "".join(lines)


@given(texts(), texts())
def test_who_changed_nothing_leaves_the_others_text(base, other):
    assert merge(base, base, other).text == other
    assert merge(base, other, base).text == other
    assert merge(base, other, other).text == other


@settings(max_examples=200)
@given(st.data())
def test_which_side_is_which_makes_no_difference(data):
    base = data.draw(texts())
    one, two = data.draw(changed(base)), data.draw(changed(base))
    there, back = merge(base, one, two), merge(base, two, one)
    assert there.text == back.text
    assert [(yours, theirs) for theirs, yours in there.clashes] == list(back.clashes)


@settings(max_examples=200)
@given(st.data())
def test_no_line_that_a_side_added_is_lost(data):
    base = data.draw(texts())
    one, two = data.draw(changed(base)), data.draw(changed(base))
    made = merge(base, one, two)
    where = [made.text] if made.text is not None else [*(part for clash in made.clashes for part in clash)]
    if made.text is None:
        assert made.clashes and all(theirs != yours for theirs, yours in made.clashes)
        return
    for side in (one, two):
        for line in set(side.split("\n")) - set(base.split("\n")):
            assert any(line in text.split("\n") for text in where)


@given(st.lists(st.sampled_from("abcdefgh"), min_size=8, max_size=8), st.integers(0, 2), st.integers(5, 7))
def test_changes_far_apart_are_both_there(letters, first, last):
    base = [f"{letter}{at}\n" for at, letter in enumerate(letters)]
    one, two = list(base), list(base)
    one[first], two[last] = "one\n", "two\n"
    made = merge("".join(base), "".join(one), "".join(two)).text.splitlines()
    assert made[first] == "one" and made[last] == "two" and len(made) == 8


def test_the_same_line_changed_twice_is_a_clash_with_both():
    made = merge("a\nb\nc\n", "a\nX\nc\n", "a\nY\nc\n")
    assert made.text is None and made.clashes == (("X\n", "Y\n"),)


def test_ten_thousand_lines_are_merged_at_once():
    base = "line\n" * 10_000
    made = merge(base, "first\n" + base, base + "last\n")
    assert made.text == "first\n" + base + "last\n"
    assert merge("a\n" * 6000, "b\n" * 6000, "c\n" * 6000).text is None
