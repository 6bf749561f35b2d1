"""The picture of the sizes: well-formed, escaped, named, in one colour, with all its bars in place and both units."""

from xml.etree import ElementTree

import pytest

from hookwright.drawing import Bar, Hump, size_plot

SVG = "{http://www.w3.org/2000/svg}"
BARS = [Bar("S", 380, 410, 360), Bar("Adult", 530, 570, 520)]
HUMPS = [Hump("women", tuple((500 + 5 * at, 10 - abs(at - 10)) for at in range(21)))]


def drawn(humps=HUMPS, bars=BARS, **more):
    picture = size_plot(humps, bars, **{"title": "Sizes", "words": "S 38 to 41 cm", "bar_means": "head to fit", "mark_means": "finished", **more})
    return picture, ElementTree.fromstring(picture.svg("plot"))


def test_it_is_named_and_described():
    """SVG accessibility: role img, and title and desc that the attributes point to."""
    _, root = drawn()
    assert root.get("role") == "img" and root.get("aria-labelledby") == "plot-title" and root.get("aria-describedby") == "plot-words"
    assert root.find(f"{SVG}title").text == "Sizes" and root.find(f"{SVG}desc").text == "S 38 to 41 cm"


@pytest.mark.parametrize("name", ["<script>alert(1)</script>", '" onload="x', "a & b", "\x00\x07]]>", "שלום"])
def test_her_words_stay_words(name):
    """Names of sizes are text, whatever is in them."""
    picture, root = drawn(bars=[Bar(name, 380, 410, 360), Bar("M", 420, 440, None)], title=name, words=name)
    assert {element.tag.removeprefix(SVG) for element in root.iter()} <= {"svg", "title", "desc", "text", "path", "rect"}
    assert not any(key.startswith("on") for element in root.iter() for key in element.attrib)


def test_one_colour():
    """Only the colour of the text round it is used, so that it holds on white, on black and in print."""
    _, root = drawn()
    assert {element.get(key) for element in root.iter() for key in ("fill", "stroke")} <= {None, "currentColor", "none"}


def test_bars_and_ticks_stand_on_one_scale():
    """A bar begins where the scale says its measure is; ten centimetres are 10 / 2.54 inches apart."""
    _, root = drawn()
    ticks = {element.text: float(element.get("x")) for element in root.iter(f"{SVG}text") if element.text.isdigit() and element.get("font-weight")}
    (a, at), (b, bt) = sorted((int(words), x) for words, x in ticks.items())[::len(ticks) - 1]
    mm = (bt - at) / (b - a) / 10
    beams = list(root.iter(f"{SVG}rect"))[1:]
    assert [float(beam.get("x")) for beam in beams] == pytest.approx([at + (380 - 10 * a) * mm, at + (530 - 10 * a) * mm], abs=0.3)
    assert float(beams[0].get("width")) == pytest.approx(30 * mm, abs=0.3)
    inches = sorted((int(element.text), float(element.get("x"))) for element in root.iter(f"{SVG}text") if element.text.isdigit() and not element.get("font-weight"))
    assert (inches[-1][1] - inches[0][1]) / (inches[-1][0] - inches[0][0]) == pytest.approx(25.4 * mm, abs=0.1)


@pytest.mark.parametrize(("low", "high"), [(80, 90), (330, 600), (700, 1600), (400, 400), (1000, 9_000_000)])
def test_numbers_on_the_scale_keep_apart(low, high):
    """At any range the figures of a unit stand at least two letters apart, and there is more than one of them in centimetres."""
    _, root = drawn(humps=(), bars=[Bar("A", low, low + 5, None), Bar("B", high, high + 8, None)])
    for strong in (True, False):
        found = sorted((float(element.get("x")), len(element.text)) for element in root.iter(f"{SVG}text") if element.text.isdigit() and bool(element.get("font-weight")) is strong)
        assert len(found) >= (2 if strong else 0)
        assert all(b - a > 6.5 * (m + n) / 2 + 6 for (a, m), (b, n) in zip(found, found[1:]))


def test_everything_is_inside_the_picture():
    picture, root = drawn(bars=[Bar("An uncommonly long name of a size, and more", 380, 410, 300), Bar("M", 420, 440, 900)])
    for element in root.iter(f"{SVG}text"):
        assert 0 < float(element.get("y")) < picture.height and 0 <= float(element.get("x")) <= picture.width
        if element.get("text-anchor") == "end":
            assert len(element.text) * 6.5 <= float(element.get("x")) + 6.5


def test_nothing_to_show_is_no_picture():
    assert size_plot((), [Bar("S")], title="", words="", bar_means="") is None
