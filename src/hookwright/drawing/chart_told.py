"""A chart in words: what holds for all of it, and each row with what is in it."""

from .chart_drawing import Names
from .chart_lines import WORKED
from .chart_oval import Oval


def notes_of(lines, names: Names, ground, along, cut, rows_in_all, colours, cells) -> list[str]:
    """What holds for the whole chart, in sentences."""
    words = names.words
    half = getattr(ground, "half", False)
    in_round = all(line.in_round for line in lines if line.what == WORKED)
    corner = any(line.numbered_at for line in lines)
    out = [words["corner" if corner else "half" if half else "oval" if isinstance(ground, Oval) else "rounds" if ground.around else "tube" if in_round else "rows"]]
    if cells:
        kind = next(item.kind for line in lines if line.what == WORKED for item in line.items)
        out = [words["grid"].format(stitch=names.short(kind))]
    for index, line in enumerate(lines):
        if line.times > 1:
            last = lines[index + line.period - 1]
            known = {"first": line.label, "last": last.label, "n": line.times}
            out.append(words["again_one" if line.period == 1 else "again"].format(**known))
    for one in along:
        out.append(words["along_said"].format(n=one.times))
    if cut:
        shown = sum(line.row is not None for line in lines)
        out.append(words["not_shown"].format(n=shown, all=rows_in_all))
    if any(line.side == "WS" and any(item.loop in ("front", "back") or item.kind[:2] in ("fp", "bp") for item in line.items) for line in lines):
        out.append(words["seen"])
    if sum(bool(name) for name in colours) > 1:
        out.append(words["colours"].format(colours=", ".join(name for name in colours if name)))
    return out


def rows_told(lines, names: Names, told=None) -> list[str]:
    """Each row as it is written, told {id of a written row: words}; with what is in it, from the counts, where it is not told."""
    out, said = [], set()
    for line in lines:
        row = line.row
        words = (told or {}).get(id(row), "")
        if words:
            out += [words] if id(row) not in said else []
            said.add(id(row))
            continue
        if row is None or line.what != WORKED or not line.label:
            continue
        spaces = len(line.worked.spaces)
        parts = [f"{number} {names.short(kind)}" for kind, number in line.worked.by_kind.items()]
        if spaces:
            parts.append(names.words["space" if spaces == 1 else "spaces"].format(n=spaces))
        out.append(names.words["line_side" if line.side and not line.in_round else "line"].format(label=line.label, side=line.side, counts=", ".join(parts) or "-") + ".")
    return out


def folded(words: str, most: int) -> list[str]:
    out, line = [], ""
    for word in words.split():
        if line and len(line) + 1 + len(word) > most:
            out.append(line)
            line = word
        else:
            line = f"{line} {word}".strip()
    return [*out, line] if line else out
