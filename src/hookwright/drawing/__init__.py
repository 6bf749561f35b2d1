"""Drawing: pictures of a pattern as SVG, with words for those who do not see them.

`size_plot(humps, bars, ...)` shows the sizes along a scale in both units, over the people measured. `chart(fabric, piece, ...)` shows the
stitches of a piece in the trade's symbols, each where it is worked; `symbol(id)` is the symbol of a stitch. A Picture is given whole to a
page or a PDF: `svg(id)`.
"""

from .chart import Chart, chart
from .picture import Picture
from .size_plot import Bar, Hump, size_plot
from .symbols import symbol

__all__ = ["Bar", "Chart", "Hump", "Picture", "chart", "size_plot", "symbol"]
