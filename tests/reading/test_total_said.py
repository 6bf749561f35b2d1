"""The total of a row whose words can't be read: found in whatever form it is said, and carried on with."""

import pytest

import hookwright


@pytest.mark.parametrize(
    ("text", "below", "stitches"),
    [
        ("Rnd 4: 24 sts, 6 sts grown evenly", "18 sc", 24),
        ("Rnd 9: 18 sts, 6 sts decreased evenly, stuff with wool", "24 sc", 18),
        ("Rnds 5～8: 24 sts, no inc or dec", "24 sc", 24),
        ("Rnd 6: gobble along the flurb, 12 each time.", "12 sc", 12),
        ("Rnd 6: frimble every third until you end up with 16.", "24 sc", 16),
        ("Rnd 6: frimble three over the toes - 13 left.", "16 sc", 13),
    ],
)
def test_a_total_is_carried_on_with(text, below, stitches):
    """What is said of the count holds, and the words are pointed at; nobody is blamed."""
    report = hookwright.check(text, terms="US", below=below, in_round=True)
    assert report.as_dict()["rows"][-1]["sizes"]["1"]["stitches"] == stitches
    assert {finding.grade for finding in report.findings} <= {"look at this", "for your information"}


def test_a_total_said_per_size():
    """A list of sizes is the total in each of them."""
    report = hookwright.check("Rnd 6: flimble over the top, you now have 20 (24, 28) sts", terms="US", below="30 (36, 42) sc", in_round=True, sizes=["S", "M", "L"])
    assert [size["stitches"] for size in report.as_dict()["rows"][-1]["sizes"].values()] == [20, 24, 28]


def test_numbers_that_are_no_total():
    """A length, a number of rows or of times is none."""
    report = hookwright.check("Rnd 6: flimble over the top 3 times, it should be 12 cm", terms="US", below="30 sc", in_round=True)
    assert "worked" not in report.as_dict()["rows"][-1]["sizes"]["1"]


@pytest.mark.parametrize(
    ("text", "below", "stitches"),
    [
        ("Rnd 6: (4 sc, inc) six goes at all. (36)", "30 sc", 36),
        ("Rnd 6: sc2tog x3 leaving the first toe be for the next, then 10 sc. (15)", "18 sc", 15),
    ],
)
def test_a_remark_that_may_matter_is_no_fault_of_hers(text, below, stitches):
    """Words in the midst of what is worked that say how many or where, and aren't understood: the count is hers, and the row is only pointed at."""
    report = hookwright.check(text, terms="US", below=below, in_round=True)
    assert report.as_dict()["rows"][-1]["sizes"]["1"]["stitches"] == stitches
    assert {finding.grade for finding in report.findings} == {"look at this"}
