"""The docs say what is so: every kind of finding has its page, commands and links in them exist, the words are the craft's."""

import ast
import re
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import click
import pytest

from hookwright.desk.main import COMMANDS, main
from hookwright.desk.pages import pages

ROOT = Path(__file__).resolve().parents[1]
SOURCE = ROOT / "src" / "hookwright"
PAGES = [ROOT / name for name in ("README.md", "ARCHITECTURE.md", "CONTRIBUTING.md", "CHANGELOG.md")] + sorted((ROOT / "docs").glob("*.md"))
NOT_THE_CRAFTS_WORDS = re.compile(r"\b(invalid|errors?|pars(e|ed|er|ing)|syntax|tokens?|illegal)\b", re.I)


def calls(*names):
    """Every call of these names in the source: (where, node)."""
    for path in sorted(SOURCE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in names:
                yield f"{path.relative_to(ROOT)}:{node.lineno}", node


def test_every_kind_of_finding_that_can_be_reported_has_a_page():
    """Wherever a finding is made with its kind written out, `explain` knows that kind."""
    known = pages()
    missing = {
        node.args[0].value: where
        for where, node in calls("Finding")
        if node.args and isinstance(node.args[0], ast.Constant) and node.args[0].value not in known
    }
    assert missing == {}


def test_the_first_sentence_of_every_page_stands_alone():
    """It is what `explain` lists: one paragraph, a full stop at its end, not longer than two lines."""
    for kind, text in pages().items():
        first = " ".join(text.split("\n\n")[0].split())
        assert first.endswith(".") and len(first) < 200, kind


@pytest.fixture(scope="module")
def build():
    """docs/build.py as a module."""
    spec = spec_from_file_location("docs_build", ROOT / "docs" / "build.py")
    build = module_from_spec(spec)
    spec.loader.exec_module(build)
    return build


def test_the_finding_in_the_readme_is_what_is_said_now(build):
    """`make docs` puts it there again."""
    text = (ROOT / "README.md").read_text("utf-8")
    assert "[repeat-leaves-stitches]" in text
    assert build.readme(text) == text, "run `make docs`"


def test_pages_of_the_findings_are_as_the_checks_say(build):
    """docs/findings/ holds what docs/build.py makes now; `make docs` makes it again."""
    there = {path.name: path.read_text("utf-8") for path in (ROOT / "docs" / "findings").glob("*.md")}
    assert there == build.built(), "run `make docs`"


def test_what_the_designer_reads_is_in_words_of_the_craft():
    """Messages and suggestions blame nobody and use no words of programmers."""
    found = [
        f"{where}: {part.value}"
        for where, node in calls("Finding", "Suggestion", "about_row")
        for part in ast.walk(node)
        if isinstance(part, ast.Constant) and isinstance(part.value, str) and NOT_THE_CRAFTS_WORDS.search(part.value)
    ]
    assert found == []


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_links_lead_somewhere(page):
    """Every link to a file of ours has that file at its end."""
    for link in re.findall(r"\]\(([^)#]+)", page.read_text("utf-8")):
        assert "://" in link or (page.parent / link).exists(), link


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_commands_in_the_docs_exist(page):
    """Each command line in a block of code has a command we have, with options it has."""
    for line in re.findall(r"^(?:\$ )?hookwright (.+)$", page.read_text("utf-8"), re.M):
        words = line.split()
        assert words[0] in COMMANDS, line
        command = main.get_command(click.Context(main), words[0])
        parameters = [*command.params, *(one for part in getattr(command, "commands", {}).values() for one in part.params)]
        options = {name for parameter in parameters for name in parameter.opts}
        assert {word.strip(",.;)") for word in re.findall(r"--\S+", line)} <= options | {"--help"}, line


def test_targets_in_the_docs_exist():
    """Each `make NAME` in the docs is in the Makefile."""
    targets = set(re.findall(r"^([a-z]+):", (ROOT / "Makefile").read_text("utf-8"), re.M))
    for page in PAGES:
        assert set(re.findall(r"(?:^|`)make ([a-z]+)", page.read_text("utf-8"), re.M)) <= targets, page.name


def test_the_version_is_one():
    """The changelog's first heading is the version that is installed."""
    from importlib.metadata import version

    assert f"## {version('hookwright')}" in (ROOT / "CHANGELOG.md").read_text("utf-8")


def manuscript_page() -> str:
    return (ROOT / "docs" / "manuscript.md").read_text("utf-8")


def test_every_key_of_the_head_is_described():
    """docs/manuscript.md has each key of the head and of its parts in the first column of a table, and no other."""
    from hookwright.notation.head_keys import GAUGE_KEYS, KEYS, SIZE_KEYS, YARN_KEYS
    from hookwright.notation.head_sizing import BODY_KEYS, SWATCH_KEYS, WISH_KEYS
    from hookwright.notation.head_yarn import EXTRA_KEYS, WEIGHED_KEYS

    parts = re.split(r"^##+ (.+)$", manuscript_page(), flags=re.M)
    tables = {title: set(re.findall(r"`([^`]+)`", " ".join(re.findall(r"^\| (`[^|]+) \|", text, re.M)))) for title, text in zip(parts[1::2], parts[2::2], strict=True)}
    assert tables["The head"] == set(KEYS)
    assert (tables["A size"], tables["A yarn"], tables["A gauge"]) == (set(SIZE_KEYS), set(YARN_KEYS), set(GAUGE_KEYS))
    assert (tables["A swatch"], tables["A body"], tables["A number to be found"]) == (set(SWATCH_KEYS), set(BODY_KEYS), set(WISH_KEYS))
    assert (tables["A weighed piece"], tables["An extra"]) == (set(WEIGHED_KEYS), set(EXTRA_KEYS))


def test_the_tables_of_body_measures_are_described():
    """Each table is named with measures that it gives."""
    from hookwright.sizing import measures, sizes_of, table_name

    rows = dict(re.findall(r"^\| (`[^|]+`) \| [^|]+ \| ([^|]+) \| [^|]+ \|$", re.search(r"\| table \| its sizes.*?\n\n", manuscript_page(), re.S)[0], re.M))
    told = {name: words for names, words in rows.items() for name in re.findall(r"`([^`]+)`", names)}
    assert set(told) == {"women", "men", "children", "babies", "surveyed women", "surveyed men", "heads", "hands", "socks", "household"}
    for name, words in told.items():
        given = {measure for size in sizes_of(table_name(name)) for measure in measures(name, size)}
        named = {word.strip() for word in re.split(r" and others|,|;| and | of adults | by the shoe |as women| with | too", words) if word.strip()}
        assert named <= given, (name, named - given)


def test_the_head_of_the_page_is_read_without_a_word_said():
    """Its example has every key, and each value is one that the key takes; so has each example in the table."""
    from hookwright.notation.head_keys import KEYS
    from hookwright.notation.head_read import read_head

    text = manuscript_page()
    findings = []
    head, _ = read_head(re.search(r"```\n(---\n.*?)```", text, re.S)[1], findings)
    assert findings == []
    assert set(KEYS) <= set(head.spans)
    for example in re.findall(r"\| `(\w+: [^|]*)` \|$", text, re.M):
        sizes = "" if example.startswith("sizes") else "sizes: [S, M]\n"
        read_head(f"---\n{sizes}{example}\n---\n", findings)
        assert findings == [], example


def test_stitches_of_her_own_are_written_as_the_page_says():
    """Each way of its table counts as it says: 6 of them over the row below."""
    import hookwright

    text = manuscript_page().partition("### Stitches of your own")[2].partition("## The pattern")[0]
    made = dict(re.findall(r"^\| ([a-z][^|`]+) \| `\"([^`]+)\"` \|", text, re.M))
    assert len(made) == 4
    over = {"stitches closed together over several": 18, "another name for a stitch": 12}
    stitches = {"a group in one place": 24}
    for way, words in made.items():
        head = f'---\nterms: UK\nstitches:\n  nub: "{words}"\n---\n'
        report = hookwright.check(f"{head}Row 2: Ch 1, turn, 6 nub.", below=f"{over.get(way, 6)} dc").as_dict()
        assert [finding["message"] for finding in report["findings"]] == [], way
        assert report["rows"][-1]["sizes"]["1"]["stitches"] == stitches.get(way, 6), way
