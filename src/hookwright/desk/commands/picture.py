"""`hookwright picture`: shows a piece in its yarn and says where it put the picture."""

import click

from hookwright.desk.options import SIZES, TERMS, Word

NOT_READ, NOT_KEPT = 2, 2


@click.command("picture", short_help="Picture a piece in its yarn.")
@click.argument("file", metavar="FILE")
@click.option("--piece", metavar="NAME", help="Piece to show, by its heading or how that begins; the first if not said.")
@click.option("--size", metavar="NAME", help="Size to show; the first if not said.")
@click.option("--to", "kind", type=Word("png", "glb"), default="png", show_default=True, help="A still picture, or a mesh to turn in a browser (glTF 2.0).")
@click.option("--pixels", type=click.IntRange(64, 4000), default=700, show_default=True, help="Longer side of the picture.")
@click.option("--shown", type=Word("flat", "form", "stuffed", "free"), help="How it is shown; as the piece is used if not said.")
@click.option("--terms", type=TERMS, help="Terms of the words about it; the manuscript's own if not said.")
@click.option("--sizes", type=SIZES, help="Names of the sizes, where there is no head to name them.")
@click.option("--out", metavar="PATH", help="File to write. [default: beside the manuscript]")
@click.option("--replace", is_flag=True, help="Write over a file even where Hookwright did not make it.")
@click.pass_context
def command(ctx, file, piece, size, kind, pixels, shown, terms, sizes, out, replace):
    """Show a piece of FILE as it will look: every stitch in its yarn, hats on a form, flat pieces flat, toys stuffed. FILE is a manuscript, or -
    for standard input.

    A file that Hookwright did not make, or that was changed since, is left as it is.
    """
    from pathlib import Path

    import hookwright
    from hookwright.desk import terminal
    from hookwright.desk.keep_file import beside, keep_file
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
            made = hookwright.picture(report, piece, size, to=kind, pixels=pixels, shown=shown, terms=terms, progress=come)
    except ValueError as told:
        raise click.UsageError(f"{safe(opened.name)}: {safe(str(told))}.") from told
    path = Path(out) if out else beside(file, piece, f".{made.to}")
    kept = keep_file(path, made.data, replace=replace, never=() if file == "-" else (Path(file),))
    if kept.done:
        terminal.say(f"{kept.done} {safe(str(path))} ({safe(made.title)}, {made.stitches:,} stitches, {length(len(made.data))})")
        terminal.say(safe(made.words))
    else:
        terminal.tell(safe(kept.why_not))
    if must_be_mended(report.findings):
        terminal.tell(f"{safe(opened.name)}: {how_many(report.findings)}; the picture shows the rows as they were worked")
    ctx.exit(0 if kept.done else NOT_KEPT)
