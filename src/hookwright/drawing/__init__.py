"""Drawing: pictures of a pattern as SVG, in one colour and with words for those who do not see them.

`size_plot(humps, bars, ...)` shows the sizes along a scale in both units, over the people measured. A Picture is given whole to a page
or a PDF: `svg(id)`.
"""

from .picture import Picture
from .size_plot import Bar, Hump, size_plot

__all__ = ["Bar", "Hump", "Picture", "size_plot"]
