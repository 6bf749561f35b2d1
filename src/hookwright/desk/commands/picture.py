"""`hookwright picture`: shows a piece in its yarn and says where it put the picture."""

import click

from hookwright.desk.options import SIZES, TERMS, Word


@click.command("picture", short_help="Picture a piece in its yarn.")
@click.argument("file", metavar="FILE")
@click.option("--piece", metavar="NAME", help="Piece to show, by its heading or how that begins; a garment sewn of flat pieces is shown whole, else the first piece, if not said.")
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
    """Show a piece of FILE as it will look: every stitch in its yarn, hats on a form, flat pieces flat, toys stuffed, a garment sewn of
    flat pieces whole. FILE is a manuscript, or - for standard input.

    A file that Hookwright did not make, or that was changed since, is left as it is.
    """
    import hookwright
    from hookwright.desk import drawn, terminal
    from hookwright.desk.keep_file import beside

    opened, report = drawn.worked(ctx, file, sizes)
    with drawn.wishes_told(opened, report), terminal.progress("drawing") as come:
        made = hookwright.picture(report, piece, size, to=kind, pixels=pixels, shown=shown, terms=terms, progress=come)
    drawn.keep(ctx, file, opened, report, out or beside(file, piece, f".{made.to}"), made.data, what=f"{made.title}, {made.stitches:,} stitches",
               shows="the picture", replace=replace, words=made.words)
