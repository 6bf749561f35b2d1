"""What the sheet is told about the worked pattern. The pipeline fills it; a sheet can also be written with none of it."""

from dataclasses import dataclass, field

from hookwright import sizing
from hookwright.ground import Number


@dataclass(frozen=True, slots=True)
class RowFact:
    """The stitches that one written row ends with, the same for all sizes or one a size.

    each: for a range of rows that end with different counts, the stitches of each row in order, else ().
    """

    stitches: Number | None = None
    each: tuple[Number, ...] = ()


@dataclass(frozen=True, slots=True)
class Facts:
    """Facts about one pattern.

    rows         one RowFact, or None where the row was not worked, for each row in the order of `pattern.rows()`; () for none known
    conventions  notation Conventions that were found to hold, besides those of the pattern's own notes
    multiples    (stitch pattern or piece, "" for the whole pattern; the words, "any multiple of 6, plus 9 chains")
    values       further {names} that prose may quote: a Number, a notation Measure or a text
    must_mend    findings that must be mended before the sheet can be sold
    counts_proved  counts that were compared and agree
    fitting      whom each size fits, None where nothing tells it
    schematics   drawings of the pieces with their measurements (drawing.Picture), in order
    charts       {name of a piece: its chart as a drawing.Picture} of the pieces that are to have one
    photos       {name of a piece: the piece in its yarn, as a drawing.Picture}, the one for the front first
    found        the numbers that were found for the sizes, with the lengths they come to
    yarn         the estimate of the yarn (yarn.Estimate), for yarns whose balls are not stated; None where all are
    """

    rows: tuple = ()
    conventions: tuple = ()
    multiples: tuple[tuple[str, str], ...] = ()
    values: dict = field(default_factory=dict)
    must_mend: int = 0
    counts_proved: int = 0
    fitting: "sizing.Fitting | None" = None
    schematics: tuple = ()
    charts: dict = field(default_factory=dict)
    photos: dict = field(default_factory=dict)
    found: "tuple[sizing.Found, ...]" = ()
    yarn: object = None
