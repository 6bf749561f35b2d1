"""Hypothesis strategies for instruction trees and for rows that can be worked.

`steps()` and `rows()` give any tree the trade could write (not all can be worked: they test reading and spelling).
`worked_pieces()` gives rows that fit each other exactly, with the stitch count of each (they test working, proving and writing).
Sizes: a number is an int, or a PerSize of `sizes` values.
"""

from dataclasses import dataclass

from hypothesis import strategies as st

from hookwright.ground import PerSize
from hookwright.notation.tree import (
    Again,
    Chain,
    Colour,
    Counts,
    Extent,
    FastenOff,
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
    Row,
    Skip,
    Stated,
    Stitch,
    Turn,
    Until,
)

BASIC = ("sc", "hdc", "dc", "tr", "dtr")
PLAIN = (*BASIC, "trtr", "esc", "ehdc", "edc")
POST = tuple(side + base for side in ("fp", "bp") for base in BASIC)
TOGETHER = ("sc2tog", "sc3tog", "hdc2tog", "dc2tog", "dc3tog", "dc5tog", "tr2tog", "fpdc2tog")
TEXTURED = ("bobble", "popcorn", "puff", "cl")
EDGING = ("rsc", "picot")
OTHER = ("spike", "ldc", "loopst")
SHORT = ("inc", "dec", "invdec")

kinds = st.sampled_from(PLAIN)


def _per_size(values):
    return PerSize(sorted(values)) if len(set(values)) > 1 else values[0]


def numbers(low=2, high=40, sizes=1):
    """A whole number, in every third or so one a size where there are sizes."""
    plain = st.integers(low, high)
    if sizes < 2:
        return plain
    listed = st.lists(plain, min_size=sizes, max_size=sizes).map(_per_size)
    return st.one_of(plain, plain, listed)


# ---------------------------------------------------------------- places

def plain_nouns():
    """What a place is made of: stitches, one kind of stitch, chain spaces, chains."""
    return st.one_of(
        st.just({"of": "st"}),
        st.sampled_from((*BASIC, "fpdc", "bobble")).map(lambda kind: {"of": kind}),
        st.just({"of": "sp"}),
        st.integers(1, 7).map(lambda chains: {"of": "sp", "chains": chains}),
        st.just({"of": "ch"}),
        st.just({"of": "corner"}),
    )


def extents():
    """How far along a row."""
    return st.one_of(
        st.just(Extent("end")),
        st.just(Extent("end")),
        st.integers(1, 6).map(lambda n: Extent("last", n)),
        st.integers(1, 5).map(lambda chains: Extent("place", place=Place(of="sp", chains=chains))),
        st.just(Extent("place", place=Place(of="corner"))),
    )


def each_places():
    """Places that run along the row: each st across, each dc to last 3 sts, back loop of each st around."""
    return st.builds(
        lambda noun, extent, loop: Place(n=None, extent=extent, loop=loop, **noun),
        st.one_of(plain_nouns(), st.just({"of": "st+sp"})),
        extents(),
        st.sampled_from(("", "", "", "back", "front", "third")),
    )


def single_places(sizes=1):
    """One place, or several one after the other."""
    loops = st.sampled_from(("", "", "", "back", "front", "third"))
    return st.one_of(
        st.builds(lambda noun, loop: Place(loop=loop, **noun), plain_nouns(), loops),
        st.builds(lambda noun, n, loop: Place(n=n, loop=loop, **noun), plain_nouns(), numbers(2, 12, sizes), loops),
        plain_nouns().map(lambda noun: Place("first", **noun)),
        st.sampled_from(("st", "sp", "ch", "dc")).map(lambda of: Place("same", of=of)),
        st.integers(2, 9).map(lambda ordinal: Place("from hook", of="ch", ordinal=ordinal)),
        st.just(Place("ring")),
        st.integers(3, 6).map(lambda chains: Place("nth", of="ch", ordinal=2, chains=chains)),
        st.just(Place("skipped")),
        st.just(Place("marked")),
    )


def end_places():
    """Where the last stitch of a row goes."""
    return st.one_of(
        plain_nouns().map(lambda noun: Place("last", **noun)),
        st.integers(2, 5).map(lambda n: Place("last", n=n)),
        st.integers(2, 6).map(lambda chains: Place("chain top", chains=chains)),
        st.integers(3, 6).map(lambda chains: Place("chain top", chains=chains, ordinal=3)),
    )


