"""Drawing: pictures of a pattern as SVG, with words for those who do not see them.

`size_plot(humps, bars, ...)` shows the sizes along a scale in both units, over the people measured. `chart(fabric, piece, ...)` shows the
stitches of a piece in the trade's symbols, each where it is worked; `symbol(id)` is the symbol of a stitch. A Picture is given whole to a
page or a PDF: `svg(id)`.

`photo_bytes(surface, colours, pixels)` draws a solved shape.Surface in its yarn as PNG, `mesh_bytes(surface, colours)` as a mesh (glTF binary),
and `photo_words` says what is shown. These need NumPy, so they are loaded when they are asked for.

`pieces_of(fabrics, head, terms)` measures pieces by their counts and `schematic(part, ...)` draws their outline with measurements;
`of_surfaces(surfaces, ...)` outlines a piece by its solved surface instead.
"""

from importlib import import_module

from .chart import Chart, chart
from .chart_pages import Page, pages
from .picture import Picture
from .size_plot import Bar, Hump, size_plot
from .symbols import symbol

_LATER = {"photo_bytes": "photo", "mesh_bytes": "photo", "photo_words": "photo_words", "pieces_of": "schematic_pieces", "schematic": "schematic_drawing",
          "of_surfaces": "schematic_solved", "side_by_side": "schematic_drawing", "units_a_mm": "schematic_drawing"}

__all__ = ["Bar", "Chart", "Hump", "Page", "Picture", "chart", "pages", "size_plot", "symbol", *sorted(_LATER)]


def __getattr__(name: str):
    if name not in _LATER:
        raise AttributeError(f"module 'hookwright.drawing' has no attribute {name!r}")
    value = globals()[name] = getattr(import_module(f".{_LATER[name]}", __name__), name)
    return value
