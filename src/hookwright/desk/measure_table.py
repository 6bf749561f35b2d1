"""Measures of the pieces as a table for the terminal or a spreadsheet, from their plain values."""

import csv
import io

from hookwright.desk.counts import cell
from hookwright.desk.show import columns, safe

_APART = 0.02  # shapes and counts that differ by less are told once
_SHAPES = {"rows": "worked in rows", "disc": "a circle", "oval": "an oval", "polygon": "a motif with corners", "ball": "closed at both ends", "cap": "closed at one end",
           "tube": "open at both ends", "half square": "half a square, from the middle of its edge", "half disc": "half a circle, from the middle of its edge", "other": ""}
_FLAT = ("lies flat", "goes straight up", "closes")


def as_table(values: dict) -> str:
    """A heading a piece; a line a measure with all sizes in cm and in inches, by the counts and, where it differs, by the shape."""
    from hookwright.writing import lists_in_both

    out: list[str] = []
    for piece in values["pieces"]:
        shape = _SHAPES.get(piece["shape"], "")
        out += [*([""] if out else []), safe(piece["piece"] or "The piece") + (f" ({shape})" if shape else "")]
        lines = []
        for one in piece["measures"]:
            counted, solved = tuple(one["counted_mm"].values()), tuple(one["solved_mm"].values())
            has_counted, has_solved = any(each is not None for each in counted), any(each is not None for each in solved)
            if has_counted:
                lines.append((safe(one["name"]), *lists_in_both(counted), "by the counts" if has_solved and _differs(counted, solved) else ""))
            if has_solved and (not has_counted or _differs(counted, solved)):
                settled = all(each is not False for each in one["settled"].values())
                lines.append(("" if has_counted else safe(one["name"]), *lists_in_both(solved), "by the shape" + ("" if settled else ", not settled")))
        widths = [max((columns(line[at]) for line in lines), default=0) for at in range(3)]
        out += ["  " + "   ".join(text + " " * (width - columns(text)) for text, width in zip(line, [*widths, 0], strict=True)).rstrip() for line in lines]
        out += _rounds(piece["rounds"])
    stated = [(safe(name.replace("_", " ")), *lists_in_both(tuple(by_size.values()))) for name, by_size in values["finished_mm"].items() if any(by_size.values())]
    if stated:
        widths = [max(columns(line[at]) for line in stated) for at in range(3)]
        out += ["", "Finished, as the head states it"]
        out += ["  " + "   ".join(text + " " * (width - columns(text)) for text, width in zip(line, widths, strict=True)).rstrip() for line in stated]
    names = [one for piece in values["pieces"] for one in piece["measures"]]
    if any("on the head" in one["name"] for one in names):
        out += ["", "On the head: one of the size said with --head, else one that fills the hat."]
    if any(False in one["settled"].values() for one in names):
        out += ["", "Not settled: the solver was stopped before the fabric came to rest, so take such lengths as rough."]
    if values["rests_on"] == "yarn":
        out += ["", "No gauge is given, so the one usual for the yarn and hook was taken."]
    if len(values["sizes"]) > 1:
        out += ["", f"Sizes: {', '.join(safe(size) for size in values['sizes'])}."]
    return "\n".join(out)


def _differs(counted, solved) -> bool:
    return any(one is not None and (other is None or abs(one - other) > _APART * max(one, 1.0)) for one, other in zip(solved, counted, strict=True))


def _rounds(rounds: list) -> list[str]:
    """What the rounds do, in runs that do the same; nothing where all lie flat."""
    runs: list[list] = []
    several = len({one["piece"] for one in rounds}) > 1
    for one in rounds:
        if runs and runs[-1][-1]["does"] == one["does"]:
            runs[-1].append(one)
        else:
            runs.append([one])
    if all(run[0]["does"] == "lies flat" for run in runs):
        return ["  all rounds lie flat"] if runs else []
    out = []
    for run in runs:
        first, last = run[0], run[-1]
        names = [f"{one['row']} ({one['piece']})" if several else one["row"] for one in ((first,) if first is last else (first, last))]
        name = " to ".join(names)
        off = round(sum(one["to_lie_flat"] for one in run) / len(run))
        mend = f"; flat would be about {abs(off)} {'more' if off > 0 else 'fewer'} in each" if off and first["does"] not in _FLAT else ""
        does = first["does"] if first is last else {"lies flat": "lie flat", "closes": "close", "goes straight up": "go straight up", "cups": "cup", "domes slightly": "dome slightly",
                                                    "waves at the edge": "wave at the edge", "ruffles": "ruffle"}.get(first["does"], first["does"])
        out.append(f"  {safe(name)} {does}{mend}")
    return out


def as_csv(values: dict) -> str:
    """A line a piece, measure and size, in mm; no cell that a spreadsheet would compute."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["piece", "measure", "size", "counted mm", "solved mm", "settled"])
    for piece in values["pieces"]:
        for one in piece["measures"]:
            for size in values["sizes"]:
                counted, solved, settled = one["counted_mm"][size], one["solved_mm"][size], one["settled"][size]
                writer.writerow([cell(piece["piece"]), cell(one["name"]), cell(size), "" if counted is None else counted, "" if solved is None else solved,
                                 "" if settled is None else "yes" if settled else "no"])
    return out.getvalue().rstrip("\n")
