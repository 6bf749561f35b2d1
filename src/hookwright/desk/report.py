"""A whole report for the terminal or as JSON: the findings of one manuscript and what was proved of it."""

from hookwright.desk.show import columns, fold, full, in_order, one_line, safe
from hookwright.ground import GRADES, LOOK, MUST_MEND, Lines

MOST_IN_FULL = 100


def as_dict(opened, report) -> dict:
    """What `check --json` prints: the report's own values, with what was found on opening the file before them."""
    from hookwright.pipeline import json_finding

    values = {"findings": []} if report is None else report.as_dict()
    ours = [json_finding(finding, Lines("")) for finding in opened.findings]
    return {**values, "findings": ours + values["findings"]}


def as_text(opened, report, width: int, style=None, short: bool = False) -> str:
    """The findings, gravest first (100 of them in full), then a line of how many there are and a line of what was proved.

    width: columns to keep within. short: one line a finding. style: as in `show.full`.
    """
    lines = None if report is None else Lines(report.text)
    findings = [*opened.findings, *in_order(report.findings if report is not None else ())]
    if short:
        parts = [one_line(finding, lines, opened.name) for finding in findings]
    else:
        parts = [full(finding, lines, opened.name, width, style) + "\n" for finding in findings[:MOST_IN_FULL]]
        if len(findings) > MOST_IN_FULL:
            parts.append(f"... and {len(findings) - MOST_IN_FULL:,} more; --short shows every one on a line of its own\n")
    if report is None:
        return "\n".join(parts + [f"{safe(opened.name)}: not read"])
    return "\n".join(parts + [f"{safe(opened.name)}: {how_many(findings)}", *_rest(report, width)])


def how_many(findings) -> str:
    """ "2 things must be mended, 1 to look at", or "nothing to mend"."""
    counts = {grade: sum(finding.grade == grade for finding in findings) for grade in GRADES}
    mend, look = counts[MUST_MEND], counts[LOOK]
    parts = [f"{mend} thing{'s' * (mend != 1)} must be mended" if mend else "nothing must be mended"]
    if look:
        parts.append(f"{look} to look at")
    return ", ".join(parts)


def _rest(report, width: int) -> list[str]:
    values = report.as_dict()
    out = numbers_found(report.numbers, report.sizes, width)
    for words in _multiples(values.get("multiples") or ()):
        out += fold(f"foundation: {safe(words)}", width, "  ", "    ")
    for assumed in values.get("assumed") or ():
        words = assumed.get("words", "") if isinstance(assumed, dict) else str(assumed)
        out += fold(f"taken as: {safe(words)}", width, "  ", "    ")
    for stands in values.get("silenced") or ():
        out += fold(f"let stand: [{stands['kind']}] {safe(stands['message'])} (your reason: {safe(stands['because'])})", width, "  ", "    ")
    proved = values.get("proved") or {}
    if proved.get("words"):
        out += fold(f"proved: {safe(proved['words'])}", width, "  ", "    ")
    return out


def _multiples(multiples):
    for multiple in multiples:
        if isinstance(multiple, dict):
            of = multiple.get("piece") or multiple.get("of") or ""
            words = multiple.get("words", "")
            yield f"{of}: {words}" if of else words
        else:
            yield str(multiple)


def numbers_found(numbers, sizes, width: int) -> list[str]:
    """The numbers found for the sizes as a table: each number, the length it comes to in both units, and how far that is from what was wanted."""
    if not numbers:
        return []
    lines = [("numbers found", *([""] if len(sizes) == 1 else sizes))]
    for one in numbers:
        lines.append((f"{one.name} ({one.counts})" if one.counts else one.name, *map(str, one.values)))
        if any(mm is not None for mm in one.mm):
            lines.append(("  is, cm", *("-" if mm is None else f"{mm / 10:.1f}" for mm in one.mm)))
            lines.append(("  is, in", *("-" if mm is None else f"{mm / 25.4:.1f}" for mm in one.mm)))
            lines.append(("  off what is wanted, cm", *("-" if off is None else f"{off / 10:+.1f}" if round(off) else "0" for off in one.off_mm)))
    return table_of_sizes(lines, width)


def table_of_sizes(lines, width: int) -> list[str]:
    """Lines of cells, the first cell of each its name: one column a size, in several tables below each other where it is too wide."""
    first = max(columns(safe(line[0])) for line in lines)
    count = len(lines[0]) - 1
    widths = [max(columns(safe(str(line[at]))) for line in lines) for at in range(1, count + 1)]
    out, start = [], 0
    while start < count:
        end, used = start, 2 + first
        while end < count and (end == start or used + 3 + widths[end] <= width):
            used += 3 + widths[end]
            end += 1
        for line in lines:
            name, cells = safe(line[0]), [safe(str(cell)) for cell in line[1 + start : 1 + end]]
            padded = "".join("   " + " " * (widths[start + at] - columns(cell)) + cell for at, cell in enumerate(cells))
            out.append(f"  {name}{' ' * (first - columns(name))}{padded}".rstrip())
        start = end
    return out
