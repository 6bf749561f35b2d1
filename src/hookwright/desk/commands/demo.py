"""`hookwright demo`: proves and writes every manuscript of a folder; what `make demo` runs."""

import click

MUST_BE_MENDED, NOT_READ = 1, 2


@click.command("demo", hidden=True)
@click.argument("folder", default="examples", metavar="FOLDER")
@click.option("--into", default="sheets", show_default=True, metavar="FOLDER", help="Where to write the sheets.")
@click.pass_context
def command(ctx, folder, into):
    """Prove every manuscript of FOLDER and write each in US and UK terms as HTML, PDF and plain text."""
    from pathlib import Path
    from time import perf_counter

    from hookwright.desk import terminal
    from hookwright.desk.main import own_up
    from hookwright.desk.show import safe

    manuscripts = sorted(path for path in Path(folder).glob("*.md") if path.stem != "README")
    if not manuscripts:
        terminal.tell(f"`{safe(folder)}` holds no manuscripts (files whose names end in .md)")
        ctx.exit(NOT_READ)
    started, code, sheets, to_mend = perf_counter(), 0, 0, 0
    for place, manuscript in enumerate(manuscripts, 1):
        terminal.say(f"[{place}/{len(manuscripts)}] {safe(str(manuscript))}")
        try:
            done, written = _one(manuscript, Path(into), terminal)
        except Exception as slip:
            done, written = own_up(slip, str(manuscript)), 0
        code, sheets, to_mend = max(code, done), sheets + written, to_mend + (done == MUST_BE_MENDED)
    took = perf_counter() - started
    where = Path(into).resolve()
    mend = f" (in {to_mend} of them something must be mended)" if to_mend else ""
    terminal.say(f"\n{len(manuscripts)} manuscripts proved{mend}, {sheets} sheets written in {took:.1f} s. They are in\n  {safe(str(where))}")
    import os
    import sys

    here = os.path.relpath(sys.argv[0]) if os.sep in sys.argv[0] else "hookwright"
    terminal.say(f"To look at them, write and prove in the browser:\n  {safe(here)} open {safe(folder)}")
    ctx.exit(code)


def _one(manuscript, into, terminal) -> tuple[int, int]:
    """(exit code, sheets kept) of one manuscript."""
    import hookwright
    from hookwright.desk.open_manuscript import open_manuscript
    from hookwright.desk.report import as_text
    from hookwright.desk.sheets import keep_sheets, places
    from hookwright.desk.show import must_be_mended

    opened = open_manuscript(str(manuscript))
    report = hookwright.check(opened.text) if opened.text is not None else None
    text = as_text(opened, report, terminal.width() - 2, terminal.style)
    terminal.say("\n".join(f"  {line}".rstrip() for line in text.splitlines()))
    if report is None:
        return NOT_READ, 0
    wanted = places(str(manuscript), f"{into}/", ("us", "uk"), ("html", "pdf", "txt"))
    written = []
    keep_sheets(report, wanted, paper="a4", replace=False, manuscript=str(manuscript), pictures="first", say=written.append,
                tell=lambda words: terminal.tell(f"  {words}"))
    terminal.say(f"  {len(written)} of {len(wanted)} sheets: {manuscript.stem}.us and .uk, each .html, .pdf, .txt")
    mend = must_be_mended(report.findings)
    return (MUST_BE_MENDED if mend else 0 if len(written) == len(wanted) else NOT_READ), len(written)
