"""What holds of every piece, whatever its counts."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

import hookwright
from hookwright.shape import rest_sizes
from hookwright.shape.assembling import assembled
from hookwright.shape.parts import parts_of

from .pieces import head, in_rounds


@st.composite
def counts(draw):
    """Counts of rounds from a ring, each at most twice and at least half the one before."""
    out = [draw(st.integers(4, 10))]
    for _ in range(draw(st.integers(2, 12))):
        out.append(draw(st.integers((out[-1] + 1) // 2, 2 * out[-1]).filter(lambda count: count >= 4)))
        out[-1] = min(out[-1], 80)
    return out


@settings(max_examples=40)
@given(counts())
def test_rounds_make_a_surface_with_one_edge(rounds):
    """Whatever is increased and decreased: every edge has two faces but those of the last round, none is wound wrongly, all nodes are on it."""
    report = hookwright.check(head() + in_rounds(rounds), terms="US")
    piece = assembled(report.fabrics[0], pattern=report.pattern, shown="free")
    faces, n = piece.faces, piece.nodes.n
    assert n == sum(rounds)
    assert set(faces.ravel().tolist()) == set(range(n))
    ways = np.concatenate((faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]))
    assert len(np.unique(ways, axis=0)) == len(ways)
    edges, times = np.unique(np.sort(ways, axis=1), axis=0, return_counts=True)
    assert times.max() <= 2
    rim = edges[times == 1]
    closed = 3 <= rounds[-1] <= 12 and rounds[-1] < 0.6 * max(rounds)
    last = np.flatnonzero(piece.nodes.row == piece.nodes.row.max())
    assert len(rim) == 0 if closed else set(rim.ravel().tolist()) == set(last.tolist())
    assert np.isfinite(piece.at).all() and (piece.springs.rest > 0).all() and (piece.springs.stiff > 0).all()


@settings(max_examples=25)
@given(st.integers(2, 30), st.integers(2, 20), st.data())
def test_flat_rows_stand_on_each_other(wide, rows, data):
    """Rows with a stitch more or less at either end: each stitch has a foot, rows lie over each other, the start is near rest."""
    lines, now = [f"Ch {wide + 1}.", f"Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. ({wide} sts)"], wide
    for number in range(2, rows + 1):
        change = data.draw(st.sampled_from(["2 sc in first st", "sc2tog" if now > 4 else "sc in first st", "sc in first st"]))
        now += {"2 sc in first st": 1, "sc2tog": -1, "sc in first st": 0}[change]
        lines.append(f"Row {number}: Ch 1, {change}, sc in each st across, turn. ({now} sts)")
    report = hookwright.check(head() + "\n\n".join(lines) + "\n", terms="US")
    piece = assembled(report.fabrics[0], pattern=report.pattern)
    worked = piece.nodes.row > 0
    assert set(piece.nodes.foot_node.tolist()) == set(np.flatnonzero(worked).tolist())
    d = piece.springs.matrix @ piece.at
    strain = (np.linalg.norm(d, axis=1) - piece.springs.rest)[piece.springs.plain] / piece.springs.rest[piece.springs.plain]
    assert np.abs(strain).max() < 0.6


def test_parts_and_sizes_are_cheap_to_ask_for():
    """Names of pieces and sizes of stitches need no solving."""
    report = hookwright.check(head() + in_rounds([6, 12, 18]), terms="US")
    assert [part.name for part in parts_of(report.fabrics[0])] == ["Piece"]
    assert rest_sizes(report.pattern.head).width("sc") == 5.0
