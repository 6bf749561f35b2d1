"""Garments of flat pieces: which pieces they are, and that they meet on the form as they are sewn."""

from pathlib import Path

import numpy as np
import pytest

import hookwright
from hookwright.pipeline.pictures import said_of, surface_for
from hookwright.shape import garment_of, garment_surface

SMOCK = (Path(__file__).resolve().parents[2] / "examples" / "saltmarsh-smock.md").read_text("utf-8")
PANEL = "Ch 61.\n\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (60 sts)\n\nRows 2-70: Ch 1, sc in each st across, turn. (60 sts)\n"


def sewn_of(title: str, *pieces: tuple[str, str], finishing: str = "Sew shoulders and sides."):
    text = f"---\ntitle: {title}\ngauge: {{stitches: 16, rows: 18, over: 10 cm, in: sc}}\n---\n\n"
    text += "".join(f"## {name}\n\n{rows}\n" for name, rows in pieces) + f"## Finishing\n\n{finishing}\n"
    report = hookwright.check(text, terms="US")
    assert not report.must_mend
    return report, garment_of(report.fabrics[0], report.pattern)


@pytest.fixture(scope="module")
def smock():
    report = hookwright.check(SMOCK)
    return report, [surface_for(report, size=size) for size in ("Child 4", "M")]


def test_the_pieces_of_a_garment_are_known_by_their_headings():
    _, found = sewn_of("Moor Vest", ("Back", PANEL), ("Front", PANEL))
    assert (found.back, found.front, found.sleeves) == ("Back", "Front", ())
    _, found = sewn_of("Moor Tunic", ("Front and back (make 2)", PANEL), ("Sleeve (make 2)", PANEL))
    assert (found.back, found.front, found.sleeves) == ("Front and back", "Front and back", ("Sleeve", "Sleeve"))
    _, found = sewn_of("Moor Jumper", ("Back", PANEL), ("Front", PANEL), ("Left sleeve", PANEL), ("Right sleeve", PANEL))
    assert found.sleeves == ("Left sleeve", "Right sleeve")


@pytest.mark.parametrize(("title", "pieces", "finishing"), [
    ("Moor Cushion", ("Back", "Front"), "Sew the sides."),
    ("Moor Cardigan", ("Back", "Left front", "Right front"), "Sew the sides."),
    ("Moor Vest", ("Back",), "Sew the sides."),
    ("Moor Vest", ("Back", "Front"), "Weave in all ends."),
    ("Moor Vest", ("Back", "Front"), "Both are worked sideways. Sew the sides."),
])
def test_what_is_no_garment_of_a_back_and_a_front_is_shown_piece_by_piece(title, pieces, finishing):
    _, found = sewn_of(title, *((name, PANEL) for name in pieces), finishing=finishing)
    assert found is None


def test_pieces_that_are_too_small_or_too_unlike_are_shown_one_by_one():
    tiny = "Ch 3.\n\nRow 1: Sc in 2nd ch from hook and in next ch, turn. (2 sts)\n\nRow 2: Ch 1, sc in each st across, turn. (2 sts)\n"
    low = "Ch 61.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (60 sts)\n"
    for back, front in ((tiny, tiny), (low, low), (PANEL, PANEL.replace("61", "31").replace("60", "30"))):
        assert sewn_of("Moor Vest", ("Back", back), ("Front", front))[1] is None


def test_all_pieces_are_one_surface(smock):
    for made in smock[1]:
        n = len(made.at)
        assert made.shown == "form" and made.construction == "sleeved garment"
        assert n == len(made.base) == len(made.normal) == len(made.row) == len(made.before) == len(made.foot_start) - 1
        assert np.isfinite(made.at).all() and np.isfinite(made.base).all()
        assert made.row.max() == len(made.rows) - 1 and (np.diff(made.row) >= 0).all()
        assert made.faces.max() < n and made.before.max() < n and made.foot_of.max() < n
        starts = np.flatnonzero(made.before < 0)
        assert len(starts) >= 4  # no yarn runs from one piece to the next
        shares = np.add.reduceat(made.foot_share, made.foot_start[:-1][np.diff(made.foot_start) > 0])
        assert np.allclose(shares, 1)


