"""The commands that draw: what can't be drawn is told in words, with where to look."""

import pytest
from click.testing import CliRunner

from hookwright.desk.main import main


@pytest.mark.parametrize("command", ["chart", "picture", "schematic"])
@pytest.mark.parametrize(("text", "hint"), [("Row 1: Ch 9000001, sc in 2nd ch from hook and in each ch across.\n", True), ("\n", False)])
def test_nothing_to_draw_leads_to_what_is_wrong_with_the_rows(tmp_path, command, text, hint):
    """Work that is refused leaves no rows, and `check` says why; a manuscript without rows has nothing to mend."""
    file = tmp_path / "hat.md"
    file.write_text(text, "utf-8")
    done = CliRunner().invoke(main, [command, str(file)])
    assert done.exit_code == 2 and "there are no worked rows" in done.output
    assert ("`hookwright check` shows what" in " ".join(done.output.split())) is hint
    assert [one.name for one in tmp_path.iterdir()] == ["hat.md"]
