"""Swatches: what those of the head come to, and a new one reckoned from what was counted and measured."""

from hookwright.notation import Swatch, length_from_words
from hookwright.sizing import gauge_of, washing

from .reports import report_of
from .strings import t
from .told import Told


def swatches(text: str) -> dict:
    """{"swatches": [...], "gauges": [...]}: per 10 cm and per 4 in, with how far each can be out."""
    head = report_of(text).pattern.head
    if head is None:
        return {"swatches": [], "gauges": []}
    return {"swatches": [_one(swatch) for swatch in head.swatches],
            "gauges": [{"of": gauge.in_, "stitches": gauge.stitches, "rows": gauge.rows, "over_mm": gauge.over_mm} for gauge in head.gauge]}


def _one(swatch) -> dict:
    gauge, washed = gauge_of(swatch), washing(swatch)
    stitches, rows = gauge.per_10cm
    return {
        "of": swatch.of, "stitches": swatch.stitches, "rows": swatch.rows, "width_mm": swatch.width_mm, "height_mm": swatch.height_mm,
        "washed": [None if share is None else round((share - 1) * 100, 1) for share in washed],
        "stitches_per_10cm": None if stitches is None else round(stitches, 2), "rows_per_10cm": None if rows is None else round(rows, 2),
        "stitches_out": None if stitches is None else round(stitches * gauge.stitch_out, 2), "rows_out": None if rows is None else round(rows * gauge.row_out, 2),
        "words": _words(gauge),
    }


def _words(gauge) -> str:
    told = []
    for per, share, kind in ((gauge.per_10cm[0], gauge.stitch_out, "stitches"), (gauge.per_10cm[1], gauge.row_out, "rows")):
        if per:
            told.append(f"{per:.1f} {kind} to 10 cm ({per * 1.016:.1f} to 4 in), give or take {per * share:.1f}")
    return "; ".join(told)


def reckon(counted: dict) -> dict:
    """{"words", "line", ...} of a swatch as counted: of, stitches, width, rows, height, washed_width, washed_height (lengths as numbers in
    `unit`, "cm" or "in", or as words), hook, weight (g)."""
    unit = counted.get("unit") if counted.get("unit") in ("cm", "in", "mm") else "cm"
    lengths = {key: _length(counted.get(key), unit) for key in ("width", "height", "washed_width", "washed_height")}
    stitches, rows, weight = (_number(counted.get(key)) for key in ("stitches", "rows", "weight"))
    if not (stitches and lengths["width"] or rows and lengths["height"]):
        raise Told(400, "swatch-lacks", t("swatch-lacks"))
    of, hook = (" ".join(str(counted.get(key) or "").split())[:60] for key in ("of", "hook"))
    swatch = Swatch(of, stitches, lengths["width"], rows, lengths["height"], lengths["washed_width"], lengths["washed_height"], weight)
    parts = [("of", _quoted(of)), ("stitches", stitches and f"{stitches:g}"), ("width", _said(lengths["width"], unit)), ("rows", rows and f"{rows:g}"),
             ("height", _said(lengths["height"], unit)), ("washed width", _said(lengths["washed_width"], unit)), ("washed height", _said(lengths["washed_height"], unit)),
             ("weight", weight and f"{weight:g} g"), ("hook", _quoted(hook))]
    line = "{" + ", ".join(f"{key}: {value}" for key, value in parts if value) + "}"
    return {**_one(swatch), "line": f"  - {line}", "yaml": f"swatches: [{line}]"}


def _number(value) -> float | None:
    try:
        number = float(value)
    except (TypeError, ValueError):
        return None
    return number if 0 < number < 10_000 else None


def _length(value, unit: str) -> float | None:
    """mm"""
    if isinstance(value, str) and any(letter.isalpha() or letter == '"' for letter in value):
        pair = length_from_words(value[:40])
        return sum(pair) / 2 if pair and pair[0] > 0 else None
    number = _number(value)
    return None if number is None else number * {"cm": 10.0, "mm": 1.0, "in": 25.4}[unit]


def _said(mm: float | None, unit: str) -> str:
    return "" if mm is None else f"{round(mm / {'cm': 10.0, 'mm': 1.0, 'in': 25.4}[unit], 2):g} {unit}"


def _quoted(words: str) -> str:
    """Words as YAML takes them for words whatever is in them."""
    import json

    return "" if not words else words if words.replace(" ", "").replace(".", "").isalnum() and words.isascii() and words[0].isalpha() and words.lower() not in ("yes", "no", "true", "false", "null", "on", "off") else json.dumps(words, ensure_ascii=False)
