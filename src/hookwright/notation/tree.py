"""The instruction tree: what a written row says, free of dialect, wording and punctuation.

One tree has one meaning. The reader makes it from her words, the worker works it, the writer spells it out again in
either dialect; equality of two trees leaves out the spans. Stitches go by their catalogue id (US abbreviations).
Steps are what happens in a row, Places are where the hook goes, Extents say how far.
"""

from dataclasses import dataclass, field

from hookwright.ground import Number, Span

from .tree_steps import (
    Chain,
    Colour,
    Counts,
    Each,
    Either,
    Extent,
    FastenOff,
    Go,
    Group,
    Join,
    JoinYarn,
    Leave,
    Mark,
    NoJoin,
    Note,
    Place,
    Repeat,
    Ring,
    Skip,
    Step,
    Stitch,
    Turn,
    Unread,
    no_span,
)

__all__ = [
    "Again", "Chain", "Colour", "Convention", "Counts", "Each", "Either", "Extent", "FastenOff", "Go", "Group", "Interval", "Join", "JoinYarn", "Leave",
    "Mark", "NoJoin", "Note", "OwnStitch", "Pattern", "Piece", "Place", "Prose", "Repeat", "Ring", "Row", "Shaping", "Skip", "Stated", "Step",
    "Stitch", "Turn", "Unread", "Until",
]


@dataclass(slots=True)
class Stated:
    """A count written in a row. items: (number, of) pairs, `of` = "st", a catalogue id, "ch" (chains), "sp" (spaces; chains=n where
    said), "row", "group:shell" and so on. per: "" for the row / "repeat" / "side" / "more" (added) / "fewer" (than before) / "left" (remaining) / "unworked" (left unworked) / "so far" (stitches follow it).

    "(24 dc, 6 ch-1 sps)" -> items ((24, "dc", None), (6, "sp", 1)).   "(4 groups of 9 tr)" -> ((4, "group", None), (9, "dc", None)), per "group".
    series: True where several numbers are one a row ("(32/40/48 sts)" over Rnds 3-5): then each number is a tuple of them.
    row: of which row of a range, where that is not the last: "(14 sts after Row 6)" under Rows 2-7.
    """

    items: tuple
    per: str = ""
    series: bool = False
    span: Span = no_span()
    row: int | None = None


@dataclass(slots=True)
class Until:
    """Work rows until: it measures (`measure_mm` per size, from `measured_from` where said), there are `stitches`, "desired length".

    measured: her word for what is measured where it is a part by name ("thumb"), "" for the piece.
    """

    measure_mm: tuple | float | None = None
    stitches: Number | None = None
    desired: bool = False
    measured_from: str = ""
    side: str = ""  # ending on a RS / WS row
    ending_on: int | None = None  # ending with a Row n (a row of the repeat)
    or_fixed: bool = False  # "until row 18 or until desired length": the fixed count stands
    measured: str = field(default="", compare=False)
    span: Span = no_span()


@dataclass(slots=True)
class Interval:
    """Shaped rows at even distances. every: 1 each row, 2 every other, 6 every 6th. first: which row is the first of them, counted from here
    (1 the next); None where it is the `every`th. times: how often, None where that follows from what is said besides; after: `times` comes
    after the first of them ("next and foll 4 alt rows"). stitches: until there are so many."""

    every: Number
    first: Number | None = None
    times: Number | None = None
    after: bool = False
    stitches: Number | None = None


@dataclass(slots=True)
class Shaping:
    """Rows shaped at intervals, and the even ones between: "inc 1 st at each end of 5th and every foll 6th row 4 times".

    kind: "inc" / "dec"; "" where a row referred to is the shaped one ("rep Inc Row every 8th row"). n: stitches at each place, None where
    nothing says so; where: "ends" / "first" / "last" / "evenly" (n in all of the row) / "" not said. intervals: one after the other. stitch: what the rows are worked in, where said.
    """

    kind: str
    n: Number | None
    where: str
    intervals: tuple
    stitch: str = ""


@dataclass(slots=True)
class Again:
    """Work rows again: "Rep Rows 2-7 8 times more", "As Row 3", "Rep last row until ...".

    rows: the row numbers meant, in order; first_number and last_number the ends of the run where they differ by size (as in Row); () with last=n means the last n rows. Names for named rows in `named`; piece: of which piece, where the rows are those with the row's own numbers ("as First Motif"), all of them
    where it has none; to: how far then ("armholes"; "row" or "rows" up to last_number).
    times: how often; sense "more" / "total" / "unclear"; total_rows: "for a total of n rows". alternate: "alternately".
    shaping: rows shaped at intervals. then: a further Again ("then rep Rnd 9 again"). changes: steps said to differ ("but having ch 5"). even: "work even".
    """

    rows: tuple[int, ...] = ()
    first_number: Number | None = None
    last_number: Number | None = None
    last: Number = 0
    named: tuple[str, ...] = ()
    piece: str = ""
    to: str = ""
    times: Number | None = None
    sense: str = "more"
    total_rows: Number | None = None
    until: Until | None = None
    then: "Again | None" = None
    changes: list | None = None
    alternate: bool = False
    even: bool = False
    same_manner: bool = False
    shaping: Shaping | None = None
    span: Span = no_span()


