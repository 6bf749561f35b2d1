"""`hookwright count`: the table row by size of worked counts."""

import click

from hookwright.desk.options import SIZES, TERMS

NOT_READ = 2


@click.command("count", short_help="Show the stitches of each row.")
@click.argument("file", metavar="FILE")
@click.option("--terms", type=TERMS, help="The terms it is written in, where it does not say so itself.")
@click.option("--sizes", type=SIZES, help="Names of the sizes, where there is no head to name them.")
@click.option("--csv", "how", flag_value="csv", help="As comma-separated values.")
@click.option("--json", "how", flag_value="json", help="As JSON.")
@click.pass_context
def command(ctx, file, terms, sizes, how):
    """Show how many stitches each row of FILE has in each size. FILE is a manuscript, or - for standard input."""
    from hookwright.desk import counts, terminal
    from hookwright.desk.open_manuscript import open_manuscript
    from hookwright.desk.show import one_line

    opened = open_manuscript(file)
    for finding in opened.findings:
        terminal.tell(one_line(finding, None, opened.name))
    if opened.text is None:
        ctx.exit(NOT_READ)
    import hookwright

    values = hookwright.check(opened.text, terms=terms and terms.upper(), sizes=sizes).as_dict()
    if how == "csv":
        terminal.say(counts.as_csv(values))
    elif how == "json":
        import json

        terminal.say(json.dumps(counts.as_values(values), indent=1))
    else:
        terminal.say(counts.as_table(values))
