"""Hookwright: one crochet manuscript in, everything else derived from it.

`check(text)` reads a manuscript, works it stitch by stitch in every size and proves it; the Report it gives holds the findings,
the worked fabrics and the tree. `write(report, "html", "UK")` writes the pattern sheet, `chart(report, "Square")` draws a piece in symbols,
`write_chart(chart, "pdf")` puts it on pages, `picture(report, "Hat")` shows it in its yarn, `surface_of(report, "Hat")` solves its shape, `measures(report)` and `schematic(report)` tell and
draw how large the pieces are, `yarn_for(report)` estimates the yarn. The rooms, from the ground up: ground (numbers, places, findings), stitches
(catalogue, terms), notation (text to tree and back), fabric (tree to worked fabric), yarn (what it takes), shape (the piece
in space), writing (sheets), proof (checks), pipeline (the whole way), desk (command line).
"""

__version__ = "0.1.0"
__all__ = ["Finding", "Memory", "Pattern", "Report", "chart", "check", "made_to_measure", "measures", "mends", "picture", "prove", "read", "schematic", "shaped_pieces", "surface_of", "work", "write", "write_chart", "yarn_for"]

_FROM = {"chart": "pipeline", "check": "pipeline", "made_to_measure": "pipeline", "measures": "pipeline", "mends": "pipeline", "picture": "pipeline", "schematic": "pipeline", "shaped_pieces": "pipeline", "surface_of": "pipeline", "write": "pipeline", "write_chart": "pipeline", "Memory": "pipeline", "yarn_for": "pipeline", "Report": "pipeline",
         "read": "notation", "Pattern": "notation", "Finding": "ground",
         "prove": "proof"}


def __getattr__(name):
    """Loads what is asked for when it is asked for, so that the command's help does not wait for it."""
    from importlib import import_module

    if name == "work":
        return import_module("hookwright.fabric").work_pattern
    if name in _FROM:
        return getattr(import_module("hookwright." + _FROM[name]), name)
    raise AttributeError(f"module 'hookwright' has no attribute {name!r}")
