"""Opening manuscripts and keeping sheets: words instead of tracebacks, and nothing of hers lost."""

import io
import os

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.desk.keep_file import LIST_NAME, keep_file
from hookwright.desk.open_manuscript import LIMIT_BYTES, PAGES, open_manuscript

ROW = "Row 1: 3 sc × ½ – café\n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-32"])
def test_letters_of_every_common_encoding_are_read(tmp_path, encoding):
    """UTF-8 with or without its mark, and UTF-16 and UTF-32 with theirs, need no word."""
    file = tmp_path / "m.md"
    file.write_bytes(ROW.encode(encoding))
    opened = open_manuscript(str(file))
    assert (opened.text, opened.findings) == (ROW, ())


@pytest.mark.parametrize("encoding", ["utf-16-le", "utf-16-be"])
def test_two_bytes_a_letter_are_seen_without_their_mark(tmp_path, encoding):
    """UTF-16 as some writing programs save it, without a mark at its start."""
    file = tmp_path / "m.md"
    file.write_bytes((ROW * 9).encode(encoding))
    assert open_manuscript(str(file)).text == ROW * 9


def test_a_folder_is_told_with_a_manuscript_in_it(tmp_path):
    """The name of a file in it can be copied from the words."""
    (tmp_path / "hat.md").write_text(ROW)
    assert "hat.md" in open_manuscript(str(tmp_path)).findings[0].message


def test_old_windows_letters_are_read_and_said(tmp_path):
    """A file in Windows western European is read, and the line of the first odd letter named."""
    file = tmp_path / "m.md"
    file.write_bytes(b"\n" + ROW.encode("cp1252"))
    opened = open_manuscript(str(file))
    assert opened.text == "\n" + ROW
    assert [finding.kind for finding in opened.findings] == ["file-in-old-letters"]
    assert "line 2" in opened.findings[0].message


def test_line_ends_of_all_systems_become_one(tmp_path):
    """Carriage returns do not get into the rows."""
    file = tmp_path / "m.md"
    file.write_bytes(b"a\r\nb\rc\n")
    assert open_manuscript(str(file)).text == "a\nb\nc\n"


@pytest.mark.parametrize(
    ("data", "kind", "words"),
    [
        (b"%PDF-1.7 ...", "file-not-text", "a PDF file"),
        (b"PK\x03\x04rest", "file-not-text", "word processor document"),
        (b"\x89PNG\r\n", "file-not-text", "a picture"),
        (b"ab\0cd" * 10, "file-not-text", "plain text"),
        (b"\x01\x02\x03\x04" * 50, "file-not-text", "plain text"),
        (b"\xff\xfea", "file-not-text", "plain text"),
        (b"a" * (LIMIT_BYTES + 1), "file-too-long", "10 MB"),
    ],
)
def test_what_is_no_manuscript_is_said_in_words(tmp_path, data, kind, words):
    """Other formats and outsized files give a finding and no text."""
    file = tmp_path / "m.md"
    file.write_bytes(data)
    opened = open_manuscript(str(file))
    assert opened.text is None
    assert opened.findings[-1].kind == kind and words in opened.findings[-1].message


def test_missing_files_folders_and_odd_names(tmp_path):
    """A near name is offered; folders, empty names and names with a zero byte are said in words."""
    (tmp_path / "mitten.md").write_text(ROW)
    missing = open_manuscript(str(tmp_path / "miten.md")).findings[0]
    assert missing.kind == "file-missing" and "did you mean" in missing.message and "mitten.md" in missing.message
    assert open_manuscript(str(tmp_path)).findings[0].kind == "file-is-folder"
    assert open_manuscript("a\0b").text is None
    assert open_manuscript("x" * 5000).text is None


def test_a_device_is_not_read_without_end():
    """A thing that is no file is not waited on."""
    opened = open_manuscript(os.devnull)
    assert opened.text is None or opened.text == ""


def test_standard_input_is_read(monkeypatch):
    """`-` reads what is piped in."""
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(ROW.encode())))
    opened = open_manuscript("-")
    assert (opened.name, opened.text) == ("standard input", ROW)


def test_every_kind_of_opening_has_a_page():
    """Each page starts with one sentence that stands alone."""
    assert all(page.split("\n\n")[0].strip().endswith(".") for page in PAGES.values())


def test_our_own_file_is_replaced_and_hers_is_not(tmp_path):
    """What Hookwright wrote may be written again; a file of another hand, or one changed since, stays."""
    sheet = tmp_path / "sheets" / "hat.us.txt"
    assert keep_file(sheet, b"one").done == "written"
    assert keep_file(sheet, b"one").done == "unchanged"
    assert keep_file(sheet, b"two").done == "replaced"
    sheet.write_bytes(b"two, and her own words")
    kept = keep_file(sheet, b"three")
    assert kept.done == "" and "was changed since" in kept.why_not
    assert sheet.read_bytes() == b"two, and her own words"
    hers = tmp_path / "sheets" / "hers.txt"
    hers.write_bytes(b"hers")
    assert "is not a file that Hookwright made" in keep_file(hers, b"ours").why_not
    assert hers.read_bytes() == b"hers"
    assert keep_file(hers, b"ours", replace=True).done == "replaced"


def test_the_manuscript_itself_is_never_written_over(tmp_path):
    """Not even with --replace, and not by another name for it."""
    manuscript = tmp_path / "hat.md"
    manuscript.write_bytes(b"hers")
    kept = keep_file(tmp_path / "." / "hat.md", b"ours", replace=True, never=(manuscript,))
    assert kept.done == "" and manuscript.read_bytes() == b"hers"


