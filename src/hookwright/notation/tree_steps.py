"""The steps of a row in the instruction tree, the places where the hook goes, and how far they reach.

`tree.py` hands them on, with the rows and the pattern that they make up: from there they are imported.
"""

from dataclasses import dataclass, field

from hookwright.ground import NOWHERE, Number, Span


def no_span():
    """A span field: nowhere until it is read, and left out where two trees are compared."""
    return field(default=NOWHERE, compare=False, repr=False)


# ---------------------------------------------------------------- how far

@dataclass(slots=True)
class Extent:
    """How far a step or a repeat goes.

    kind: "end"      across, around, to end, in each st
          "last"     to the last n (n of `of`, as a Place's `of`): stop with exactly n left
          "place"    up to, not into, the next `place` (corner, ch-2 sp, marker); with n: stop n of `of` before it
          "until"    until there are n stitches in the row being worked ("until you have n sts")
          "half"     halfway round
    """

    kind: str = "end"
    n: Number | None = None
    of: str = "st"
    place: "Place | None" = None
    span: Span = no_span()


@dataclass(slots=True)
class Place:
    """Where the hook goes.

    which: "next"       the next place(s) of the kind `of`
           "same"       where the last stitch, join or start went ("same st", "base of ch 1", "same sp")
           "first", "last"   of the row below; "last" with n takes the last n one after the other
           "nth"        the `ordinal`-th of its kind counted on from the hook ("in 3rd dc", "in 2nd ch of next ch-4": ordinal=2, of="ch", chains=4)
           "from hook"  chain number `ordinal` from the hook (2 = second)
           "ring"       the ring (adjustable or of chains)
           "chain top"  the top of a turning/beginning chain; `ordinal` the chain counted from its foot, where said
           "skipped"    the stitch(es) skipped before
           "beginning"  the place in which the row began ("same sp as first ch-5")
           "below"      a stitch `rows_down` rows below (spike)
           "row ends"   along the row ends of flat work
           "edge"       along an edge that is named (`group` her words, "along long side"): n stitches in all along each of place.n such edges
           "other side" the free side of the foundation chain
           "free loops" loops left free in the row `row`
           "marked"     the marked stitch
           "any"        any of its kind (joining a colour)
    of:    "st" any stitch · a catalogue id (only such stitches) · "sp" chain space (of `chains` chains where said) ·
           "ch" single chains · "st+sp" each st and sp · "corner" corner space · "group" a named group (`group`) ·
           "join" joining slip stitch · "gap" the gap between stitches or groups
    n:     how many such places one after the other (1 by default); None where `extent` says how far
    part:  of a group or place: "" / "center" / "before" / "after" / "between" / "sp" (the space inside the group)
    loop:  "" both / "back" / "front" / "third" / "bump" / "one" ;  post: "" / "front" / "back" / "around" (the side is not said)
    layers: 2 where each place is a pair through both thicknesses, 3 where it is so of two pieces that lie on each other
    row:   number of the row it belongs to, where said ("from Rnd 4")
    says:  of "from hook": what is said of the chains skipped before it ("(3 skipped chs count as dc)")
    each:  said with "each" (matters to nothing but the reading of unclear rows)
    """

    which: str = "next"
    of: str = "st"
    n: Number | None = 1
    extent: Extent | None = None
    ordinal: Number | None = None
    chains: Number | None = None
    group: str = ""
    part: str = ""
    loop: str = ""
    post: str = ""
    rows_down: int = 0
    row: int | None = None
    layers: int = 1
    says: "Counts | None" = None
    each: bool = field(default=False, compare=False)
    span: Span = no_span()


# ---------------------------------------------------------------- steps

@dataclass(slots=True)
class Stitch:
    """`n` stitches of `kind` into each place of `place`.

    place None: at the top of a row one in each of the next n; inside a Group all into the group's place.
    "2 dc in each of next 3 sts": n=2, place.n=3.   "dc in next 3 sts": n=1, place.n=3.   "3 dc" / "dc 3": n=3, place None.
    "fpdc around next st": kind "fpdc" (the post is in the kind), place next.   "hdc in back loop": place.loop / `loop`.
    kind "inc" / "dec": two in one / two together of the pattern's stitch, where no stitch is named.
    legs: for cl, bobble, puff, popcorn: how many legs; base: their stitch ("dc"); over: True where the legs go into different stitches.
    evenly: True where n stitches in all are spread over the place ("work 41 sc evenly along row ends").
    """

    kind: str
    n: Number = 1
    place: Place | None = None
    loop: str = ""
    legs: int | None = None
    base: str | None = None
    over: bool = False
    evenly: bool = False
    span: Span = no_span()


@dataclass(slots=True)
class Counts:
    """What is said of a chain: "(counts as dc, ch 2)" -> counts=True, kind="dc", chains=2; "does not count" -> counts=False.

    kind None where it "counts as a st", "sp" where it counts as a space of `chains` chains. stitches: 2 for "(counts as 2 dc)". onward: "here and throughout".
    """

    counts: bool
    kind: str | None = None
    chains: int = 0
    stitches: int = 1
    onward: bool = False
    span: Span = no_span()


