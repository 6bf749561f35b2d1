"""What a picture of a surface shows, in words made from the facts: for those who do not see it."""

import tomllib
from collections import Counter
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np

from hookwright.stitches import dialect, plural, stitch

from .photo import shows_an_end
from .yarn_camera import camera_for

MOST = 6  # names listed at most
_NO_STITCHES = ("ch", "foundation ch", "slst", "row end", "layer")


@dataclass(frozen=True, slots=True)
class PhotoWords:
    """title: one line; words: all that the picture shows."""

    title: str
    words: str


@cache
def _table() -> dict:
    return tomllib.loads(Path(__file__).with_name("photo_words.toml").read_text("utf-8"))


def photo_words(surface, *, terms: str = "US", title: str = "", size: str = "", colours=(), own=None, without=()) -> PhotoWords:
    """title: the piece's name as it is to be shown; size: "" where there is one only; colours: names as they are to be read; own: her names of
    stitches {kind: name}; without: names of pieces of it that are not shown."""
    say, names = _table(), dialect(terms)
    piece = title or surface.piece or say["piece"]
    kinds = _kinds(surface)
    count = sum(kinds.values())
    rows = [row for row in surface.rows if row.has_height]
    around = sum(row.in_round for row in rows) * 2 > len(rows)
    mostly = max(kinds.items(), key=lambda item: (item[1], item[0]))[0] if kinds else "ch"

    def named(kind, number=1):
        given = (own or {}).get(kind)
        return given if given and number == 1 else plural(given) if given else names.name_of(kind, number)

    told = [say["opens"].format(piece=piece, size=say["size"].format(size=size) if size else "", count=_many("stitches", count),
                                rows=_many("rounds" if around else "rows", len(rows)), stitch=named(mostly), made=say["made"].get(surface.construction, say["made"]["sheet"]))]
    if colours:
        told.append(say["colours" if len(colours) > 1 else "colour"].format(colours=_listed(list(colours)[:MOST])))
    raised = [named(kind, 2) for kind, _ in kinds.most_common() if kind != mostly and _stands_out(kind)][:MOST]
    if raised:
        told.append(say["raised"].format(kinds=_listed(raised)))
    camera = camera_for(surface)
    if not camera.away:
        wide, high = np.ptp(surface.at @ camera.turn.T, axis=0)[:2]
        told.append(say["measures"].format(cm=f"{wide / 10:.0f} x {high / 10:.0f}", inches=f"{wide / 25.4:.1f} x {high / 25.4:.1f}"))
    told.append(say["shown"].format(words=camera.words))
    if shows_an_end(surface, camera):
        told.append(say["end"])
    if without:
        told.append(say["without"].format(pieces=_listed(list(without)[:MOST])))
    if not surface.settled:
        told.append(say["unsettled"])
    told.append(say["close"])
    return PhotoWords(say["title_size" if size else "title"].format(piece=piece, size=size), " ".join(told))


def _kinds(surface) -> Counter:
    counts = np.bincount(surface.kind, minlength=len(surface.kinds)).tolist()
    return Counter({kind: count for kind, count in zip(surface.kinds, counts, strict=False) if count and kind not in _NO_STITCHES})


def _stands_out(kind: str) -> bool:
    fact = stitch(kind)
    return fact is not None and bool(fact.texture or fact.post)


def _many(what: str, number: int) -> str:
    one, several = _table()[what]
    return one if number == 1 else several.format(n=f"{number:,}")


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else ", ".join(names[:-1]) + _table()["and"] + names[-1]
