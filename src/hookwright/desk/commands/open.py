"""`hookwright open`: the workbench in the browser."""

import click

NOT_OPENED = 2


@click.command("open", short_help="Open a folder of manuscripts in the browser, to write, prove and look in.")
@click.argument("folder", default=".", metavar="FOLDER")
@click.option("--port", type=click.IntRange(0, 65535), default=0, metavar="N", help="The port to listen on; a free one if not said.")
@click.option("--no-browser", is_flag=True, help="Do not open the browser; the address is printed.")
@click.pass_context
def command(ctx, folder, port, no_browser):
    """Open FOLDER in the browser: write, see every count and finding as you type, charts, sizes, yarn, and print.

    It answers on this machine alone, to whoever has the address that is printed. The manuscripts stay plain files in FOLDER; saved states lie
    beside them in `.hookwright`. Ctrl-C ends it.
    """
    from pathlib import Path

    from hookwright.desk import terminal
    from hookwright.desk.show import safe
    from hookwright.desk.workbench.serving import serve

    home = Path(folder)
    if not home.is_dir():
        what = "is a file; name the folder it is in" if home.exists() else "does not exist"
        terminal.tell(f"`{safe(folder)}` {what}")
        ctx.exit(NOT_OPENED)

    def opened(address):
        terminal.say(f"{safe(str(home.resolve()))} is open at\n  {address}\nCtrl-C ends it; everything is saved as you write.")
        if not no_browser:
            import threading
            import webbrowser

            threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()

    try:
        serve(home, port, opened=opened)
    except OSError as refused:
        terminal.tell(f"it could not be opened: {safe(refused.strerror or str(refused))}" + (f" (port {port})" if port else f" ({safe(folder)})"))
        ctx.exit(NOT_OPENED)
    terminal.say("Closed. Everything was saved.")
