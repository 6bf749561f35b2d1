"""Makes docs/findings/: one page a kind of finding, from the docstrings that `hookwright explain` shows."""

import sys
from pathlib import Path

from hookwright.desk.pages import pages

FOLDER = Path(__file__).parent / "findings"
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


def main() -> int:
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