# ---------------------------------------------------------------- steps

def last_stitches():
    """A stitch into the end of the row, or along the rest of it: nothing but the end of the row can follow it."""
    return st.one_of(
        st.builds(lambda kind, n, place: Stitch(kind, n, place), kinds, st.integers(1, 5), end_places()),
        st.builds(lambda kind, place: Stitch(kind, 1, place), kinds, each_places()),
        st.builds(lambda kind: Stitch(kind, 1, Place(n=None, extent=Extent("end"))), st.sampled_from(POST)),
        st.builds(lambda n: Stitch("sc", n, Place("row ends", n=None, extent=Extent("end")), evenly=True), st.integers(20, 60)),
    )


def stitches(sizes=1):
    """A stitch with its place."""
    return st.one_of(
        st.builds(lambda kind, n: Stitch(kind, n), kinds, numbers(1, 20, sizes)),
        st.builds(lambda kind, place: Stitch(kind, 1, place), kinds, single_places(sizes)),
        st.builds(lambda kind, n, place: Stitch(kind, n, place), kinds, numbers(2, 5), single_places(sizes)),
        st.builds(lambda kind, n: Stitch(kind, 1, Place(n=n)), st.sampled_from(POST), numbers(1, 6, sizes)),
        st.builds(lambda kind: Stitch(kind), st.sampled_from((*SHORT, *TEXTURED, *OTHER, *EDGING))),
        st.builds(lambda kind, n: Stitch(kind, n), st.sampled_from(SHORT), numbers(2, 8)),
        st.builds(lambda kind, legs, base: Stitch(kind, 1, Place(), legs=legs, base=base), st.sampled_from(TEXTURED), st.integers(2, 7),
                  st.sampled_from(("hdc", "dc", "tr"))),
        st.builds(together, st.sampled_from(TOGETHER)),
        st.builds(lambda kind, loop, n: Stitch(kind, n, loop=loop), kinds, st.sampled_from(("back", "front")), numbers(2, 9)),
    )


def together(kind: str) -> Stitch:
    """A decrease over the next stitches."""
    number = int("".join(letter for letter in kind if letter.isdigit()))
    return Stitch(kind, 1, Place(n=number), over=True)


def counts():
    """What is said of a chain."""
    return st.one_of(
        st.builds(lambda kind, onward: Counts(True, kind, onward=onward), st.sampled_from(BASIC), st.booleans()),
        st.builds(lambda kind, chains: Counts(True, kind, chains=chains), st.sampled_from(("dc", "tr")), st.integers(1, 4)),
        st.just(Counts(True)),
        st.just(Counts(False)),
    )


def chains(sizes=1):
    """A chain, with or without what it counts as."""
    return st.builds(Chain, numbers(1, 9, sizes), st.one_of(st.none(), st.none(), counts()))


def skips(sizes=1):
    """Places passed over."""
    return st.builds(lambda noun, n: Skip(Place(n=n, **noun)), plain_nouns(), numbers(1, 4, sizes))


def groups():
    """Several steps into one place: a shell with spaces, a V-stitch, a corner."""
    inner = st.one_of(
        st.builds(lambda kind, a, gap, b: [Stitch(kind, a), Chain(gap), Stitch(kind, b)], st.sampled_from(BASIC), st.integers(1, 4),
                  st.integers(1, 3), st.integers(1, 4)),
        st.builds(lambda a, b, c: [Stitch(a), Stitch(b), Stitch(c)], st.just("sc"), st.sampled_from(("hdc", "dc")), st.just("sc")),
    )
    into = st.one_of(plain_nouns().map(lambda noun: Place(**noun)), st.just(Place("same", of="st")), st.just(Place("ring")))
    return st.builds(Group, inner, into)


def simple_steps(sizes=1):
    """Steps that hold no others."""
    return st.one_of(stitches(sizes), stitches(sizes), chains(sizes), skips(sizes), groups())


