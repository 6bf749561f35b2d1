"""A pattern of our own built by hand, so that writing is tested without the reader: a hat in three sizes with ear flaps."""

from pathlib import Path

import pytest

from hookwright.ground import PerSize
from hookwright.notation import Gauge, Head, Hook, Measure, SizeFact, Yarn
from hookwright.notation.tree import (
    Again,
    Chain,
    Convention,
    Counts,
    Extent,
    FastenOff,
    Group,
    Join,
    OwnStitch,
    Pattern,
    Piece,
    Place,
    Prose,
    Repeat,
    Ring,
    Row,
    Skip,
    Stated,
    Stitch,
    Turn,
)
from hookwright.writing import Facts, RowFact

SIZES = ("Baby", "Child", "Adult")


def measure(*mm) -> Measure:
    """A measure with one value a size."""
    return Measure(tuple((value, value) for value in mm))


def hat_head() -> Head:
    """The head of the sample hat."""
    return Head(
        title="Samphire Cap",
        designer="Marram Lane Studio",
        terms="US",
        summary="A close cap worked from the crown down, with a skipped-stitch band and two ear flaps.",
        version="1.2",
        date="2026-11-01",
        copyright="© 2026 Marram Lane Studio",
        level="easy",
        sizes=(SizeFact("Baby", (380, 420)), SizeFact("Child", (480, 520)), SizeFact("Adult", (540, 580))),
        hook=(Hook(5.0, "5 mm"), Hook(4.5, "4.5 mm")),
        yarn=(Yarn("worsted wool", 4, "wool", 180, 100, PerSize((1, 2, 2)), {"A": "cream", "B": "slate gray"}),),
        materials=("yarn needle", "1 stitch marker", "two 22 mm buttons"),
        gauge=(Gauge(14, 17, in_="sc", blocked=True), Gauge(13, 8, in_="dc")),
        finished={"circumference": measure(400, 480, 530), "height": measure(165, 190, 215), "ear_flap": measure(70, 70, 70)},
        ease_text="2 to 4 cm smaller than the head",
        numbers={"band": PerSize((54, 66, 72))},
        for_=("baby", "child"),
        cautions=("Leave the buttons off for babies.",),
    )


def hat_rows() -> list:
    """The rows of the crown and the band."""
    around = Extent("end")
    inc = Stitch("dc", 2, Place(n=1))
    return [
        Row(
            "Round",
            (1,),
            side="RS",
            steps=[Ring(), Chain(3, Counts(True, "dc")), Stitch("dc", 11, Place("ring", "ring", None)), Join()],
            stated=[Stated(((12, "dc", None),))],
        ),
        Row(
            "Round",
            (2,),
            steps=[Chain(3), Stitch("dc", 1, Place("same")), Repeat([inc], None, extent=around, mark="*"), Join()],
            stated=[Stated(((24, "dc", None),))],
        ),
        Row(
            "Round",
            (3,),
            steps=[Chain(3), Repeat([Stitch("dc", 1, Place("next")), inc], PerSize((8, 10, 12)), mark="["), Join()],
            stated=[Stated(((PerSize((36, 42, 48)), "dc", None),))],
        ),
        Row("Round", (4, 5, 6, 7), steps=[], again=Again(last=1), last_number=PerSize((7, 9, 10))),
        Row(
            "Round",
            (),
            name="Band",
            steps=[Chain(1), Repeat([Stitch("sc", 1, Place(n=2)), Chain(1), Skip(Place(n=1))], extent=around, mark="*"), Join()],
            stated=[Stated(((PerSize((36, 44, 48)), "sc", None), (PerSize((18, 22, 24)), "sp", 1)))],
        ),
        Row(
            "Round",
            (),
            name="Bobble",
            steps=[
                Repeat(
                    [
                        Stitch("bobble", 1, Place("next", "sp", chains=1)),
                        Stitch("sc2tog", 1),
                        Group([Stitch("dc"), Chain(2), Stitch("dc")], Place("next")),
                    ],
                    PerSize((9, 11, 12)),
                    mark="[",
                ),
                Join(),
                FastenOff(),
            ],
        ),
    ]


def flap_rows() -> list:
    """The rows of an ear flap."""
    return [
        Row(steps=[Chain(PerSize((13, 15, 17)))]),
        Row(
            "Row",
            (1,),
            side="RS",
            steps=[Stitch("sc", 1, Place("from hook", "ch", ordinal=2)), Stitch("sc", 1, Place("next", "ch", None, Extent("end"))), Turn()],
            stated=[Stated(((PerSize((12, 14, 16)), "st", None),))],
        ),
        Row(
            "Row",
            (2,),
            side="WS",
            steps=[Chain(1), Stitch("sc2tog"), Stitch("sc", 1, Place("next", "st", None, Extent("last", 2))), Stitch("sc2tog"), Turn()],
            stated=[Stated(((PerSize((10, 12, 14)), "st", None),))],
        ),
        Row("Row", (3,), only=("Child", "Adult"), steps=[Chain(1), Stitch("sc", PerSize((None, 12, 14)), None), Turn()]),
    ]


@pytest.fixture
def hat() -> Pattern:
    """The sample hat, in US terms."""
    pieces = [
        Piece(
            name="Samphire Cap",
            level=1,
            items=[Prose("Samphire grows on the saltings. This cap does **not** mind the wind.\n\nWork it in an afternoon.")],
        ),
        Piece(
            "Notes",
            2,
            [Prose("- Ch 3 counts as dc throughout.\n- Check your gauge: skip nothing.\n- The band has {band} stitches.")],
            section="notes",
        ),
        Piece("Crown", 2, hat_rows()),
        Piece("Ear flaps", 2, [Prose("Work with the smaller hook. *Do not* fasten off at the end."), *flap_rows()], make=2),
        Piece(
            "Finishing",
            2,
            [
                Prose(
                    "Sew the ear flaps to the band, skip 3 dc from the center back. Sew on the buttons. See [our page](https://example.org/help)."
                )
            ],
            section="finishing",
        ),
    ]
    return Pattern(
        text="Samphire Cap. Sew on the buttons.",
        terms="US",
        head=hat_head(),
        pieces=pieces,
        sizes=SIZES,
        conventions=[Convention("tch", 3, "dc", Counts(True, "dc", onward=True))],
        own={"bobble": OwnStitch("bobble", kind="bobble", legs=5, base="dc", words="5 dc closed together in one stitch")},
    )


@pytest.fixture
def hat_facts() -> Facts:
    """What the worked hat would say."""
    counts = (12, 24, (36, 42, 48), (36, 42, 48), (36, 44, 48), (36, 44, 48), None, (12, 14, 16), (10, 12, 14), (None, 12, 14))
    rows = tuple(RowFact(PerSize(count) if isinstance(count, tuple) else count) if count else None for count in counts)
    return Facts(
        rows=rows,
        conventions=(Convention("join"),),
        multiples=(("band", "any multiple of 3"), ("", "any multiple of 6, plus 2 chains")),
        counts_proved=30,
    )


@pytest.fixture
def golden():
    """The text of an accepted sheet by its file name."""
    return lambda name: (Path(__file__).parent / "accepted" / name).read_text("utf-8")
