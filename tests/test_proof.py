"""Every kind of finding: found where it is, and nowhere else. Manuscripts stand in tests/manuscripts/proof and in the pages themselves.

In a manuscript `<-- must mend M` at the end of a line says: a finding of the file's kind and this grade stands on this line, for size M
(all sizes where none is named). `<-- look` and `<-- note` are the other grades. A word after the grade that is a kind names another kind.
"""

import re
from pathlib import Path

import pytest

import hookwright
from hookwright.proof import CHECKS, PAGES, page

FOLDER = Path(__file__).parent / "manuscripts" / "proof"
GRADES = {"must mend": "must mend", "look": "look at this", "note": "for your information"}
ARROW = re.compile(r"[ \t]*<-- (must mend|look|note)(?: ([\w, -]+))?$", re.M)
BLOCK = re.compile(r"^```manuscript(?: ([^\n]*))?\n(.*?)^```$", re.M | re.S)


def blocks():
    """(kind, number of the block, what the info string says, text) of every manuscript in the folder."""
    for path in sorted(FOLDER.glob("*.md")):
        for number, found in enumerate(BLOCK.finditer(path.read_text("utf-8")), 1):
            said = dict(re.findall(r"(\w+)=(\"[^\"]*\"|\S+)", found[1] or ""))
            yield path.stem, number, {key: value.strip('"') for key, value in said.items()}, found[2]


def expected(text: str):
    """The text without arrows, and {line: (grade, sizes or ())}."""
    wanted = {}
    for number, line in enumerate(text.splitlines(), 1):
        arrow = ARROW.search(line)
        if arrow:
            wanted[number] = (GRADES[arrow[1]], tuple(part.strip() for part in (arrow[2] or "").split(",") if part.strip()))
    return ARROW.sub("", text), wanted


def proved(text: str, said: dict) -> list[dict]:
    sizes = said["sizes"].split(",") if "sizes" in said else None
    return hookwright.check(text, terms=said.get("terms"), below=said.get("below"), sizes=sizes).as_dict()["findings"]


CASES = list(blocks())


@pytest.mark.parametrize(("kind", "number", "said", "text"), CASES, ids=[f"{kind}-{number}" for kind, number, _, _ in CASES])
def test_found_beside_the_line_and_nowhere_else(kind, number, said, text):
    """The kind is found on the lines that say so, with grade and sizes, and on no other; nothing else must be mended."""
    plain, wanted = expected(text)
    findings = proved(plain, said)
    here = {finding["line"]: (finding["grade"], tuple(finding["sizes"])) for finding in findings if finding["kind"] == kind}
    assert set(here) == set(wanted), [f"{f['line']} {f['grade']} [{f['kind']}] {f['message']}" for f in findings]
    for line, (grade, sizes) in wanted.items():
        assert here[line][0] == grade
        assert not sizes or here[line][1] == sizes
    assert [finding["message"] for finding in findings if finding["grade"] == "must mend" and finding["line"] not in wanted] == []


# What the sheet says is made by the program: no manuscript is meant to have this finding, so its page shows none.
WITHOUT_EXAMPLE = {"written-reads-otherwise"}
SHOWN = [kind for kind in CHECKS if kind not in WITHOUT_EXAMPLE]


def example(text: str, title: str) -> str:
    """The indented manuscript after "With it::" or "Without it::" of a page."""
    found = re.search(rf"^{title}::\n\n((?:    .*\n|\n)+)", text, re.M)
    return re.sub(r"^    ", "", found[1], flags=re.M).strip("\n") + "\n" if found else ""


@pytest.mark.parametrize("kind", SHOWN)
def test_a_page_shows_what_it_speaks_of(kind):
    """The row that a page gives as an example has the finding, the same row mended has not, and nothing in it must be mended."""
    text = page(kind)
    assert kind in [finding["kind"] for finding in proved(example(text, "With it"), {})]
    without = proved(example(text, "Without it"), {})
    assert kind not in [finding["kind"] for finding in without]
    assert [finding["message"] for finding in without if finding["grade"] == "must mend"] == []


@pytest.mark.parametrize("kind", SHOWN)
def test_a_page_is_whole(kind):
    """What it means, an example with and without, the sum, what to do; no blame, and never the words of a machine."""
    text = page(kind)
    for part in ("With it::", "Without it::", "Working::", "What to do: "):
        assert part in text
    assert text.split("\n\n")[0].endswith(".")
    assert not re.search(r"\b(?:invalid|error|parse|exception|illegal|wrong(?! side|ly)|mistake)\b", text.partition("With it::")[0], re.I)


def test_each_check_has_manuscripts_of_its_own():
    """Every kind of the table has a file of manuscripts, every file a kind; all file names follow the kinds."""
    assert {kind for kind, _, _, _ in CASES} == set(CHECKS)
    for kind, module in CHECKS.items():
        assert module.__name__.rpartition(".")[2].replace("_", "-") == kind
        assert module.KIND == kind


def test_every_kind_that_is_reported_has_a_page():
    """Wherever in the package a finding is made, its kind has a page to explain it."""
    source = Path(hookwright.__file__).parent
    kinds = set()
    for path in source.rglob("*.py"):
        if "desk" not in path.parts:
            kinds |= set(re.findall(r"Finding\(\s*\"([a-z-]+)\"", path.read_text("utf-8")))
    assert kinds - set(PAGES) == set()


def test_a_silence_holds_for_its_rows_alone_and_keeps_its_reason():
    """Rows off for the same reason as a silenced one stay where the silence does not name them."""
    head = "---\nterms: US\nsilence:\n  - {kind: count-differs, rows: [Row 2], because: the edge is mine}\n---\n"
    rows = "Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (11 sc)\n" + "".join(
        f"Row {number}: Ch 1, sc in each st across, turn. (12 sc)\n" for number in (2, 3))
    values = hookwright.check(head + rows).as_dict()
    assert [(f["row"], f["grade"]) for f in values["findings"] if f["kind"] == "count-differs"] == [("Row 3", "must mend")]
    assert [(f["row"], f["because"]) for f in values["silenced"]] == [("Row 2", "the edge is mine")]
    both = hookwright.check(head.replace("[Row 2]", "[Row 2, Row 3]") + rows)
    assert not [finding for finding in both.findings if finding.kind == "count-differs"]


def test_the_sum_of_a_range_that_ends_elsewhere_in_each_size():
    """Rounds 2-3 (4) of 6 more each are 18 (24), not 20 (26): the table has the last round of each size, not the same round in all."""
    report = hookwright.check("---\nterms: US\nsizes: [S, L]\n---\n\n## Base\n\nRnd 1: 6 sc in a magic ring. (6)\n\nRnds 2-3 (4): Inc 6 sts evenly around. (20 (26) sts)\n")
    off = next(finding for finding in report.findings if finding.kind == "count-differs")
    assert off.working == (("size", "there are", "worked", "stated", ""), ("S", "12", "18", "20", "<-"), ("L", "18", "24", "26", "<-"))
