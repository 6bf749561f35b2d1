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
