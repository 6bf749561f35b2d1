"""The commands: what they print, where they write, how they end. The reading and proving behind them are stood in for."""

import csv
import io
import json
from dataclasses import dataclass, field
from pathlib import Path
from types import SimpleNamespace

import pytest
from click.testing import CliRunner

import hookwright.pipeline
import hookwright.writing
from hookwright.desk.main import main
from hookwright.ground import LOOK, MUST_MEND, Finding, Span

TEXT = "Row 1: 3 sc. (4)\n"


@dataclass
class StandIn:
    """A report as the pipeline gives it, with one row and as many findings as asked for."""

    text: str = TEXT
    findings: list = field(default_factory=list)
    sizes: tuple = ("S", "M")
    numbers: tuple = ()

    def as_dict(self):
        counts = {size: {"stitches": 30 + place, "by_kind": {"sc": 30 + place}, "spaces": [], "unworked": 0}
                  for place, size in enumerate(self.sizes)}
        rows = [
            {"label": "Row 1", "piece": "Cuff", "line": 1, "sizes": counts},
            {"label": "Row 2", "piece": "Cuff", "line": 2, "sizes": {self.sizes[0]: counts[self.sizes[0]]}},
            {"label": "Row 1", "piece": "=Thumb", "line": 5, "sizes": counts},
        ]
        found = [{"kind": finding.kind, "grade": finding.grade} for finding in self.findings]
        return {"terms": "US", "sizes": list(self.sizes), "rows": rows, "numbers": {}, "multiples": [], "findings": found, "assumed": [], "proved": {}}


MEND = Finding("count-differs", MUST_MEND, "Row 1 has 3 stitches, not 4", Span(0, 5), "Row 1")
LOOKING = Finding("some-thing", LOOK, "Row 1 may be read in two ways", Span(0, 5), "Row 1")


@pytest.fixture
def desk(monkeypatch, tmp_path):
    """Runs a command in an empty folder with the pipeline stood in for; `desk.findings` are what it will find."""

    class Running:
        findings = []
        asked = []
        changes = ()
        pictured = []

        def __call__(self, *words, stdin=None):
            return CliRunner().invoke(main, list(words), input=stdin)

    running = Running()
    running.pictured = []

    def check(text, **asked):
        running.asked.append(asked)
        return StandIn(text, running.findings)

    def sheet(report, terms, *, photos=None):
        return SimpleNamespace(terms=terms, changes=running.changes, photos=photos)

    def pictures(report, terms, *, which, drawn, progress):
        running.pictured.append((terms, which))
        return {}

    def written(document, to, *, paper, large_print=False):
        return f"{to} {document.terms} {paper}".encode(), ()

    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(hookwright, "check", check, raising=False)
    monkeypatch.setattr(hookwright.pipeline, "sheet", sheet)
    monkeypatch.setattr(hookwright.pipeline, "pictures_for_sheet", pictures)
    monkeypatch.setattr(hookwright.writing, "written", written)
    Path("hat.md").write_text(TEXT)
    return running


@pytest.mark.parametrize(("findings", "code"), [([], 0), ([LOOKING], 0), ([LOOKING, MEND], 1)])
def test_check_ends_as_the_gravest_finding_says(desk, findings, code):
    """0 for a clean manuscript and for lesser grades, 1 where something must be mended."""
    desk.findings = findings
    done = desk("check", "hat.md")
    assert done.exit_code == code
    assert ("1 thing must be mended" in done.stdout) == bool(code)


def test_check_ends_with_2_where_a_file_is_missing_and_still_proves_the_others(desk):
    """One bad name does not stop the rest."""
    desk.findings = [MEND]
    done = desk("check", "nothing.md", "hat.md")
    assert done.exit_code == 2
    assert "file-missing" in done.stdout and "count-differs" in done.stdout


def test_check_passes_on_what_is_told(desk):
    """Terms, the row below, rounds and sizes reach the pipeline; standard input is read."""
    done = desk("check", "-", "--terms", "UK", "--below", "20 dc", "--in-round", "--sizes", "S, M ,L", stdin="3 sc")
    assert done.exit_code == 0
    assert desk.asked == [{"terms": "UK", "below": "20 dc", "in_round": True, "sizes": ("S", "M", "L")}]


def test_json_of_one_file_is_an_object_and_of_several_a_list(desk):
    """One object as the library gives it; for several files each with its name; a missing file has a finding."""
    assert json.loads(desk("check", "hat.md", "--json").stdout)["sizes"] == ["S", "M"]
    several = json.loads(desk("check", "hat.md", "nothing.md", "--json").stdout)
    assert [values["file"] for values in several] == ["hat.md", "nothing.md"]
    assert several[1]["findings"][0]["kind"] == "file-missing"


