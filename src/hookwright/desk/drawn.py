"""What the commands that draw share: the manuscript worked, a wish that can't be met told as such, the drawing kept and told of."""

from contextlib import contextmanager
from pathlib import Path

import click

from hookwright.desk import terminal
from hookwright.desk.keep_file import keep_file
from hookwright.desk.open_manuscript import open_manuscript
from hookwright.desk.report import how_many
from hookwright.desk.sheets import size
from hookwright.desk.show import must_be_mended, one_line, safe

NOT_READ, NOT_KEPT = 2, 2


def worked(ctx, file: str, sizes):
    """(the manuscript as opened, its Report); ends the command where it could not be read."""
    import hookwright

    opened = open_manuscript(file)
    for finding in opened.findings:
        terminal.tell(one_line(finding, None, opened.name))
    if opened.text is None:
        ctx.exit(NOT_READ)
    return opened, hookwright.check(opened.text, sizes=sizes)


@contextmanager
def wishes_told(opened, report):
    """A piece, size or other wish that the pattern can't meet ends the command with its words, and says where what is wrong with the rows is told."""
    try:
        yield
    except ValueError as told:
        first = f" {how_many(report.findings)}; `hookwright check` shows what." if must_be_mended(report.findings) else ""
        raise click.UsageError(f"{safe(opened.name)}: {safe(str(told))}.{first}") from told


def keep(ctx, file: str, opened, report, path, data: bytes, *, what: str, shows: str, replace: bool, words: str = "") -> None:
    """Keeps the drawing, tells of it, and ends the command. what: what was drawn; shows: "the chart"; words: a line more about it."""
    path = Path(path)
    kept = keep_file(path, data, replace=replace, never=() if file == "-" else (Path(file),))
    if kept.done:
        terminal.say(f"{kept.done} {safe(str(path))} ({safe(what)}, {size(len(data))})")
        if words:
            terminal.say(safe(words))
    else:
        terminal.tell(safe(kept.why_not))
    if must_be_mended(report.findings):
        terminal.tell(f"{safe(opened.name)}: {how_many(report.findings)}; {shows} shows the rows as they were worked")
    ctx.exit(0 if kept.done else NOT_KEPT)
