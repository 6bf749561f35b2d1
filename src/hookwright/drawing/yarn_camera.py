"""From where a piece is seen: pinned flat from the front; on a form, stuffed or hanging, from slightly above and aside."""

from dataclasses import dataclass

import numpy as np

_ROUND = ("tube", "ball")


@dataclass(frozen=True, slots=True)
class Camera:
    """turn (3, 3): rows are right, up and towards the viewer. away: distance of the eye in radii of the piece, 0 for none (all rays side by side).

    solid: whether the far side is hidden by the near one, so that it need not be drawn; opens: though solid, but for wide openings (neck, armholes)
    through which its inside is seen. words: how it is shown.
    """

    turn: np.ndarray
    away: float
    solid: bool
    words: str
    opens: bool = False


def camera_for(surface) -> Camera:
    """The view that suits how the surface is shown and how it is made."""
    flat = surface.shown == "flat" or (surface.shown == "free" and surface.construction not in _ROUND)
    if flat:
        return Camera(_front(surface), 0.0, False, "lying flat, seen from its right side")
    words = {"form": "on a plain form", "stuffed": "stuffed", "free": "as it hangs"}.get(surface.shown, "as it lies")
    return Camera(_aside(surface), 5.5, surface.shown in ("form", "stuffed"), f"{words}, seen from slightly above", "garment" in surface.construction)


def _front(surface) -> np.ndarray:
    towards = _unit(surface.normal.sum(axis=0))
    if not towards.any():
        towards = np.array((0.0, 0.0, 1.0))
    stem = surface.at - surface.base
    up = stem.sum(axis=0)
    up -= towards * (up @ towards)
    whole = np.linalg.norm(stem, axis=1).sum()
    if np.linalg.norm(up) < 0.5 * whole:
        up = _squared(surface.at, towards)
    elif surface.construction == "strip":  # may lie in a curve: level, as near to upright as can be
        level = _squared(surface.at, towards)
        aside = np.cross(level, towards)
        up = max((level, -level, aside, -aside), key=lambda way: float(way @ up))
    elif any(-2 in row.foot for row in surface.rows if len(row.foot)):  # a shawl from its neck hangs down from there
        up = -up
    up = _unit(up)
    return np.array((np.cross(up, towards), up, towards))


def _squared(at: np.ndarray, towards: np.ndarray) -> np.ndarray:
    """The way up for which the piece fills the smallest upright rectangle."""
    first = np.array((0.0, 1.0, 0.0)) if abs(towards[1]) < 0.9 else np.array((0.0, 0.0, -1.0))
    first = _unit(first - towards * (first @ towards))
    other = np.cross(first, towards)
    x, y = at @ other, at @ first
    best = min(np.radians(np.arange(0, 90, 1.5)), key=lambda turn: round(
        float(np.ptp(x * np.cos(turn) - y * np.sin(turn)) * np.ptp(x * np.sin(turn) + y * np.cos(turn))), 3))
    return np.sin(best) * other + np.cos(best) * first


def _aside(surface) -> np.ndarray:
    up = axis_of(surface)
    aside = np.array((1.0, 0.0, 0.0)) if abs(up[0]) < 0.8 else np.array((0.0, 1.0, 0.0))
    front = _unit(np.cross(np.cross(up, aside), up))
    over, about = np.radians(17.0), np.radians(-24.0)
    limbs = any(row.far and row.in_round for row in surface.rows)  # a thumb is to be seen, and points to the right
    if len(surface.seams) and not limbs:  # a seam goes to the back
        seam = surface.normal[surface.seams.ravel()].sum(axis=0)
        seam -= up * (seam @ up)
        if np.linalg.norm(seam) > 0.3 * surface.seams.size:
            front, about = -_unit(seam), np.radians(-14.0)
    right = np.cross(up, front)
    front = np.cos(about) * front + np.sin(about) * right
    towards = np.cos(over) * front + np.sin(over) * up
    upward = _unit(up - towards * (up @ towards))
    return np.array((np.cross(upward, towards), upward, towards))


def axis_of(surface) -> np.ndarray:
    """The way up of a piece in the round: its axis, with the narrower end above."""
    return np.array((0.0, 0.0, 1.0))


def _unit(vector: np.ndarray) -> np.ndarray:
    length = np.linalg.norm(vector)
    return vector / length if length > 1e-12 else vector * 0.0
