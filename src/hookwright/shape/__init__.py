"""Shape: the worked fabric of a piece as a surface in space, its measurements, and whether a round lies flat.

`Surface` is the contract with whatever shows or measures it; `form` solves it. `flare` tells from counts alone whether rounds lie flat and
`rest_sizes` gives widths and heights of stitches in mm: both need neither NumPy nor SciPy. The rest is loaded on use, since those are heavy.
"""

from importlib import import_module

_FROM = {"surface": "Surface", "flaring": "RoundFlare flare words_for", "rest": "RestSizes rest_sizes",
         "forming": "form", "parts": "Part parts_of", "solving": "Cancelled", "measuring": "Measuring", "silhouette": "Silhouette silhouette",
         "garments": "Garment garment_of garment_surface"}
_MODULE_OF = {name: module for module, names in _FROM.items() for name in names.split()}

__all__ = sorted(_MODULE_OF)


def __getattr__(name: str):
    if name not in _MODULE_OF:
        raise AttributeError(f"module 'hookwright.shape' has no attribute {name!r}")
    value = globals()[name] = getattr(import_module(f".{_MODULE_OF[name]}", __name__), name)
    return value
