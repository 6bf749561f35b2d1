"""Yarn: metres, grams and whole balls of every size and colour, from the worked stitches, the gauge and the thickness of the yarn.

`estimate(pattern, fabrics) -> Estimate | None` counts the stitches, takes their lengths from tables/yarn_use.toml, corrects them by a weighed
swatch or weighed pieces where there are any, adds what the head says under `extras`, and says how sure it all is. Nothing here is loaded
before somebody asks for it.
"""

from importlib import import_module

_FROM = {
    "estimating": "BallsStated Estimate Need estimate stated_balls",
    "lengths": "Geometry facts kind_cm thickness_cm",
    "substitute": "other_yarn yarn_from_words",
}
_MODULE_OF = {name: module for module, names in _FROM.items() for name in names.split()}

__all__ = sorted(_MODULE_OF)


def __getattr__(name: str):
    if name not in _MODULE_OF:
        raise AttributeError(f"module 'hookwright.yarn' has no attribute {name!r}")
    value = globals()[name] = getattr(import_module(f".{_MODULE_OF[name]}", __name__), name)
    return value