@pytest.mark.parametrize("list_text", ["", "[]", "{", '{"files": 3}', '{"files": {"a.txt": 5}}', "[" * 100_000])
def test_a_spoilt_list_takes_nothing_away(tmp_path, list_text):
    """Where the list of our files can't be read, nothing counts as ours."""
    (tmp_path / LIST_NAME).write_text(list_text)
    (tmp_path / "a.txt").write_bytes(b"hers")
    assert keep_file(tmp_path / "a.txt", b"ours").done == ""
    assert (tmp_path / "a.txt").read_bytes() == b"hers"


def test_a_link_that_leads_nowhere_is_left(tmp_path):
    """A broken link counts as hers."""
    link = tmp_path / "a.txt"
    link.symlink_to(tmp_path / "gone")
    assert keep_file(link, b"ours").done == "" and link.is_symlink()


def test_a_folder_in_the_way_is_said(tmp_path):
    """A folder of that name, or a file where a folder must be, gives words."""
    (tmp_path / "a.txt").mkdir()
    assert "is a folder" in keep_file(tmp_path / "a.txt", b"ours").why_not
    (tmp_path / "b").write_bytes(b"")
    assert "could not be written" in keep_file(tmp_path / "b" / "a.txt", b"ours").why_not


def test_nothing_half_written_is_left(tmp_path, monkeypatch):
    """Where the disc gives up in the middle, the old file stands and no scraps lie about."""
    keep_file(tmp_path / "a.txt", b"one")

    def full_disc(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full_disc)
    assert "No space left" in keep_file(tmp_path / "a.txt", b"two").why_not
    assert (tmp_path / "a.txt").read_bytes() == b"one"
    assert sorted(path.name for path in tmp_path.iterdir()) == [LIST_NAME, "a.txt"]


@settings(max_examples=300, deadline=None)
@given(st.binary(max_size=400))
def test_any_bytes_give_text_or_words(tmp_path_factory, data):
    """Whatever the bytes: a text without carriage returns, or a finding that says why not."""
    file = tmp_path_factory.getbasetemp() / "any.md"
    file.write_bytes(data)
    opened = open_manuscript(str(file))
    assert (opened.text is None) <= bool(opened.findings)
    assert opened.text is None or "\r" not in opened.text


def test_the_command_draws_a_piece_and_leaves_other_files_alone(tmp_path):
    """It says what it wrote; what it did not make stays as it was, and a piece that is not there is named with those that are."""
    from click.testing import CliRunner

    from hookwright.desk.main import main

    def desk(*words):
        return CliRunner().invoke(main, list(map(str, words)))

    file, out = tmp_path / "cuff.md", tmp_path / "cuff.svg"
    file.write_text("## Cuff\n\nCh 4.\nRow 1: Sc in 2nd ch from hook and in each ch across. (3 sc)\n", "utf-8")
    done = desk("chart", file, "--piece", "cuff", "--out", out)
    assert done.exit_code == 0 and "written" in done.output and "Chart: Cuff" in done.output
    assert out.read_text("utf-8").startswith("<svg ") and 'mm"' in out.read_text("utf-8")[:200]
    assert desk("chart", file, "--piece", "cuff", "--out", out).output.startswith("unchanged")
    paper = tmp_path / "cuff.pdf"
    assert desk("chart", file, "--whole", "--out", paper, "--paper", "letter").exit_code == 0 and paper.read_bytes().startswith(b"%PDF")
    assert desk("chart", file, "--to", "pdf").exit_code == 0 and (tmp_path / "cuff.chart.pdf").exists()
    out.write_text("mine", "utf-8")
    assert desk("chart", file, "--out", out).exit_code == 2 and out.read_text("utf-8") == "mine"
    assert desk("chart", file, "--out", file, "--replace").exit_code == 2 and file.read_text("utf-8").startswith("## Cuff")
    missing = desk("chart", file, "--piece", "hem")
    assert missing.exit_code == 2 and "there is 'Cuff'" in missing.output


def test_the_picture_command_says_what_it_shows_and_leaves_other_files_alone(tmp_path):
    """A PNG beside the manuscript by default, a GLB where asked for, and the words of what is shown."""
    from click.testing import CliRunner

    from hookwright.desk.main import main

    def desk(*words):
        return CliRunner().invoke(main, ["picture", *map(str, words)])

    file, mesh = tmp_path / "cuff.md", tmp_path / "cuff.glb"
    file.write_text("## Cuff\n\nCh 4.\nRow 1: Sc in 2nd ch from hook and in each ch across. (3 sc)\n", "utf-8")
    done = desk(file, "--piece", "cuff", "--pixels", "64")
    assert done.exit_code == 0 and "Picture: Cuff" in done.output and "3 stitches in 1 row" in done.output
    assert (tmp_path / "cuff.cuff.png").read_bytes().startswith(b"\x89PNG")
    assert desk(file, "--to", "glb", "--out", mesh).exit_code == 0 and mesh.read_bytes().startswith(b"glTF")
    assert desk(file, "--to", "glb", "--out", mesh).output.startswith("unchanged")
    mesh.write_bytes(b"mine")
    assert desk(file, "--to", "glb", "--out", mesh).exit_code == 2 and mesh.read_bytes() == b"mine"
    assert desk(file, "--to", "gif").exit_code == 2 and desk(file, "--pixels", "9").exit_code == 2
    assert "there is 'Cuff'" in desk(file, "--piece", "hem").output