def repeats(sizes=1, inside=None):
    """Star and bracket repeats with all the ways to say how often."""
    inside = inside if inside is not None else simple_steps(sizes)
    inner = st.lists(inside, min_size=2, max_size=4)
    ends = st.one_of(
        st.builds(lambda n: {"times": n}, numbers(2, 12, sizes)),
        st.builds(lambda n: {"times": n, "sense": "more"}, numbers(1, 12, sizes)),
        extents().map(lambda extent: {"extent": extent}),
    )
    plain = st.builds(lambda steps, end: Repeat(steps, **end), inner, ends)
    stopped = st.builds(
        lambda steps, end, partial: Repeat(steps, stop=1, partial=partial, **end),
        inner,
        st.one_of(st.just({"extent": Extent("end")}), st.builds(lambda n: {"times": n, "sense": "more"}, st.integers(1, 9))),
        st.sampled_from(("last", "again")),
    )
    return st.one_of(plain, plain, plain, stopped)


def nested_repeats(sizes=1):
    """A repeat that holds a repeat."""
    bracketed = st.builds(lambda steps, n: Repeat(steps, n), st.lists(simple_steps(), min_size=2, max_size=3), numbers(2, 9, sizes))
    return repeats(sizes, st.one_of(simple_steps(sizes), bracketed))


def closings(in_round: bool):
    """What ends a row or round."""
    if in_round:
        joins = st.sampled_from((Place("first", of="st"), Place("first", of="sc"), Place("chain top", chains=3), None))
        return st.one_of(st.builds(lambda place: [Join(place)], joins), st.just([NoJoin()]), st.just([]))
    return st.sampled_from(([Turn()], [], [Leave(), Turn()], [FastenOff()]))


@st.composite
def steps(draw, in_round=False, sizes=1):
    """The steps of a row as a list."""
    opening = draw(st.one_of(st.just([]), chains(sizes).map(lambda chain: [chain])))
    one = st.one_of(simple_steps(sizes), simple_steps(sizes), repeats(sizes), nested_repeats(sizes))
    middle = draw(st.lists(one, min_size=1, max_size=5))
    if not any(isinstance(step, (Stitch, Group, Repeat)) for step in middle):  # chains alone would be a ring to join
        middle.append(Stitch("sc", 1, Place()))
    for step in middle[:-1]:  # what runs to the end of the row stands last
        if isinstance(step, Repeat) and step.extent is not None and step.extent.kind == "end":
            step.extent = Extent("last", 2)
    if draw(st.integers(0, 3)) == 0 and not (isinstance(middle[-1], Repeat) and middle[-1].extent is not None):
        middle.append(draw(last_stitches()))
    extra = draw(st.one_of(st.just([]), st.just([]), st.just([Mark("place", Place("last"))]), st.just([Colour("B")])))
    return [*opening, *middle, *extra, *draw(closings(in_round))]


REMARKS = {  # as they stand: whole sentences, after a comma, straight on
    ".": ("Do not fasten off", "Turn the strip a quarter so that the row ends lie uppermost", "The feet are worked in rows",
          "Fold the cuff so that the last row lies against the first", "Rotate the piece to work along the row ends",
          "Stuff the leg firmly before you go on", "Note that the last row has fewer stitches", "Check that the piece lies flat"),
    ",": ("with the seam to the inside", "pulling the loop up long", "counting the marked stitch", "working from left to right"),
    " ": ("for the thumb", "for the neck opening"),
}


@st.composite
def remarks(draw):
    """A remark of hers where it may stand: a sentence, or words that belong to the steps before."""
    lead = draw(st.sampled_from(tuple(REMARKS)))
    return Note(draw(st.sampled_from(REMARKS[lead])), lead=lead, stop=lead == "." or draw(st.booleans()))


@st.composite
def steps_with_remarks(draw, in_round=False, sizes=1):
    """The steps of a row with one or two remarks among them."""
    made = draw(steps(in_round, sizes))
    for at in sorted(draw(st.sets(st.integers(1, len(made)), min_size=1, max_size=2)), reverse=True):
        made.insert(at, draw(remarks()))
    return made


@st.composite
def stated(draw, sizes=1):
    """A count after the row."""
    count = numbers(1, 99, sizes)
    return draw(st.one_of(
        count.map(lambda n: Stated(((n, "st", None),))),
        st.builds(lambda n, kind: Stated(((n, kind, None),)), count, st.sampled_from(BASIC)),
        st.builds(lambda n, kind, m, chains: Stated(((n, kind, None), (m, "sp", chains))), count, st.sampled_from(BASIC), count,
                  st.integers(1, 5)),
    ))


