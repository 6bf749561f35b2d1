"""`hookwright chart`: draws a piece in symbols and says where it put the drawing."""

import click

from hookwright.desk.options import SIZES, TERMS, Word


@click.command("chart", short_help="Draw a piece in the symbols of the trade.")
@click.argument("file", metavar="FILE")
@click.option("--piece", metavar="NAME", help="Piece to draw, by its heading or how that begins; the first if not said.")
@click.option("--size", metavar="NAME", help="Size to draw; the first if not said.")
@click.option("--terms", type=TERMS, help="Terms of the key; the manuscript's own if not said.")
@click.option("--sizes", type=SIZES, help="Names of the sizes, where there is no head to name them.")
@click.option("--to", "kind", type=Word("svg", "pdf"), help="What to write: one picture, or pages of paper with the chart in words. [default: as PATH ends, else svg]")
@click.option("--paper", type=Word("a4", "letter"), default="a4", show_default=True, help="Paper of the PDF.")
@click.option("--whole", is_flag=True, help="Draw every row and stitch, also those that only repeat others.")
@click.option("--out", metavar="PATH", help="File to write. [default: beside the manuscript]")
@click.option("--replace", is_flag=True, help="Write over a file even where Hookwright did not make it.")
@click.pass_context
def command(ctx, file, piece, size, terms, sizes, kind, paper, whole, out, replace):
    """Draw a piece of FILE stitch by stitch in the symbols of the trade, with row numbers, repeats and a key. FILE is a manuscript, or - for
    standard input.

    On paper a chart that is larger than a page is cut between rows and between stitches: every page shows a little of those beside it and
    names them, and the first has all of it in small, the key, and the pages marked.

    A file that Hookwright did not make, or that was changed since, is left as it is.
    """
    import hookwright
    from hookwright.desk import drawn
    from hookwright.desk.keep_file import beside

    opened, report = drawn.worked(ctx, file, sizes)
    with drawn.wishes_told(opened, report):
        made = hookwright.chart(report, piece, size, terms, whole=whole)
        kind = kind or ("pdf" if out and out.lower().endswith(".pdf") else "svg")
        data = hookwright.write_chart(made, kind, paper=paper, designer=getattr(report.pattern.head, "designer", None) or "")
    drawn.keep(ctx, file, opened, report, out or beside(file, piece, f".chart.{kind}"), data,
               what=f"{made.picture.title}, {made.symbols} symbols", shows="the chart", replace=replace)
