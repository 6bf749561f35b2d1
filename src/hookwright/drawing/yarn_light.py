"""Light on the yarn that is seen: plies, key and fill light, shade in the hollows, in linear light."""

import numpy as np

from .yarn_raster import LINING, NOTHING, rings

KEY, FILL = (-0.46, -0.60, 0.66), (0.72, 0.18, 0.67)
_BLOCK = 32_768
_PLIES, _PITCH = 3, 2.3  # plies of the yarn; length of one turn of the twist in thicknesses
_SHADE = ((0.55, 0.62), (1.5, 0.50))  # (radius in thicknesses, how dark) of the shade in hollows
_SHADOW = (0.3, 0.55, 0.85, 1.2, 1.7, 2.3)  # how far the shadow of the key light is looked for, in thicknesses


def lit(seen, colour: np.ndarray, ground) -> np.ndarray:
    """(h, w, 3) float32 linear light. colour (p, 3): linear colour of every point of the curve; ground: linear colour of the background."""
    sample = seen.sample
    height, width = sample.shape
    picture = np.empty((height, width, 3), np.float32)
    picture[:] = np.asarray(ground, np.float32)
    yarn = sample >= 0
    thick = 2 * seen.radius
    depth = seen.depth
    low = np.nanmin(depth) if yarn.any() else 0.0
    filled = np.where(np.isnan(depth), low - 0.0 * thick, depth).astype(np.float32)
    covered = ~np.isnan(depth)
    hollow = _hollows(filled, covered, thick)
    shadow = _shadow(filled, covered, thick)
    picture *= _ground_shade(covered, thick)[..., None]
    flat, found = picture.reshape(-1, 3), np.flatnonzero(yarn)
    # light yarn is exposed for less, so that its strands don't wash out
    gain = np.float32(1.16 - 0.46 * float(colour.mean(axis=1).max()) ** 1.4) if len(colour) else np.float32(1)
    hollow, shadow = hollow.ravel(), shadow.ravel()
    for at in range(0, len(found), _BLOCK):  # blocks that stay in the processor's cache
        where = found[at : at + _BLOCK]
        flat[where] = _on_yarn(seen, sample.ravel()[where], seen.shift.ravel()[where], hollow[where], shadow[where], colour, gain)
    hollow = hollow.reshape(height, width)
    lining = sample == LINING
    if lining.any():
        inner = np.asarray(colour.mean(axis=0) * 0.10 + 0.004, np.float32)
        picture[lining] = inner * (0.5 + 0.5 * hollow[lining])[:, None]
    return picture


def _on_yarn(seen, which, shift, hollow, bright, colour, gain) -> np.ndarray:
    """(n, 3) light from n places on yarn. which, shift: see Seen; hollow, bright: 0-1, how open to the sky and to the key light; gain: of the exposure."""
    thick = np.float32(2 * seen.radius)
    fine = np.float32(min(max((float(thick) - 5) / 7, 0.0), 1.0))  # plies that are finer than pixels are left out
    way, along, point = seen.curve.at(which)
    side, out = rings(way)
    rise = np.sqrt(np.maximum(1 - shift * shift, 0))
    along /= thick
    twist = np.float32(2 * np.pi / _PITCH) * along + _PLIES * np.arcsin(shift)
    groove = (np.float32(0.5) - np.float32(0.5) * np.cos(twist)) ** 4 * fine  # 1 between two plies
    slope = np.float32(-0.75) * fine * np.sin(twist)
    # hairs that run along the plies
    hair = np.sin(np.float32(5.3) * twist + np.float32(1.7) * np.sin(along * np.float32(2.1))) + np.sin(np.float32(11.7) * twist + np.float32(2.3) * np.sin(along * np.float32(3.7) + 1))
    normal = side * (shift + np.float32(0.9) * slope * rise)[:, None] + out * (rise - np.float32(0.9) * slope * shift)[:, None] + way * (np.float32(0.55) * slope)[:, None]
    normal /= np.sqrt((normal * normal).sum(axis=1))[:, None]
    key = np.maximum((normal @ _unit(KEY) + np.float32(0.22)) / np.float32(1.22), 0) * (np.float32(0.22) + np.float32(0.78) * bright)
    fill = np.maximum((normal @ _unit(FILL) + np.float32(0.35)) / np.float32(1.35), 0)
    light = np.float32(0.98) * key + hollow * (np.float32(0.24) * fill + np.float32(0.28) - np.float32(0.08) * normal[:, 1])
    light *= (np.float32(0.30) + np.float32(0.70) * hollow) * (1 - np.float32(0.42) * groove + np.float32(0.035) * fine * hair)
    base = colour[point]
    # light that went through wool takes its colour: hollows get deeper, not greyer
    tint = base * (1 - (np.float32(0.35) * (1 - hollow))[:, None] * (1 - base))
    rim = np.float32(0.10) * hollow * (1 - np.clip(normal[:, 2], 0, 1)) ** 3
    halo = np.float32(0.030) * light * (1 - groove)  # loose hairs scatter the light they are in, whatever the colour
    return gain * tint * light[:, None] + halo[:, None] + rim[:, None] * (np.float32(0.3) + np.float32(0.7) * base)