@st.composite
def rows(draw, sizes=1, size_names=()):
    """A labelled row with steps and, mostly, a count."""
    in_round = draw(st.booleans())
    first = draw(st.integers(1, 60))
    numbered = draw(st.sampled_from((1, 1, 1, 2, 5)))
    only = ()
    if size_names and draw(st.booleans()):
        only = tuple(draw(st.lists(st.sampled_from(size_names), min_size=1, max_size=len(size_names), unique=True)))
        only = tuple(name for name in size_names if name in only)
    return Row(
        word="Round" if in_round else "Row",
        numbers=tuple(range(first, first + numbered)),
        side=draw(st.sampled_from(("", "", "RS", "WS"))),
        only=only if only != tuple(size_names) else (),
        steps=draw(steps(in_round, sizes)),
        stated=draw(st.one_of(st.just([]), stated(sizes).map(lambda count: [count]))),
    )


@st.composite
def again_rows(draw):
    """Rows worked by reference."""
    first = draw(st.integers(1, 9))
    rows_meant = draw(st.sampled_from(((first,), (first, first + 1), tuple(range(first, first + 6)), (first, first + 2, first + 4))))
    how = draw(st.one_of(
        st.just({"sense": "unclear"}),
        st.builds(lambda n: {"times": n, "sense": "more"}, st.integers(1, 20)),
        st.builds(lambda n: {"total_rows": n, "sense": "unclear"}, st.integers(10, 60)),
        st.builds(lambda cm: {"until": Until(measure_mm=cm * 10.0), "sense": "unclear"}, st.integers(3, 90)),
    ))
    again = Again(rows=rows_meant, **how)
    if draw(st.booleans()) and "times" in how:
        again.then = Again(rows=(first,), sense="total")
    return Row(again=again)


def special_steps():
    """Steps that stand alone at the start of a piece."""
    return st.sampled_from((
        [Chain(40)],
        [Ring(), Stitch("sc", 6, Place("ring"))],
        [Chain(4), Ring("chain")],
        [JoinYarn(Place("any", of="sp", chains=2), "A")],
    ))


# ---------------------------------------------------------------- rows that can be worked

@dataclass
class WorkedPiece:
    """Rows that fit each other. counts: stitches after each row (PerSize in several sizes). in_round: rounds in a spiral from a ring."""

    rows: list
    counts: list
    kind: str
    in_round: bool


@st.composite
def worked_pieces(draw, max_rows=6):
    """A piece in one size: a strip of sc or dc in rows on a chain, or a disc in spiral rounds from a ring."""
    return draw(draw(st.sampled_from((strips, tall_strips, discs)))(max_rows))


@st.composite
def strips(draw, max_rows=6):
    """Flat rows of sc on a chain, each stated: plain rows, repeats that fit, increases and decreases at the edges."""
    count = draw(st.integers(6, 40))
    made = [Row(steps=[Chain(count + 1)])]
    made.append(Row("Row", (1,), steps=[
        Stitch("sc", 1, Place("from hook", of="ch", ordinal=2)), Stitch("sc", 1, Place(of="ch", n=None, extent=Extent("end"))), Turn(),
    ], stated=[Stated(((count, "sc", None),))]))
    counts_after = [count]
    for number in range(2, draw(st.integers(2, max_rows)) + 1):
        body, count = draw(_body(count))
        made.append(Row("Row", (number,), steps=[Chain(1), *body, Turn()], stated=[Stated(((count, "st", None),))]))
        counts_after.append(count)
    return WorkedPiece(made, counts_after, "sc", False)


@st.composite
def tall_strips(draw, max_rows=6):
    """Flat rows of dc whose turning chain counts: the row goes on in the second stitch and ends in the top of the chain below."""
    count = draw(st.integers(6, 40))
    made = [Row(steps=[Chain(count + 2)])]
    first = Place("from hook", of="ch", ordinal=4, says=Counts(True, "dc"))
    made.append(Row("Row", (1,), steps=[Stitch("dc", 1, first), Stitch("dc", 1, Place(of="ch", n=None, extent=Extent("end"))), Turn()],
                    stated=[Stated(((count, "dc", None),))]))
    counts_after = [count]
    for number in range(2, draw(st.integers(2, max_rows)) + 1):
        chain = Chain(3, Counts(True, "dc", onward=number == 2))
        if draw(st.booleans()):
            body, made_by_body = [Stitch("dc", 1, Place(n=None, extent=Extent("end")))], count - 1
        else:
            body, made_by_body = draw(_body(count - 1, "dc", edges=False))
        count = made_by_body + 1
        made.append(Row("Row", (number,), steps=[chain, *body, Turn()], stated=[Stated(((count, "st", None),))]))
        counts_after.append(count)
    return WorkedPiece(made, counts_after, "dc", False)


