"""The catalogue: what is known of each stitch, and the rules that make post stitches and decreases out of plain ones."""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path
from typing import NamedTuple


class Source(NamedTuple):
    """Where a fact was published; address "" for common practice and for what is from memory."""

    title: str
    address: str


@dataclass(frozen=True, slots=True)
class StitchFact:
    """One stitch, free of any dialect.

    takes, makes  places of the row below it uses up, stitches it makes
    height_ch     nominal height in chains (1 for sc, 3 for dc)
    yo            wraps of yarn before the hook goes in
    legs, base    of a group: how many, of which plain stitch; of any other: the plain stitch it is a form of
    post          "", "front" or "back"
    tch           chains of the usual turning chain, None where there is none; tch_counts "yes" / "no" / "disputed" / ""
    texture       side it stands out on as the worker sees it: "", "back", "front", "both"
    steps         how it is made, short words of the catalogue's [step_words]; () where the pattern must say it
    counts        whether it is counted as a stitch
    """

    id: str
    kind: str
    takes: int = 1
    makes: int = 1
    height_ch: float = 1.0
    yo: int = 0
    legs: int | None = None
    base: str = ""
    post: str = ""
    tch: int | None = None
    tch_counts: str = ""
    texture: str = ""
    symbol: str = ""
    steps: tuple[str, ...] = ()
    counts: bool = True
    sources: tuple[Source, ...] = field(default=(), repr=False)


@cache
def _file() -> dict:
    return tomllib.loads(Path(__file__).with_name("catalogue.toml").read_text("utf-8"))


def _sources(keys) -> tuple[Source, ...]:
    known = _file()["sources"]
    return tuple(Source(*known[key]) for key in keys)


@cache
def _written() -> dict[str, StitchFact]:
    facts = {}
    for name, entry in _file()["stitch"].items():
        facts[name] = StitchFact(
            id=name,
            kind=entry["kind"],
            takes=entry.get("takes", 1),
            makes=entry.get("makes", 1),
            height_ch=float(entry.get("height", 1)),
            yo=entry.get("yo", 0),
            legs=entry.get("legs"),
            base=entry.get("base", name),
            tch=entry.get("tch"),
            tch_counts=entry.get("tch_counts", ""),
            texture=entry.get("texture", ""),
            symbol=entry.get("symbol", ""),
            steps=tuple(entry.get("steps", "").split()),
            counts=entry.get("counts", True),
            sources=_sources(entry["from"]),
        )
    rule = _file()["post"]
    for prefix, side in rule["sides"].items():
        for base in rule["bases"]:
            plain = facts[base]
            facts[prefix + base] = replace(
                plain,
                id=prefix + base,
                kind="post",
                base=base,
                post=side,
                height_ch=plain.height_ch - rule["height_less"],
                texture=side,
                symbol=rule["symbol"],
                steps=tuple("post" if step == "in" else step for step in plain.steps),
                sources=_sources(rule["from"]),
            )
    return facts


def leg(fact: StitchFact) -> tuple[str, ...]:
    """The steps of a plain or post stitch up to its last drawing through, as worked for one leg of a decrease or a cluster.

    >>> leg(stitch("dc"))
    ('yo', 'in', 'up', 'd2')
    """
    return fact.steps[:-1]


_TOGETHER = re.compile(r"([a-z]+)(\d{1,2})tog")


@cache
def stitch(id: str) -> StitchFact | None:
    """The facts of a stitch, also of any "<stitch><n>tog" with n from 2 to 12; None where the id is not known.

    >>> stitch("fpdc2tog").takes, stitch("dc3tog").steps[-1]
    (2, 'd4')
    """
    known = _written().get(id)
    if known is not None:
        return known
    found = _TOGETHER.fullmatch(id)
    if not found:
        return None
    plain, number = _written().get(found[1]), int(found[2])
    rule = _file()["together"]
    if plain is None or plain.kind not in ("basic", "extended", "post") or not plain.takes or not 2 <= number <= rule["most"]:
        return None
    each = leg(plain)
    steps = tuple(step if index == 0 or step != "in" else "next" for index in range(number) for step in each)
    loops = 1 + number * loops_of(each)
    return replace(
        plain,
        id=id,
        kind="decrease",
        takes=number,
        legs=number,
        base=plain.id,
        symbol=rule["symbol"],
        steps=(*steps, f"d{loops}"),
        sources=_sources(rule["from"]),
    )


_DRAW = re.compile(r"d(\d+)")


def loops_of(steps) -> int:
    """Loops that `steps` add to the hook (negative where they take some off).

    >>> loops_of(("yo", "in", "up", "d2"))
    1
    """
    words = _file()["step_words"]
    total = 0
    for step in steps:
        drawn = _DRAW.fullmatch(step)
        total += 1 - int(drawn[1]) if drawn else words[step][1]
    return total


def group_steps(id: str, legs: int | None = None, base: str | None = None) -> tuple[str, ...]:
    """Steps of a bobble, cluster, puff or popcorn of `legs` legs of `base`; the catalogue's usual ones where not given.

    A bobble or cluster draws through one loop more than it has legs, a puff through two for each leg and one:

    >>> group_steps("bobble", 5)[-1], group_steps("puff", 4)[-1]
    ('d6', 'd9')
    """
    fact = stitch(id)
    count = legs or fact.legs or 3
    plain = stitch(base or fact.base)
    if id == "popcorn":
        return (*("same" if step == "in" else step for step in plain.steps * count), "drop", "pick", "ch")
    if id == "puff":
        each = ("yo", "same", "tall")
    else:
        each = tuple("same" if step == "in" else step for step in leg(plain))
    return (*each * count, f"d{1 + count * loops_of(each)}")


def step_words(step: str) -> str:
    """One step in words: "d2" -> "yarn over and draw through 2 loops"; three or more are all there are, since no stitch is half closed over them."""
    drawn = _DRAW.fullmatch(step)
    if drawn:
        number = int(drawn[1])
        loops = "1 loop" if number == 1 else "2 loops" if number == 2 else f"all {number} loops on the hook"
        return f"yarn over and draw through {loops}"
    return _file()["step_words"][step][0]


class Catalogue(Mapping):
    """All stitches that are written down or follow the post rule, by id; read from disk when first looked into."""

    def __getitem__(self, id: str) -> StitchFact:
        return _written()[id]

    def __iter__(self):
        return iter(_written())

    def __len__(self) -> int:
        return len(_written())


CATALOGUE = Catalogue()
