"""`hookwright write`: writes the pattern sheet and says where it put it."""

import click

from hookwright.desk.options import SIZES, TERMS, Word

KINDS = Word("html", "pdf", "txt", "md")
MUST_BE_MENDED, NOT_READ, NOT_KEPT = 1, 2, 2


@click.command("write", short_help="Write the pattern sheet.")
@click.argument("file", metavar="FILE")
@click.option("--terms", "dialects", type=TERMS, multiple=True, help="Terms to write in, once or twice; the manuscript's own if not said.")
@click.option("--to", "kinds", type=KINDS, multiple=True, help="What to write, once or more; html if not said.")
@click.option("--paper", type=Word("a4", "letter"), default="a4", show_default=True, help="Paper of the PDF.")
@click.option("--large-print", is_flag=True, help="The PDF in type of 18 points, for those who see little.")
@click.option("--pictures", type=Word("all", "first", "none"), default="all", show_default=True,
              help="Pieces shown in their yarn: all main ones, the first, or none, which is quicker.")
@click.option("--sizes", type=SIZES, help="Names of the sizes, where there is no head to name them.")
@click.option("--out", metavar="PATH", help="File to write, or folder to write into. [default: beside the manuscript]")
@click.option("--replace", is_flag=True, help="Write over a file even where Hookwright did not make it.")
@click.pass_context
def command(ctx, file, dialects, kinds, paper, large_print, pictures, sizes, out, replace):
    """Write the pattern of FILE as a finished sheet. FILE is a manuscript, or - for standard input.

    A file that Hookwright did not make, or that was changed since, is left as it is.

    \b
    Ends with 0 where all was written,
              1 where all was written but something in the manuscript must be mended,
              2 where the manuscript could not be read or a sheet could not be written.
    """
    import hookwright
    from hookwright.desk import terminal
    from hookwright.desk.open_manuscript import open_manuscript
    from hookwright.desk.report import how_many
    from hookwright.desk.sheets import keep_sheets, places
    from hookwright.desk.show import must_be_mended, one_line, safe

    opened = open_manuscript(file)
    for finding in opened.findings:
        terminal.tell(one_line(finding, None, opened.name))
    if opened.text is None:
        ctx.exit(NOT_READ)
    report = hookwright.check(opened.text, sizes=sizes)
    wanted = places(file, out, dialects or (report.as_dict()["terms"].lower(),), kinds or ("html",))
    with terminal.progress("drawing pictures") as come:
        kept_all = keep_sheets(report, wanted, paper=paper, replace=replace, manuscript=file, say=terminal.say, tell=terminal.tell,
                               look_over=terminal.tell, pictures=pictures, large_print=large_print, progress=come)
    mend = must_be_mended(report.findings)
    if mend:
        again = "" if file == "-" else f"; `hookwright check {safe(file)}` shows more"
        terminal.tell(f"{safe(opened.name)}: {how_many(report.findings)}{again}")
    ctx.exit(NOT_KEPT if not kept_all else MUST_BE_MENDED if mend else 0)
