"""Every piece of the examples gets a surface, the same each time."""

from pathlib import Path

import numpy as np
import pytest

import hookwright
from hookwright.shape import Cancelled

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*-*.md"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_piece_of_the_examples_gets_a_whole_surface(path):
    report = hookwright.check(path.read_text("utf-8"))
    for name in hookwright.shaped_pieces(report):
        made = hookwright.surface_of(report, name)
        n = len(made.at)
        assert n == len(made.base) == len(made.normal) == len(made.row) == len(made.kind) == len(made.foot_start) - 1
        assert np.isfinite(made.at).all() and np.isfinite(made.base).all()
        assert np.allclose(np.linalg.norm(made.normal, axis=1), 1)
        shares = np.add.reduceat(made.foot_share, made.foot_start[:-1][np.diff(made.foot_start) > 0])
        assert np.allclose(shares, 1)
        assert made.faces.max() < n
        edges = np.sort(np.concatenate((made.faces[:, [0, 1]], made.faces[:, [1, 2]], made.faces[:, [2, 0]])), axis=1)
        assert np.unique(edges, axis=0, return_counts=True)[1].max() <= 2
        if made.shown == "flat":
            assert (made.at[:, 2] == 0).all()


def test_the_same_each_time():
    text = (ROOT / "examples" / "harbor-light-beanie.md").read_text("utf-8")
    one, two = (hookwright.surface_of(hookwright.check(text)) for _ in range(2))
    assert one.at.tobytes() == two.at.tobytes()


def test_it_tells_how_far_it_is_and_stops_when_asked():
    report = hookwright.check((ROOT / "examples" / "creel-basket.md").read_text("utf-8"))
    told = []
    hookwright.surface_of(report, progress=told.append)
    assert told == sorted(told) and told[-1] == 1.0 and len(told) > 5
    with pytest.raises(Cancelled):
        hookwright.surface_of(report, cancelled=lambda: True)


def test_a_piece_or_size_that_is_not_there_is_refused_in_words():
    report = hookwright.check((ROOT / "examples" / "creel-basket.md").read_text("utf-8"))
    for arguments in ({"piece": "Lid"}, {"size": "Giant"}, {"shown": "boiled"}):
        with pytest.raises(ValueError, match="there|not"):
            hookwright.surface_of(report, **arguments)


def hat_from_the_brim(around: int = 72) -> str:
    rounds = [f"Rnd {8 + n}: [{around // 6 - 2 - n} hdc, hdc2tog] x 6 ({around - 6 * (n + 1)})" for n in range(around // 6 - 2)]
    return (f"---\ntitle: Plain Hat\ngauge: {{stitches: 14, rows: 10, over: 10 cm, in: hdc}}\n---\n\n## Hat\n\nDo not join rounds.\n\nCh {around}, join with sl st in first ch to form a ring.\n\n"
            f"Rnd 1: Hdc in each ch around. ({around})\n\nRnds 2-7: Hdc in each st around. ({around})\n\n" + "\n\n".join(rounds) + "\n\nRun the tail through the last sts and pull tight.\n")


def test_a_hat_begun_at_its_brim_is_shown_crown_up_on_a_head():
    made = hookwright.surface_of(hookwright.check(hat_from_the_brim(), terms="US"))
    assert made.shown == "form"
    first, last = made.at[made.row == made.row.min()], made.at[made.row == made.row.max()]
    assert last[:, 2].mean() > first[:, 2].mean() + 80
    out = made.at * [1, 1, 0]
    sides = made.row < 6
    assert (np.einsum("ij,ij->i", out[sides], made.normal[sides]) > 0).all()  # the right side outside
    assert np.linalg.norm(out[sides], axis=1).min() > 0.9 * 72 * 100 / 14 / (2 * np.pi)


def test_a_border_lies_round_the_piece():
    """Sc all around flat work, three in each corner: on the ends of rows and the chain's far side, though no place is named."""
    text = ("Ch 21.\n\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (20 sts)\n\nRows 2-21: Ch 1, sc in each st across, turn. (20 sts)\n\n"
            "## Border\n\nRnd 1: Ch 1, *3 sc in corner, 20 sc evenly along side; rep from * 3 more times, join with sl st in first sc. (92 sc)\n")
    report = hookwright.check("---\ngauge: {stitches: 20, rows: 22, over: 10 cm, in: sc}\n---\n\n## Cloth\n\n" + text, terms="US")
    assert len(hookwright.shaped_pieces(report)) == 1
    made = hookwright.surface_of(report)
    inner, border = made.at[made.row < made.row.max()], made.at[made.row == made.row.max()]
    assert (np.ptp(border, axis=0)[:2] > np.ptp(inner, axis=0)[:2] + 4).all()
    assert (np.diff(made.foot_start)[made.row == made.row.max()] > 0).all()


def test_a_border_of_joined_pieces_is_a_piece_of_its_own():
    text = ("## Square (make 9)\n\nCh 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sts)\n\nRows 2-10: Ch 1, sc in each st across, turn. (10 sts)\n\n"
            "## Border\n\nRnd 1: Ch 1, *3 sc in corner, 30 sc evenly along side; rep from * 3 more times, join with sl st in first sc. (132 sc)\n")
    assert hookwright.shaped_pieces(hookwright.check(text, terms="US")) == ["Square (make 9)", "Border"]


def test_what_stands_up_shows_its_front():
    """A mitten's fingers are above, its thumb to the right; a basket is open above and lies across."""
    mitten = hookwright.surface_of((ROOT / "examples" / "kelp-cutter-mittens.md").read_text("utf-8"))
    pieces = np.array([row.piece.split()[0] for row in mitten.rows])[mitten.row]
    middle = {name: mitten.at[pieces == name].mean(0) - mitten.at.mean(0) for name in ("Cuff", "Top", "Thumb")}
    assert middle["Top"][2] > 40 and middle["Cuff"][2] < -40
    assert middle["Thumb"][1] > 15 and abs(middle["Thumb"][0]) < 8
    basket = hookwright.surface_of((ROOT / "examples" / "creel-basket.md").read_text("utf-8"))
    pieces = np.array([row.piece for row in basket.rows])[basket.row]
    assert basket.at[pieces == "Base"][:, 2].mean() < basket.at[pieces == "Sides"][:, 2].mean() - 30
    assert np.ptp(basket.at[:, 1]) > 1.2 * np.ptp(basket.at[:, 0])
