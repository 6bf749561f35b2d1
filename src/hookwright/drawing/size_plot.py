"""The sizes of a pattern along a scale of body measures in both units: above them how the measure is spread among people, below a bar for
the bodies each size fits and a diamond for its finished measure. One colour; what differs, differs in shape."""

from dataclasses import dataclass
from math import ceil, floor

from .picture import Picture, line, number, text

WIDTH = 360.0  # units; on the narrowest screens type is still over 11 px, and as large as the text round it where the picture is 500 px wide
TYPE, LETTER = 13.0, 6.5  # size of type, and how wide a figure is taken to be
NARROW, WIDE = "fijlrtI .,'’:;|!()-", "mwMWÆŒ@%&"  # letters that are much narrower and wider than others, in the sheet's own font or any like it
LINE, CLOSE, MANY = 20.5, 17.5, 12  # height of a line, and where there are more than so many lines
RIGHT = 14.0
MOST_LABEL = 120.0
CM, INCH = 10.0, 25.4
GAP = 8.0


@dataclass(frozen=True, slots=True)
class Hump:
    """Some people: points (mm, how many there are) in order, all humps of a picture in the same unit."""

    label: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Bar:
    """One size: the bodies it fits from low_mm to high_mm, and its finished measure; None where it isn't known."""

    label: str
    low_mm: float | None = None
    high_mm: float | None = None
    mark_mm: float | None = None


def size_plot(humps, bars, *, title: str, words: str, bar_means: str, mark_means: str = "") -> Picture | None:
    """The picture, None where no bar has anything to show. bar_means, mark_means: what a bar and a diamond stand for, in a few words."""
    shown = [mm for bar in bars for mm in (bar.low_mm, bar.high_mm, bar.mark_mm) if mm is not None]
    if not shown:
        return None
    scale = _Scale.over(shown + [mm for hump in humps for mm in _most_of(hump)], [one.label for one in (*humps, *bars)])
    y, out = 0.0, []
    high = LINE if len(humps) + len(bars) <= MANY else CLOSE
    marks = bool(mark_means) and any(bar.mark_mm is not None for bar in bars)
    legend, y = _legend(y, bar_means, mark_means if marks else "")
    top = y
    if humps:
        most = max(height for hump in humps for _, height in hump.points) or 1.0
        for hump in humps:
            y += high
            out.append(_hump(hump, scale, y, high, most))
        y += GAP
    for bar in bars:
        out.append(_bar(bar, scale, y + high / 2))
        y += high
    y += GAP / 2
    return Picture(WIDTH, y + 42, legend + scale.grid(top, y) + "".join(out) + scale.axis(y), title, words)


def _most_of(hump: Hump):
    """The first and last measure at which there are more than a fiftieth as many people as at the top."""
    top = max(height for _, height in hump.points)
    many = [mm for mm, height in hump.points if height > top / 50]
    return many[0], many[-1]


@dataclass(frozen=True, slots=True)
class _Scale:
    low: float
    high: float
    left: float

    @classmethod
    def over(cls, values, labels) -> "_Scale":
        low, high = min(values), max(values)
        margin = max((high - low) * 0.03, 4.0)
        longest = max(map(width_of, labels), default=0.0) + 14
        return cls(low - margin, high + margin, min(max(longest, 40.0), MOST_LABEL))

    def x(self, mm: float) -> float:
        mm = min(max(mm, self.low), self.high)
        return self.left + (mm - self.low) / (self.high - self.low) * (WIDTH - RIGHT - self.left)

    def steps(self, unit: float) -> list[int]:
        """Whole numbers of the unit that the scale shows, few enough to be read."""
        letters = max(len(str(int(self.high / unit))), 3) + 1.2
        room = max((WIDTH - RIGHT - self.left) / (letters * LETTER), 2)
        nice = (1, 2, 5, 10) if unit == CM else (1, 2, 4, 10)
        step = next(one * 10**power for power in range(12) for one in nice if (self.high - self.low) / unit / (one * 10**power) <= room)
        first = ceil(self.low / unit / step)
        return [step * at for at in range(first, floor(self.high / unit / step) + 1)]

    def grid(self, top: float, bottom: float) -> str:
        return "".join(line(self.x(cm * CM), top, self.x(cm * CM), bottom, width=0.8, opacity=0.2) for cm in self.steps(CM))

    def axis(self, y: float) -> str:
        out = [line(self.left, y, WIDTH - RIGHT, y, width=1.2)]
        for unit, name, below in ((CM, "cm", 17.0), (INCH, "in", 35.0)):
            out.append(text(self.left - 10, y + below, name, anchor="end"))
            for value in self.steps(unit):
                x = self.x(value * unit)
                out.append(line(x, y, x, y + 4) if unit == CM else line(x, y + 21, x, y + 24, opacity=0.7))
                out.append(text(x, y + below, str(value), anchor="middle", strong=unit == CM))
        return "".join(out)