@dataclass(slots=True)
class Chain:
    """Make `n` chains. role "turning" where the text says so (ch 1 to turn)."""

    n: Number
    says: Counts | None = None
    role: str = ""
    span: Span = no_span()


@dataclass(slots=True)
class Skip:
    """Pass places over: place.of and place.n say which and how many. says: "(3 skipped chs count as dc)"."""

    place: Place
    says: Counts | None = None
    span: Span = no_span()


@dataclass(slots=True)
class Group:
    """All steps into one place (or into each place of `place`). name: "shell", "V-st", "corner" where it has one.

    joined: True where the first is closed into one stitch ("(ch 3, 4 dc) - first popcorn made"): kind of the stitch made in `makes`.
    place None: into the place at hand (inside a Repeat of its own, or the ring).
    """

    steps: list
    place: Place | None = None
    name: str = ""
    makes: str = ""
    span: Span = no_span()


@dataclass(slots=True)
class Repeat:
    """Work `steps` again and again.

    times None: as `extent` says. times n with sense "total" (n in all), "more" (once, then n more), "unclear"
    ("rep from * n times"). stop: index into steps of the ** mark. partial: "" / "last" (the last pass ends at stop) /
    "again" (after all passes the steps up to stop once more). ending: steps said to end the last pass
    ("ending with ..."). mark: "*", "**", "#", "(", "[", "{", "|" or "" where nothing marks it ("Repeat around").
    """

    steps: list
    times: Number | None = None
    sense: str = "total"
    extent: Extent | None = None
    stop: int | None = None
    partial: str = ""
    ending: list | None = None
    ending_word: str = field(default="", compare=False)  # with / instead / in
    mark: str = field(default="", compare=False)
    span: Span = no_span()


@dataclass(slots=True)
class Each:
    """Every place in turn, worked by its kind: "sc in each st and 2 sc in each ch-1 sp around, (sc, ch 2, sc) in each corner".

    parts: Stitch or Group steps, each with a place whose `of` (and chains) says which places it goes into; places of a kind that
    no part names are passed over. extent: how far.
    """

    parts: list
    extent: Extent = field(default_factory=Extent)
    span: Span = no_span()


@dataclass(slots=True)
class Either:
    """Two or more readings of one phrase, the likeliest first; `why` says it in her words."""

    readings: list
    why: str = ""
    span: Span = no_span()


@dataclass(slots=True)
class Turn:
    span: Span = no_span()


@dataclass(slots=True)
class Join:
    """Close the round: slip stitch (or `kind`) in `place` (None: in the first stitch or top of the chain)."""

    place: Place | None = None
    kind: str = "slst"
    span: Span = no_span()


@dataclass(slots=True)
class NoJoin:
    """Do not join (spiral), or with turn=True: do not turn."""

    turn: bool = False
    span: Span = no_span()


@dataclass(slots=True)
class Ring:
    """An adjustable ring ("magic"), or chains joined into a ring: Chain then Ring(kind="chain")."""

    kind: str = "magic"
    span: Span = no_span()


@dataclass(slots=True)
class Colour:
    """Change to / work on with this colour (name or letter). late: said to be changed in the last stitch before."""

    name: str
    late: bool = field(default=False, compare=False)
    span: Span = no_span()


@dataclass(slots=True)
class JoinYarn:
    """Join yarn (of `colour`) in `place`; standing: stitch kind it is joined with."""

    place: Place | None = None
    colour: str = ""
    standing: str = ""
    span: Span = no_span()


@dataclass(slots=True)
class FastenOff:
    span: Span = no_span()


@dataclass(slots=True)
class Mark:
    """Place, move or remove a marker: act "place" / "move" / "remove"."""

    act: str = "place"
    place: Place | None = None
    span: Span = no_span()


@dataclass(slots=True)
class Leave:
    """Leave n places unworked (None: all that remain)."""

    n: Number | None = None
    span: Span = no_span()


@dataclass(slots=True)
class Go:
    """Work as established: "continue in patt", "work even". extent how far; kind "" or the stitch ("continue in sc")."""

    extent: Extent | None = None
    span: Span = no_span()


@dataclass(slots=True)
class Note:
    """Words in a row that make no stitch, kept for the page: hints, comments, (thumb opening).

    lead: how it follows what stands before it: "(" in brackets, "." as the beginning of a sentence, "," after a comma, " " straight on,
    ":" in the row's label. stop: a sentence ends with it. tells: it speaks of stitches in numbers and nothing else is known of it, so that it
    may change what is worked.
    """

    text: str
    span: Span = no_span()
    lead: str = field(default="(", compare=False)
    stop: bool = field(default=False, compare=False)
    tells: bool = field(default=False, compare=False)


@dataclass(slots=True)
class Unread:
    """Words in a row that could not be read. near: the word meant, where one is close."""

    text: str
    near: str = ""
    span: Span = no_span()


Step = (
    Stitch | Chain | Skip | Group | Repeat | Each | Either | Turn | Join | NoJoin | Ring | Colour | JoinYarn | FastenOff | Mark
    | Leave | Go | Note | Unread
)
