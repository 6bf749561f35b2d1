"""Shapes that a closed formula gives: the solver must come to them."""

import numpy as np
import pytest

from hookwright.sizing import ball, workable

from .pieces import HEIGHT, WIDTH, granny, head, in_rounds, ripple, sheet, surface, tube


def size(made):
    return np.ptp(made.at, axis=0)


def open_edges(faces) -> int:
    """Edges with one face."""
    edges = np.sort(np.concatenate((faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]])), axis=1)
    return int((np.unique(edges, axis=0, return_counts=True)[1] == 1).sum())


def same_way_twice(faces) -> int:
    """Edges that two faces go along the same way: one of them is wound wrongly."""
    edges = np.concatenate((faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]))
    return len(edges) - len(np.unique(edges, axis=0))


@pytest.mark.parametrize(("wide", "rows"), [(30, 40), (2, 60), (50, 3)])
def test_a_sheet_is_the_rectangle_of_its_gauge(wide, rows):
    """Tops of stitches are half a width from the edges; the chain is the first edge, so that all rows count upwards."""
    made = surface(sheet(wide, rows))
    assert made.shown == "flat" and made.settled
    assert np.allclose(size(made), [(wide - 1) * WIDTH, rows * HEIGHT, 0], atol=0.5)
    assert made.strain["max"] < 0.01
    assert (made.normal[:, 2] > 0.99).all()  # right side up


@pytest.mark.parametrize("joined", [True, False], ids=["joined", "spiral"])
def test_a_tube_is_a_cylinder(joined):
    made = surface(tube(60, 20, joined))
    assert made.construction == "tube"
    middle = made.at - made.at.mean(0)
    out = np.hypot(middle[:, 0], middle[:, 1])
    assert np.allclose(out, 60 * WIDTH / (2 * np.pi), rtol=0.02)
    assert size(made)[2] == pytest.approx(20 * HEIGHT, rel=0.06)
    outwards = middle * [1, 1, 0] / out[:, None]
    assert (np.einsum("ij,ij->i", outwards, made.normal) > 0.95).all()  # the right side is outside


def test_even_increases_make_a_cone():
    """3 a round where 2 pi h / w lie flat: the half angle has the sine 3 / that."""
    made = surface(head() + in_rounds([6, *range(9, 60, 3)]), "free")
    flat = 2 * np.pi * HEIGHT / WIDTH
    low, high = 6, made.row.max() - 1  # the tip is blunt, since 6 in a ring lie flat, and the edge is free
    middles = [made.at[made.row == row].mean(0) for row in (low, high)]
    assert np.linalg.norm(middles[1] - middles[0]) == pytest.approx((high - low) * HEIGHT * np.sqrt(1 - (3 / flat) ** 2), rel=0.08)
    outs = [np.linalg.norm(made.at[made.row == row] - middle, axis=1).mean() for row, middle in zip((low, high), middles, strict=True)]
    assert outs[1] - outs[0] == pytest.approx((high - low) * 3 * WIDTH / (2 * np.pi), rel=0.05)


@pytest.mark.parametrize(("stitch", "gain", "gauge"), [("sc", 6, (13, 14)), ("hdc", 8, (11.9, 8.65)), ("dc", 12, (16, 8))])
def test_discs_of_the_trade_lie_nearly_flat_at_published_gauges(stitch, gain, gauge):
    """Gauges: Caron Simply Soft (sc), the measured swatch of the magazine (hdc), the hat liner (dc), all in sizing/tables/proportions.toml."""
    made = surface(head(*gauge, stitch) + in_rounds([gain * n for n in range(1, 9)], stitch), "free")
    across = max(size(made))
    low = np.linalg.svd(made.at - made.at.mean(0), compute_uv=False)[2] / np.sqrt(len(made.at))
    assert low < 0.06 * across  # they dome at most a little
    pressed = surface(head(*gauge, stitch) + in_rounds([gain * n for n in range(1, 9)], stitch), "flat")
    assert pressed.strain["rms"] < 0.06
    height = 100 / gauge[1]
    assert size(pressed)[:2].mean() == pytest.approx(2 * 8 * height, rel=0.07)


