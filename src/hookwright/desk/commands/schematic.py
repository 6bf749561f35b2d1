"""`hookwright schematic`: draws the outlines of the pieces with their measurements and says where it put the drawing."""

import click

from hookwright.desk.options import SIZES, TERMS


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
    import hookwright
    from hookwright.desk import drawn, terminal
    from hookwright.desk.keep_file import beside

    opened, report = drawn.worked(ctx, file, sizes)
    with drawn.wishes_told(opened, report), terminal.progress("drawing") as come:
        made = hookwright.schematic(report, piece, size, terms, progress=come)
    drawn.keep(ctx, file, opened, report, out or beside(file, None, ".schematic.svg"), made.svg("schematic", on_paper=True).encode(),
               what=made.title, shows="the drawing", replace=replace)
