"""Puts findings into a terminal: in full within a width, or on one line.

Meaning never hangs on colour; her own text is shown with nothing in it that a terminal would obey.
"""

import unicodedata

from hookwright.ground import GRADES, MUST_MEND, NOWHERE, Finding, Lines, Span

WIDTH = 100
NARROWEST = 40
NAME_WIDTH = 28
GAP = "   "


def safe(text: str) -> str:
    """The text with control characters, and those that turn the direction of writing, shown as `<U+001B>`.

    >>> safe("a\\x1b[31m b")
    'a<U+001B>[31m b'
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(map(_safe_letter, text))


def _safe_letter(letter: str) -> str:
    if letter in "\n\t" or letter == "\r":
        return " "
    if unicodedata.category(letter) in ("Cc", "Cf", "Cs", "Zl", "Zp") and letter not in "\u00ad\u200c\u200d":
        return f"<U+{ord(letter):04X}>"
    return letter


def safe_lines(text: str) -> str:
    """As `safe`, but ends of lines and tabs stay: for text of several lines."""
    return "".join(letter if letter in "\n\t" else _safe_letter(letter) for letter in text)


def columns(text: str) -> int:
    """How many columns a text takes on a terminal.

    >>> columns("2 sc"), columns("編む")
    (4, 4)
    """
    if text.isascii():
        return len(text)
    return sum(_columns_of(letter) for letter in text)


def _columns_of(letter: str) -> int:
    if unicodedata.combining(letter) or letter in "\u00ad\u200c\u200d":
        return 0
    return 2 if unicodedata.east_asian_width(letter) in "WF" else 1


def fold(text: str, width: int, first: str = "", rest: str = "") -> list[str]:
    """The text in lines of at most `width` columns; `first` and `rest` stand before the first line and the others.

    >>> fold("two single crochet", 12, "", "  ")
    ['two single', '  crochet']
    """
    out, line, empty = [], first, True
    for word in text.split():
        while word:
            space = "" if empty else " "
            room = width - columns(line) - len(space)
            if columns(word) <= room:
                line, empty, word = line + space + word, False, ""
            elif empty:
                cut = _fits(word, max(room, 2))
                out, line, word = [*out, line + word[:cut]], rest, word[cut:]
            else:
                out, line, empty = [*out, line], rest, True
    return [*out, line] if not empty or not out else out


def _fits(word: str, room: int) -> int:
    """How many letters of the word fit into the room, at least one."""
    cut = 1
    while cut < len(word) and columns(word[: cut + 1]) <= room:
        cut += 1
    return cut


def in_order(findings) -> list[Finding]:
    """Gravest first, then from the top of the manuscript down."""
    return sorted(findings, key=lambda finding: (GRADES.index(finding.grade), finding.span.start))


def one_line(finding: Finding, lines: Lines | None, name: str) -> str:
    """`mitten.md:13:9: must mend [repeat-leaves-stitches]: message`."""
    place = safe(name)
    if lines is not None and finding.span != NOWHERE:
        place += ":{}:{}".format(*lines.place(finding.span.start))
    return f"{place}: {finding.grade} [{finding.kind}]: {safe(finding.message)}"


def full(finding: Finding, lines: Lines | None, name: str, width: int = WIDTH, style=None) -> str:
    """All there is to say of a finding: message, place with marks, working, ways out, rows off for the same reason.

    style(what, text) -> text may add colour; `what` is a grade or "mark".
    """
    width = max(width, NARROWEST)
    style = style or _as_it_is
    out = _headline(finding, width, style)
    if lines is not None and finding.span != NOWHERE:
        out += _places(finding, lines, name, width, style)
    out += _table(finding.working, width) if finding.working else _expected_and_found(finding, width)
    for way in finding.suggestions:
        out += _hanging(f"{way.sure}: {way.says}" + (f" ({way.effect})" if way.effect else ""), width)
    if finding.echoes:
        out += _hanging(_echoes(finding.echoes), width)
    for source in finding.sources:
        out += _hanging(f"source: {source}", width)
    return "\n".join(out)


def must_be_mended(findings) -> int:
    """How many of them must be mended."""
    return sum(finding.grade == MUST_MEND for finding in findings)


def _as_it_is(what: str, text: str) -> str:
    return text


def _headline(finding: Finding, width: int, style) -> list[str]:
    head = f"{finding.grade} [{finding.kind}]:"
    rows = fold(f"{head} {safe(finding.message)}", width, rest="  ")
    if rows[0].startswith(head):
        rows[0] = style(finding.grade, head) + rows[0][len(head):]
    return rows


def _hanging(text: str, width: int) -> list[str]:
    return fold(safe(text), width, "  ", "    ")


def _echoes(echoes: tuple[str, ...]) -> str:
    if len(echoes) == 1 and " for the same reason" in echoes[0]:
        return echoes[0]
    shown = ", ".join(echoes[:8]) + (f" and {len(echoes) - 8} more" if len(echoes) > 8 else "")
    return f"for the same reason: {shown}"


# ---------------------------------------------------------------- the place

def _places(finding: Finding, lines: Lines, name: str, width: int, style) -> list[str]:
    """The line of her text with the words meant marked below it; further lines where labels point at them."""
    by_line: dict[int, list] = {}
    words = next((said for span, said in finding.labels if span == finding.span), "")
    marks = [(finding.span, words, "^")] + [(span, said, "-") for span, said in finding.labels if span != finding.span]
    for span, said, sign in marks:
        by_line.setdefault(lines.place(span.start)[0], []).append((span, said, sign))
    first = lines.place(finding.span.start)[0]
    out = []
    for number in sorted(by_line, key=lambda number: (number != first, number)):
        out += _one_place(by_line[number], lines, number, _short_name(name, min(NAME_WIDTH, width // 3)), width, style)
    return out


def _short_name(name: str, most: int) -> str:
    name = safe(name.replace("\\", "/").rpartition("/")[2])
    return name if columns(name) <= most else "..." + name[-(most - 3):]


def _one_place(marks: list, lines: Lines, number: int, name: str, width: int, style) -> list[str]:
    line, line_start = lines.line(number), lines.starts[number - 1]
    place = f"  {name}:{number}{GAP}"
    room = max(width - columns(place), NARROWEST // 2)
    start, end = _window(line, [mark[0].start - line_start for mark in marks], room)
    before, after = ("..." if start else ""), ("..." if end < len(line) else "")
    out = [place + before + safe(line[start:end]) + after]
    margin, row, cursor = " " * columns(place), "", 0

    def close():
        nonlocal row, cursor
        if row.strip():
            out.append(margin + row.rstrip())
        row, cursor = "", 0

    for span, said, sign in sorted(marks, key=lambda mark: mark[0].start):
        low = min(max(span.start - line_start, start), end)
        high = min(max(span.end - line_start, low + 1), max(end, low + 1))
        column = len(before) + columns(safe(line[start:low]))
        length = max(columns(safe(line[low:high])), 1)
        said = safe(said) + _reach(span, lines, number, said)
        if row and column < cursor + 2:
            close()
        row += " " * (column - cursor) + style("mark", sign * length)
        cursor = column + length
        if said and cursor + 1 + columns(said) <= room:
            row += f" {said}"
            cursor += 1 + columns(said)
        elif said:
            close()
            out += [margin + part for part in fold(said, room, "  ", "  ")]
    close()
    return out


def _reach(span: Span, lines: Lines, number: int, said: str) -> str:
    last = lines.place(max(span.start, span.end - 1))[0]
    return (f"{' ' if said else ''}(to line {last})") if last > number else ""


def _window(line: str, starts: list[int], room: int) -> tuple[int, int]:
    """Part of a long line that fits: all of it, or one that shows where the first mark begins."""
    if len(line) <= 2 * room and columns(safe(line)) <= room:
        return 0, len(line)
    first = min(max(min(starts), 0), len(line))
    start = max(0, min(first - room // 4, len(line) - room + 6))
    if start < 4:
        start = 0
    fits, taken = start, 6
    while fits < len(line) and taken < room:
        taken += columns(_safe_letter(line[fits]))
        fits += taken <= room
    return start, fits


# ---------------------------------------------------------------- the sum

def _table(rows: tuple[tuple[str, ...], ...], width: int) -> list[str]:
    """The sum as a table; one cell a line where the table is wider than the terminal."""
    cells = [[safe(str(cell)) for cell in row] for row in rows]
    count = max(map(len, cells))
    cells = [row + [""] * (count - len(row)) for row in cells]
    widths = [max(columns(row[place]) for row in cells) for place in range(count)]
    right = [_mostly_numbers([row[place] for row in cells[1:]]) for place in range(count)]
    for gap in (3, 2, 1):
        if sum(widths) + gap * (count - 1) + 2 <= width:
            return [_table_row(row, widths, right, gap) for row in cells]
    out = []
    for row in cells[1:]:
        said = ", ".join(f"{head} {cell}" for head, cell in zip(cells[0], row, strict=True) if cell and head)
        marks = " ".join(cell for head, cell in zip(cells[0], row, strict=True) if cell and not head)
        out += _hanging(f"{said} {marks}".strip(), width)
    return out


def _table_row(row: list[str], widths: list[int], right: list[bool], gap: int) -> str:
    parts = []
    for cell, width, to_right in zip(row, widths, right, strict=True):
        space = " " * (width - columns(cell))
        parts.append(space + cell if to_right else cell + space)
    return ("  " + (" " * gap).join(parts)).rstrip()


def _mostly_numbers(cells: list[str]) -> bool:
    filled = [cell for cell in cells if cell]
    return bool(filled) and all(len(cell) <= 5 and cell not in ("<-",) or cell.replace(",", "").isdigit() for cell in filled)


def _expected_and_found(finding: Finding, width: int) -> list[str]:
    if finding.expected is None or finding.found is None or not finding.whose:
        return []
    return _hanging(f"expected {amount(finding.expected)} ({finding.whose}), found {amount(finding.found)}", width)


def amount(value) -> str:
    """A number, a list a size (in the trade's way) or a table of kinds, in words.

    >>> amount((20, 24, None)), amount({"sc": 12, "ch": 2})
    ('20 (24, -)', '12 sc, 2 ch')
    """
    if isinstance(value, dict):
        return ", ".join(f"{amount(number)} {kind}" for kind, number in value.items())
    if isinstance(value, tuple | list):
        words = ["-" if part is None else str(part) for part in value]
        return words[0] if len(words) == 1 else f"{words[0]} ({', '.join(words[1:])})" if words else "none"
    return str(value)