def test_a_ball_by_the_sine_rule_is_round():
    """Within 5 %, as large as its middle round is long, and closed: no edge is open, no face is wound wrongly."""
    made = surface(head(more="for: [toy]\n") + in_rounds(workable(ball(48, WIDTH, HEIGHT))))
    assert (made.construction, made.shown, made.settled) == ("ball", "stuffed", True)
    out = np.linalg.norm(made.at - made.at.mean(0), axis=1)
    assert out.max() < 1.05 * out.mean() and out.min() > 0.95 * out.mean()
    assert out.mean() == pytest.approx(48 * WIDTH / (2 * np.pi), rel=0.06)
    assert open_edges(made.faces) == 0 and same_way_twice(made.faces) == 0
    away = (made.at - made.at.mean(0)) / out[:, None]
    assert (np.einsum("ij,ij->i", away, made.normal) > 0.8).all()


def test_a_ruffle_is_deep_and_a_flat_disc_is_not():
    flat, ruffle = (surface(head(13, 14) + in_rounds([gain * n for n in range(1, 11)]), "free") for gain in (6, 10))
    deep = [np.linalg.svd(each.at - each.at.mean(0), compute_uv=False)[2] / np.sqrt(len(each.at)) for each in (flat, ruffle)]
    assert deep[1] > 5 * deep[0]


def test_a_granny_square_is_square():
    """Its diagonal is 1.414 times its side, its side twice its rounds' heights; sides level."""
    made = surface(granny(8))
    assert made.construction == "motif"
    wide, high, _ = size(made)
    assert wide == pytest.approx(high, rel=0.02)
    last = made.at[made.row == made.row.max()]
    assert 2 * np.abs(last[np.abs(last[:, 0]) < 10, 1]).mean() == pytest.approx(2 * 8 * 12.5, rel=0.06)
    corners = [last[np.argmax(last @ way)] for way in np.array([[1, 1, 0], [-1, 1, 0], [-1, -1, 0], [1, -1, 0]])]
    sides = [np.linalg.norm(corners[at] - corners[at - 1]) for at in range(4)]
    diagonals = [np.linalg.norm(corners[at] - corners[at + 2]) for at in range(2)]
    assert np.mean(diagonals) / np.mean(sides) == pytest.approx(np.sqrt(2), rel=0.005)
    assert max(sides) < 1.04 * min(sides) and np.mean(sides) == pytest.approx(wide, rel=0.09)


def test_a_ripple_folds_sharply():
    """A wave of 12 stitches is 12 w cos(t) wide and each row sqrt(h^2 + w^2) high, with tan(t) = w / h. That is the limit of folds
    of no radius; fabric folds a little less sharply, and so lies wider and lower."""
    made = surface(ripple(6, 24))
    w, h = 100 / 15, 12.5
    inner = made.at[made.row == 15]
    assert np.ptp(inner[:, 0]) == pytest.approx(6 * 12 * w * np.cos(np.arctan(w / h)), rel=0.08)
    apart = made.at[made.row == 20][:, 1].mean() - made.at[made.row == 10][:, 1].mean()
    assert apart / 10 == pytest.approx(np.hypot(h, w), rel=0.08)


def test_work_joined_at_its_ends_is_a_tube_and_drawn_together_at_one():
    """A hat worked sideways: as wide as its rows are high, its crown closed, its seam shut."""
    rows, high = 60, 24
    text = (head(14, 11, "hdc", "title: Plain Hat\n") + f"Ch {high + 1}.\n\nRow 1 (RS): Hdc in 2nd ch from hook and in each ch across, turn. ({high} sts)\n\n"
            f"Rows 2-{rows}: Ch 1, hdc in each st across, turn. ({high} sts)\n\nSeam row: Ch 1, working through both thicknesses, sl st in each st across. ({high} sl sts)\n\n"
            "Fasten off.\n\n## Finishing\n\nRun the tail through the row ends of the crown edge, draw up firmly and close.\n")
    made = surface(text)
    assert (made.construction, made.shown) == ("tube", "form")
    girth = rows * 100 / 11
    low = made.at[:, 2] < made.at[:, 2].min() + 30
    out = np.hypot(made.at[low, 0], made.at[low, 1])
    assert 2 * np.pi * out.mean() == pytest.approx(1.03 * girth, rel=0.04)  # on a head a little larger than itself
    ends = np.linalg.norm(made.at[made.seams[:, 0]] - made.at[made.seams[:, 1]], axis=1)
    assert len(ends) == high and ends.max() < 4
    top = made.at[made.at[:, 2] > made.at[:, 2].max() - 25]
    assert np.hypot(top[:, 0], top[:, 1]).min() < 12
