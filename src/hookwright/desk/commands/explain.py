"""`hookwright explain`: the page of a kind of finding."""

import click

NOT_KNOWN = 2


@click.command("explain", short_help="Show the page of a kind of finding.")
@click.argument("kind", required=False, metavar="[KIND]")
@click.pass_context
def command(ctx, kind):
    """Show the page of KIND, the words in square brackets of a finding. Without KIND, list them all."""
    from hookwright.desk import pages, terminal
    from hookwright.desk.main import did_you_mean, plain

    known = pages.pages()
    if kind is None:
        terminal.say(pages.listed(known, terminal.width()))
        return
    name = kind.strip().strip("[]").lower().replace(" ", "-").replace("_", "-")
    if name not in known:
        holding = [other for other in known if set(name.split("-")) & set(other.split("-"))][:6]
        near = did_you_mean(name, known)
        if not near and holding:
            near = f" There {'is' if len(holding) == 1 else 'are'} {', '.join(f'`{other}`' for other in holding)}."
        terminal.tell(f"No kind of finding is called `{plain(kind)}`.{near}")
        terminal.tell("`hookwright explain` lists them all.")
        ctx.exit(NOT_KNOWN)
    terminal.say(pages.page(name, known[name], terminal.width()))
