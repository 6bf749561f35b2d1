"""Writes a file whole or not at all, and onto the disc: whatever ends the server after that, it is there."""

import os
import tempfile
from pathlib import Path


def write_whole(path: Path, data: bytes) -> None:
    """Puts `data` at `path` in one step, keeping the rights of the file that was there. OSError where it can't be."""
    handle, name = tempfile.mkstemp(prefix=".half-written.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(name, _rights(path))
        os.replace(name, path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    sync_folder(path.parent)


def sync_folder(folder: Path) -> None:
    """Sees to it that names of files are on the disc too, where the system can be asked for that."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    except OSError:  # some file systems know no such thing
        pass
    finally:
        os.close(handle)


def _rights(path: Path) -> int:
    try:
        return path.stat().st_mode & 0o7777
    except OSError:
        mask = os.umask(0)
        os.umask(mask)
        return 0o666 & ~mask
