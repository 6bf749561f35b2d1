"""The command starts at once: heavy rooms and packages are imported only by the command that needs them."""

import subprocess
import sys
from time import perf_counter

HEAVY = ("numpy", "typst", "yaml", "markdown_it", "hookwright.notation", "hookwright.fabric", "hookwright.writing", "hookwright.proof")


def test_help_imports_nothing_heavy():
    """Neither importing Hookwright nor `--help` loads a room or a large package."""
    code = (
        "import sys, io, contextlib\n"
        "from hookwright.desk.main import main\n"
        "with contextlib.redirect_stdout(io.StringIO()):\n"
        "    try: main(['--help'])\n"
        "    except SystemExit: pass\n"
        f"print([name for name in {HEAVY!r} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_help_answers_within_two_fifths_of_a_second():
    """The best of five starts, so that a busy machine does not decide."""
    taken = []
    for _ in range(5):
        started = perf_counter()
        done = subprocess.run([sys.executable, "-m", "hookwright.desk.main", "--help"], capture_output=True, text=True)
        taken.append(perf_counter() - started)
        assert done.returncode == 0 and "Prove manuscripts" in done.stdout
    assert min(taken) < 0.4


def test_check_loads_only_what_a_plain_manuscript_needs(tmp_path):
    """A manuscript with headings and rows, and nothing else to parse, needs no NumPy, no parser of marked-up text and no writer of files."""
    file = tmp_path / "band.md"
    file.write_text("---\nterms: US\n---\n\n## Band\n\nCh 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. 11 sc\n", "utf-8")
    code = (
        "import sys\n"
        "from hookwright.desk.main import main\n"
        f"try: main(['check', {str(file)!r}])\n"
        "except SystemExit as done: assert done.code == 0, done.code\n"
        "print([name for name in ('numpy', 'typst', 'markdown_it', 'tempfile', 'difflib', 'hookwright.writing.html') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip().splitlines()[-1] == "[]"
