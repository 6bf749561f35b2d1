"""Schematics of pieces whose counts tell no outline: the silhouette of the solved shape, with lengths of every size. Lengths are worked out here from
the gauge: 16 stitches and 12 rows to 10 cm in hdc are 6.25 mm and 8.33 mm; a dc is as wide."""

import numpy as np
import pytest

import hookwright
from hookwright.shape import silhouette

W = 6.25
HEAD = "---\nterms: US\ntitle: {title}\ngauge: 16 sts and 12 rows over 10 cm in hdc\n---\n"
BLOCKS = HEAD.format(title="Tile") + """Note: ch 3 at the start of a block counts as dc.

## Tile

Row 1 (RS): Ch 6, dc in 4th ch from hook and in next 2 chs, turn. (1 block)
Row 2: Ch 6, dc in 4th ch from hook and in next 2 chs, [sl st, ch 3, 3 dc] in ch-3 sp of next block, turn. (2 blocks)
Row 3: Ch 6, dc in 4th ch from hook and in next 2 chs, *[sl st, ch 3, 3 dc] in ch-3 sp of next block; rep from * across, turn. (3 blocks)
Rows 4-9: Rep Row 3. (9 blocks)
"""
SOCK = """---
terms: US
title: Tarn Sock
sizes: [S, L]
gauge: 16 sts and 12 rows over 10 cm in hdc
---
## Cuff
Ch 32 (40), join with sl st to form a ring.
Rnd 1: Ch 1, sc in each ch around, join. (32 (40) sc)
Rnds 2-14: Ch 1, sc in each st around, join. (32 (40) sc)
## Heel
Row 1: Ch 1, sc in next 16 (20) sts, turn, leaving remaining sts unworked. (16 (20) sc)
Rows 2-10: Ch 1, sc in each st across, turn. (16 (20) sc)
## Foot
Rnd 1: Ch 1, sc in next 16 (20) sts, 10 sc evenly along row ends, sc in next 16 (20) sts, 10 sc evenly along row ends, join. (52 (60) sc)
Rnds 2-16: Ch 1, sc in each st around, join. (52 (60) sc)
"""
FLAT = HEAD.format(title="Mat") + "## Mat\nCh 31.\nRow 1: Hdc in 2nd ch from hook and in each ch across. (30 hdc)\nRows 2-20: Ch 1, turn, hdc in each st across. (30 hdc)\n"


def test_blocks_from_corner_to_corner_are_half_a_square():
    """Rows hang on each other by their spaces, so each is a block longer than the last: nine blocks are at least as long as 27 dc side by side, and
    half a square is half as deep as it is long, or a little less as the blocks are squat."""
    found = _lengths(hookwright.schematic(BLOCKS))
    (wide,), (tall,) = found["width"], found["height"]
    assert wide > 27 * W / 10 and 0.3 < tall / wide < 0.6


def test_a_sock_with_its_heel_is_one_drawing_with_girths_of_every_size():
    told = []
    made = hookwright.schematic(SOCK, progress=told.append)
    assert made.title == "Cuff, Heel, Foot: measurements"
    small, large = _lengths(made)["around at the first round"]
    assert small == pytest.approx(32 * W / 10, rel=0.06) and large == pytest.approx(40 * W / 10, rel=0.06)
    assert told and told == sorted(told) and told[-1] <= 1.0


def test_a_sheet_shows_the_sock_and_leaves_out_what_would_take_long(monkeypatch):
    from hookwright.pipeline import outlines

    report = hookwright.check(SOCK)
    assert "as the fabric lies by its stitches" in hookwright.write(report, "html").decode()
    monkeypatch.setattr(outlines, "_CHEAP", 100)
    assert "Schematics" not in hookwright.write(report, "html").decode()


def test_two_pieces_under_one_heading_are_drawn_by_their_counts():
    told = []
    twice = FLAT + FLAT.split("## Mat\n")[1].replace("30 hdc", "20 hdc").replace("Ch 31", "Ch 21")
    made = hookwright.schematic(twice, progress=told.append)
    assert not told and made.words.count("width: 19") == 1 and made.words.count("width: 12.5") == 1


def test_flat_pieces_stay_with_their_counts():
    """No solver where counts tell all: nothing is told of progress."""
    told = []
    made = hookwright.schematic(FLAT, progress=told.append)
    assert _lengths(made)["width"] == [19.0] and not told


def test_the_silhouette_of_a_rectangle_has_four_corners_and_takes_its_edges_in():
    """30 stitches wide to the outer edge of the last one, 20 rows high."""
    found = silhouette(hookwright.surface_of(FLAT))
    wide, tall = found.size
    assert wide == pytest.approx(30 * W, rel=0.03) and tall == pytest.approx(20 * 100 / 12, rel=0.03)
    assert len(found.outer) == 1 and not found.openings and found.area == pytest.approx(wide * tall, rel=0.03)


def test_an_opening_is_an_inner_line_and_gaps_of_lace_are_none():
    """A sheet with its faces and stitches of a square in the middle taken out, ten stitches wide, and another two wide that closes."""
    surface = hookwright.surface_of(FLAT)
    middle, near = surface.at[:, :2].mean(0), surface.at[:, :2]
    out = np.flatnonzero((np.abs(near - middle) < 5 * W).all(1) | (np.abs(near - middle - np.array([10 * W, 0.0])) < 0.9 * W).all(1))
    gone = np.isin(np.arange(len(surface.at)), out)
    surface.faces = surface.faces[~gone[surface.faces].any(1)]
    surface.width = np.where(gone, 0.0, surface.width)
    surface.base = np.where(gone[:, None], surface.at, surface.base)
    surface.at[gone], surface.base[gone] = surface.at[0], surface.at[0]  # heaped at one corner
    (opening,) = silhouette(surface).openings
    points = np.array(opening)
    assert np.ptp(points, axis=0) == pytest.approx([10 * W, 10 * W], rel=0.3)


def test_a_heel_flap_has_stitches_along_both_its_sides():
    """Round 1 of the foot goes over the flap, down one side, along the instep and up the other: no spring is far from rest, which it would be where
    both stretches hung on one side, and the foot is as long round as its stitches."""
    surface = hookwright.surface_of(SOCK, "Cuff", "S")
    assert surface.settled and surface.strain["p95"] < 0.045
    turned = silhouette(surface, down=True)
    cuff = turned.places[surface.row == surface.row.min()]
    assert cuff[:, 1].mean() > turned.size[1] * 0.8  # worked down: the cuff is on top


def _lengths(made) -> dict:
    """Centimetres of every size by the name of the length."""
    found = (part.replace("\xa0", " ").split(": ") for part in made.words.split("; ") if "cm" in part)
    return {name: [float(word.strip("()")) for word in length.split(" cm")[0].split()] for name, length in found}
