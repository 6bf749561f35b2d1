"""The symbol of a stitch as SVG paths, from its foot (or feet) to its top: the shapes are in symbols.toml."""

import tomllib
from dataclasses import dataclass
from functools import cache
from math import atan2, degrees, hypot
from pathlib import Path

from hookwright.stitches import stitch


@dataclass(frozen=True, slots=True)
class Symbol:
    """parts, leg: (shape, where on the line from 0 at the foot to 1 at the top); a part "stem" is the line itself.
    legs: 0 for a stitch with one stem. swell, open, cross: how the legs of a group part half way up and at their tops, in units."""

    id: str
    parts: tuple
    says: str
    legs: int = 0
    leg: tuple = ()
    swell: float = 0.0
    open: float = 0.0
    cross: float = 0.0
    sources: tuple = ()


@cache
def _file() -> dict:
    return tomllib.loads(Path(__file__).with_name("symbols.toml").read_text("utf-8"))


def _parts(words: str) -> tuple:
    pairs = (word.partition("@") for word in words.split())
    return tuple((name, float(at or 0)) for name, _, at in pairs)


def _sources(keys) -> tuple:
    return tuple(_file()["sources"][key][0] for key in keys)


@cache
def symbol(id: str) -> Symbol | None:
    """The symbol of a catalogue id, also of post stitches and of any number worked together; None where there is none."""
    entry = _file()["symbol"].get(id)
    if entry is not None:
        return Symbol(id, _parts(entry["parts"]), entry["says"], entry.get("legs", 0), _parts(entry.get("leg", "")), entry.get("swell", 0.0),
                      entry.get("open", 0.0), entry.get("cross", 0.0), _sources(entry["from"]))
    fact = stitch(id)
    if fact is None or not fact.base or fact.base == id:
        return None
    plain = symbol(fact.base)
    if plain is None:
        return None
    if fact.kind == "decrease":
        rule = _file()["together"]
        own = rule.get(fact.base) or {"leg": None, **rule["other"]}
        hook = tuple(part for part in plain.parts if part[0].endswith("_hook"))
        leg = _parts(own["leg"]) if own["leg"] is not None else tuple(part for part in plain.parts if part[0] == "slash")
        return Symbol(id, _parts(own["top"]), fact.symbol, fact.legs, leg + hook, 0.0, 0.0, 0.0, _sources(rule["from"]))
    if fact.post:
        rule = _file()["post"]
        stem = () if any(name == "stem" for name, _ in plain.parts) else _parts(rule["stem"])
        return Symbol(id, (*stem, *plain.parts, *_parts(rule[fact.post])), fact.symbol, sources=_sources(rule["from"]))
    return None


def loop_mark(loop: str) -> tuple:
    """The parts that mark a stitch worked in one loop ("front", "back", "third"), () where there is no mark for it."""
    return _parts(_file()["loops"].get(loop, ""))


@cache
def height_of(id: str) -> float:
    """How tall the symbol of a stitch is, in units."""
    if id in ("slst", "picot"):
        return 5.0
    base, each = _file()["size"]["height"]
    fact = stitch(id)
    return max(_file()["size"]["least"], base + each * (fact.height_ch if fact else 1))


def chain_length() -> float:
    """How long one chain is, in units."""
    return _file()["size"]["chain"]


@cache
def _shape(name: str) -> tuple[str, str]:
    entry = _file()["shapes"][name]
    return entry["d"], ' fill="currentColor" stroke="none"' if entry.get("filled") else ""


def shape(name: str, x: float, y: float, turned: float = 0.0) -> str:
    """One shape at a point, turned by degrees."""
    d, more = _shape(name)
    spin = f"rotate({turned:.0f})" if abs(turned) >= 0.5 else ""
    return f'<path transform="translate({x:.1f} {y:.1f}){spin}" d="{d}"{more}/>'


def drawn(sign: Symbol, feet, top, *, legs: int = 0, loop: str = "", upright: float = 0.0) -> str:
    """The symbol from its feet [(x, y)] to its top (x, y). legs: of a group, where it isn't the usual number. upright: degrees by which
    what stands straight is turned there; a symbol without a stem leans less from it than its line does."""
    x, y = top
    out = []
    if sign.legs:
        out.append(_legs(sign, feet, top, legs or sign.legs))
    middle = sum(foot[0] for foot in feet) / len(feet), sum(foot[1] for foot in feet) / len(feet)
    lean = degrees(atan2(x - middle[0], middle[1] - y)) if middle != top else 0.0
    if not any(name == "stem" for name, _ in sign.parts):
        lean = upright + ((lean - upright + 180) % 360 - 180) / 3
    for name, at in sign.parts:
        if name == "stem":
            out.append(f'<path d="M{middle[0]:.1f} {middle[1]:.1f}L{x:.1f} {y:.1f}"/>')
        else:
            out.append(shape(name, middle[0] + (x - middle[0]) * at, middle[1] + (y - middle[1]) * at, lean))
    for name, at in loop_mark(loop) if loop else ():
        out.append(shape(name, middle[0] + (x - middle[0]) * at, middle[1] + (y - middle[1]) * at, lean))
    return "".join(out)


def _legs(sign: Symbol, feet, top, count: int) -> str:
    """The legs of a group: each from its foot to the top, bowed or apart as the symbol says."""
    if len(feet) > 1:
        count = max(count, len(feet))
    out = []
    tall = hypot(top[0] - feet[0][0], top[1] - feet[0][1]) or 1.0
    across = (feet[0][1] - top[1]) / tall, (top[0] - feet[0][0]) / tall  # one unit to the right of a leg that goes up
    for index in range(count):
        side = 2 * index / (count - 1) - 1 if count > 1 else 0.0
        fx, fy = feet[min(index * len(feet) // count, len(feet) - 1)]
        fx, fy = fx - across[0] * sign.cross * side, fy - across[1] * sign.cross * side
        apart = (sign.open + sign.cross) * side
        tx, ty = top[0] + across[0] * apart, top[1] + across[1] * apart
        bow = sign.swell * side * (2 if not sign.open else 1)
        cx, cy = (fx + tx) / 2 + across[0] * bow, (fy + ty) / 2 + across[1] * bow
        out.append(f'<path d="M{fx:.1f} {fy:.1f}Q{cx:.1f} {cy:.1f} {tx:.1f} {ty:.1f}"/>' if bow else f'<path d="M{fx:.1f} {fy:.1f}L{tx:.1f} {ty:.1f}"/>')
        lean = degrees(atan2(tx - fx, fy - ty))
        for name, at in sign.leg:
            if name == "slash" and abs(side) < 1 and count > 3 and index % 2 and sign.open < 10:
                continue  # so many slashes side by side would run into each other
            px = (1 - at) ** 2 * fx + 2 * at * (1 - at) * cx + at * at * tx
            py = (1 - at) ** 2 * fy + 2 * at * (1 - at) * cy + at * at * ty
            out.append(shape(name, px, py, lean))
    return "".join(out)
