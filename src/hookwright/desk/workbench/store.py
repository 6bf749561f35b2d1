"""What the workbench keeps beside her folder: every saved state of every manuscript, and where she was in a piece.

One SQLite file in `.hookwright` in her folder, written ahead (WAL), so that ending the server at any moment leaves it whole. Texts are kept
once each, packed with the text before as their dictionary: a state that differs by a word takes some sixty bytes, so none has to be thrown away.
"""

import json
import sqlite3
import threading
import time
import zlib
from dataclasses import dataclass
from pathlib import Path

from .text_file import version_of

HOME = ".hookwright"
FILE = "workbench.sqlite3"
_CHAIN = 24  # so many texts may build on each other before one stands for itself
_SCHEMA = """
create table if not exists texts (version text primary key, upon text, depth integer not null, packed blob not null);
create table if not exists states (id integer primary key, name text not null, at real not null, why text not null, version text not null);
create index if not exists states_of on states (name, id);
create table if not exists keeping (name text not null, size text not null, facts text not null, primary key (name, size));
create table if not exists known (version text not null, of text not null, facts blob not null, at real not null, primary key (version, of));
"""
_MOST_KNOWN = 400


@dataclass(frozen=True, slots=True)
class State:
    """One saved state. why: "begun", "typing", "outside", "merged", "conflict", "restored", "suggestion", "archived"."""

    id: int
    at: float
    why: str
    version: str


class Store:
    """All of it; may be used from any thread."""

    def __init__(self, folder: Path):
        home = folder / HOME
        home.mkdir(exist_ok=True)
        self._lock = threading.RLock()
        self._base = _opened(home / FILE)

    def close(self) -> None:
        with self._lock:
            self._base.close()

    # ------------------------------------------------------------ texts and states

    def keep_text(self, text: str, upon: str | None = None) -> str:
        """Keeps a text under its version. upon: the version that it was made from, if any."""
        version, data = version_of(text), text.encode("utf-8", "surrogatepass")
        with self._lock:
            if self._base.execute("select 1 from texts where version = ?", (version,)).fetchone():
                return version
            depth, before = 0, None
            if upon is not None:
                row = self._base.execute("select depth from texts where version = ?", (upon,)).fetchone()
                before = self.text(upon) if row is not None and row[0] + 1 < _CHAIN else None
                depth = row[0] + 1 if before is not None else 0
            packed = _packed(data, before)
            self._base.execute("insert into texts values (?, ?, ?, ?)", (version, upon if before is not None else None, depth, packed))
        return version

    def text(self, version: str) -> str | None:
        """The text of a version, None where it was never kept."""
        with self._lock:
            row = self._base.execute("select upon, packed from texts where version = ?", (version,)).fetchone()
            if row is None:
                return None
            upon, packed = row
            return _unpacked(packed, self.text(upon) if upon is not None else None).decode("utf-8", "surrogatepass")

    def keep_state(self, name: str, text: str, why: str) -> State:
        """Keeps a state of a manuscript; the last one, if it is the same text."""
        with self._lock:
            last = self.last(name)
            version = self.keep_text(text, last.version if last else None)
            if last is not None and last.version == version:
                return last
            now = time.time()
            made = self._base.execute("insert into states (name, at, why, version) values (?, ?, ?, ?)", (name, now, why, version))
            return State(made.lastrowid, now, why, version)

    def last(self, name: str) -> State | None:
        """The newest state of a manuscript that is or was in its file."""
        with self._lock:
            row = self._base.execute("select id, at, why, version from states where name = ? and why <> 'conflict' order by id desc limit 1", (name,)).fetchone()
        return State(*row) if row else None

    def states(self, name: str) -> list[State]:
        """All states of a manuscript, the newest first."""
        with self._lock:
            rows = self._base.execute("select id, at, why, version from states where name = ? order by id desc", (name,)).fetchall()
        return [State(*row) for row in rows]

    def state(self, name: str, id: int) -> State | None:
        with self._lock:
            row = self._base.execute("select id, at, why, version from states where name = ? and id = ?", (name, id)).fetchone()
        return State(*row) if row else None

    def rename(self, name: str, to: str) -> None:
        """Saved states, and where she was in the piece, go with the manuscript."""
        with self._lock:
            self._base.execute("begin immediate")
            try:
                self._base.execute("update states set name = ? where name = ?", (to, name))
                self._base.execute("delete from keeping where name = ?", (to,))
                self._base.execute("update keeping set name = ? where name = ?", (to, name))
                self._base.execute("commit")
            except BaseException:
                self._base.execute("rollback")
                raise

    # ------------------------------------------------------------ the row keeper

    def keeping(self, name: str, size: str) -> dict:
        """Where she was in a piece of this size."""
        with self._lock:
            row = self._base.execute("select facts from keeping where name = ? and size = ?", (name, size)).fetchone()
        return json.loads(row[0]) if row else {}

    def keep_keeping(self, name: str, size: str, facts: dict) -> None:
        with self._lock:
            self._base.execute("insert or replace into keeping values (?, ?, ?)", (name, size, json.dumps(facts)))

    # ------------------------------------------------------------ what was found before

    def known(self, version: str, of: str) -> bytes | None:
        """What was found of a text before, so that the folder need not be worked anew; nothing is lost where it is not there."""
        with self._lock:
            row = self._base.execute("select facts from known where version = ? and of = ?", (version, of)).fetchone()
        return row[0] if row else None

    def keep_known(self, version: str, of: str, facts: bytes) -> None:
        with self._lock:
            self._base.execute("insert or replace into known values (?, ?, ?, ?)", (version, of, facts, time.time()))
            self._base.execute("delete from known where rowid not in (select rowid from known order by at desc limit ?)", (_MOST_KNOWN,))


def _opened(path: Path) -> sqlite3.Connection:
    """The file of saved states. One that is spoilt is put aside under another name, and a new one begun; OSError where none can be kept."""
    for last in (False, True):
        base = None
        try:
            base = sqlite3.connect(path, check_same_thread=False, isolation_level=None, timeout=10)
            base.execute("pragma journal_mode = wal")
            base.execute("pragma synchronous = normal")
            base.executescript(_SCHEMA)
            base.execute("select count(*) from states, texts, known, keeping limit 1")
            return base
        except sqlite3.OperationalError as refused:
            raise OSError(f"saved states can't be kept in {path.parent} ({refused})") from None
        except sqlite3.DatabaseError:
            if base is not None:
                base.close()
            if last:
                raise OSError(f"saved states can't be kept in {path.parent}") from None
            path.replace(path.with_name(f"{path.stem}-spoilt-{time.strftime('%Y%m%d-%H%M%S')}{path.suffix}"))
            for end in ("-wal", "-shm"):
                path.with_name(path.name + end).unlink(missing_ok=True)


def _packed(data: bytes, before: str | None) -> bytes:
    packer = zlib.compressobj(9, zdict=before.encode("utf-8", "surrogatepass")[-32768:]) if before else zlib.compressobj(9)
    return packer.compress(data) + packer.flush()


def _unpacked(packed: bytes, before: str | None) -> bytes:
    opener = zlib.decompressobj(zdict=before.encode("utf-8", "surrogatepass")[-32768:]) if before else zlib.decompressobj()
    return opener.decompress(packed)
