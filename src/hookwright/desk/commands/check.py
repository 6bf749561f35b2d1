"""`hookwright check`: proves manuscripts and prints what was found and what was proved."""

import click

from hookwright.desk.options import COLUMNS, SIZES, TERMS

MUST_BE_MENDED, NOT_READ = 1, 2


@click.command("check", short_help="Prove manuscripts.")
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("--terms", type=TERMS, help="The terms it is written in, where it does not say so itself.")
@click.option("--below", metavar="TEXT", help='The row below, for a few rows without their beginning: --below "20 dc".')
@click.option("--in-round", is_flag=True, help="The rows are worked in the round, for a few rows that do not say so.")
@click.option("--sizes", type=SIZES, help="Names of the sizes, where there is no head to name them.")
@click.option("--mend", is_flag=True, help="Try which number, made another, mends what must be mended; takes some seconds.")
@click.option("--json", "as_json", is_flag=True, help="Everything as JSON: one object for one file, a list for several.")
@click.option("--short", is_flag=True, help="One line a finding.")
@click.option("--width", type=COLUMNS, metavar="COLUMNS", help="How wide to print; as the terminal, up to 100.")
@click.pass_context
def command(ctx, files, terms, below, in_round, sizes, mend, as_json, short, width):
    """Work each FILE stitch by stitch in every size and prove its counts and repeats.
    FILE is a manuscript, or - for standard input.

    \b
    Ends with 0 where nothing must be mended,
              1 where something must be mended,
              2 where a file could not be read.
    """
    from hookwright.desk import terminal
    from hookwright.desk.main import own_up
    from hookwright.desk.open_manuscript import open_manuscript
    from hookwright.desk.report import as_dict, as_text

    code, collected, asked = 0, [], {"terms": terms and terms.upper(), "below": below, "in_round": in_round, "sizes": sizes}
    for place, file in enumerate(files):
        opened = open_manuscript(file)
        try:
            report = _report(opened, asked, mend)
            shown = as_dict(opened, report) if as_json else as_text(opened, report, terminal.width(width), terminal.style, short)
        except Exception as slip:
            if len(files) == 1:
                raise
            code = max(code, own_up(slip, file))
            continue
        if as_json:
            collected.append(shown if len(files) == 1 else {"file": file, **shown})
        else:
            terminal.say(("\n" if place else "") + shown)
        code = max(code, NOT_READ if report is None else _mended(opened, report))
    if as_json:
        import json

        terminal.say(json.dumps(collected[0] if len(files) == 1 else collected, indent=1))
    ctx.exit(code)


MOST_MENDED = 20  # findings for which ways out are tried


def _report(opened, asked: dict, mend: bool):
    """The report of what was opened, None where nothing could be read. mend: with ways out that were tried before those that follow from the sums."""
    if opened.text is None:
        return None
    import hookwright

    report = hookwright.check(opened.text, **asked)
    if mend:
        from hookwright.ground import MUST_MEND

        worst = [finding for finding in report.findings if finding.grade == MUST_MEND][:MOST_MENDED]
        memory = hookwright.Memory()
        tried = {id(finding): hookwright.mends(report, finding, memory, **asked) for finding in worst}
        report.findings = [finding.but(suggestions=(*tried.get(id(finding), ()), *finding.suggestions)) for finding in report.findings]
    return report


def _mended(opened, report) -> int:
    from hookwright.desk.show import must_be_mended

    return MUST_BE_MENDED if must_be_mended([*opened.findings, *report.findings]) else 0
