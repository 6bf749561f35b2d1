"""`hookwright measure`: how large the pieces are, by their counts and by the solved shape."""

import click

from hookwright.desk.options import SIZES, TERMS

NOT_READ = 2


@click.command("measure", short_help="Measure the pieces: widths, lengths, girths, and whether rounds lie flat.")
@click.argument("file", metavar="FILE")
@click.option("--piece", metavar="NAME", help="One piece alone, by its heading or how that begins.")
@click.option("--size", metavar="NAME", help="One size alone.")
@click.option("--at", "heights", metavar="LENGTH", multiple=True, help='A height from the edge at which the girth is wanted, too: "6 cm". Several times for several.')
@click.option("--head", metavar="LENGTH", help='How large the head is that hats are put on: "56 cm"; as large as they are if not said.')
@click.option("--counts-only", is_flag=True, help="By the counts and the gauge alone, without solving the shape: quicker.")
@click.option("--terms", type=TERMS, help="The terms it is written in, where it does not say so itself.")
@click.option("--sizes", type=SIZES, help="Names of the sizes, where there is no head to name them.")
@click.option("--csv", "how", flag_value="csv", help="As comma-separated values.")
@click.option("--json", "how", flag_value="json", help="As JSON.")
@click.pass_context
def command(ctx, file, piece, size, heights, head, counts_only, terms, sizes, how):
    """Measure the pieces of FILE in every size: what the stitches come to at the gauge, and beside it the shape as it is solved, lying flat, on
    a head or filled. FILE is a manuscript, or - for standard input.
    """
    from hookwright.desk import measure_table, terminal
    from hookwright.desk.open_manuscript import open_manuscript
    from hookwright.desk.show import must_be_mended, one_line, safe

    opened = open_manuscript(file)
    for finding in opened.findings:
        terminal.tell(one_line(finding, None, opened.name))
    if opened.text is None:
        ctx.exit(NOT_READ)
    import hookwright
    from hookwright.notation import length_from_words

    def mm(words):
        found = length_from_words(words)
        if found is None or not 0 < sum(found) < 20_000:
            raise click.UsageError(f'`{safe(words)}` is no length that can be measured. It takes one such as "6 cm" or "2 1/2 in".')
        return sum(found) / 2

    at_mm, head_mm = [mm(words) for words in heights], mm(head) if head else None
    report = hookwright.check(opened.text, terms=terms and terms.upper(), sizes=sizes)
    try:
        found = hookwright.measures(report, piece, size, at_mm=at_mm, head_mm=head_mm, solved=not counts_only)
    except ValueError as told:
        raise click.UsageError(f"{safe(opened.name)}: {safe(str(told))}.") from told
    if not found.pieces:
        terminal.tell(f"{safe(opened.name)}: there is nothing whose size the counts tell")
        ctx.exit(NOT_READ)
    values = found.as_dict()
    if must_be_mended(report.findings):
        terminal.tell(f"{safe(opened.name)}: something in the rows must be mended first, so measures may be off with it; `hookwright check` shows what")
    if how == "csv":
        terminal.say(measure_table.as_csv(values))
    elif how == "json":
        import json

        terminal.say(json.dumps(values, indent=1, ensure_ascii=False))
    else:
        terminal.say(measure_table.as_table(values))
