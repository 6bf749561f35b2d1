"""`hookwright yarn`: how much yarn each size and colour takes, with how sure that is and what it rests on."""

import click

from hookwright.desk.options import SIZES, TERMS

NOT_READ = 2


@click.command("yarn", short_help="Estimate the yarn of each size and colour.")
@click.argument("file", metavar="FILE")
@click.option("--size", "only", metavar="NAME", help="One size alone.")
@click.option("--yarn", "other", metavar="WORDS", help='Another yarn instead, such as "120 m to 50 g at 4.50 EUR" or "400 m to 100 g, 2 strands".')
@click.option("--with", "beside", metavar="WORDS", multiple=True, help='What takes yarn beside the rows, too: "2 pompoms 8 cm", "fringe 60 strands 20 cm", "border 2 rounds 180 cm". Several times for several.')
@click.option("--without", metavar="WORDS", multiple=True, help='What the head names beside the rows and is not made: "pompoms".')
@click.option("--terms", type=TERMS, help="The terms it is written in, where it does not say so itself.")
@click.option("--sizes", type=SIZES, help="Names of the sizes, where there is no head to name them.")
@click.option("--csv", "how", flag_value="csv", help="As comma-separated values.")
@click.option("--json", "how", flag_value="json", help="As JSON.")
@click.pass_context
def command(ctx, file, only, other, beside, without, terms, sizes, how):
    """Estimate the yarn of FILE: metres, grams, whole balls, cost and time for each size and colour.

    It goes by the worked stitches, the gauge and the thickness of the yarn, and by a swatch or finished pieces where the head says what they
    weigh. What the head calls optional is told apart. FILE is a manuscript, or - for standard input.
    """
    from hookwright.desk import terminal, yarn_table
    from hookwright.desk.open_manuscript import open_manuscript
    from hookwright.desk.show import must_be_mended, one_line, safe

    opened = open_manuscript(file)
    for finding in opened.findings:
        terminal.tell(one_line(finding, None, opened.name))
    if opened.text is None:
        ctx.exit(NOT_READ)
    import hookwright

    report = hookwright.check(opened.text, terms=terms and terms.upper(), sizes=sizes)
    try:
        estimate = hookwright.yarn_for(report, yarn=other, beside=beside, without=without)
    except ValueError as refused:
        raise click.UsageError(safe(str(refused))) from None
    if estimate is None:
        terminal.tell(f"{safe(opened.name)}: {yarn_table.too_little(report)}")
        ctx.exit(NOT_READ)
    if only is not None:
        only = next((size for size in estimate.sizes if size.casefold() == only.strip().casefold()), None)
        if only is None:
            raise click.UsageError(f"there is no size of that name; there are {', '.join(safe(size) for size in estimate.sizes)}")
    values = estimate.as_dict()
    if only is not None:
        values["sizes"] = {only: values["sizes"][only]}
    if must_be_mended(report.findings):
        terminal.tell(f"{safe(opened.name)}: something in the rows must be mended first, so the estimate may be off with it; `hookwright check` shows what")
    if how == "csv":
        terminal.say(yarn_table.as_csv(values))
    elif how == "json":
        import json

        terminal.say(json.dumps(values, indent=1, ensure_ascii=False))
    else:
        terminal.say(yarn_table.as_table(values))