@dataclass(slots=True)
class Row:
    """One written row, or a range of rows ("Rnds 3-8").

    word: "Row" / "Round" / "" ; numbers: row numbers it stands for (1 or more; () where unnumbered); last_number: the range's end
    where it differs by size, first_number its beginning where that does ("Row 15 (17, 17)": both). name: "Foundation", "Next", "Ribbing" ...; count_of_rows: "Next 4 rows" / "(6 rows)".
    side "RS"/"WS" where said; only: sizes it is for (names as written), () = all. foundation: steps stand before Row 1's label ("Ch 41. Row 1: ...").
    again: where the row is worked by reference; steps may then hold what is done besides. stripes: (rows, colour) pairs of a line that stands
    for several rows, begun again when used up; changes_to: the colour changed to when they are done (both from the words in notes).
    """

    word: str = ""
    numbers: tuple[int, ...] = ()
    last_number: Number | None = None
    first_number: Number | None = None
    name: str = ""
    count_of_rows: Number | None = None
    side: str = ""
    only: tuple[str, ...] = ()
    steps: list = field(default_factory=list)
    again: Again | None = None
    stated: list = field(default_factory=list)
    notes: list = field(default_factory=list)
    span: Span = no_span()
    label_span: Span = no_span()
    text: str = field(default="", compare=False)
    stripes: tuple = field(default=(), compare=False)
    changes_to: str = field(default="", compare=False)

    def label(self) -> str:
        """The row's name as it is said in findings: "Row 2", "Rnds 3-8", "Next row"."""
        word = self.word or "Row"
        if self.numbers:
            first, last = self.numbers[0], self.numbers[-1]
            if first == last:
                return f"{word} {first}"
            if self.numbers == tuple(range(first, last + 1)):
                return f"{word}s {first}-{last}"
            return f"{word}s " + ", ".join(map(str, self.numbers))
        if self.name:
            return self.name if "row" in self.name.lower() or "round" in self.name.lower() or not self.word else f"{self.name} {word.lower()}"
        return "the first row" if not self.word else word


@dataclass(slots=True)
class Prose:
    """Words between rows. text is Markdown as written; told: spans of lines in it that `Pattern.front` holds as values."""

    text: str
    span: Span = no_span()
    told: tuple = ()

    @property
    def rest(self) -> str:
        """The text without the lines that were told."""
        if not self.told:
            return self.text
        out, at = [], 0
        for span in self.told:
            first, last = span.start - self.span.start, span.end - self.span.start
            out.append(self.text[at:first])
            at = last
        return "".join([*out, self.text[at:]]).strip("\n")


@dataclass(slots=True)
class Piece:
    """A heading's worth of pattern: name, level, and rows and prose in order."""

    name: str = ""
    level: int = 0
    items: list = field(default_factory=list)
    make: Number | None = None  # "make 2"
    section: str = ""  # "", "notes", "special stitches", "materials", "gauge", "finishing", "abbreviations", "about"
    span: Span = no_span()


@dataclass(slots=True)
class Convention:
    """Something the notes settle for the whole pattern.

    kind: "tch"      a chain of `chains` (None: any) at the start of a row; `stitch` it goes with (None any): counts True/False as says
          "skipped"  skipped foundation chains: says.counts
          "chains"   chains count as stitches in the counts (counts True/False)
          "repeat"   "rep n times" means: value "more" / "total"
          "start"    where a round starts: value "corner" / "space" / "side" / "first sp"
          "cluster"  ch n and k stitches stand for the first cluster
          "end chain" a chain made at the end of the row before belongs to this row (chains, says)
          "join"     rounds are joined / value "spiral" ; "turn" value "yes" / "no"
          "counted"  a stitch kind counts as one st (value id)
    value: of a "tch" also "unless": rows may say otherwise ("counts as a st throughout unless stated")
    word: of a "tch" with value "block": what she calls a block ("tile")
    """

    kind: str
    chains: int | None = None
    stitch: str | None = None
    says: Counts | None = None
    value: str = ""
    span: Span = no_span()
    word: str = ""


@dataclass(slots=True)
class OwnStitch:
    """Her own stitch: `name` (and other spellings), the steps it is made of (worked into one place unless `over`).

    kind: the catalogue id it is one of, where it makes one countable stitch (bobble, cl, popcorn); legs and base where said;
    group True where its parts count one by one (shell, V-st). words: her text, for the page.
    """

    name: str
    spellings: tuple[str, ...] = ()
    steps: list = field(default_factory=list)
    kind: str = ""
    legs: int | None = None
    base: str | None = None
    group: bool = False
    takes: int = 1
    words: str = ""
    span: Span = no_span()


@dataclass(slots=True)
class Pattern:
    """The whole manuscript. head is a notation.Head (None for a fragment); text has the head's numbers written out where they are named.

    front: where there is no head, a Head of what the lines before the rows say; it is for the page only.
    """

    text: str
    terms: str  # "US" / "UK"
    head: object = None
    pieces: list = field(default_factory=list)
    conventions: list = field(default_factory=list)
    own: dict = field(default_factory=dict)  # name -> OwnStitch
    sizes: tuple[str, ...] = ()
    terms_said: bool = True
    shifts: object = None  # notation.Shifts: from `text`, which has the numbers of the head written out, back to hers
    front: object = None

    def rows(self):
        """All rows in order, with the piece each belongs to."""
        for piece in self.pieces:
            for item in piece.items:
                if isinstance(item, Row):
                    yield piece, item