def width_of(words: str) -> float:
    """About how wide the words are in strong type, rather a little too wide.

    >>> width_of("Medium") > width_of("little")
    True
    """
    return sum(0.36 if letter in NARROW else 0.95 if letter in WIDE else 0.7 if letter.isupper() else 0.58 for letter in words) * TYPE


def _label(words: str, scale: _Scale, y: float, strong: bool = False) -> str:
    room, shown = scale.left - 12, words
    while len(shown) > 1 and width_of(shown) > room:
        shown = shown.removesuffix("…")[:-1].rstrip() + "…"
    return text(scale.left - 10, y + 4.5, shown, anchor="end", strong=strong)


def _hump(hump: Hump, scale: _Scale, base: float, high: float, most: float) -> str:
    points = [(scale.x(mm), base - height / most * (high - 3.5)) for mm, height in hump.points if scale.low <= mm <= scale.high]
    out = [_label(hump.label, scale, base - 7), line(scale.left, base, WIDTH - RIGHT, base, width=0.8, opacity=0.35)]
    if len(points) > 1:
        path = "L".join(f"{number(x)} {number(y)}" for x, y in points)
        out.append(f'<path d="M{number(points[0][0])} {number(base)}L{path}L{number(points[-1][0])} {number(base)}Z" fill-opacity="0.16"/>')
        out.append(f'<path d="M{path}" fill="none" stroke="currentColor" stroke-width="1.2"/>')
    return "".join(out)


def _bar(bar: Bar, scale: _Scale, y: float) -> str:
    out = [_label(bar.label, scale, y, strong=True)]
    if bar.low_mm is not None and bar.high_mm is not None:
        low, high = scale.x(bar.low_mm), scale.x(bar.high_mm)
        if bar.mark_mm is not None and not bar.low_mm <= bar.mark_mm <= bar.high_mm:
            near = low if bar.mark_mm < bar.low_mm else high
            out.append(line(near, y, scale.x(bar.mark_mm), y, dashes="2 3"))
        out.append(_beam(low, high, y))
    if bar.mark_mm is not None:
        out.append(_diamond(scale.x(bar.mark_mm), y))
    return "".join(out)


def _beam(low: float, high: float, y: float) -> str:
    if high - low < 8:
        low, high = (low + high) / 2 - 4, (low + high) / 2 + 4
    return (f'<rect x="{number(low)}" y="{number(y - 4.5)}" width="{number(high - low)}" height="9" rx="4" fill-opacity="0.3" '
            'stroke="currentColor" stroke-width="1.2"/>')


def _diamond(x: float, y: float) -> str:
    return f'<path d="M{number(x)} {number(y - 6)}l6 6l-6 6l-6 -6Z"/>'


def _legend(y: float, bar_means: str, mark_means: str) -> tuple[str, float]:
    """What the signs stand for, one a line, and where the picture goes on below."""
    out = [_beam(2, 20, y + 9), text(30, y + 13.5, bar_means)]
    y += 21
    if mark_means:
        out += [_diamond(11, y + 9), text(30, y + 13.5, mark_means)]
        y += 21
    return "".join(out), y + GAP
