"""A garment of flat pieces sewn together: which pieces are its back, front and sleeves, and all of them as one surface on a plain form."""

import re
from dataclasses import dataclass

import numpy as np

from .forming import form, normals_of
from .garment_form import SLOPE, Body, match, panel_of, ring_of, sleeve_laid
from .garment_seams import seams_between
from .joins import words
from .parts import parts_of, said_of
from .surface import Surface

_TWICE = re.compile(r"\((?:make|work)\s+(?:2|two)\b|\b(?:make|work) (?:2|two)\b", re.I)
_ARMHOLE = 0.4, 0.9  # depth of armholes of which nothing is known, against the height of the back and half its width, at most
_NECK = 0.4  # half of a neck that is not shaped, against half the width
_LEAST = 6  # rows of a piece, and stitches of its widest: smaller ones have no shape to lay round anything
_ALIKE = 0.75  # of the stitches of the wider of back and front the other has at least
_SLEEVED = 1.06  # room of an armhole against the sleeve in it


@dataclass(frozen=True, slots=True)
class Garment:
    """Names of the pieces: back and front (the same one where it is made twice); sleeves: the one at the wearer's left, the one at the right, or ()."""

    back: str
    front: str
    sleeves: tuple = ()


def garment_of(fabric, pattern) -> Garment | None:
    """The Garment that a pattern's flat pieces are sewn to; None where its title and headings tell of none."""
    head = (pattern.head or pattern.front) if pattern is not None else None
    known = words()["garments"]
    title = set(_words(getattr(head, "title", "") or ""))
    whole = " ".join(getattr(item, "text", "") or "" for piece in pattern.pieces for item in piece.items).lower() if head is not None else ""
    if not title & set(known["garment"]) or not any(word in whole for word in known["sewn"]):
        return None
    wide: dict = {}
    found = {"back": [], "front": [], "both": [], "sleeve": []}
    for part in parts_of(fabric):
        name = part.names[0]
        has = set(_words(name))
        what = ("sleeve" if has & set(known["sleeve"]) else "both" if _TWICE.search(name) and (has & set(known["both"]) or {"back", "front"} <= has)
                else "back" if has & set(known["back"]) and not has & set(known["front"]) else "front" if has & set(known["front"]) else "")
        if not what or {"left", "right"} & has and what != "sleeve":
            continue
        if any(fabric.rows[at].in_round for at in part.rows) or any(word in said_of(pattern, part) for word in known["sideways"]):
            return None
        rows = [fabric.rows[at] for at in part.rows]
        wide[part.name] = max(row.stitches for row in rows)
        if wide[part.name] < _LEAST or sum(row.has_height for row in rows) < _LEAST:
            return None
        found[what].append(part.name)
    panels = [*found["back"], *found["front"], *found["both"] * 2]
    if len(panels) != 2 or len(found["back"]) == 2 or len(found["front"]) == 2 or len(found["sleeve"]) > 2:
        return None
    if min(wide[name] for name in panels) < _ALIKE * max(wide[name] for name in panels):
        return None
    return Garment(*panels, tuple((found["sleeve"] * 2)[:2]))


def _words(text: str) -> list[str]:
    return re.findall(r"[a-z]+", text.lower())


def garment_surface(fabric, garment: Garment, *, pattern, progress=None, cancelled=None) -> Surface:
    """One Surface of all pieces, each solved flat and then laid round the form. ValueError, Cancelled: see `form`."""
    names = list(dict.fromkeys([garment.back, garment.front, *garment.sleeves]))
    flat = {}
    for number, name in enumerate(names):
        flat[name] = form(fabric, name, pattern=pattern, shown="flat", cancelled=cancelled,
                          progress=progress and (lambda share, number=number: progress((number + share) / len(names))))
    back, front = panel_of(flat[garment.back]), panel_of(flat[garment.front])
    match(back, front)
    arms = [panel_of(flat[name], _begun_at_top(flat[name])) for name in garment.sleeves]
    body = _body(back, front, arms)
    laid = []
    for panel, side, name in ((back, -1, garment.back), (front, 1, garment.front)):
        laid.append((flat[name], body.laid(panel, panel.at, side), body.laid(panel, panel.base, side)))
    for panel, hand, name in zip(arms, (1, -1), garment.sleeves, strict=False):
        ring = ring_of(body.edge(front, 1, hand), body.edge(back, -1, hand), hand)
        laid.append((flat[name], sleeve_laid(panel, panel.at, ring, hand), sleeve_laid(panel, panel.base, ring, hand)))
    return _joined(laid, "sleeved garment" if arms else "garment")