def test_short_is_one_line_a_finding(desk):
    """Line and column stand in front, as editors follow them."""
    desk.findings = [MEND]
    assert "hat.md:1:1: must mend [count-differs]: Row 1 has 3 stitches, not 4\n" in desk("check", "hat.md", "--short").stdout


def test_control_characters_are_not_printed_raw(desk):
    """Whether from the manuscript, a message or the name of the file."""
    desk.findings = [MEND.but(message="Row 1 says `\x1b[31m`")]
    Path("a\x1bb.md").write_text("Row 1: \x1b[2J\n")
    for extra in ([], ["--json"], ["--short"]):
        assert "\x1b" not in desk("check", "a\x1bb.md", *extra).stdout
    assert "\x1b" not in desk("check", "no\x1b.md").stdout
    assert "\x1b" not in desk("explain", "no\x1b").output
    assert "\x1b" not in desk("check", "--terms", "\x1b", "hat.md").output


def test_count_is_a_table_of_row_by_size(desk):
    """A heading a piece, a column a size, a dash where a size does not work the row."""
    assert desk("count", "hat.md").stdout == (
        "Cuff\nrow      S    M\nRow 1   30   31\nRow 2   30    -\n\n=Thumb\nrow      S    M\nRow 1   30   31\n"
    )


def test_count_for_spreadsheets_and_programs(desk):
    """The same numbers as CSV, where no cell is taken for a formula, and as JSON."""
    table = list(csv.reader(io.StringIO(desk("count", "hat.md", "--csv").stdout)))
    assert table[0] == ["piece", "row", "line", "S", "M"] and table[2] == ["Cuff", "Row 2", "2", "30", ""]
    assert table[3][0] == "'=Thumb"
    values = json.loads(desk("count", "hat.md", "--json").stdout)
    assert values["rows"][1]["stitches"] == {"S": 30, "M": None}


def test_write_draws_pictures_only_where_they_are_shown(desk):
    """HTML and PDF show the pieces in their yarn; plain text does not, and --pictures none leaves them out."""
    desk("write", "hat.md", "--terms", "us", "--terms", "uk", "--to", "pdf", "--to", "txt", "--pictures", "first")
    assert desk.pictured == [("US", "first"), ("UK", "first")]
    desk("write", "hat.md", "--to", "txt")
    desk("write", "hat.md", "--to", "html", "--pictures", "none")
    assert len(desk.pictured) == 2


def test_write_says_what_it_wrote_where(desk):
    """Each sheet is named after the manuscript and its terms, beside it."""
    done = desk("write", "hat.md", "--terms", "us", "--terms", "uk", "--to", "html", "--to", "txt", "--paper", "letter")
    assert done.exit_code == 0
    names = ["hat.uk.html", "hat.uk.txt", "hat.us.html", "hat.us.txt"]
    assert sorted(path.name for path in Path().glob("hat.*.*")) == names
    assert all(f"written {name}" in done.stdout for name in names)
    assert Path("hat.uk.txt").read_bytes() == b"txt UK letter"


def test_write_into_a_folder_or_to_a_name(desk):
    """--out takes a folder, made where it is not there, or a file for a single sheet."""
    assert desk("write", "hat.md", "--out", "new/").exit_code == 0
    assert Path("new/hat.us.html").read_bytes() == b"html US a4"
    assert desk("write", "hat.md", "--out", "new/sheet.html").exit_code == 0
    assert Path("new/sheet.html").exists()
    done = desk("write", "hat.md", "--to", "pdf", "--to", "md", "--out", "one.pdf")
    assert done.exit_code == 2 and "2 sheets" in done.output


def test_write_takes_nothing_away(desk):
    """A file of hers stays, and the command says so and ends with 2; --replace writes over it."""
    Path("hat.us.html").write_text("hers")
    done = desk("write", "hat.md")
    assert done.exit_code == 2 and "left as it is" in done.stderr
    assert Path("hat.us.html").read_text() == "hers"
    assert desk("write", "hat.md", "--replace").exit_code == 0
    assert Path("hat.us.html").read_text() == "html US a4"
    assert "unchanged hat.us.html" in desk("write", "hat.md").stdout


def test_write_never_writes_over_the_manuscript(desk):
    """Not even with --replace."""
    done = desk("write", "hat.md", "--to", "md", "--out", "hat.md", "--replace")
    assert done.exit_code == 2 and Path("hat.md").read_text() == TEXT


