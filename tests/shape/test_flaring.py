"""Whether rounds lie flat, from counts: the trade's rule for discs, tubes, cups and ruffles, and squares by their corners."""

import subprocess
import sys

import pytest

import hookwright
from hookwright.shape import RestSizes, flare, rest_sizes, words_for


def disc(gain: int, rounds: int, stitch: str = "sc") -> str:
    """A disc with `gain` increases a round, worked in a spiral."""
    rows = [f"Rnd 1: {gain} {stitch} in magic ring ({gain})", f"Rnd 2: 2 {stitch} in each st around ({2 * gain})"]
    rows += [f"Rnd {n}: [{n - 2} {stitch}, 2 {stitch} in next st] x {gain} ({n * gain})" for n in range(3, rounds + 1)]
    return "Do not join rounds.\n\n" + "\n\n".join(rows) + "\n"


def flares(text: str, sizes: RestSizes):
    fabric = hookwright.check(text, terms="US").fabrics[0]
    return flare(fabric.rows, sizes, fabric.kinds)


@pytest.mark.parametrize(("stitch", "gain"), [("sc", 6), ("hdc", 8), ("dc", 11)])
def test_the_trades_discs_lie_flat(stitch, gain):
    """6 in sc, 8 in hdc, 11 in dc (published: 8 to 12) lie flat at the mean published row heights."""
    found = flares(disc(gain, 9, stitch), RestSizes(7.0))
    assert len(found) == 9
    at_least = {"hdc": 0.9}.get(stitch, 0.96)  # the one published hdc gauge asks for 8.8 a round where the trade works 8
    assert all(at_least <= one.phi <= 1.08 for one in found)
    assert stitch == "hdc" or all(one.words == "lies flat" and not one.to_flat for one in found)


@pytest.mark.parametrize(("gain", "words"), [(3, "cups"), (4, "cups"), (7, "ruffles"), (12, "ruffles")])
def test_too_few_cup_and_too_many_ruffle(gain, words):
    found = flares(disc(gain, 8), RestSizes(7.0))
    assert all(one.words == words for one in found)
    assert all((one.to_flat > 0) == (words == "cups") for one in found)
    assert {one.gain for one in found} == {gain}


def test_a_tube_goes_straight_up():
    text = "Ch 30, join with sl st in first ch to form a ring.\n\nRnd 1: Sc in each ch around. (30)\n\nRnd 2: Sc in each st around. (30)\n\nRnd 3: Sc in each st around. (30)\n"
    found = flares(text, RestSizes(7.0))
    assert len(found) >= 2 and all(one.words == "goes straight up" and one.to_flat == 0 for one in found)


def test_a_square_is_measured_by_its_corners():
    """A granny square gains 16 stitches and spaces a round for its four corners and lies flat, though a round disc of so many would not."""
    text = ("Make an adjustable ring.\n\nRnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, [3 dc in ring, ch 2] 3 times, join. (12 dc, 4 ch-2 sps)\n\n"
            + "\n\n".join(
                f"Rnd {n}: Sl st to first corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, *dc in each dc to next corner, (3 dc, ch 2, 3 dc) in next corner ch-2 sp; "
                f"rep from * around, dc in each dc to end, join."
                for n in range(2, 4)) + "\n")
    report = hookwright.check(text, terms="US")
    fabric = report.fabrics[0]
    corners = [one for one in flare(fabric.rows, RestSizes(7.0), fabric.kinds) if one.row > 1]
    assert corners
    assert all(one.flat_gain > 2 * 3.15 * 1.7 for one in corners)  # 8 heights a round, not 2 pi


def test_sizes_come_from_the_gauge():
    head = hookwright.check("---\ngauge: {stitches: 20, rows: 25, over: 10 cm, in: sc}\n---\n\n" + disc(6, 3)).pattern.head
    sizes = rest_sizes(head)
    assert (sizes.width("sc"), sizes.height("sc")) == (5.0, 4.0)
    assert sizes.height("dc") > 1.8 * sizes.height("sc")
    assert sizes.said == "gauge"
    assert rest_sizes(None).said == "yarn"


def test_words_are_in_order():
    said = [words_for(phi / 100) for phi in range(-100, 200)]
    assert [words for at, words in enumerate(said) if not at or words != said[at - 1]] == [
        "closes", "goes straight up", "cups", "domes slightly", "lies flat", "waves at the edge", "ruffles"]


def test_counts_alone_load_nothing_heavy():
    """The check of a proof asks this for every disc, so it must not wait for SciPy."""
    code = "import sys; import hookwright.shape as s; s.flare([], s.RestSizes(7.0)); print('scipy' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.stdout.strip() == "False", done.stderr
