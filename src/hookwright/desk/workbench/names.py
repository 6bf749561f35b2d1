"""What a manuscript may be called, and where it then lies: always directly in her folder, whatever the name says."""

import re
import unicodedata
from pathlib import Path

from .strings import t
from .told import Told

ENDING = ".md"
MOST_LETTERS = 100
MOST_BYTES = 200  # with its ending and the mark of a file half written, within the 255 that file systems allow
_NEVER = re.compile(r'[\\/:*?"<>|\x00-\x1f\x7f]')
_DEVICES = frozenset("con prn aux nul com1 com2 com3 com4 com5 com6 com7 com8 com9 lpt1 lpt2 lpt3 lpt4 lpt5 lpt6 lpt7 lpt8 lpt9".split())


def good_name(name) -> str:
    """The name as it is kept; Told for one that no file may have.

    >>> good_name("  Harbour   Hat ")
    'Harbour Hat'
    """
    words = " ".join(unicodedata.normalize("NFC", name).split()) if isinstance(name, str) else ""
    if not words:
        raise Told(400, "name-empty", t("name-empty"))
    if len(words) > MOST_LETTERS or len(words.encode("utf-8", "surrogatepass")) > MOST_BYTES:
        raise Told(400, "name-too-long", t("name-too-long", most=MOST_LETTERS))
    odd = any(unicodedata.category(letter) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp") for letter in words)
    if odd or _NEVER.search(words) or words.startswith(".") or words.endswith(".") or words.casefold().partition(".")[0] in _DEVICES:
        raise Told(400, "name-not-good", t("name-not-good"))
    return words


def place_of(folder: Path, name) -> Path:
    """The path of the manuscript of that name; Told where it would lie outside the folder, as behind a link that leads away."""
    path = folder / (good_name(name) + ENDING)
    home = folder.resolve()
    if path.parent.resolve() != home or path.is_symlink() and path.resolve().parent != home:
        raise Told(403, "outside", t("outside-folder"))
    return path


def name_from(title: str) -> str:
    """A name for the file of a manuscript with this title.

    >>> name_from("Tide/Pool: a Hat?")
    'Tide Pool a Hat'
    """
    letters = "".join(" " if _NEVER.match(letter) or unicodedata.category(letter)[0] == "C" else letter for letter in unicodedata.normalize("NFC", title))
    words = " ".join(letters.split()).strip(". ")[:60].strip(". ")
    try:
        return good_name(words)
    except Told:
        return t("untitled")


def free_name(folder: Path, wanted: str) -> str:
    """The name wanted, or that name with the first number that is free: nothing there is ever written over."""
    taken = {path.stem.casefold() for path in folder.glob("*" + ENDING)}
    name, number = wanted, 2
    while name.casefold() in taken:
        name, number = f"{wanted} {number}", number + 1
    return name
