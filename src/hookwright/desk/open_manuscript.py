"""Opens a manuscript: a path or standard input to text, or a finding that says in words why not."""

import sys
from dataclasses import dataclass
from pathlib import Path

from hookwright.ground import LOOK, MUST_MEND, Finding

LIMIT_BYTES = 10_000_000

# Kinds this room can report, with the page that `explain` shows. A check's page stands in its own docstring.
PAGES = {
    "file-missing": """There is no file of that name.

    Nothing was read. Look at the spelling and at the folder you are in; a name with spaces needs quotation marks round it.""",
    "file-is-folder": """A folder was named where a manuscript is wanted.

    A manuscript is one text file. Name the file in the folder, or several of them one after the other.""",
    "file-not-opened": """The file is there but could not be opened.

    Another program may hold it, or it may belong to somebody else. The message gives the reason the system gave.""",
    "file-too-long": """The file is longer than 10 MB.

    A manuscript of 10 MB would be some 150,000 rows; such a file is nearly always something else (a picture, a book of
    patterns in one). Put one pattern in one file.""",
    "file-not-text": """The file holds something other than plain text.

    Word processor documents, PDF files and pictures can't be read. Save or copy the manuscript as plain text (UTF-8):
    every writing program can do that.""",
    "file-in-old-letters": """The file is not in UTF-8, so its letters were taken as Windows western European.

    The rows are read as usual, but signs such as `×`, `½` or curly quotation marks may have turned into others.
    Save the file as UTF-8 to be sure.""",
}

OTHER_FORMATS = (
    (b"%PDF", "a PDF file"),
    (b"PK\x03\x04", "a word processor document or a zip archive"),
    (b"\xd0\xcf\x11\xe0", "an old word processor document"),
    (b"{\\rtf", "a rich text document"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
)
BYTE_ORDER_MARKS = (
    (b"\xef\xbb\xbf", "utf-8-sig"),
    (b"\xff\xfe\x00\x00", "utf-32"),
    (b"\x00\x00\xfe\xff", "utf-32"),
    (b"\xff\xfe", "utf-16"),
    (b"\xfe\xff", "utf-16"),
)


@dataclass(frozen=True, slots=True)
class Opened:
    """What was opened. text is None where nothing could be read; then the last finding says why."""

    name: str
    text: str | None
    findings: tuple[Finding, ...] = ()


def open_manuscript(path: str) -> Opened:
    """Text of the manuscript at `path` ("-" is standard input), line ends as "\\n".

    Findings: the kinds in PAGES.
    """
    if path == "-":
        name, (data, reason) = "standard input", (sys.stdin.buffer.read(LIMIT_BYTES + 1), None)
    else:
        name, (data, reason) = path, _bytes_of(path)
    if reason is None:
        text, reason = _text_of(name, data)
    else:
        text = None
    return Opened(name, text, (reason,) if reason else ())


def _finding(kind: str, message: str, grade: str = MUST_MEND) -> Finding:
    return Finding(kind, grade, message)


def _bytes_of(path: str) -> tuple[bytes, Finding | None]:
    file = Path(path)
    try:
        if file.is_dir():
            return b"", _finding("file-is-folder", f"`{path}` is a folder; name the manuscript in it{_in(file)}")
        if not file.exists():
            return b"", _finding("file-missing", f"there is no file `{path}`{_near(file)}")
        if not file.is_file():
            return b"", _finding("file-not-opened", f"`{path}` is not a file that holds text")
        with file.open("rb") as stream:
            return stream.read(LIMIT_BYTES + 1), None
    except (OSError, ValueError) as refused:
        reason = getattr(refused, "strerror", None) or str(refused)
        return b"", _finding("file-not-opened", f"`{path}` could not be opened: {reason}")


def _in(folder: Path) -> str:
    """A manuscript or two of the folder, so that the name can be copied."""
    try:
        names = sorted(str(file) for file in folder.iterdir() if file.suffix in (".md", ".txt") and file.stem != "README")
    except OSError:
        return ""
    return f", such as {' or '.join(f'`{name}`' for name in names[:2])}" if names else ""


def _near(file: Path) -> str:
    from difflib import get_close_matches

    try:
        names = [other.name for other in file.parent.iterdir() if other.is_file()]
    except OSError:
        return ""
    near = get_close_matches(file.name, names, n=1, cutoff=0.6)
    return f"; did you mean `{file.parent / near[0]}`?" if near else ""


def _text_of(name: str, data: bytes) -> tuple[str | None, Finding | None]:
    if len(data) > LIMIT_BYTES:
        return None, _finding("file-too-long", f"`{name}` is longer than 10 MB; a manuscript is one pattern in one file of text")
    for start, what in OTHER_FORMATS:
        if data.startswith(start):
            return None, _finding("file-not-text", f"`{name}` is {what}; save the manuscript as plain text and name that file")
    encoding = next((code for mark, code in BYTE_ORDER_MARKS if data.startswith(mark)), None) or _without_mark(data)
    said = None
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError as lost:
        if encoding != "utf-8" or b"\0" in data:
            return None, _not_text(name)
        text = data.decode("cp1252", errors="replace")
        line = data.count(b"\n", 0, lost.start) + 1
        said = _finding(
            "file-in-old-letters",
            f"`{name}` is not in UTF-8 (line {line}); its letters were taken as Windows western European: save it as UTF-8 to be sure",
            LOOK,
        )
    if _unlike_text(text):
        return None, _not_text(name)
    return text.replace("\r\n", "\n").replace("\r", "\n"), said


def _without_mark(data: bytes) -> str:
    """The encoding of text without a byte order mark: two bytes a letter show in the noughts between plain ones, else UTF-8."""
    start = data[:400]
    for first, code in ((1, "utf-16-le"), (0, "utf-16-be")):
        halves = start[first::2], start[1 - first :: 2]
        if len(start) > 8 and halves[0].count(0) * 10 > len(halves[0]) * 9 and 0 not in halves[1]:
            return code
    return "utf-8"


def _not_text(name: str) -> Finding:
    return _finding("file-not-text", f"`{name}` does not hold plain text; save the manuscript as text (UTF-8) and name that file")


def _unlike_text(text: str) -> bool:
    start = text[:20_000]
    controls = sum(letter < " " and letter not in "\n\r\t\f\v" for letter in start)
    return "\0" in start or controls * 20 > len(start)
