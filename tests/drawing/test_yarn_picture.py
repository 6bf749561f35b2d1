"""The picture of a piece in its yarn: what can be told from its pixels and from what lies under each of them."""

import io

import numpy as np
import pytest
from PIL import Image

from hookwright.drawing import photo_bytes
from hookwright.drawing.photo import drawn
from hookwright.drawing.yarn_path import yarn_path
from hookwright.drawing.yarn_stitch import points_of
from hookwright.stitches import CATALOGUE

from .surfaces import surface

ROSE, TEAL = (0.80, 0.47, 0.50), (0.15, 0.45, 0.45)
SC = "Ch 13.\n\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (12 sc)\n\nRows 2-8: Ch 1, sc in each st across, turn.\n"
RIBS = SC.replace("Rows 2-8: Ch 1, sc in each st", "Rows 2-8: Ch 1, sc in back loop only of each st")
STRIPES = SC.replace("Rows 2-8: Ch 1, sc in each st across, turn.", "Rows 2-4: Ch 1, sc in each st across, turn.\n\nRows 5-8: With B, ch 1, sc in each st across, turn.").replace(
    "Ch 13.", "With A, ch 13.")
CIRCLE = ("Make an adjustable ring.\n\nRnd 1: 6 sc in ring. (6 sc)\n\nRnd 2: 2 sc in each st around. (12 sc)\n\n"
          "Rnd 3: *Sc in next st, 2 sc in next st; rep from * around. (18 sc)\n")
BOBBLES = ("Ch 10.\n\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (9 sc)\n\n"
           "Row 2: Ch 1, sc in first 4 sts, bobble in next st, sc in next 4 sts, turn. (9 sts)\n\nRow 3: Ch 1, sc in each st across, turn.\n")


def brightness(picture) -> np.ndarray:
    return picture.astype(float).mean(axis=2)


def nodes_seen(found, path) -> np.ndarray:
    return np.unique(path.node[found.curve.point_of(found.sample[found.sample >= 0])])


@pytest.mark.parametrize("kind", sorted(CATALOGUE))
def test_every_stitch_of_the_catalogue_has_its_yarn(kind):
    """Each kind gives a path that begins behind its own top or in its link, and stays near its stitch."""
    made = points_of(kind)
    assert len(made) >= 5 and np.isfinite(made).all()
    assert np.abs(made[:, :2]).max() < 3 and made[:, 2].min() >= -0.5 and made[:, 2].max() <= 1.2 and np.abs(made[:, 4]).max() < 6


def test_every_stitch_is_seen():
    """On a sheet pinned flat some yarn of each stitch comes to the front."""
    sheet = surface(SC)
    _, found, path = drawn(sheet, [ROSE], 420)
    assert len(nodes_seen(found, path)) == len(sheet.at)


def test_the_same_surface_gives_the_same_bytes():
    """Nothing is left to chance; the file says its own size."""
    sheet = surface(SC)
    first = photo_bytes(sheet, ["rose"], 300)
    assert first == photo_bytes(surface(SC), ["rose"], 300)
    assert Image.open(io.BytesIO(first[0])).size == first[1:] and max(first[1:]) in (299, 300, 301)


def test_ribs_stand_out_in_bands():
    """Rows in the back loop make ridges: light varies more from row to row than in plain rows, and turns back every second row."""

    def bands(text):
        picture, _, _ = drawn(surface(text), [ROSE], 420)
        middle = brightness(picture)[:, 120:300].mean(axis=1)[60:-60]
        return middle.std()

    assert bands(RIBS) > 1.4 * bands(SC)


def test_colours_fill_their_rows():
    """A stripe of half of the rows is about half of the yarn that is seen, in its colour."""
    striped = surface(STRIPES)
    assert striped.colours == ["A", "B"]
    picture, found, path = drawn(striped, [ROSE, TEAL, ROSE], 420)
    yarn = found.sample >= 0
    colour = path.colour[found.curve.point_of(np.where(yarn, found.sample, 0))]
    share = (colour[yarn] == 1).mean()
    assert 0.4 < share < 0.6
    small = yarn[::2, ::2] & (colour[::2, ::2] == 1)
    assert (picture[small][:, 2].astype(int) > picture[small][:, 0]).mean() > 0.9


