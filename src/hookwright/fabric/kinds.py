"""Stitch kinds as small numbers, for the columns of the fabric, and what the worker needs to know of each."""

from functools import cache

from hookwright.stitches import stitch

NAMES = ["ch", "foundation ch", "row end", "layer", "slst"]
_NUMBER = {name: index for index, name in enumerate(NAMES)}
CHAINS, FOUNDATION, ROW_END, LAYER, SLIP = range(5)
FIRST_STITCH = SLIP  # kinds from here on are stitches

# Single stitches that gather several legs in one place: they take one place whatever their number of legs.
GATHERED = frozenset({"cl", "bobble", "puff", "popcorn"})


def number(kind: str) -> int:
    """The number of a stitch kind; a new one is given where it has none yet."""
    found = _NUMBER.get(kind)
    if found is None:
        found = _NUMBER[kind] = len(NAMES)
        NAMES.append(kind)
    return found


@cache
def takes_makes(kind: str) -> tuple[int, int]:
    """(places taken, stitches made) by one stitch of this kind; 1 and 1 where the catalogue has none."""
    fact = stitch(kind)
    return (fact.takes, fact.makes) if fact else (1, 1)


@cache
def plain_of(kind: str) -> str:
    """The plain stitch a kind is built on: "dc" for dc, fpdc, dc2tog, bobble."""
    fact = stitch(kind)
    return (fact.base or kind) if fact else kind


@cache
def height(kind: str) -> float:
    """Nominal height in chains (stitches.CATALOGUE), 1 where unknown."""
    fact = stitch(kind)
    return float(fact.height_ch or 0) if fact else 1.0


@cache
def turning(kind: str) -> tuple[int, str]:
    """(chains, "yes"/"no"/"disputed") customary for the start of a row of this kind: catalogue, turning_chain_custom."""
    fact = stitch(plain_of(kind)) or stitch(kind)
    if not fact or fact.tch is None:
        return 1, "no"
    return int(fact.tch), fact.tch_counts or "no"


@cache
def counted(kind: str) -> bool:
    """Whether the kind counts as a stitch (a picot does not)."""
    fact = stitch(kind)
    return fact.counts if fact else True


@cache
def yarn_overs(kind: str) -> int:
    """Yarn overs before the hook goes in; a third loop is there only where there is one."""
    fact = stitch(plain_of(kind)) or stitch(kind)
    return (fact.yo or 0) if fact else 1


@cache
def post(kind: str) -> str:
    """"front" or "back" where the stitch goes round a post."""
    fact = stitch(kind)
    return fact.post if fact and fact.post else ""


@cache
def together(kind: str) -> str:
    """The plain stitch of which a kind is several worked together ("sc" for sc2tog), "" where it is none."""
    return plain_of(kind) if "tog" in kind or kind == "invdec" else ""
