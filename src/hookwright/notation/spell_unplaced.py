"""What is said of a stitch's place or left out on the way out, by the steps around it: "in next 3 sts" lest it be misread, the other side said once."""

from .spell_places import Manner
from .tree import Chain, Colour, FastenOff, Join, NoJoin, Note, Repeat, Stitch, Turn

_NOT_ONE_EACH = ("slst", "inc", "dec", "invdec", "cdc", "shell", "fan", "vst")
_SPACES = ("sp", "corner", "group", "gap")
CLOSING = (Turn, Join, NoJoin, FastenOff)
_APART = frozenset((*CLOSING, Chain, Note))


def must_be_told(steps: list, top: bool) -> set[int]:
    """Indexes of stitches without a place for which "in next n sts" must be said, lest they be taken for part of what follows.

    "3 dc, ch 2, 3 dc in next sp" might put all of it into the space; after "in each st across" a bare "17 sc" might be the count.
    A row of one bare "sc" might be that stitch in every one (top: these steps are a whole row).
    """
    told: set[int] = set()
    if top and sum(1 for step in steps if type(step) not in _APART and type(step) is not Colour) == 1:
        told.update(index for index, step in enumerate(steps) if type(step) is Stitch and step.place is None and step.n == 1 and step.kind not in _NOT_ONE_EACH and not step.kind.endswith("tog"))
    bare: list[int] = []
    row_may_be_done = False
    for index, step in enumerate(steps):
        kind = type(step)
        if kind is Stitch:
            place = step.place
            if place is None:
                if step.kind not in _NOT_ONE_EACH and not step.kind.endswith("tog") and not step.loop:
                    bare.append(index)
                    if row_may_be_done:
                        told.add(index)
                continue
            one = place.n == 1 and place.which != "ring" if place.extent is None else place.of in _SPACES
            if bare and one and any(steps[at].kind == step.kind and steps[at].n == step.n for at in bare):
                told.update(bare)
            bare = []
            row_may_be_done = place.extent is not None or place.which in ("last", "chain top")
        elif kind is Repeat:
            bare = []
            row_may_be_done = step.times is None
        elif kind is not Chain or step.says is not None:
            bare = []
    return told


def said_before(manner: Manner, step) -> list[str]:
    """What holds from here to the end of the row: the other side of the chain, both layers."""
    words = []
    if step.place.which == "other side" and not manner.other_side and not getattr(step, "evenly", False):
        manner.other_side = True
        words.append(f"working across other side of {manner.chain}")
    if step.place.layers > 1 and manner.layers == 1:
        manner.layers = step.place.layers
        words.append("working through both pieces" if step.place.layers > 2 else "working through both layers")
    return words


def goes_on(before: Stitch, step: Stitch) -> bool:
    """Whether the stitch is named once for both: "sc in 2nd ch from hook and in each ch across"."""
    if before.kind != step.kind or before.n != 1 or step.n != 1 or before.place is None or step.place is None:
        return False
    if before.place.which != "from hook" or step.place.which != "next" or step.place.extent is None or step.place.of != "ch":
        return False
    plain = (before.loop, before.legs, before.base, before.over, before.evenly, before.place.loop)
    return plain == (step.loop, step.legs, step.base, step.over, step.evenly, step.place.loop)
