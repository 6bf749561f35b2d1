"""`hookwright made-to-measure`: the pattern for one maker's measures and gauge, proved and written like any other."""

import click

from hookwright.desk.options import TERMS, Word

KINDS = Word("html", "pdf", "txt", "md")
MUST_BE_MENDED, NOT_READ, NOT_KEPT = 1, 2, 2


@click.command("made-to-measure", short_help="Write the pattern for one maker's own measures and gauge.")
@click.argument("file", metavar="FILE")
@click.option("--measure", "measures", multiple=True, metavar="NAME LENGTH", help='A measure the numbers are found from, such as "head 57 cm"; once or more.')
@click.option("--gauge", metavar="WORDS", help='The maker\'s gauge, such as "15 sts and 11 rows to 10 cm".')
@click.option("--yarn", metavar="WORDS", help='Another weight of yarn, such as "dk"; without --gauge what it does is estimated.')
@click.option("--size", metavar="NAME", help="The size to start from; the nearest if not said.")
@click.option("--terms", "dialects", type=TERMS, multiple=True, help="Terms to write in, once or twice; the manuscript's own if not said.")
@click.option("--to", "kinds", type=KINDS, multiple=True, help="What to write, once or more; html if not said.")
@click.option("--paper", type=Word("a4", "letter"), default="a4", show_default=True, help="Paper of the PDF.")
@click.option("--out", metavar="PATH", help="File to write, or folder to write into. [default: beside the manuscript]")
@click.option("--replace", is_flag=True, help="Write over a file even where Hookwright did not make it.")
@click.pass_context
def command(ctx, file, measures, gauge, yarn, size, dialects, kinds, paper, out, replace):
    """Write the pattern of FILE for one maker: every number that the head says how to find is found anew for her.

    \b
    hookwright made-to-measure hat.md --measure "head 57 cm" --gauge "15 sts and 11 rows to 10 cm" --to pdf

    \b
    Ends with 0 where all was written,
              1 where all was written but something must be mended,
              2 where the manuscript or what was asked could not be read, nothing was asked that changes it,
                no numbers meet what was asked, or a sheet could not be written.
    """
    import hookwright
    from hookwright.desk import terminal
    from hookwright.desk.open_manuscript import open_manuscript
    from hookwright.desk.report import how_many
    from hookwright.desk.sheets import keep_sheets, places
    from hookwright.desk.show import in_order, must_be_mended, one_line, safe
    from hookwright.ground import LOOK, MUST_MEND

    opened = open_manuscript(file)
    for finding in opened.findings:
        terminal.tell(one_line(finding, None, opened.name))
    if opened.text is None:
        ctx.exit(NOT_READ)
    try:
        report = hookwright.made_to_measure(opened.text, measures=_once(map(_named, measures)), gauge=gauge, size=size, yarn=yarn)
    except ValueError as told:
        raise click.UsageError(str(told), ctx) from None
    told = ("not-made-to-measure", "wishes-clash")
    clash = any(finding.kind == "wishes-clash" for finding in report.findings)  # then the rows only echo it, and a sheet would be no use to her
    for finding in in_order(report.findings):
        if finding.kind in told or finding.grade in (MUST_MEND, LOOK) and not clash:
            terminal.tell(one_line(finding, None, opened.name))
            for way in finding.suggestions if finding.kind == "wishes-clash" else ():
                terminal.tell(f"  {way.sure}: {safe(way.says)} ({safe(way.effect)})")
    if clash or report.sized.unworked or report.sized.idle:
        terminal.tell(f"{safe(opened.name)}: nothing is written")
        ctx.exit(NOT_KEPT)
    wanted = places(_beside(file), out, dialects or (report.as_dict()["terms"].lower(),), kinds or ("html",))
    kept_all = keep_sheets(report, wanted, paper=paper, replace=replace, manuscript=file, say=terminal.say, tell=terminal.tell, look_over=terminal.tell)
    mend = must_be_mended(report.findings)
    if mend:
        terminal.tell(f"{safe(opened.name)}, made to measure: {how_many(report.findings)}")
    ctx.exit(NOT_KEPT if not kept_all else MUST_BE_MENDED if mend else 0)


def _once(named) -> dict[str, str]:
    """The measures by name; UsageError where one is given twice."""
    found: dict[str, str] = {}
    for name, words in named:
        if name.lower() in map(str.lower, found):
            raise click.UsageError(f'the measure "{name}" is given twice; give it once')
        found[name] = words
    return found


def _named(words: str) -> tuple[str, str]:
    """ "head 57 cm" as ("head", "57 cm"); ValueError for other words."""
    import re

    found = re.fullmatch(r"\s*([A-Za-z](?:[A-Za-z _-]*[A-Za-z])?)\s*[=:]?\s*(\d.*)", words)
    if not found:
        raise click.UsageError(f'--measure takes a name and a length, such as "head 57 cm", not "{words}"')
    return found[1], found[2]


def _beside(file: str) -> str:
    """The name beside the manuscript that these sheets go by: hat.md -> hat-made-to-measure.md."""
    from pathlib import Path

    if file == "-":
        return file
    path = Path(file)
    return str(path.with_name(f"{path.stem}-made-to-measure{path.suffix}"))
