"""The table row by size of worked counts, for the terminal, a spreadsheet or another program."""

import csv
import io

from hookwright.desk.show import columns, safe

_FOUND = "numbers found"


def as_values(values: dict) -> dict:
    """sizes, and for each row its piece, label, line and the stitches by size (None where a size does not work the row).

    A foundation chain has no stitches: its row has `chains` by size as well.
    """
    sizes = values["sizes"]
    rows = []
    for row in values["rows"]:
        counted = {size: row["sizes"].get(size) or {} for size in sizes}
        rows.append({
            "piece": row.get("piece") or "",
            "label": row["label"],
            "line": row.get("line"),
            "stitches": {size: counts.get("stitches") for size, counts in counted.items()},
        })
        if any("chains" in counts for counts in counted.values()):
            rows[-1]["chains"] = {size: counts.get("chains") for size, counts in counted.items()}
    return {"sizes": list(sizes), "rows": rows, "numbers": {name: dict(zip(sizes, number["values"])) for name, number in (values.get("numbers") or {}).items()}}


def _counts_said(row: dict, otherwise: str) -> list[str]:
    """What stands in the row of a table: a number of stitches, "36 ch" for a foundation, `otherwise` where a size does not work it."""
    chains = row.get("chains") or {}
    return [f"{chains[size]} ch" if chains.get(size) else otherwise if number is None else str(number) for size, number in row["stitches"].items()]


def as_csv(values: dict) -> str:
    """piece, row, line and a column a size; quoted as spreadsheets expect, and no cell that a spreadsheet would compute."""
    table, out = as_values(values), io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["piece", "row", "line", *map(cell, _headings(table["sizes"]))])
    for row in table["rows"]:
        writer.writerow([cell(row["piece"]), cell(row["label"]), row["line"], *_counts_said(row, "")])
    return out.getvalue().rstrip("\n")


def as_table(values: dict) -> str:
    """The table for the terminal, a heading a piece; a dash where a size does not work the row."""
    table = as_values(values)
    if not table["rows"]:
        return "There are no rows to count."
    found = table["numbers"]
    headings = _headings(table["sizes"])
    labels = [safe(row["label"]) for row in table["rows"]]
    label_width = max(columns(label) for label in [*labels, "row", *map(safe, found), *([_FOUND] if found else [])])
    cells = [_counts_said(row, "-") for row in table["rows"]]
    widths = [max(columns(headings[place]), *(len(row[place]) for row in cells), *(len(str(list(one.values())[place])) for one in found.values())) for place in range(len(headings))]

    def line(first, rest):
        padded = (" " * (width - columns(cell)) + cell for cell, width in zip(rest, widths, strict=True))
        return (first + " " * (label_width - columns(first)) + "   " + "   ".join(padded)).rstrip()

    out, piece = [], None
    for row, label, numbers in zip(table["rows"], labels, cells, strict=True):
        if row["piece"] != piece:
            piece = row["piece"]
            out += ([""] if out else []) + ([safe(piece)] if piece else []) + [line("row", headings)]
        out.append(line(label, numbers))
    if found:
        out += ["", line(_FOUND, headings)] + [line(safe(name), ["-" if number is None else str(number) for number in by_size.values()]) for name, by_size in found.items()]
    return "\n".join(out)


def _headings(sizes) -> list[str]:
    return ["stitches"] if len(sizes) == 1 and str(sizes[0]) in ("", "1", "one size") else [safe(str(size)) for size in sizes]


def cell(text: str) -> str:
    """A cell that no spreadsheet takes for a sum."""
    return f"'{text}" if text[:1] in ("=", "+", "-", "@", "\t", "\r") else text
