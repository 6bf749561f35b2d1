"""Flat pieces of the examples: the outline by counts and gauge alone and the one of the solved surface are two ways to one thing, and agree."""

from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageDraw

import hookwright
from hookwright.drawing import pieces_of
from hookwright.shape import parts_of, silhouette

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
PIXELS, ALLOWED = 1500, 0.08  # of the area: small discs and squares have edges of single stitches
LACE = 0.1  # a long strip with loops along both edges, which its counts draw straight
CLOSE = 0.03  # solid fabric
FLAT = [("rock-pool-squares", "Square (make 9 (20, 35))", ALLOWED), ("saltmarsh-smock", "Back", CLOSE), ("saltmarsh-smock", "Front", CLOSE),
        ("saltmarsh-smock", "Sleeve (make 2)", CLOSE), ("slack-water-blanket", "Blanket", CLOSE), ("spindrift-scarf", "Scarf", LACE),
        ("bosun-the-puffin", "Cheeks (make 2)", ALLOWED)]


def _filled(loops, middle, pixel):
    image = Image.new("1", (PIXELS, PIXELS))
    for loop in loops:
        ImageDraw.Draw(image).polygon([((x - middle[0]) / pixel + PIXELS / 2, (y - middle[1]) / pixel + PIXELS / 2) for x, y in loop], fill=1)
    return np.array(image)


def _differs(counted, solved) -> float:
    """Share of the counted area that is in one of the two only; either may be seen from its other side."""
    (left, low, right, high), (wide, tall) = counted.box, solved.size
    pixel = 1.2 * max(right - left, high - low, wide, tall) / PIXELS
    mine = _filled(counted.fills, ((left + right) / 2, (low + high) / 2), pixel)
    sides = [[[(x if way > 0 else wide - x, y) for x, y in loop] for loop in solved.outer] for way in (1, -1)]
    return min(float((mine ^ _filled(loops, (wide / 2, tall / 2), pixel)).sum() / mine.sum()) for loops in sides)


@pytest.mark.parametrize(("name", "heading", "allowed"), FLAT)
def test_counts_and_solver_give_one_outline(name, heading, allowed):
    """In the first size and the last."""
    report = hookwright.check((EXAMPLES / f"{name}.md").read_text("utf-8"))
    piece = next(one for one in pieces_of(report.fabrics, report.pattern.head, "US") if one.heading == heading)
    for at in sorted({0, len(report.sizes) - 1}):
        surface = hookwright.surface_of(report, heading, report.sizes[at])
        assert surface.settled
        assert _differs(piece.part(at).outline, silhouette(surface)) < allowed


def test_every_flat_piece_of_one_outline_is_compared():
    """What lies flat under one heading is in the list above; not there: what is solved with the edging on it, and feet that are three rows of increases."""
    found = set()
    for path in sorted(EXAMPLES.glob("*.md")):
        if path.stem == "README":
            continue
        report = hookwright.check(path.read_text("utf-8"))
        for part in parts_of(report.fabrics[0]):
            if hookwright.surface_of(report, part.names[0]).shown == "flat":
                found.add((path.stem, part.names[0]))
    assert found - {(name, heading) for name, heading, _ in FLAT} == {("bosun-the-puffin", "Feet (make 2)"), ("samphire-edging", "Ribbon strip"), ("causeway-shawl", "Shawl")}


def test_a_strip_with_its_edging_is_as_deep_as_both_by_counts():
    """The ribbon strip and the points on it, one beside the other."""
    report = hookwright.check((EXAMPLES / "samphire-edging.md").read_text("utf-8"))
    strip, points = (one.part(0).outline.box for one in pieces_of(report.fabrics, report.pattern.head, "US"))
    wide, tall = silhouette(hookwright.surface_of(report, "Ribbon strip")).size
    assert tall == pytest.approx(strip[3] - strip[1], rel=0.03) and wide == pytest.approx(strip[2] - strip[0] + points[3] - points[1], rel=0.12)
