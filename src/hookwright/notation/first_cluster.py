"""The first cluster of a row, begun with a chain and told by those after it: "ch 3, tr2tog in same sp, ch 3, *tr3tog in next sp, ch 3".

Chain and stitches are one cluster of as many legs as the others have, whether or not the row says that they count as one.
"""

import re

from .tree import Chain, Counts, Group, Join, Note, Place, Repeat, Skip, Stitch, Turn

_TOG = re.compile(r"([a-z]+)(\d)tog")
_SPACES = ("sp", "corner", "group")


def close_first_cluster(steps: list) -> None:
    """Puts the chain and the stitches of a first cluster together in `steps`, where clusters of one leg more follow."""
    index = next((at for at, step in enumerate(steps) if type(step) not in (Note, Turn, Skip) and getattr(step, "kind", "") != "slst"), len(steps))
    step = steps[index] if index + 1 < len(steps) else None
    if type(step) is not Chain or step.says is not None and not step.says.counts or step.role:
        return
    last = steps[index + 1]
    found = _TOG.fullmatch(_as_together(last)) if type(last) is Stitch and last.n == 1 else None
    if found is None and type(last) is Stitch and last.n == 1 and step.says is None and last.place is not None and last.place.which == "next" and last.place.n == 1 and last.place.of not in _SPACES and last.place.extent is None \
            and _all_in_pairs(steps[index + 2:], f"{last.kind}2tog"):
        step.says = Counts(False)  # "ch 3, dc in next dc, *ch 3, dc2tog over next 2 dc; rep from * around": the first of them, of two legs
        steps.insert(index + 1, Skip(Place("first", n=1), span=last.span))
        return
    if found is None or step.says is not None and step.says.chains or step.n == 1:
        return  # a single chain is the height of no leg
    wanted, place = f"{found[1]}{int(found[2]) + 1}tog", last.place
    if found[1] == "sc" or place is None or place.extent is not None:
        return
    one = _one_place(place)
    if one and _follows(steps[index + 2:], wanted, True):
        last.place = step.says = None
        steps[index:index + 2] = [Group([step, last], place, makes=wanted, span=step.span.to(last.span))]
    elif not one and last.over and (step.says is None or step.says.kind == found[1]) and place.which == "next" and place.of not in _SPACES and place.n == int(found[2]) and _follows([later for later in steps[index + 2:] if type(later) is Repeat], wanted, False):
        step.says = Counts(False)  # "ch 3, dc2tog over next 2 sts, *ch 2, dc3tog over next 3 sts": its first leg stands on the first stitch
        steps.insert(index + 1, Skip(Place("first", n=1), span=last.span))


def _as_together(step: Stitch) -> str:
    """The kind of a stitch, a cluster as the stitches it is made of: "tr4tog" for a 4-tr cluster."""
    return f"{step.base or 'dc'}{step.legs}tog" if step.kind == "cl" and step.legs is not None else step.kind


def _all_in_pairs(steps: list, kind: str) -> bool:
    """Whether what is worked later is nothing but stitches of this kind over two, with chains between."""
    made = False
    for step in steps:
        if type(step) is Repeat:
            inner = [one for one in step.steps if type(one) is not Chain]
            if step.ending or not inner or any(type(one) is not Stitch or one.kind != kind or not one.over and one.place is not None for one in inner):
                return False
            made = True
        elif type(step) in (Chain, Note, Turn, Join) or type(step) is Stitch and step.kind in ("slst", kind):
            continue
        else:
            return False
    return made


def _one_place(place) -> bool:
    return place.n == 1 and (place.which == "same" or place.of in _SPACES) or place.which == "ring"


def _of_as_many_legs(step: Stitch, kind: str) -> bool:
    """Whether a stitch is this one, or a cluster that has as many legs of the same height ("5-tr cluster over next 5 dc" for tr5tog)."""
    return kind in (step.kind, _as_together(step))


def _follows(steps: list, kind: str, one: bool) -> bool:
    """Whether a stitch of this kind comes later, in one place or over several like the first."""
    for step in steps:
        if type(step) is Stitch and _of_as_many_legs(step, kind) and step.place is not None and _one_place(step.place) == one:
            return True
        if type(step) is Repeat and _follows(step.steps, kind, one):
            return True
        if type(step) is Group and one and any(type(inner) is Stitch and _of_as_many_legs(inner, kind) for inner in step.steps):
            return True
    return False
