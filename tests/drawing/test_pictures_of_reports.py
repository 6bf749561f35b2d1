"""Pictures of a report: the piece and size meant, words from the facts, on the sheet with its alternative text."""

import io

import pytest
from PIL import Image

import hookwright
from hookwright.pipeline import pictures_for_sheet

HAT = """---
title: Pebble Cap
terms: US
yarn:
  - name: worsted wool
    weight: 4
    colours: {A: wet slate, B: lamp yellow}
gauge: [{stitches: 14, rows: 16, over: 10 cm, in: sc}]
sizes: [Small, Large]
---

## Cap

With A, make an adjustable ring.

Rnd 1: 6 sc in ring. (6 sc)

Rnd 2: 2 sc in each st around. (12 sc)

Rnd 3: *Sc in next st, 2 sc in next st; rep from * around. (18 sc)

Rnd 4: With B, sc in each st around. (18 sc)

## Tab

With B, ch 7.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (6 sc)

Row 2: Ch 1, sc in first 2 sts, bobble in next st, sc in last 3 sts, turn. (6 sts)

Row 3: Ch 1, sc in each st across. (6 sc)
"""


@pytest.fixture(scope="module")
def report():
    return hookwright.check(HAT)


def test_a_picture_says_what_it_shows(report):
    """Piece, size, stitches, colours and texture, in the terms asked for; and that folds are illustrative."""
    tab = hookwright.picture(report, "tab", "Large", pixels=120)
    assert tab.title == "Picture: Tab, size Large" and tab.to == "png" and tab.stitches == 24
    for words in ("Tab, size Large", "18 stitches in 3 rows", "mostly single crochet", "Colour: lamp yellow.", "Raised from the fabric: bobbles.",
                  "lying flat", "illustrative"):
        assert words in tab.words
    assert "mostly double crochet" in hookwright.picture(report, "tab", terms="UK", pixels=120).words
    assert "Colours: wet slate and lamp yellow." in hookwright.picture(report, pixels=120).words


def test_the_longer_side_is_as_asked(report):
    made = hookwright.picture(report, "Tab", pixels=160)
    assert max(made.width, made.height) == 160 == max(Image.open(io.BytesIO(made.data)).size)


def test_progress_goes_from_nothing_to_all(report):
    told = []
    hookwright.picture(report, "Tab", pixels=120, progress=told.append)
    assert told == sorted(told) and 0 <= told[0] and told[-1] == pytest.approx(1.0)


def test_it_can_be_cancelled(report):
    from hookwright.shape import Cancelled

    for to in ("png", "glb"):
        with pytest.raises(Cancelled):
            hookwright.picture(report, "Tab", to=to, pixels=120, cancelled=lambda: True)


@pytest.mark.parametrize(("how", "words"), [({"to": "gif"}, "png or glb"), ({"pixels": 5}, "from 64 to 4000"), ({"piece": "Sleeve"}, "there is no piece 'Sleeve'"),
                                            ({"size": "XXL"}, "there is no size 'XXL'"), ({"shown": "upside"}, "not 'upside'")])
def test_what_is_not_there_is_said(report, how, words):
    with pytest.raises(ValueError, match=words):
        hookwright.picture(report, **how)


def test_nothing_worked_gives_no_picture():
    with pytest.raises(ValueError, match="no "):
        hookwright.picture("Weave in ends.")


def test_the_sheet_shows_the_first_piece_on_its_front(report):
    """As many as asked for, each with its words beside it; none in plain text or by default."""
    page = hookwright.write(report, "html", pictures="all").decode()
    assert page.count("data:image/jpeg;base64,") == 2
    assert page.index("Picture: Cap") < page.index('id="instructions"') < page.index("Picture: Tab")
    assert "Raised from the fabric: bobbles." in page
    assert hookwright.write(report, "html", pictures="first").decode().count("data:image/jpeg;base64,") == 1
    assert "data:image" not in hookwright.write(report, "html").decode()
    assert hookwright.write(report, "txt", pictures="all") == hookwright.write(report, "txt")
    assert hookwright.write(report, "pdf", pictures="first") != hookwright.write(report, "pdf")


def test_nothing_is_drawn_twice(report):
    """Both dialects share the drawing; the words are each one's own."""
    drawn = {}
    us, uk = (pictures_for_sheet(report, terms, which="first", drawn=drawn) for terms in ("US", "UK"))
    assert list(drawn) == ["Cap"] == list(us) == list(uk)
    assert us["Cap"].body == uk["Cap"].body and us["Cap"].words != uk["Cap"].words


def test_a_stitch_alone_can_be_drawn():
    """One stitch has no fabric round it to be solved, and is no fault."""
    assert hookwright.picture("Ch 2.\n\nRow 1: Sc in 2nd ch from hook.", pixels=64).data