def _hollows(depth, covered, thick: float) -> np.ndarray:
    """1 where a place is open to the sky, towards 0 where what lies round it is nearer to the viewer."""
    left = np.ones(depth.shape, np.float32)
    weight = covered.astype(np.float32)
    small, deep = _halved(weight), _halved(depth * weight)
    for radius, dark in _SHADE:
        reach = max(1, round(radius * thick / 2))
        mean = _doubled(blurred(deep, reach) / np.maximum(blurred(small, reach), 1e-3), depth.shape)
        left *= 1 - dark * np.clip((mean - depth) / (1.1 * thick), 0, 1)
    return left


def _halved(field) -> np.ndarray:
    height, width = field.shape
    return field[: height // 2 * 2, : width // 2 * 2].reshape(height // 2, 2, width // 2, 2).mean(axis=(1, 3))


def _doubled(field, shape) -> np.ndarray:
    made = np.repeat(np.repeat(field, 2, axis=0), 2, axis=1)
    return made if made.shape == shape else np.pad(made, [(0, want - have) for want, have in zip(shape, made.shape, strict=True)], mode="edge")


def _shadow(depth, covered, thick: float) -> np.ndarray:
    """1 where the key light falls, towards 0 where something nearer to it stands in its way."""
    x, y, z = _unit(KEY)
    flat = float(np.hypot(x, y))
    dark = np.zeros(depth.shape, np.float32)
    for far in _SHADOW:
        reach = far * thick
        moved = _moved(depth, round(x / flat * reach), round(y / flat * reach))
        dark = np.maximum(dark, np.clip((moved - depth - reach * z / flat * 0.8) / (0.30 * thick), 0, 1) * (1 - 0.18 * far))
    return 1 - dark


def _ground_shade(covered, thick: float) -> np.ndarray:
    """What the piece takes from the light on what it lies on."""
    near = blurred(_halved(_moved(covered.astype(np.float32), -round(0.5 * thick), -round(0.7 * thick))), max(1, round(0.55 * thick)))
    return 1 - 0.30 * np.clip(_doubled(near, covered.shape), 0, 1)


def _moved(field, dx: int, dy: int) -> np.ndarray:
    """The field looked up at (x + dx, y + dy); its lowest value beyond the edge."""
    height, width = field.shape
    out = np.full(field.shape, field.min(), field.dtype)
    ys, xs = slice(max(0, -dy), height - max(0, dy)), slice(max(0, -dx), width - max(0, dx))
    out[ys, xs] = field[max(0, dy) : height + min(0, dy), max(0, dx) : width + min(0, dx)]
    return out


def blurred(field: np.ndarray, reach: int) -> np.ndarray:
    """Mean over a square of 2 reach + 1 pixels, twice: nearly round."""
    for _ in range(2):
        for axis in (0, 1):
            pad = [(0, 0), (0, 0)]
            pad[axis] = (reach + 1, reach)
            total = np.cumsum(np.pad(field, pad, mode="edge"), axis=axis, dtype=np.float64)
            size = 2 * reach + 1
            upper, lower = [slice(None)] * 2, [slice(None)] * 2
            upper[axis], lower[axis] = slice(size, None), slice(None, -size)
            field = ((total[tuple(upper)] - total[tuple(lower)]) / size).astype(np.float32)
    return field


def to_linear(colour) -> np.ndarray:
    """sRGB 0-1 to linear light."""
    colour = np.asarray(colour, np.float32)
    return np.where(colour <= 0.04045, colour / 12.92, ((colour + 0.055) / 1.055) ** 2.4).astype(np.float32)


def to_screen(light) -> np.ndarray:
    """Linear light to sRGB bytes, highlights rolled off softly."""
    light = np.asarray(light, np.float32)
    light = np.where(light > 0.8, 0.8 + 0.2 * np.tanh((light - 0.8) / 0.2), light)
    made = np.where(light <= 0.0031308, light * 12.92, 1.055 * np.maximum(light, 1e-6) ** (1 / 2.4) - 0.055)
    return np.clip(made * 255 + 0.5, 0, 255).astype(np.uint8)


def _unit(vector):
    vector = np.asarray(vector, np.float32)
    return vector / np.linalg.norm(vector)


__all__ = ["NOTHING", "blurred", "lit", "to_linear", "to_screen"]
