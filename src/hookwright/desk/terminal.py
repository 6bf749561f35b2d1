"""The terminal: how wide it is, whether it wants colour, and where words go."""

import os
import shutil
import sys
from contextlib import contextmanager

import click

from hookwright.desk.show import WIDTH
from hookwright.ground import LOOK, MUST_MEND

COLOURS = {MUST_MEND: {"fg": "red", "bold": True}, LOOK: {"fg": "yellow", "bold": True}, "mark": {"fg": "cyan"}}


def width(wanted: int | None = None) -> int:
    """Columns to fill: as asked for, else those of the terminal up to 100."""
    if wanted:
        return wanted
    return min(WIDTH, shutil.get_terminal_size((WIDTH, 24)).columns)


def style(what: str, text: str) -> str:
    """The text in the colour of a grade or mark, where a person reads it and has not asked for none (NO_COLOR)."""
    if what not in COLOURS or os.environ.get("NO_COLOR") or not sys.stdout.isatty():
        return text
    return click.style(text, **COLOURS[what])


def say(text: str = "") -> None:
    """A line on standard output."""
    click.echo(text)


def tell(text: str) -> None:
    """A line on standard error: what happens meanwhile, and what went otherwise than asked."""
    click.echo(text, err=True)


@contextmanager
def progress(what: str):
    """A line on standard error that shows how far long work has come, where a person looks on; gives a function of a share from 0 to 1."""
    shown = sys.stderr.isatty()
    last = -1

    def told(share: float) -> None:
        nonlocal last
        percent = int(min(max(share, 0.0), 1.0) * 100)
        if shown and percent > last:
            last = percent
            click.echo(f"\r{what}: {percent} %", nl=False, err=True)

    try:
        yield told
    finally:
        if last >= 0:
            click.echo("\r" + " " * (len(what) + 8) + "\r", nl=False, err=True)
