"""A picture: its drawing as SVG, a title, and all that it shows in words. Drawn in the colour of the text round it, so that it can be read
in black on white, white on black and in print."""

from dataclasses import dataclass
from html import escape

FONTS = "Hookwright Sans, Source Sans 3, sans-serif"


@dataclass(frozen=True, slots=True)
class Picture:
    """width and height in units of the drawing; body: the elements inside it, with all text escaped; title and words: plain text.

    mm: how wide it is on paper so that it can be read, 0 where any width does.
    """

    width: float
    height: float
    body: str
    title: str
    words: str
    mm: float = 0.0

    def svg(self, id: str, *, on_paper: bool = False) -> str:
        """The whole <svg>, named by its title and described by its words; `id` is unique on the page. on_paper: as wide as `mm` says."""
        name = escape(id, quote=True)
        wide = f'width="{number(self.mm)}mm" height="{number(self.mm * self.height / self.width)}mm" ' if on_paper and self.mm else ""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" {wide}viewBox="0 0 {number(self.width)} {number(self.height)}" role="img" '
            f'aria-labelledby="{name}-title" aria-describedby="{name}-words" font-family="{FONTS}" fill="currentColor">'
            f'<title id="{name}-title">{letters(self.title)}</title><desc id="{name}-words">{letters(self.words)}</desc>{self.body}</svg>'
        )


def letters(text: str) -> str:
    """Text of hers as it may stand in a drawing: escaped, and without letters that no XML may hold."""
    return escape("".join(letter if letter.isprintable() else " " for letter in text), quote=True)


def number(value: float) -> str:
    """A number of the drawing, to the tenth.

    >>> number(12.0), number(3.14)
    ('12', '3.1')
    """
    return f"{round(value, 1):g}"


def text(x: float, y: float, words: str, *, size: float = 13, anchor: str = "start", strong: bool = False) -> str:
    """One line of text with its baseline at y."""
    weight = ' font-weight="600"' if strong else ""
    return f'<text x="{number(x)}" y="{number(y)}" font-size="{number(size)}" text-anchor="{anchor}"{weight}>{letters(words)}</text>'


def line(x1: float, y1: float, x2: float, y2: float, *, width: float = 1, opacity: float = 1, dashes: str = "") -> str:
    """A straight line in the colour of the text."""
    more = (f' stroke-opacity="{opacity:g}"' if opacity < 1 else "") + (f' stroke-dasharray="{dashes}"' if dashes else "")
    return (f'<path d="M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}" fill="none" stroke="currentColor" '
            f'stroke-width="{number(width)}"{more}/>')
