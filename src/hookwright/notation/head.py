"""The head as values: what stands between the --- lines, lengths in mm, numbers per size.

Every field has the name of its key (`in` and `for`, which Python keeps for itself, are `in_` and `for_`;
`to fit` is `to_fit_mm`). A field is None or empty where the key is absent. `spans` gives the place of each
value by its dotted path: "title", "gauge.0.stitches", "numbers.rib".
"""

from dataclasses import dataclass, field

from hookwright.ground import Number, Span


@dataclass(slots=True)
class Measure:
    """A length per size: `mm[i]` is (low_mm, high_mm) of size i, equal where no range is said, None where the size has none.

    A measure with one value holds for all sizes: use `at`.
    """

    mm: tuple
    text: str = ""

    def at(self, size: int) -> tuple[float, float] | None:
        """(low_mm, high_mm) of the size with this index."""
        if len(self.mm) == 1:
            return self.mm[0]
        return self.mm[size] if size < len(self.mm) else None


@dataclass(slots=True)
class SizeFact:
    """One size: its name and, where said, the body it is to fit as (low_mm, high_mm)."""

    name: str
    to_fit_mm: tuple[float, float] | None = None
    to_fit: str = ""


@dataclass(slots=True)
class Hook:
    """A hook: `mm` where the text gives it, the text as written; mm_assumed: the number stood there without its unit."""

    mm: float | None
    text: str = ""
    mm_assumed: bool = False


@dataclass(slots=True)
class Yarn:
    """One yarn. weight: category 0 to 7; metres and grams of one ball; balls per size; colours: letter or short name -> what it is.

    strands: how many are held together; price of one ball, `coin` what else is written beside it ("EUR").
    """

    name: str = ""
    weight: int | None = None
    fibre: str = ""
    metres: float | None = None
    grams: float | None = None
    balls: Number | None = None
    colours: dict = field(default_factory=dict)
    strands: int = 1
    price: float | None = None
    coin: str = ""


@dataclass(slots=True)
class Gauge:
    """Stitches and rows over `over_mm` across and `rows_over_mm` up, in the stitch or stitch pattern `in_`."""

    stitches: float | None = None
    rows: float | None = None
    over_mm: float = 100.0
    rows_over_mm: float = 100.0
    in_: str = ""
    blocked: bool | None = None
    hook: Hook | None = None


@dataclass(slots=True)
class Swatch:
    """A swatch as counted and measured: lengths in mm, weight in g, None where it was not taken; `of` names its fabric."""

    of: str = ""
    stitches: float | None = None
    width_mm: float | None = None
    rows: float | None = None
    height_mm: float | None = None
    washed_width_mm: float | None = None
    washed_height_mm: float | None = None
    weight_g: float | None = None
    hook: Hook | None = None
    yarn: str = ""


@dataclass(slots=True)
class Weighed:
    """A finished piece of one size that was weighed; colour: of that colour alone, "" for all of it."""

    size: str
    grams: float
    colour: str = ""


@dataclass(slots=True)
class Extra:
    """Yarn beside the rows. kind: "pompoms", "fringe", "seams", "ends" or "border".

    number: how many pompoms, strands or ends; length: across, of a strand, of the seams, round the border; rows and in_ of a border; wraps of a pompom.
    optional: left to the maker, so reckoned apart from the rest.
    """

    kind: str
    number: Number | None = None
    length: Measure | None = None
    rows: int | None = None
    in_: str = ""
    wraps: int | None = None
    colour: str = ""
    optional: bool = False


@dataclass(slots=True)
class NumberWish:
    """A number to be found: `keys` holds her words by key ("want", "count", "in", "multiple" ...), `spans` their places.

    follows: the sum it follows from where it is given as one, "" else.
    """

    name: str
    keys: dict = field(default_factory=dict)
    spans: dict = field(default_factory=dict)
    follows: str = ""
    span: Span = Span(0, 0)


@dataclass(slots=True)
class Body:
    """Whom it is for: `table` the table of body measures, `sizes` its sizes in the order of hers (() = by the same names), `measures` her own
    (name -> Measure)."""

    table: str = ""
    sizes: tuple[str, ...] = ()
    measures: dict = field(default_factory=dict)
    stretch: str = ""
    span: Span = Span(0, 0)


@dataclass(slots=True)
class Silence:
    """A kind of finding that she has looked at and lets stand, with her reason; rows: labels it is for (() = all)."""

    kind: str
    because: str = ""
    rows: tuple[str, ...] = ()
    span: Span = Span(0, 0)


@dataclass(slots=True)
class Head:
    """All of the head. `present` tells a head with no keys from no head at all."""

    title: str = ""
    designer: str = ""
    terms: str = ""  # "US", "UK" or "" where not said
    summary: str = ""
    version: str = ""
    date: str = ""
    copyright: str = ""
    level: str = ""
    sizes: tuple[SizeFact, ...] = ()
    hook: tuple[Hook, ...] = ()
    yarn: tuple[Yarn, ...] = ()
    materials: tuple[str, ...] = ()
    gauge: tuple[Gauge, ...] = ()
    finished: dict = field(default_factory=dict)  # name -> Measure
    finished_sums: dict = field(default_factory=dict)  # name -> her sum, for measures that follow from numbers
    ease: Measure | None = None
    ease_text: str = ""
    ease_share: tuple = ()  # ease in per cent: a share of the body, one a size or one for all (-0.05 is 5 % less)
    numbers: dict = field(default_factory=dict)  # name -> Number
    wishes: dict = field(default_factory=dict)  # name -> NumberWish, for numbers that are to be found
    lengths: dict = field(default_factory=dict)  # name -> ground.Value, lengths that sums in the body can name (a stitch, a row)
    swatches: tuple[Swatch, ...] = ()
    weighed: tuple[Weighed, ...] = ()
    extras: tuple[Extra, ...] = ()
    speed: dict = field(default_factory=dict)  # stitch as she writes it ("" for any) -> stitches a minute
    body: Body | None = None
    stitches: dict = field(default_factory=dict)  # name -> her words
    for_: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    silence: tuple[Silence, ...] = ()
    spans: dict = field(default_factory=dict)  # dotted path -> Span
    present: bool = True

    @property
    def size_names(self) -> tuple[str, ...]:
        """The names of the sizes in order."""
        return tuple(size.name for size in self.sizes)

    def colour_names(self) -> frozenset[str]:
        """All names and letters of colours, lower case."""
        names = set()
        for yarn in self.yarn:
            for key, value in yarn.colours.items():
                names.add(key.lower())
                if value:
                    names.add(value.lower())
        return frozenset(names)
