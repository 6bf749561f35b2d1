"""`hookwright schematic`: draws the outlines of the pieces with their measurements and says where it put the drawing."""

import click

from hookwright.desk.options import SIZES, TERMS

NOT_READ, NOT_KEPT = 2, 2


@click.command("schematic", short_help="Draw the outlines of the pieces with their measurements.")
@click.argument("file", metavar="FILE")
@click.option("--piece", metavar="NAME", help="Piece to draw, by its heading or how that begins; all if not said.")
@click.option("--size", metavar="NAME", help="Size that is drawn; the first if not said. The measurements are those of all sizes.")
@click.option("--terms", type=TERMS, help="Terms of its words; the manuscript's own if not said.")
@click.option("--sizes", type=SIZES, help="Names of the sizes, where there is no head to name them.")
@click.option("--out", metavar="PATH", help="File to write (SVG). [default: beside the manuscript]")
@click.option("--replace", is_flag=True, help="Write over a file even where Hookwright did not make it.")
@click.pass_context
def command(ctx, file, piece, size, terms, sizes, out, replace):
    """Draw the outline of each piece of FILE with its measurements in both units and every size, by the stitches and the gauge. Where
    the stitches alone do not tell an outline (a sock, blocks from corner to corner) it is that of the solved shape. FILE is a manuscript, or - for
    standard input.

    A file that Hookwright did not make, or that was changed since, is left as it is.
    """
    from pathlib import Path

    import hookwright
    from hookwright.desk import terminal
    from hookwright.desk.keep_file import keep_file
    from hookwright.desk.open_manuscript import open_manuscript
    from hookwright.desk.report import how_many
    from hookwright.desk.sheets import size as length
    from hookwright.desk.show import must_be_mended, one_line, safe

    opened = open_manuscript(file)
    for finding in opened.findings:
        terminal.tell(one_line(finding, None, opened.name))
    if opened.text is None:
        ctx.exit(NOT_READ)
    report = hookwright.check(opened.text, sizes=sizes)
    try:
        with terminal.progress("drawing") as come:
            made = hookwright.schematic(report, piece, size, terms, progress=come)
    except ValueError as told:
        raise click.UsageError(f"{safe(opened.name)}: {safe(str(told))}.") from told
    path = Path(out) if out else (Path(".") if file == "-" else Path(file).parent) / f"{'pattern' if file == '-' else Path(file).stem}.schematic.svg"
    kept = keep_file(path, made.svg("schematic", on_paper=True).encode(), replace=replace, never=() if file == "-" else (Path(file),))
    if kept.done:
        terminal.say(f"{kept.done} {safe(str(path))} ({safe(made.title)}, {length(path.stat().st_size)})")
    else:
        terminal.tell(safe(kept.why_not))
    if must_be_mended(report.findings):
        terminal.tell(f"{safe(opened.name)}: {how_many(report.findings)}; the drawing shows the rows as they were worked")
    ctx.exit(0 if kept.done else NOT_KEPT)