def test_write_of_a_manuscript_with_a_fault_is_written_and_said(desk):
    """The sheet is written, and the command ends with 1."""
    desk.findings = [MEND]
    done = desk("write", "hat.md")
    assert done.exit_code == 1
    assert Path("hat.us.html").exists() and "1 thing must be mended" in done.stderr


def test_write_tells_what_it_changed_in_prose(desk):
    """Words that became others in the terms written, once a dialect, for her to look over."""
    desk.changes = (SimpleNamespace(part="Notes", was="gauge", now="tension", times=2),)
    done = desk("write", "hat.md", "--terms", "uk", "--to", "html", "--to", "txt")
    assert done.exit_code == 0
    assert done.stderr.count("Notes: `gauge` became `tension` (2 times)") == 1


def test_demo_writes_six_sheets_of_each_manuscript(desk):
    """US and UK, HTML, PDF and text, and the path at the end."""
    done = desk("demo", ".", "--into", "sheets")
    assert done.exit_code == 0
    assert len(list(Path("sheets").glob("hat.*.*"))) == 6
    assert str(Path("sheets").resolve()) in done.stdout


def test_demo_of_an_empty_folder_says_so(desk):
    """A folder without manuscripts ends with 2."""
    Path("empty").mkdir()
    assert desk("demo", "empty").exit_code == 2


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["chek"], "Did you mean `check`?"),
        (["check"], "FILE... is missing"),
        (["check", "hat.md", "--jsn"], "Did you mean `--json`?"),
        (["write", "hat.md", "--to", "htlm"], "Did you mean `html`?"),
        (["check", "hat.md", "--sizes", " , "], "no size is named"),
        (["check", "hat.md", "--sizes", "S,S"], "`S` is named twice"),
    ],
)
def test_what_is_not_made_out_is_said_in_words(desk, words, said):
    """A nearest word, no traceback, no blame, and an ending of 2."""
    done = desk(*words)
    assert done.exit_code == 2 and said in done.output
    assert not any(word in done.output.lower() for word in ("error", "invalid", "traceback"))


def test_a_fault_of_ours_is_owned(desk, monkeypatch):
    """It ends with 3, names its place in Hookwright and says that the manuscript is not to blame."""

    def slip(*_, **__):
        raise ZeroDivisionError("by \x1b zero")

    monkeypatch.setattr(hookwright, "check", slip)
    done = desk("check", "hat.md")
    assert done.exit_code == 3
    assert "not to blame" in done.stderr and "desk/commands/check.py" in done.stderr and "\x1b" not in done.stderr


def test_a_fault_of_ours_on_one_file_does_not_stop_the_others(desk, monkeypatch):
    """The others are proved, and the command ends with 3."""
    Path("scarf.md").write_text("Row 1: slip")
    check = hookwright.check

    def slip(text, **asked):
        return check(text, **asked) if "slip" not in text else 1 // 0

    monkeypatch.setattr(hookwright, "check", slip)
    done = desk("check", "scarf.md", "hat.md")
    assert done.exit_code == 3
    assert done.stderr.startswith("scarf.md: Hookwright itself slipped") and "hat.md: nothing must be mended" in done.stdout
    done = desk("demo", ".", "--into", "sheets")
    assert done.exit_code == 3 and Path("sheets/hat.us.pdf").exists()


def test_help_names_every_command(desk):
    """All but the one behind `make demo`."""
    done = desk("--help")
    assert done.exit_code == 0
    assert [name for name in ("check", "count", "write", "explain", "demo") if f"  {name} " in done.stdout] == [
        "check", "count", "write", "explain",
    ]


def test_help_of_every_command(desk):
    """Each says how it ends or what it takes."""
    for name in ("check", "count", "write", "explain"):
        assert f"Usage: hookwright {name}" in desk(name, "--help").stdout


def test_the_command_alone_shows_its_help():
    """Line by line, as `--help` does, and as nothing that went wrong."""
    alone, asked = CliRunner().invoke(main, [], prog_name="hookwright"), CliRunner().invoke(main, ["--help"], prog_name="hookwright")
    assert alone.exit_code == 0 and alone.output == asked.output


def test_a_part_of_a_kind_shows_the_kinds_that_have_it():
    """`explain count` is no near miss of a kind, and names those with the word."""
    told = CliRunner().invoke(main, ["explain", "count"], prog_name="hookwright")
    assert told.exit_code == 2 and "`count-differs`" in told.output
