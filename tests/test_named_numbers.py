"""Numbers of the head that the rows name: written out before the rows are read, and findings brought back to her text."""

from hypothesis import given
from hypothesis import strategies as st

import hookwright
from hookwright.ground import PerSize, Span
from hookwright.notation.named_numbers import with_numbers

HEAD = "---\nterms: US\nsizes: [S, M]\nnumbers:\n  rib: 8 (10)\n  body: 20\n---\n\n"


def test_a_sum_of_numbers_stands_as_if_it_were_typed():
    """8 (10) and 20 and 1 more are 29 (31)."""
    text, shifts = with_numbers("Ch {rib + body + 1}.", 0, {"rib": PerSize((8, 10)), "body": 20}, 2, [])
    assert text == "Ch 29 (31)."
    assert shifts.back(Span(3, 10)) == Span(3, 19)
    assert shifts.back(Span(10, 11)) == Span(19, 20)


def test_a_finding_stands_where_she_wrote_it():
    """The column counts her braces and not the numbers that stand for them."""
    text = HEAD + "Ch {rib + 1}.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. ({rib} sts)\n\nRow 2: Ch 1, sc in each of first {rib} sts, sc in next 3 sts."
    report = hookwright.check(text).as_dict()
    finding = next(finding for finding in report["findings"] if finding["grade"] == "must mend")
    lines = text.split("\n")
    assert finding["row"] == "Row 2"
    at = finding["column"] - 1
    assert lines[finding["line"] - 1][at : at + finding["length"]].startswith("sc in next 3 sts")
    assert [row["line"] for row in report["rows"]] == [9, 11, 13]


def test_a_name_that_is_nearly_hers_is_asked_for():
    """`{ribb}` is no number; `{rib}` is offered, at the place of the braces."""
    report = hookwright.check(HEAD + "Ch 21.\n\nRow 1: Sc in 2nd ch from hook, sc in next {ribb} chs, sc in each ch across.").as_dict()
    finding = next(finding for finding in report["findings"] if finding["kind"] == "number-not-found")
    assert "did you mean `{rib}`" in finding["message"]
    assert finding["suggestions"][0]["text"] == "{rib}"


def test_a_sum_that_is_no_whole_number_is_said():
    """8 / 3 is no count."""
    findings = []
    text, _ = with_numbers("sc in next {rib / 3} sts", 0, {"rib": 8}, 1, findings)
    assert text == "sc in next {rib / 3} sts"
    assert [finding.kind for finding in findings] == ["number-not-found"] and "2.66667" in findings[0].message


def test_curly_brackets_of_another_kind_stay():
    """A group in curly brackets is no number of the head."""
    words = "*{2 dc, ch 1, 2 dc} in next sp; rep from * across"
    assert with_numbers(words, 0, {"rib": 8}, 1, [])[0] == words


@given(st.lists(st.sampled_from(["sc in ", "{rib}", "{body + 1}", "{x}", "é ", "\n", "{rib", "}", "3 (4) "]), max_size=12).map("".join), st.data())
def test_every_place_comes_back_to_its_place(text, data):
    """Text between numbers comes back to itself, and spans keep their order and never leave the text."""
    numbers = {"rib": PerSize((8, 10)), "body": 20}
    new, shifts = with_numbers(text, 0, numbers, 2, [])
    assert shifts.back(Span(0, len(new))) == Span(0, len(text)) or not text
    a = data.draw(st.integers(0, len(new)))
    b = data.draw(st.integers(a, len(new)))
    back = shifts.back(Span(a, b))
    assert 0 <= back.start <= len(text) and 0 <= back.end <= len(text)
    taken = {offset for start, length in zip(shifts.starts, shifts.lengths) for offset in range(start, start + length)}
    for offset, char in enumerate(new):
        if offset not in taken:
            assert text[shifts.back(Span(offset, offset + 1)).start] == char
