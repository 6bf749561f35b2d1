"""The command `hookwright`: finds the command asked for, and says in plain words what it could not make out."""

import gc
import os
import sys

import click

COMMANDS = ("open", "check", "count", "write", "chart", "picture", "schematic", "measure", "made-to-measure", "yarn", "shape", "explain", "demo")
HELP_ORDER = {name: place for place, name in enumerate(COMMANDS)}
OURS, INTERRUPTED = 3, 130
GARBAGE_AFTER = 100_000  # objects made and kept since the last look, a few MB


class Desk(click.Group):
    """Commands are imported only when they are asked for, and nothing ends in a traceback."""

    def list_commands(self, ctx):
        return list(COMMANDS)

    def get_command(self, ctx, name):
        if name not in COMMANDS:
            return None
        from importlib import import_module

        return import_module(f"hookwright.desk.commands.{name.replace('-', '_')}").command

    def resolve_command(self, ctx, args):
        if args and args[0] not in COMMANDS:
            raise click.UsageError(f"There is no command `{plain(args[0])}`.{did_you_mean(args[0], COMMANDS)}", ctx)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx, formatter):
        with formatter.section("Commands"):
            formatter.write_dl([(name, SUMMARIES[name]) for name in COMMANDS if name != "demo"])

    def main(self, args=None, prog_name=None, standalone_mode=True, **extra):
        if not standalone_mode:
            return super().main(args, prog_name, standalone_mode=False, **extra)
        # A command is soon over and nearly all it makes is still in use: looking for garbage as often as usual is a tenth of its time.
        gc.set_threshold(GARBAGE_AFTER)
        for stream in (sys.stdout, sys.stderr):
            if hasattr(stream, "reconfigure"):
                stream.reconfigure(errors="backslashreplace")
        try:
            code = super().main(args, prog_name or "hookwright", standalone_mode=False, **extra)
        except click.exceptions.Exit as leaving:
            code = leaving.exit_code
        except click.exceptions.NoArgsIsHelpError as alone:  # nothing was asked for: what there is to ask
            click.echo(alone.ctx.get_help())
            code = 0
        except click.ClickException as told:
            click.echo(in_words(told), err=True)
            code = told.exit_code
        except (KeyboardInterrupt, click.Abort):
            click.echo("Stopped. Nothing half-written was left behind.", err=True)
            code = INTERRUPTED
        except BrokenPipeError:
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            code = 0
        except Exception as slip:  # ours, never hers
            code = own_up(slip)
        sys.exit(code if isinstance(code, int) else 0)


SUMMARIES = {
    "open": "Open a folder in the browser: write, prove and look in one place.",
    "check": "Prove manuscripts: every count, every repeat, in every size.",
    "count": "Show how many stitches each row has in each size.",
    "write": "Write the pattern sheet, in US or UK terms, as HTML, PDF, Markdown or plain text.",
    "chart": "Draw a piece stitch by stitch in the symbols of the trade.",
    "picture": "Picture a piece in its yarn, as it will look: PNG, or GLB to turn.",
    "schematic": "Draw the outlines of the pieces with their measurements.",
    "measure": "Measure the pieces: widths, lengths, girths, whether rounds lie flat.",
    "made-to-measure": "Write the pattern for one maker's own measures and gauge.",
    "yarn": "Estimate the yarn of each size and colour: metres, grams, whole balls.",
    "shape": "Spread shaping evenly; crowns, balls, shawls and yokes from gauge.",
    "explain": "Show the page of a kind of finding, or list them all.",
    "demo": "Prove and write every manuscript of a folder.",
}


def plain(words: str) -> str:
    """Words from outside with nothing in them that a terminal would obey."""
    from hookwright.desk.show import safe

    return safe(str(words))


def did_you_mean(word: str, known) -> str:
    """" Did you mean `check`?" where a known word is close, else nothing."""
    from difflib import get_close_matches  # only where a word was not known

    near = get_close_matches(word.lower(), list(known), n=1, cutoff=0.6)
    return f" Did you mean `{near[0]}`?" if near else ""


def in_words(told: click.ClickException) -> str:
    """What could not be made out of the command line, in a sentence, and where to look."""
    said = _said(told)
    ctx = getattr(told, "ctx", None)
    where = f"\n`{ctx.command_path} --help` shows what it takes." if ctx is not None else ""
    return said + where


def _said(told: click.ClickException) -> str:
    if isinstance(told, click.NoSuchOption):
        near = f" Did you mean `{told.possibilities[0]}`?" if told.possibilities else ""
        return f"There is no option `{plain(told.option_name)}`.{near}"
    if isinstance(told, click.MissingParameter):
        name = told.param.human_readable_name if told.param is not None else "something"
        return f"{name} is missing."
    if isinstance(told, click.BadParameter) and told.param is not None:
        return f"{told.param.opts[-1]}: {plain(told.message)}"
    return plain(told.format_message())


def own_up(slip: Exception, of: str = "") -> int:
    """Says a fault of Hookwright's own on standard error (all of it where HOOKWRIGHT_TRACE is set) and gives the code to end with.

    of: the manuscript it happened on, where there are several and the others go on.
    """
    if os.environ.get("HOOKWRIGHT_TRACE"):
        raise slip
    click.echo((f"{plain(of)}: " if of else "") + our_slip(slip), err=True)
    return OURS


def our_slip(slip: Exception) -> str:
    """What is said when the fault is in Hookwright: what, where, and how to see more."""
    trace, place = slip.__traceback__, ""
    while trace is not None:
        file = trace.tb_frame.f_code.co_filename
        if f"{os.sep}hookwright{os.sep}" in file:
            place = f" ({file.rpartition(f'{os.sep}hookwright{os.sep}')[2]}, line {trace.tb_lineno})"
        trace = trace.tb_next
    return (
        f"Hookwright itself slipped{place}: {type(slip).__name__}: {plain(slip)}\n"
        "The manuscript is not to blame, and nothing of yours was changed.\n"
        "Set HOOKWRIGHT_TRACE=1 and run it again to see all that can be passed on to its makers."
    )


@click.group("hookwright", cls=Desk, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="hookwright", message="%(prog)s %(version)s")
def main():
    """Hookwright reads a crochet pattern as it is written, works it stitch by stitch in every size,
    proves every count and repeat, and writes the finished sheet.
    """


if __name__ == "__main__":
    main()
