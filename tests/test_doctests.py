"""The examples in the docstrings hold."""

import doctest
from importlib import import_module
from pathlib import Path

import pytest

SOURCE = Path(__file__).resolve().parents[1] / "src"
WITH_EXAMPLES = sorted(path for path in (SOURCE / "hookwright").rglob("*.py") if ">>> " in path.read_text("utf-8"))


@pytest.mark.parametrize("path", WITH_EXAMPLES, ids=lambda path: str(path.relative_to(SOURCE)))
def test_examples_of_a_module_hold(path):
    """Each `>>>` line gives what stands below it."""
    name = str(path.relative_to(SOURCE).with_suffix("")).replace("/", ".").removesuffix(".__init__")
    done = doctest.testmod(import_module(name), optionflags=doctest.NORMALIZE_WHITESPACE)
    assert done.attempted > 0 and done.failed == 0
