"""The house keeps its rules: imports only go down, files stay small and well named, the lock names no server."""

import ast
import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
SOURCE = ROOT / "src" / "hookwright"
MODULES = sorted(path for path in SOURCE.rglob("*.py"))
NAMES_THAT_SAY_NOTHING = {"utils", "util", "common", "shared", "helpers", "helper", "misc", "core", "tools", "stuff"}
OPEN_TO_ALL = {"hookwright.notation.tree"}  # the contract between reader, worker and writer


def name_of(path: Path) -> str:
    return str(path.relative_to(SOURCE.parent).with_suffix("")).replace("/", ".").removesuffix(".__init__")


def test_imports_only_go_down():
    """The layers contract of .importlinter holds, and leaves no room out."""
    done = subprocess.run([Path(sys.executable).with_name("lint-imports"), "--no-cache"], cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "1 kept, 0 broken" in done.stdout


def test_rooms_use_only_what_another_room_offers():
    """From another room only what its `__init__` exports is imported, never one of its modules."""
    found = []
    for path in MODULES:
        room = path.relative_to(SOURCE).parts[0]
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            names = [node.module or ""] if isinstance(node, ast.ImportFrom) and not node.level else []
            names += [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            for name in names:
                parts = name.split(".")
                if parts[0] == "hookwright" and len(parts) > 2 and parts[1] != room and name not in OPEN_TO_ALL:
                    if room != "__init__.py":
                        found.append(f"{path.relative_to(ROOT)}:{node.lineno} imports {name}")
    assert found == []


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_module_is_small_named_and_says_what_it_is_for(path):
    """No module is longer than 600 lines or has a name that says nothing; each has a docstring unless it is empty."""
    text = path.read_text("utf-8")
    assert text.count("\n") <= 600
    assert not NAMES_THAT_SAY_NOTHING & set(path.relative_to(SOURCE).with_suffix("").parts)
    assert not text.strip() or ast.get_docstring(ast.parse(text))


def test_most_modules_are_short():
    """Nine modules in ten are under 350 lines."""
    lengths = sorted(path.read_text("utf-8").count("\n") for path in MODULES)
    assert lengths[int(len(lengths) * 0.9)] < 350


@pytest.mark.parametrize("name", ["run.txt", "dev.txt", "browser.txt"])
def test_what_is_installed_is_locked_and_names_no_server(name):
    """Every package has an exact version and a digest; there is no address, no index and no path of a machine."""
    text = (ROOT / "requirements" / name).read_text("utf-8")
    pinned = re.findall(r"^[a-z0-9]\S*==\S+", text, re.M)
    entries = re.findall(r"^[a-z0-9].*(?:\n    .*)*", text, re.M)
    assert len(pinned) == len(entries) > 5
    assert all("--hash=sha256:" in entry for entry in entries)
    assert not re.search(r"://|--index|--find-links|--extra-index|file:|@ ", text)


def test_the_three_locks_agree():
    """A package has the same version in each lock it is in."""
    locks = [
        dict(re.findall(r"^([a-z0-9.-]+)==(\S+(?: ;.*)?) \\$", (ROOT / "requirements" / name).read_text("utf-8"), re.M))
        for name in ("run.txt", "dev.txt", "browser.txt")
    ]
    assert locks[0].items() <= locks[1].items() <= locks[2].items()


def test_what_the_pages_are_built_with_is_locked_and_names_no_server():
    """Every package of the pages has an exact version and a digest, in the lock and in what is asked for; there is no address."""
    lock = json.loads((ROOT / "frontend" / "package-lock.json").read_text("utf-8"))
    packages = {name: one for name, one in lock["packages"].items() if name}
    assert len(packages) > 10
    assert all(one.get("integrity", "").startswith("sha512-") and one["version"] for one in packages.values())
    asked = json.loads((ROOT / "frontend" / "package.json").read_text("utf-8"))["devDependencies"]
    assert all(re.fullmatch(r"\d+\.\d+\.\d+", version) for version in asked.values())
    for name in ("package-lock.json", "package.json", ".npmrc"):
        assert not re.search(r"://|registry\s*=|\"resolved\"|file:", (ROOT / "frontend" / name).read_text("utf-8"))


def test_nothing_evaluates_text_as_code():
    """No module calls eval, exec or compile on anything, or unpickles."""
    found = []
    for path in MODULES:
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in ("eval", "exec", "__import__"):
                found.append(f"{path.name}:{node.lineno}")
            if isinstance(node, ast.Import) and any(alias.name in ("pickle", "shelve", "marshal") for alias in node.names):
                found.append(f"{path.name}:{node.lineno}")
    assert found == []


def test_only_the_desk_touches_the_world():
    """Below the desk nothing opens a network connection, starts a program, asks the clock or reads the environment."""
    outside = {"subprocess", "socket", "urllib", "http", "requests", "sqlite3", "time", "datetime"}
    found = []
    for path in MODULES:
        if path.relative_to(SOURCE).parts[0] == "desk":
            continue
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            names = [node.module or ""] if isinstance(node, ast.ImportFrom) and not node.level else []
            names += [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            found += [f"{path.relative_to(ROOT)}:{node.lineno} imports {name}" for name in names if name.split(".")[0] in outside]
            if isinstance(node, ast.Attribute) and node.attr in ("environ", "getenv", "system"):
                found.append(f"{path.relative_to(ROOT)}:{node.lineno} uses {node.attr}")
    assert found == []
