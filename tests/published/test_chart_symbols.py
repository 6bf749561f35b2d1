"""Symbols of charts as they are drawn, against what is published of them (tests/published/chart_symbol_facts.toml names each source)."""

import re
import tomllib
from math import hypot
from pathlib import Path
from xml.etree import ElementTree

import pytest

from hookwright.drawing.symbols import _file, drawn, height_of, symbol

FACTS = tomllib.loads(Path(__file__).with_name("chart_symbol_facts.toml").read_text("utf-8"))
NAMED = {"bars": ("bar",), "slashes": ("slash",), "crosses": ("cross",), "ovals": ("oval", "cap"), "dots": ("dot",), "hooks": ("front_hook", "back_hook"),
         "feet": ("notch", "short"), "waves": ("wave",), "lenses": ("lens",), "rings_of_three": ("ring_of_three",)}


def elements(id):
    """What is in the drawing of a symbol: {element: how many}, and its stems as ((x, y) of foot, (x, y) of top)."""
    sign, tall = symbol(id), height_of(id)
    feet = [(9.0 * (at - (sign.legs - 1) / 2), 0.0) for at in range(sign.legs)] if "tog" in id else [(0.0, 0.0)]
    root = ElementTree.fromstring(f"<g>{drawn(sign, feet, (0.0, -tall))}</g>")
    shapes = {entry["d"]: name for name, entry in _file()["shapes"].items()}
    found, stems = {}, []
    for path in root.iter("path"):
        name = shapes.get(path.get("d")) if path.get("transform") else None
        if name is not None:
            found[name] = found.get(name, 0) + 1
        else:
            numbers = [float(number) for number in re.findall(r"-?[\d.]+", path.get("d"))]
            stems.append((tuple(numbers[:2]), tuple(numbers[-2:])))
    return found, stems


def apart(points):
    """How many places the points are, those nearer than 2 units being one."""
    places = []
    for x, y in points:
        if all(hypot(x - a, y - b) >= 2 for a, b in places):
            places.append((x, y))
    return len(places)


@pytest.mark.parametrize("id", sorted(FACTS))
def test_a_symbol_has_the_elements_that_are_published_of_it(id):
    """Bars, slashes, ovals and stems in their number; stems begin and end together or apart."""
    found, stems = elements(id)
    counted = {name: sum(found.get(shape, 0) for shape in shapes) for name, shapes in NAMED.items()}
    counted |= {"stems": len(stems), "bases": apart(foot for foot, _ in stems), "tops": apart(top for _, top in stems)}
    counted["crossing"] = sum((a[0][0] - b[0][0]) * (a[1][0] - b[1][0]) < 0 for at, a in enumerate(stems) for b in stems[:at])
    assert {name: counted[name] for name in FACTS[id]["elements"]} == FACTS[id]["elements"] and FACTS[id]["source"]


def test_the_hooks_of_the_two_posts_curl_two_ways():
    """Learn to Crochet Calgary; Smart Knit Crocheting: the hook of a back post stitch curls the other way from that of a front post stitch."""
    front, back = (re.findall(r"-?[\d.]+", _file()["shapes"][name]["d"])[-2] for name in ("front_hook", "back_hook"))
    assert float(front) == -float(back) != 0
