"""Her folder: what is in it, reading and saving one manuscript, new ones, other names, and putting away with a way back.

A file may be changed by her other programs at any moment; each saving looks first at what is there now.
"""

import threading
from dataclasses import dataclass
from pathlib import Path

from .merge import merge
from .names import ENDING, free_name, good_name, name_from, place_of
from .store import State, Store
from .strings import t
from .text_file import Kept, good_text, read_text, version_of, write_text
from .told import Told
from .whole_file import sync_folder

PUT_AWAY = "archived"  # the folder within hers in which manuscripts lie that were put away


@dataclass(frozen=True, slots=True)
class Saved:
    """What is in the file now. merged: it holds changes of others besides; outside: what others had changed, None where nothing was."""

    version: str
    text: str
    merged: bool = False


class Shelf:
    """All manuscripts of a folder; its methods may be called from any thread and do their work at once."""

    def __init__(self, folder: Path, store: Store):
        self.folder, self.store = folder, store
        self._locks: dict[str, threading.RLock] = {}
        self._all = threading.Lock()
        self._untold: set[str] = set()  # changed outside, as somebody reading found, and not yet told to who has it open

    def _lock(self, name: str):
        with self._all:
            return self._locks.setdefault(name.casefold(), threading.RLock())

    # ------------------------------------------------------------ looking

    def names(self, put_away: bool = False) -> list[str]:
        """Names of the manuscripts there, in alphabetical order."""
        home, out = self.folder, []
        if put_away:
            try:
                home = self.attic()
            except Told:
                return []
        for path in sorted(home.glob("*" + ENDING), key=lambda path: path.stem.casefold()) if home.is_dir() else ():
            try:
                if path.is_file() and path.stem != "README" and place_of(home, path.stem) == path:
                    out.append(path.stem)
            except Told:
                continue
        return out

    def attic(self) -> Path:
        """The folder of what was put away; Told where that name leads out of hers."""
        home = self.folder / PUT_AWAY
        if home.is_symlink() or home.exists() and not home.is_dir():
            raise Told(403, "outside", t("outside-folder"))
        return home

    def read(self, name: str, put_away: bool = False) -> Kept:
        """What the file holds now; what was changed outside becomes a saved state of its own."""
        with self._lock(name):
            kept = read_text(place_of(self.attic() if put_away else self.folder, name))
            if not put_away:
                self._note(name, kept)
            return kept

    def _note(self, name: str, kept: Kept) -> bool:
        """Keeps what is in the file as a state where it is not the last one that was kept. True where it was changed outside."""
        last = self.store.last(name)
        if last is not None and last.version == kept.version:
            return False
        self.store.keep_state(name, kept.text, "outside" if last else "begun")
        if last is not None:
            self._untold.add(name)
        return last is not None

    def changed_outside(self, name: str) -> Kept | None:
        """The file's text where it was changed outside since this was asked last, whoever noticed it first; None where it was not."""
        with self._lock(name):
            kept = read_text(place_of(self.folder, name))
            self._note(name, kept)
            if name not in self._untold:
                return None
            self._untold.discard(name)
            return kept

    # ------------------------------------------------------------ saving

    def save(self, name: str, text, base: str | None, why: str = "typing") -> Saved:
        """Saves the text that was made from version `base`. What others saved in between is put together with it; where that can't be done,
        Told with both (409), and both are kept as states."""
        name, text = good_name(name), good_text(text)
        path = place_of(self.folder, name)
        with self._lock(name):
            try:
                now = read_text(path)
                self._note(name, now)
            except Told as missing:
                if missing.status != 404 or self.store.last(name) is None:
                    raise
                now = None  # moved or deleted outside: what she writes is not lost with it
            if now is None or now.version == base:
                return self._put(name, path, text, why)
            if now.text == text:
                return Saved(now.version, text)
            before = self.store.text(base) if isinstance(base, str) else None
            both = merge(before, now.text, text) if before is not None else None
            if both is None or both.text is None:
                self.store.keep_state(name, text, "conflict")
                raise Told(409, "conflict", t("conflict"), theirs=now.text, yours=text, version=now.version)
            self.store.keep_text(text, base)
            saved = self._put(name, path, both.text, "merged")
            return Saved(saved.version, saved.text, merged=both.text != text)

    def _put(self, name: str, path: Path, text: str, why: str) -> Saved:
        self.store.keep_state(name, text, why)  # first, so that it counts as ours when the file is seen to change
        kept = write_text(path, text)
        return Saved(kept.version, text)

    def bring_back(self, name: str, id: int) -> Saved:
        """Puts a saved state into the file; what is there now stays a saved state."""
        text = self.text_of(name, id)
        with self._lock(name):
            now = self.read(name)
            return self.save(name, text, now.version, "restored")

    def text_of(self, name: str, id: int) -> str:
        state = self.store.state(good_name(name), id)
        text = self.store.text(state.version) if state is not None else None
        if text is None:
            raise Told(404, "no-such-state", t("no-such-state"))
        return text

    def states(self, name: str) -> list[State]:
        return self.store.states(good_name(name))

    # ------------------------------------------------------------ making and moving

    def new(self, text, wanted: str = "") -> str:
        """A new manuscript of that name, or of a name that is free; the name it got."""
        text = good_text(text)
        wanted = good_name(wanted) if wanted else name_from(title_of(text))
        with self._all:
            name = free_name(self.folder, wanted)
            self.store.keep_state(name, text, "begun")
            write_text(place_of(self.folder, name), text)
        return name

    def copy(self, name: str, wanted: str = "") -> str:
        return self.new(self.read(name).text, wanted or t("copy-of", name=good_name(name)))

    def rename(self, name: str, to: str) -> str:
        """Told where there is a manuscript of the new name."""
        name, to = good_name(name), good_name(to)
        if name == to:
            return to
        with self._lock(name):
            self.read(name)
            old, new = place_of(self.folder, name), place_of(self.folder, to)
            with self._all:
                if new.exists() and name.casefold() != to.casefold():
                    raise Told(409, "name-taken", t("name-taken", name=to))
                _move(old, new)
            self.store.rename(name, to)
        return to

    def put_away(self, name: str) -> str:
        """Out of the folder's list, into the folder `archived`; the name it has there."""
        name = good_name(name)
        with self._lock(name):
            self.read(name)
            home = self.attic()
            with self._all:
                home.mkdir(exist_ok=True)
                there = free_name(home, name)
                _move(place_of(self.folder, name), place_of(home, there))
            self.store.rename(name, f"{PUT_AWAY}/{there}")
        return there

    def take_out(self, name: str) -> str:
        """Back from `archived` into the folder; the name it has now."""
        name, home = good_name(name), self.attic()
        read_text(place_of(home, name))
        with self._all:
            there = free_name(self.folder, name)
            _move(place_of(home, name), place_of(self.folder, there))
        self.store.rename(f"{PUT_AWAY}/{name}", there)
        return there


def _move(old: Path, new: Path) -> None:
    try:
        old.rename(new)
        sync_folder(new.parent)
    except OSError as refused:
        raise Told(507, "file-not-written", t("file-not-written", reason=refused.strerror or str(refused))) from None


def title_of(text: str) -> str:
    """The title of a manuscript, roughly: for the name of its file and the heads of pages; "" where it has none."""
    import re

    found = re.search(r"^title:[ \t]*[\"']?(.+?)[\"']?[ \t]*$", text[:4000], re.M) or re.search(r"^#[ \t]+(.+)$", text[:4000], re.M)
    return found[1] if found else next((line.strip(" #*_") for line in text.splitlines() if line.strip(" #*_-")), "")


__all__ = ["PUT_AWAY", "Saved", "Shelf", "version_of"]