def _begun_at_top(surface) -> bool:
    """Whether a sleeve was begun at its wide end."""
    first, last = (np.ptp(surface.at[surface.row == row, 0]) for row in (surface.row.min(), surface.row.max()))
    panel = panel_of(surface)
    cap = panel.top - panel.levels[int(np.argmax(panel.half))] > 0.04 * panel.height and panel.half.argmax() > len(panel.half) / 2
    return bool(first > last and not cap)


def _body(back, front, arms) -> Body:
    half = float(back.half.max())
    known = [panel.top - panel.underarm for panel in (back, front) if np.isfinite(panel.underarm)]
    deep = float(np.mean(known)) if known else _SLEEVED * float(arms[0].half.max()) if arms else min(_ARMHOLE[0] * back.height, _ARMHOLE[1] * half)
    neck = max(front.neck, back.neck) or _NECK * half
    shoulder = max(float(back.columns[-1]) - neck, 1.0)
    own = float(back.tops[0] - back.tops[-1]) / shoulder
    return Body(deep, neck, max(SLOPE - own, 0.0))


def _joined(laid, construction) -> Surface:
    """The surfaces as one, colours by name."""
    first = laid[0][0]
    colours = list(dict.fromkeys(name for surface, _, _ in laid for name in surface.colours))
    sizes = [len(surface.at) for surface, _, _ in laid]
    begins = np.concatenate(([0], np.cumsum(sizes)))
    rows = np.concatenate(([0], np.cumsum([len(surface.rows) for surface, _, _ in laid])))
    feet = np.concatenate(([0], np.cumsum([len(surface.foot_of) for surface, _, _ in laid])))

    def column(name):
        return np.concatenate([getattr(surface, name) for surface, _, _ in laid])

    def shifted(name, by, kept=None):
        return np.concatenate([np.where(getattr(surface, name) < 0, getattr(surface, name), getattr(surface, name) + by[at]) for at, (surface, _, _) in enumerate(laid)])

    at, base = np.concatenate([one for _, one, _ in laid]), np.concatenate([one for _, _, one in laid])
    faces = shifted("faces", begins)
    piece, size = np.repeat(np.arange(len(laid)), sizes), np.maximum(column("width"), column("height"))
    colour = np.concatenate([np.array([*(colours.index(name) for name in surface.colours), -1], np.int16)[surface.colour] for surface, _, _ in laid])
    return Surface(
        piece="", size=first.size, kinds=first.kinds, rows=[row for surface, _, _ in laid for row in surface.rows], colours=colours, at=at, base=base,
        normal=normals_of(at, faces), row=shifted("row", rows).astype(np.int32), place=column("place"), kind=column("kind"), before=shifted("before", begins),
        width=column("width"), height=column("height"), towards=column("towards"), colour=colour,
        foot_start=np.concatenate([surface.foot_start[:-1] + feet[number] for number, (surface, _, _) in enumerate(laid)] + [feet[-1:]]),
        foot_of=shifted("foot_of", begins), foot_share=column("foot_share"), faces=faces, seams=seams_between(at, faces, piece, size), shown="form",
        construction=construction, settled=all(surface.settled for surface, _, _ in laid), steps=sum(surface.steps for surface, _, _ in laid),
        strain=dict(first.strain), yarn_mm=first.yarn_mm)