def test_the_right_side_is_outside_and_the_front_in_front(smock):
    for made in smock[1]:
        body = (np.abs(made.at[:, 1]) < 0.5 * np.abs(made.at[:, 1]).max() / 2) & (made.at[:, 2] < 0.5 * made.at[:, 2].min())
        outwards = (made.normal[body] * made.at[body] * (1, 1, 0)).sum(1)
        assert (outwards > 0).mean() > 0.98
        front = np.array([row.piece == "Front" for row in made.rows])[made.row]
        assert made.at[front & body, 0].min() > -1


def test_stitches_keep_their_size_on_the_form(smock):
    for made in smock[1]:
        along = (made.before >= 0) & (made.before == np.arange(len(made.at)) - 1)
        along[1:] &= made.row[1:] == made.row[:-1]
        which = np.flatnonzero(along)
        gap = np.linalg.norm(made.at[which] - made.at[which - 1], axis=1) / made.width[which]
        assert 0.95 < np.median(gap) < 1.1 and np.percentile(gap, 5) > 0.9
        high = np.linalg.norm(made.at - made.base, axis=1) / np.maximum(made.height, 1)
        assert 0.95 < np.median(high[made.kind > 0]) < 1.05


def test_sides_and_shoulders_meet():
    report, found = sewn_of("Moor Vest", ("Back", PANEL), ("Front", PANEL))
    made = garment_surface(report.fabrics[0], found, pattern=report.pattern)
    half = len(made.at) // 2
    back, front = made.at[:half], made.at[half:]
    for row in (1, 20, 69):
        ends = [each[made.row[:half] == row][[0, -1]] for each in (back, front)]
        if row < 60:
            near = [min(np.linalg.norm(one - other) for other in ends[1]) for one in ends[0]]
            assert max(near) < 1.5 * made.width.max()
        else:  # the last row: shoulders lie against each other
            assert np.ptp(np.concatenate(ends)[:, 0]) < 2 * made.height.max()
    girth = 2 * 60 * 100 / 16
    ring = made.at[made.row == 10]
    assert np.linalg.norm(np.diff(ring, axis=0), axis=1).sum() == pytest.approx(girth / 2, rel=0.04)


def test_it_is_told_what_is_shown_and_a_single_piece_is_still_to_be_had(smock):
    report, (made, _) = smock
    said = said_of(report, made)
    assert "Saltmarsh Smock" in said.title and "sleeves set in" in said.words and "on a plain form" in said.words
    piece = surface_for(report, "Sleeve", "Child 4")
    assert piece.shown == "flat" and len(piece.at) < len(made.at) / 3
    assert "Sleeve" in said_of(report, piece).title


def test_a_piece_that_is_left_out_is_named():
    band = "Ch 81.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (80 sts)\n"
    report, _ = sewn_of("Moor Vest", ("Back", PANEL), ("Front", PANEL), ("Neckband", band))
    words = said_of(report, surface_for(report)).words
    assert "Not in the picture: Neckband." in words
    assert "Not in the picture" not in said_of(report, surface_for(report, "Neckband")).words


def test_pieces_worked_on_from_each_other_are_called_by_all_their_names():
    mittens = (Path(__file__).resolve().parents[2] / "examples")
    path = next(each for each in sorted(mittens.glob("*mitt*.md")))
    report = hookwright.check(path.read_text("utf-8"))
    made = surface_for(report)
    names = list(dict.fromkeys(row.piece for row in made.rows))
    title = said_of(report, made).title
    assert len(names) > 1 and (report.pattern.head.title in title or all(name in title for name in names))


def test_edges_that_lie_on_each_other_are_sewn(smock):
    _, (made, _) = smock
    names = np.array([row.piece for row in made.rows])[made.row]
    one, other = names[made.seams[:, 0]], names[made.seams[:, 1]]
    sleeve = np.array([name.startswith("Sleeve") for name in names])
    both = sleeve[made.seams].sum(1)
    assert (both == 2).sum() > 60  # two sleeves of some forty rows, along their own edges
    assert (both == 1).sum() > 40  # set in
    assert ((both == 0) & (one == "Back") & (other != "Back")).sum() == (both == 0).sum() > 40
    assert np.linalg.norm(made.at[made.seams[:, 0]] - made.at[made.seams[:, 1]], axis=1).max() < 2 * made.height.max()