def test_a_ring_is_closed():
    """Rounds begun in an adjustable ring leave no hole in their middle wider than the yarn."""
    disc = surface(CIRCLE, "disc")
    _, found, path = drawn(disc, [ROSE], 420)
    height, width = found.sample.shape
    reach = int(1.2 * found.radius)
    middle = found.sample[height // 2 - reach : height // 2 + reach, width // 2 - reach : width // 2 + reach]
    assert (middle >= 0).mean() > 0.9


def test_a_bobble_stands_out_on_the_right_side():
    """Worked on the wrong side it stands out towards the viewer, further than the stitches beside it."""
    sheet = surface(BOBBLES)
    path = yarn_path(sheet)
    raised = path.points[:, 2]
    bobble = np.array([sheet.kinds[kind] == "bobble" for kind in sheet.kind])[path.node]
    assert raised[bobble].max() > 1.8 * raised[~bobble].max()
    assert raised[bobble].min() > 1.2 * raised[~bobble].min()


def test_cancelling_stops_the_work():
    """What the watcher raises comes out."""

    class Enough(Exception):
        pass

    def watch(share):
        raise Enough

    with pytest.raises(Enough):
        drawn(surface(SC), [ROSE], 300, watch)


def test_white_yarn_lies_on_a_darker_ground():
    """So that its edge can be seen; other yarn lies on a light one."""
    white, rose = (drawn(surface(SC), [colour], 200)[0][0, 0].mean() for colour in ((0.95, 0.94, 0.92), ROSE))
    assert rose > 235 and white < 205


def test_white_yarn_is_not_washed_out():
    """Its strands can be told apart: light varies over the yarn, and hardly any of it is plain white."""
    picture, found, _ = drawn(surface(SC), [(0.95, 0.94, 0.92)], 300)
    yarn = picture[(found.sample >= 0)[::2, ::2]]
    assert brightness(yarn[None]).std() > 15 and (yarn.min(axis=1) > 252).mean() < 0.02


def test_a_picot_stands_on_its_row():
    """Three chains in a ring rise from the top of the row, whatever place its node was given."""
    text = SC.replace("Rows 2-8: Ch 1, sc in each st across, turn.", "Row 2: Ch 1, sc in first 6 sts, picot, sc in last 6 sts.")
    sheet = surface(text)
    path = yarn_path(sheet)
    picot = np.array([sheet.kinds[kind] == "picot" for kind in sheet.kind])[path.node]
    top = path.points[~picot, 1].max()
    assert path.points[picot, 1].max() > top + 1.5 * path.thick


def test_of_a_long_strip_only_the_end_is_drawn():
    """Where all of it would leave the yarn too fine to see; a swatch of the same shape is drawn whole."""
    from hookwright.drawing.photo import shows_an_end
    from hookwright.drawing.yarn_camera import camera_for

    rows = "Ch 5.\n\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (4 sc)\n\nRows 2-{n}: Ch 1, sc in each st across, turn.\n"
    long, short = surface(rows.format(n=60)), surface(rows.format(n=14))
    assert shows_an_end(long, camera_for(long)) and not shows_an_end(short, camera_for(short))
    picture, found, path = drawn(long, [ROSE], 300)
    assert picture.shape[0] <= 2.4 * picture.shape[1]
    assert 0 in long.row[nodes_seen(found, path)] and 59 not in long.row[nodes_seen(found, path)]


def test_a_spiral_has_no_seam():
    """Rounds that go on into each other end nowhere but at the last stitch; joined ones end each."""
    from hookwright.drawing.yarn_frames import frames_of

    def endings(text):
        disc = surface(text, "disc")
        none = np.zeros(len(disc.at), np.int8)
        return int(frames_of(disc, none, none.astype(bool)).ends.sum())

    joined = CIRCLE.replace(". (", ", join with sl st in first sc. (").replace("Rnd 2: ", "Rnd 2: Ch 1, ").replace("Rnd 3: *Sc", "Rnd 3: Ch 1, *sc")
    assert endings(CIRCLE) == 1 and endings(joined) == 3
