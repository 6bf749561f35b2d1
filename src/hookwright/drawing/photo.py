"""A still picture of a surface, drawn in its yarn: PNG bytes."""

import io

import numpy as np

from .yarn_camera import camera_for
from .yarn_colours import colours_of
from .yarn_light import lit, to_linear, to_screen
from .yarn_path import yarn_path
from .yarn_raster import LINING_PIXELS, seen

GROUND, GROUND_OF_LIGHT = (0.962, 0.955, 0.940), (0.735, 0.750, 0.755)  # of white yarn a darker one, so that it stands out
LIGHT = 0.62  # mean of linear light from which yarn is white
LONG, SHOWN_LONG, MANY = 3.2, 2.0, 90  # a flat piece so many times longer than wide (and than its yarn is thick) is shown in part: so much
CLOTH = 12_000  # stitches from which a mesh shows the cloth, not its yarn
MOST_BYTES = 3_700_000  # of a mesh, as long as its yarn can still be told
_COARSER = LINING_PIXELS
_FINER = 2  # pixels drawn for each pixel shown, each way


def photo_bytes(surface, colours, pixels: int = 700, watch=None, form: str = "png") -> tuple[bytes, int, int]:
    """(bytes, width, height) as "png" or "jpeg". colours: what each colour of the surface is called, and last what the yarn is where none is named.

    watch(share from 0 to 1) is called now and then; what it raises stops the work. The same surface gives the same bytes.
    """
    made, _, _ = drawn(surface, colours_of(colours), pixels, watch)
    return (jpeg_of if form == "jpeg" else png_of)(made), made.shape[1], made.shape[0]


def mesh_bytes(surface, colours, *, name: str = "", words: str = "", watch=None) -> bytes:
    """The yarn as glTF binary, kept small enough for a web page: fewer sides and rings the more stitches there are."""
    from .cloth_mesh import cloth_mesh
    from .gltf import glb_of
    from .yarn_mesh import upright, yarn_mesh

    if len(surface.at) > CLOTH:
        parts = cloth_mesh(surface, upright(surface)[0])
    else:
        behind = cloth_mesh(surface, upright(surface)[0], lining=True) if camera_for(surface).solid else []
        parts = [*yarn_mesh(surface, most_bytes=MOST_BYTES - 60 * len(surface.at) * bool(behind), watch=watch), *behind]
    return glb_of(parts, colours_of(colours), name=name, words=words)


def drawn(surface, colours, pixels: int = 700, watch=None, camera=None):
    """(h, w, 3) uint8 picture of the surface, the longer side `pixels`; the Seen it was drawn from; the YarnPath. colours: sRGB, 0 to 1."""
    camera = camera or camera_for(surface)
    path = yarn_path(surface)
    points, scale, width, height, lining = _projected(surface, path, camera, pixels * _FINER)
    keep = np.ones(len(points), bool)
    if camera.solid and not camera.opens:
        keep = (surface.normal @ camera.turn[2])[path.node] > -0.30
    found = seen(points, path.starts, keep, float(path.thick / 2 * scale), width, height, lining, watch)
    colour = np.array([to_linear(colours[index]) for index in range(len(colours))], np.float32)
    shades = colour[np.where(path.colour >= 0, path.colour, len(colours) - 1)]
    ground = GROUND_OF_LIGHT if shades.mean() > LIGHT else GROUND
    light = lit(found, shades, to_linear(ground))
    small = light.reshape(height // _FINER, _FINER, width // _FINER, _FINER, 3).mean(axis=(1, 3))
    return to_screen(small), found, path


def _projected(surface, path, camera, pixels: int):
    """The points in pixels, pixels per mm, and the size of the picture."""
    middle = (surface.at.min(axis=0) + surface.at.max(axis=0)) / 2
    points = (path.points - middle) @ camera.turn.T
    size = np.linalg.norm(surface.at - middle, axis=1).max() or 1.0
    place = _seen_from(points, camera.away * size)
    low, high = place[:, :2].min(axis=0), place[:, :2].max(axis=0)
    room = 2.2 * path.thick
    low, high = low - room, high + room
    if shows_an_end(surface, camera):
        longer = int(np.argmax(high - low))
        first = place[path.node == 0][:, longer].mean()
        part = SHOWN_LONG * (high - low)[1 - longer]
        low[longer], high[longer] = (low[longer], low[longer] + part) if first - low[longer] < high[longer] - first else (high[longer] - part, high[longer])
    scale = pixels / max(high - low)
    width, height = (int(np.ceil(side * scale / _FINER)) * _FINER for side in high - low)
    lining = _lining(surface, path.thick, camera, middle, size, scale) if camera.solid else None

    def placed(where):
        out = where * where.dtype.type(scale)
        out[:, 0] -= low[0] * scale
        out[:, 1] = high[1] * scale - out[:, 1]
        return out

    return placed(place), scale, width, height, placed(lining) if lining is not None else None


def shows_an_end(surface, camera) -> bool:
    """Whether only one end of a long flat piece is shown, the one where it was begun."""
    if camera.away:
        return False
    wide, high = np.ptp(surface.at @ camera.turn.T, axis=0)[:2]
    return max(wide, high) > max(LONG * min(wide, high), MANY * surface.yarn_mm)


def _seen_from(points, away: float) -> np.ndarray:
    """Points as an eye `away` from the middle sees them."""
    made = points.copy()
    if away:
        made[:, :2] *= (away / (away - points[:, 2]))[:, None]
    return made


def _lining(surface, thick, camera, middle, size, scale):
    """Points all over the triangles, a little way in from the near side: what lies behind the gaps, and the far side behind holes."""
    near = (surface.normal @ camera.turn[2] > 0)[:, None]
    corner = np.where(near, surface.at - surface.normal * (0.9 * thick), surface.at)[surface.faces]
    corner = _seen_from(((corner - middle) @ camera.turn.T).reshape(-1, 3), camera.away * size).reshape(-1, 3, 3)
    if not len(corner):
        return None
    edges = np.linalg.norm(corner - np.roll(corner, 1, axis=1), axis=2).max(axis=1) * scale / _COARSER
    fineness = np.clip(np.ceil(edges * 1.1 / 6) * 6, 6, 120).astype(int)
    corner = corner.astype(np.float32)
    out = []
    for fine in np.unique(fineness):
        a, b = (grid.ravel() for grid in np.meshgrid(np.linspace(0, 1, fine + 1), np.linspace(0, 1, fine + 1)))
        a, b = a[a + b <= 1.0001], b[a + b <= 1.0001]
        share = np.stack([a, b, 1 - a - b], axis=1).astype(np.float32)
        out.append(np.matmul(share, corner[fineness == fine]).reshape(-1, 3))
    return np.concatenate(out)


def png_of(picture: np.ndarray) -> bytes:
    """The picture as PNG; the same bytes for the same picture."""
    from PIL import Image

    kept = io.BytesIO()
    Image.fromarray(picture).save(kept, "PNG", compress_level=6)
    return kept.getvalue()


def jpeg_of(picture: np.ndarray) -> bytes:
    """The picture as JPEG, a tenth as large: for pages."""
    from PIL import Image

    kept = io.BytesIO()
    Image.fromarray(picture).save(kept, "JPEG", quality=86, optimize=True)
    return kept.getvalue()
