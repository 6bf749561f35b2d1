"""What colour a yarn is drawn in: her words for it, read by a table of colour words, and told apart within a piece."""

import re
import tomllib
import zlib
from functools import cache
from pathlib import Path

import numpy as np

from .yarn_light import to_linear

_WORD = re.compile(r"[a-z]+")
_HEX = re.compile(r"#[0-9a-f]{6}")
_TO_LMS = np.array([[0.4122214708, 0.5363325363, 0.0514459929], [0.2119034982, 0.6806995451, 0.1073969566], [0.0883024619, 0.2817188376, 0.6299787005]])
_TO_LAB = np.array([[0.2104542553, 0.7936177850, -0.0040720468], [1.9779984951, -2.4285922050, 0.4505937099], [0.0259040371, 0.7827717662, -0.8086757660]])
TURNS = 12  # tries to tell colours apart


@cache
def _table() -> dict:
    return tomllib.loads(Path(__file__).with_name("yarn_colours.toml").read_text("utf-8"))


def rgb_of(name: str) -> tuple[float, float, float]:
    """sRGB, 0 to 1, of one name of a colour; the same for the same name always.

    >>> [round(part * 255) for part in rgb_of("coal")], rgb_of("no such shade at all") == rgb_of("no such shade at all")
    ([51, 53, 58], True)
    """
    text = name.lower()
    found = _HEX.search(text)
    if found:
        return _from_hex(found[0])
    words = _WORD.findall(text)
    whole = _standard("".join(words))
    known = [index for index, word in enumerate(words) if _known(word)]
    if not known:
        if whole:
            return whole
        if not words:
            return _from_hex(_table()["unknown"]["plain"])
        palette = _table()["unknown"]["palette"]
        return _from_hex(palette[zlib.crc32(" ".join(words).encode()) % len(palette)])
    colour = np.array(_known(words[known[-1]]))
    for word in words[: known[-1]]:
        other, share = _table()["tinge"].get(word, (None, 0.0))
        if other is None and _known(word):
            other, share = _known(word), 0.35
        elif other:
            other = _from_hex(other)
        if other:
            colour = colour * (1 - share) + np.array(other) * share
    return tuple(float(part) for part in colour)


def colours_of(names) -> list[tuple[float, float, float]]:
    """A colour for each name, so that any two of them can be told apart.

    >>> first, second = colours_of(["navy", "midnight"])
    >>> first != second
    True
    """
    made = [np.array(rgb_of(name)) for name in names]
    least = _table()["contrast"]["least"]
    for _ in range(TURNS):
        moved = False
        labs = [_lab(colour) for colour in made]
        for first in range(len(made)):
            for second in range(first):
                if np.linalg.norm(labs[first] - labs[second]) >= least:
                    continue
                lighter, darker = (first, second) if (labs[first][0], first) > (labs[second][0], second) else (second, first)
                made[lighter] = made[lighter] + (1 - made[lighter]) * 0.12
                made[darker] = made[darker] * 0.88
                labs[first], labs[second], moved = _lab(made[first]), _lab(made[second]), True
        if not moved:
            break
    return [tuple(float(part) for part in colour) for colour in made]


def _known(word: str):
    value = _table()["colour"].get(word) or _table()["colour"].get(word.rstrip("s"))
    return _from_hex(value) if value else _standard(word)


def _standard(word: str):
    """A colour of the CSS table; None where it has no such name."""
    from PIL import ImageColor

    value = ImageColor.colormap.get(word)
    return _from_hex(value.lower()) if isinstance(value, str) else None


def _from_hex(text: str) -> tuple[float, float, float]:
    return tuple(int(text[at : at + 2], 16) / 255 for at in (1, 3, 5))


def _lab(colour) -> np.ndarray:
    """OKLab of an sRGB colour (Björn Ottosson's published matrices)."""
    return _TO_LAB @ np.cbrt(_TO_LMS @ to_linear(colour).astype(float))
