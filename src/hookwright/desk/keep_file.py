"""Keeps a written file: never in the place of one that somebody else made or has changed, and never by halves.

In each folder it writes to, Hookwright keeps a small list (`.hookwright-files.json`) of what it wrote there: name and
SHA-256 digest. A file is replaced only while its digest is the one written down, that is, while it is still ours.
"""

import hashlib
import json
import os
import re
import tempfile
from dataclasses import dataclass
from pathlib import Path

LIST_NAME = ".hookwright-files.json"


@dataclass(frozen=True, slots=True)
class Kept:
    """Where it was kept, or why not. done: "written", "replaced", "unchanged", or "" where it was not."""

    path: Path
    done: str
    why_not: str = ""


def keep_file(path: Path, data: bytes, *, replace: bool = False, never: tuple[Path, ...] = ()) -> Kept:
    """Writes `data` to `path` whole or not at all.

    replace: also in the place of a file that is not ours. never: files that are not to be touched whatever is said.
    """
    path = Path(path)
    try:
        if any(path.resolve() == other.resolve() for other in never):
            return Kept(path, "", f"`{path}` is the manuscript itself; choose another name for what is written")
        if path.is_dir():
            return Kept(path, "", f"`{path}` is a folder")
        path.parent.mkdir(parents=True, exist_ok=True)
        there = path.exists() or path.is_symlink()
        if there and not replace:
            old = path.read_bytes() if path.is_file() else None
            if old == data:
                _note(path, data)
                return Kept(path, "unchanged")
            if old is None or _listed(path) != _digest(old):
                return Kept(path, "", _not_ours(path))
        _write_whole(path, data)
        _note(path, data)
    except OSError as refused:
        return Kept(path, "", f"`{path}` could not be written: {refused.strerror or refused}")
    return Kept(path, "replaced" if there else "written")


def beside(file: str, piece: str | None, ending: str) -> Path:
    """The file beside a manuscript that something made of a piece goes to where none is named.

    >>> beside("knits/hat.md", "Ear flap", ".png").name
    'hat.ear-flap.png'
    """
    name = re.sub(r"[^a-z0-9]+", "-", (piece or "").lower()).strip("-")[:40]
    stem = "pattern" if file == "-" else Path(file).stem
    return (Path(".") if file == "-" else Path(file).parent) / f"{stem}{'.' + name if name else ''}{ending}"


def _not_ours(path: Path) -> str:
    whose = "was changed since Hookwright wrote it" if _listed(path) else "is not a file that Hookwright made"
    return f"`{path}` {whose}, so it was left as it is; say --replace to write over it, or --out with another name"


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _list_of(folder: Path) -> dict:
    try:
        known = json.loads((folder / LIST_NAME).read_text("utf-8"))
    except (OSError, ValueError, RecursionError):
        return {}
    files = known.get("files") if isinstance(known, dict) else None
    return files if isinstance(files, dict) else {}


def _listed(path: Path) -> str | None:
    return _list_of(path.parent).get(path.name)


def _note(path: Path, data: bytes) -> None:
    files = _list_of(path.parent)
    if files.get(path.name) == _digest(data):
        return
    files = {name: digest for name, digest in files.items() if (path.parent / name).exists()}
    files[path.name] = _digest(data)
    said = "What Hookwright wrote in this folder, so that it replaces nothing else. It may be deleted."
    text = json.dumps({"about": said, "files": dict(sorted(files.items()))}, indent=1) + "\n"
    _write_whole(path.parent / LIST_NAME, text.encode())


def _write_whole(path: Path, data: bytes) -> None:
    handle, name = tempfile.mkstemp(prefix=f".{path.name[:40]}.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
        os.chmod(name, 0o666 & ~_umask())
        os.replace(name, path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
