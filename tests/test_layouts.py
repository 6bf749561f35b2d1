"""The same pattern laid out in other ways gives the same rows: headings, lists, line ends, labels, rows that run on."""

import re
from pathlib import Path

import pytest

from hookwright.notation.tree import Row
from hookwright.pipeline.sized import read_sized

EXAMPLES = sorted(path for path in (Path(__file__).parent.parent / "examples").glob("*.md") if path.name != "README.md")
_HEAD = re.compile(r"\A---\n.*?\n---\n", re.S)
_LABEL = re.compile(r"^(\*\*)?(Row|Rnd|Round) (\d+)((?: \([^)]*\))?):(\*\*)? ", re.M)


def _body(change):
    """A layout that changes the body and leaves the head."""

    def layout(text: str) -> str:
        head = _HEAD.match(text)
        start = head.end() if head else 0
        return text[:start] + change(text[start:])

    return layout


def _ordinal(number: str) -> str:
    end = "th" if number[-2:] in ("11", "12", "13") else {"1": "st", "2": "nd", "3": "rd"}.get(number[-1], "th")
    return number + end


def _wrapped(body: str) -> str:
    """Lines of rows broken after every eighth word."""
    lines = []
    for line in body.split("\n"):
        words = line.split(" ")
        if len(words) < 9 or line.startswith(("#", "|", ">", "-", " ")) or not re.match(r"\*{0,2}(?:Row|Rnd|Round)", line):
            lines.append(line)
            continue
        lines.extend(" ".join(words[at : at + 8]) for at in range(0, len(words), 8))
    return "\n".join(lines)


LAYOUTS = {
    "line ends of another system": lambda text: text.replace("\n", "\r\n"),
    "headings without marks": _body(lambda body: re.sub(r"^#+ (.*)$", lambda found: found[1].upper(), body, flags=re.M)),
    "rows in a list": _body(lambda body: re.sub(r"^(\*{0,2}(?:Row|Rnd|Round)s? \d)", r"- \1", body, flags=re.M)),
    "no bold labels": _body(lambda body: re.sub(r"\*\*([A-Z][^*\n]{0,60}:)\*\*", r"\1", body)),
    "bold labels": _body(lambda body: _LABEL.sub(lambda found: f"**{found[2]} {found[3]}{found[4]}:** ", body)),
    "ordinals": _body(lambda body: _LABEL.sub(lambda found: f"{_ordinal(found[3])} {found[2].lower()}{found[4]}: ", body)),
    "capitals and a dash": _body(lambda body: _LABEL.sub(lambda found: f"{found[2].upper()} {found[3]}{found[4]} - ", body)),
    "no space": _body(lambda body: _LABEL.sub(lambda found: f"{found[2]}{found[3]}{found[4]}: ", body)),
    "a closing bracket": _body(lambda body: _LABEL.sub(lambda found: f"{found[2]} {found[3]}{found[4]}) ", body) if ":** (" not in body else body),
    "lines wrapped": _body(_wrapped),
    "no blank lines between rows": _body(lambda body: re.sub(r"\n\n(?=\*{0,2}(?:Row|Rnd|Round)s? \d)", "\n", body)),
    "indented": _body(lambda body: re.sub(r"^(?=\*{0,2}(?:Row|Rnd|Round)s? \d)", "    ", body, flags=re.M)),
}


def rows_of(text: str) -> list:
    """What each row says, without its place and its wording."""
    pattern, _, _ = read_sized(text)
    return [(row.numbers, row.last_number, row.side, row.only, row.steps, row.again, row.stated) for _, row in pattern.rows() if isinstance(row, Row)]


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_another_layout_gives_the_same_rows(path, layout):
    """Only the look changes, so numbers, sides, sizes, steps, references and counts stay."""
    text = path.read_text("utf-8")
    assert rows_of(LAYOUTS[layout](text)) == rows_of(text)