@st.composite
def sized_pieces(draw, sizes=3, max_rows=6):
    """Flat rows of sc in several sizes: `passes` panels of the same width, one number of panels a size. counts: a list a row."""
    passes = sorted(draw(st.lists(st.integers(2, 12), min_size=sizes, max_size=sizes, unique=True)))
    width = draw(st.integers(3, 7))

    def total():
        return PerSize([each * width for each in passes])

    made = [Row(steps=[Chain(PerSize([each * width + 1 for each in passes]))])]
    made.append(Row("Row", (1,), steps=[
        Stitch("sc", 1, Place("from hook", of="ch", ordinal=2)), Stitch("sc", 1, Place(of="ch", n=None, extent=Extent("end"))), Turn(),
    ], stated=[Stated(((total(), "sc", None),))]))
    counts_after = [total()]
    for number in range(2, draw(st.integers(2, max_rows)) + 1):
        way = draw(st.sampled_from(("plain", "grow", "shrink")))
        end = draw(st.sampled_from(({"extent": Extent("end")}, {"times": PerSize(passes)})))
        body = [Stitch("sc", 1, Place(n=None, extent=Extent("end")))]
        if way == "grow":
            body = [Repeat([Stitch("sc", 1, Place(n=width - 1)), Stitch("sc", 2, Place())], **end)]
            width += 1
        elif way == "shrink" and width > 3:
            body = [Repeat([Stitch("sc", 1, Place(n=width - 2)), together("sc2tog")], **end)]
            width -= 1
        made.append(Row("Row", (number,), steps=[Chain(1), *body, Turn()], stated=[Stated(((total(), "st", None),))]))
        counts_after.append(total())
    return WorkedPiece(made, counts_after, "sc", False)


@st.composite
def discs(draw, max_rows=6):
    """Spiral rounds of sc from a ring."""
    count = draw(st.integers(5, 8))
    made = [Row("Round", (1,), steps=[Ring(), Stitch("sc", count, Place("ring"))], stated=[Stated(((count, "st", None),))])]
    counts_after = [count]
    for number in range(2, draw(st.integers(2, max_rows)) + 1):
        body, count = draw(_body(count))
        made.append(Row("Round", (number,), steps=body, stated=[Stated(((count, "st", None),))]))
        counts_after.append(count)
    return WorkedPiece(made, counts_after, "sc", True)


@st.composite
def _body(draw, there: int, kind: str = "sc", edges: bool = True):
    """Steps that use up exactly `there` stitches, and the stitches they make. edges: shaping at both ends may be drawn."""
    way = draw(st.sampled_from(("plain", "increase", "decrease", "repeat", "spaces") if edges else ("repeat", "spaces")))
    if way == "increase" and there >= 3:
        plain = Stitch(kind, 1, Place(n=None, extent=Extent("last", 1)))
        return [Stitch(kind, 2, Place("first")), plain, Stitch(kind, 2, Place("last"))], there + 2
    if way == "decrease" and there >= 7:
        plain = Stitch(kind, 1, Place(n=None, extent=Extent("last", 2)))
        return [together(f"{kind}2tog"), plain, together(f"{kind}2tog")], there - 2
    fits = [width for width in range(2, 9) if there % width == 0 and there // width > 1]
    if way in ("repeat", "spaces") and fits:
        width = draw(st.sampled_from(fits))
        passes = there // width
        end = draw(st.sampled_from(({"extent": Extent("end")}, {"times": passes}, {"times": passes - 1, "sense": "more"})))
        plain = Stitch(kind, 1, Place(n=width - 1))
        if way == "spaces":  # a space takes the place of a stitch
            return [Repeat([Chain(1), Skip(Place()), plain], **end)], there - passes
        grows = draw(st.booleans())
        last = Stitch(kind, 2, Place()) if grows else Stitch("bobble", 1, Place(), legs=5, base="dc")
        return [Repeat([plain, last], **end)], there + passes * grows
    return [Stitch(kind, 1, Place(n=None, extent=Extent("end")))], there
