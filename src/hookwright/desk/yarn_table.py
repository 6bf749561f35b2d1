"""The yarn of each size and colour as a table for the terminal or a spreadsheet, from the plain values of the estimate."""

import csv
import io

from hookwright.desk.counts import cell
from hookwright.desk.show import columns, safe

_YARD = 0.9144  # m
_NO_NAMES = ("", "1", "one size")


def too_little(report) -> str:
    """What is lacking for an estimate."""
    if not any(fabric.rows for fabric in report.fabrics):
        return "there are no rows whose yarn could be estimated"
    return "there is too little to go by: write a `gauge:` or the weight of the yarn (`yarn: {weight: dk, metres: 120, grams: 50}`) into the head"


def as_table(values: dict) -> str:
    """A line a size and colour, the band and what it rests on below it, and what was beside the stitches."""
    lines = [["size", "colour", "metres", "from", "to", "yards", "grams", "balls", "cost"]]
    for size, one in values["sizes"].items():
        for need in one["needs"]:
            metres, grams = need["metres"], need["grams"]
            lines.append([
                safe(size), safe(colour_said(need)), f"{metres['estimate']:.0f}", f"{metres['low']:.0f}", f"{metres['high']:.0f}", f"{metres['estimate'] / _YARD:.0f}",
                "-" if grams is None else f"{grams['estimate']:.0f}", "-" if need["balls"] is None else str(need["balls"]),
                "-" if need["cost"] is None else f"{need['cost']:.2f} {safe(need['coin'])}".strip()])
    kept = [at for at in range(len(lines[0])) if at not in (0, 1) and any(line[at] != "-" for line in lines[1:])]
    if any(size not in _NO_NAMES for size in values["sizes"]):
        kept.insert(0, 0)
    if any(line[1] for line in lines[1:]):
        kept.insert(1 if 0 in kept else 0, 1)
    widths = {at: max(columns(line[at]) for line in lines) for at in kept}
    out = ["   ".join(_padded(line[at], widths[at], at < 2) for at in kept).rstrip() for line in lines]
    return "\n".join([*out, "", *in_words(values)])


def in_words(values: dict) -> list[str]:
    """How sure the estimate is and what it rests on, in sentences."""
    band = values["band"]
    out = [f"An estimate from {safe(band['words'])}: the yarn used should lie from {_per_cent(band['low'])} to {_per_cent(band['high'])}.",
           "Balls are whole ones at the upper end."]
    beside = {}
    for one in values["sizes"].values():
        for need in one["needs"]:
            for name, metres in need["extras_metres"].items():
                beside.setdefault(name, []).append(metres)
    if beside:
        out.append("Of it " + ", ".join(f"{name} {_range(metres)} m" for name, metres in beside.items()) + ".")
    for name in dict.fromkeys(name for one in values["sizes"].values() for need in one["needs"] for name in need["optional"]):
        found = [(size, need, need["optional"][name]) for size, one in values["sizes"].items() for need in one["needs"] if name in need["optional"]]
        each = [" ".join(word for word in ("" if size in _NO_NAMES else safe(size), safe(need["colour"]) if len(values["sizes"][size]["needs"]) > 1 else "",
                                           f"{more['metres']:.0f} m more" + ("" if more["balls"] is None else f", {more['balls']} ball{'s' if more['balls'] != 1 else ''} in all")) if word) for size, need, more in found]
        out.append(f"With {name}: {'; '.join(each)}.")
    times = {size: one["minutes"] for size, one in values["sizes"].items() if one["minutes"]}
    if times:
        named = [_time(minutes) if size in _NO_NAMES else f"{safe(size)} {_time(minutes)}" for size, minutes in times.items()]
        out.append(f"Time at your speed, an estimate without sewing up: {', '.join(named)}.")
    return out + [f"Note: {safe(told)}." for told in values["told"]]


def as_csv(values: dict) -> str:
    """A line a size and colour; no cell that a spreadsheet would compute."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["size", "yarn", "colour", "metres", "metres from", "metres to", "grams", "grams from", "grams to", "balls", "cost", "coin", "minutes of the size", "rests on"])
    for size, one in values["sizes"].items():
        for need in one["needs"]:
            metres, grams = need["metres"], need["grams"] or {}
            writer.writerow([cell(size), cell(need["yarn"]), cell(colour_said(need)), metres["estimate"], metres["low"], metres["high"], grams.get("estimate", ""), grams.get("low", ""),
                             grams.get("high", ""), _or_nothing(need["balls"]), _or_nothing(need["cost"]), cell(need["coin"]), _or_nothing(one["minutes"]), cell(values["band"]["words"])])
    return out.getvalue().rstrip("\n")


def _or_nothing(value):
    return "" if value is None else value


def colour_said(need: dict) -> str:
    """The colour of a need: its letter and name, "all colours", "" where there is but one."""
    if need["colour"] == "all":
        return "all colours"
    return f"{need['colour']} {need['colour_name']}".strip()


def _per_cent(share: float) -> str:
    return f"{abs(share - 1):.0%} {'less' if share < 1 else 'more'}"


def _range(metres) -> str:
    low, high = (f"{one:.0f}" if one >= 10 else f"{one:.1f}" for one in (min(metres), max(metres)))
    return low if low == high else f"{low}-{high}"


def _time(minutes: float) -> str:
    hours, rest = divmod(round(minutes), 60)
    return f"{hours} h {rest} min" if hours else f"{rest} min"


def _padded(text: str, width: int, left: bool) -> str:
    space = " " * (width - columns(text))
    return text + space if left else space + text
