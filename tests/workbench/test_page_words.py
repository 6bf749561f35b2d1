"""The words of the pages: every message that a page or its script asks for is in the catalogue, and none is there for nothing."""

import re
from pathlib import Path

from hookwright.desk.workbench.strings import for_page

ROOT = Path(__file__).resolve().parents[2]
BENCH = ROOT / "src" / "hookwright" / "desk" / "workbench"
SOURCES = [*(ROOT / "frontend" / "src").rglob("*.js"), *(BENCH / "templates").glob("*.html"), BENCH / "pages.py", BENCH / "measure_panel.py"]
ASKED = re.compile(r"""\bt\(\s*(["'`])([^"'`]+)\1""")
NAMED = re.compile(r"""["'`]([a-z][\w-]*)["'`]""")


def asked_for() -> tuple[set[str], set[str]]:
    """Ids that are asked for whole, and beginnings of those that are put together."""
    whole, beginnings = set(), set()
    for path in SOURCES:
        for _, words in ASKED.findall(path.read_text("utf-8")):
            beginnings.add(words.split("${")[0]) if "${" in words else whole.add(words)
    return whole, beginnings


def test_every_message_asked_for_is_there():
    whole, beginnings = asked_for()
    there = set(for_page())
    assert len(whole) > 150
    assert sorted(whole - there) == []
    assert [one for one in beginnings if not any(id.startswith(one) for id in there)] == []


def test_no_message_stands_for_nothing():
    whole, beginnings = asked_for()
    named = {word for path in SOURCES for word in NAMED.findall(path.read_text("utf-8"))}
    own = set(re.findall(r"^([a-z][\w-]*) =", (BENCH / "strings" / "en.ftl").read_text("utf-8"), re.M))
    assert sorted(id for id in own - whole - named if not any(id.startswith(one) for one in beginnings)) == []


def test_every_argument_of_a_message_is_given():
    """A message with { $name } is asked for with that name."""
    found = []
    messages = for_page()
    for path in SOURCES:
        text = path.read_text("utf-8")
        for match in re.finditer(r"""\bt\((["'])([\w-]+)\1\s*([,)])""", text):
            message = messages.get(match[2], "")
            words = message if isinstance(message, str) else message["other"]
            needed = set(re.findall(r"\{(\w+)\}", words)) | ({message["by"]} if isinstance(message, dict) else set())
            given = text[match.end() : match.end() + 160] if match[3] == "," else ""
            found += [f"{path.name}: {match[2]} lacks {name}" for name in needed if not re.search(rf"\b{name}\b", given)]
    assert found == []
