"""Makes docs/findings/ (one page a kind of finding, from the docstrings that `hookwright explain` shows) and the README's finding."""

import re
import sys
from pathlib import Path

import hookwright
from hookwright.desk.open_manuscript import Opened
from hookwright.desk.pages import pages
from hookwright.desk.report import as_text

FOLDER = Path(__file__).parent / "findings"
README = Path(__file__).parents[1] / "README.md"
NOTE = "<!-- Made by docs/build.py from the check's docstring: change that, then run `make docs`. -->\n"


def built() -> dict[str, str]:
    """File name -> text of every page, and of the list that leads to them."""
    known = pages()
    out = {f"{kind}.md": f"{NOTE}# {kind}\n\n{as_markdown(text)}\n" for kind, text in known.items()}
    rows = [f"- [{kind}]({kind}.md): {' '.join(text.split(chr(10) + chr(10))[0].split())}" for kind, text in known.items()]
    out["README.md"] = f"{NOTE}# Kinds of finding\n\nThe words in square brackets of a finding.\n\n" + "\n".join(rows) + "\n"
    return out


def as_markdown(text: str) -> str:
    """A docstring as Markdown: `::` before an indented block becomes a colon, and the block stays a block of code."""
    lines = [line[:-1] if line.endswith("::") else line for line in text.split("\n")]
    return "\n".join(lines).rstrip()


def readme(text: str) -> str:
    """The README with what `check` says of the manuscript in it, as it says it now."""
    manuscript = re.search(r"```\n(---\n.*?)```", text, re.S)[1]
    said = as_text(Opened("wrist-warmers.md", manuscript), hookwright.check(manuscript), 100)
    return re.sub(r"(?<=```\n)\$ hookwright check wrist-warmers.md\n.*?(?=```)",
                  lambda _: f"$ hookwright check wrist-warmers.md\n{said}\n", text, count=1, flags=re.S)


def main() -> int:
    README.write_text(readme(README.read_text("utf-8")), "utf-8")
    FOLDER.mkdir(exist_ok=True)
    wanted = built()
    for old in FOLDER.glob("*.md"):
        if old.name not in wanted:
            old.unlink()
    for name, text in wanted.items():
        (FOLDER / name).write_text(text, "utf-8")
    print(f"{len(wanted)} pages written to docs/findings")
    return 0


if __name__ == "__main__":
    sys.exit(main())
