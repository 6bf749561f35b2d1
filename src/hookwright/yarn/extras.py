"""Yarn beside the rows: tails, seams, fringe, pompoms and a border that no row works, as the head says them. Lengths in cm."""

from hookwright.ground import at

from .gauge import plain_kind
from .lengths import facts, ratio


def extras_cm(extras, terms: str, size: int, colour: str, main: str, begun: int, geometry, factor: float) -> dict[str, float]:
    """name -> length for one colour of one size. main: the colour of extras that name none. begun: how often this colour is begun."""
    out = {}
    said = {extra.kind: extra for extra in extras if _is(extra.colour, colour, main)}
    ends = said.pop("ends", None)
    number = at(ends.number, size) if ends is not None else 2 * begun if not any(extra.kind == "ends" for extra in extras) else 0
    if number:
        out["ends"] = number * facts()["tails"]["cm"]
    for kind, extra in said.items():
        length = extra.length.at(size)
        if length is None or extra.number is not None and not at(extra.number, size):
            continue
        often = 1 if extra.number is None else at(extra.number, size)
        out[kind] = _one(kind, extra, sum(length) / 20, often, terms, geometry, factor)
    return out


def _one(kind: str, extra, cm: float, often: int, terms: str, geometry, factor: float) -> float:
    if kind == "pompoms":
        return often * ((extra.wraps or facts()["pompom"]["wraps"]) * 2 * cm + facts()["pompom"]["tie_cm"])
    if kind == "fringe":
        return often * (2 * cm + facts()["fringe"]["knot_cm"])
    if kind == "seams":
        return often * cm * facts()["seam"]["times"]
    worked = plain_kind(extra.in_, terms) or "sc"
    return often * cm / geometry.width * (extra.rows or 1) * geometry.of(worked) * factor


def _is(said: str, colour: str, main: str) -> bool:
    return said.casefold() == colour.casefold() if said else colour == main


def mean_ratio(rows) -> float:
    """Mean of `ratio` over rows, given as plain kind -> number of rows; 1 where there are none."""
    total = sum(rows.values())
    return sum(ratio(kind) * number for kind, number in rows.items()) / total if total else 1.0
