"""The text of a manuscript as a file holds it: its line ends and mark at the beginning stay as she has them."""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from hookwright.desk.open_manuscript import open_manuscript

from .strings import t
from .told import Told
from .whole_file import write_whole

MOST_BYTES = 1_000_000
_MARK = b"\xef\xbb\xbf"


@dataclass(frozen=True, slots=True)
class Kept:
    """text with "\\n" at the ends of lines; version: its digest; changed: seconds since 1970."""

    text: str
    version: str
    changed: float


def version_of(text: str) -> str:
    """Texts that are the same have the same version, whoever wrote them and whenever."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:24]


def good_text(text) -> str:
    """Text as it may be kept, ends of lines as "\\n"; Told for what is none or is too long."""
    if not isinstance(text, str):
        raise Told(400, "not-asked-well", t("not-asked-well"))
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    try:
        size = len(text.encode("utf-8"))
    except UnicodeEncodeError:
        raise Told(400, "text-odd", t("text-odd")) from None
    if size > MOST_BYTES:
        raise Told(413, "text-too-long", t("text-too-long", most=MOST_BYTES // 1000))
    if "\0" in text:
        raise Told(400, "text-odd", t("text-odd"))
    return text


def read_text(path: Path) -> Kept:
    """What the file holds; Told where it is missing or no manuscript."""
    try:
        fact = path.stat()
    except (OSError, ValueError):
        raise Told(404, "not-found", t("not-found", name=path.stem)) from None
    if fact.st_size > MOST_BYTES:
        raise Told(413, "file-too-long", t("file-too-long", most=MOST_BYTES // 1000))
    opened = open_manuscript(str(path))
    if opened.text is None:
        raise Told(422, "file-not-text", opened.findings[0].message if opened.findings else t("file-not-text"))
    return Kept(opened.text, version_of(opened.text), fact.st_mtime)


def write_text(path: Path, text: str) -> Kept:
    """Puts the text there, with the line ends and the mark of the file that was there."""
    data = text.encode("utf-8")
    try:
        with path.open("rb") as stream:
            before = stream.read(65536)
    except OSError:
        before = b""
    if b"\r\n" in before:
        data = data.replace(b"\n", b"\r\n")
    if before.startswith(_MARK) and not data.startswith(_MARK):
        data = _MARK + data
    try:
        write_whole(path, data)
        return Kept(text, version_of(text), path.stat().st_mtime)
    except OSError as refused:
        raise Told(507, "file-not-written", t("file-not-written", reason=refused.strerror or str(refused))) from None
