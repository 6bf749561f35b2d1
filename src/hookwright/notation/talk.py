"""Is a line without a label talk beside the rows? Asked of the steps that were read from it: talk makes no row of stitches."""

from . import tree

_TOLD = (tree.Note, tree.Unread)


def is_talk(steps: list, stated: list) -> bool:
    """Whether steps read from a line without a label are words about the work and no row.

    Talk is a line of nothing but remarks ("Turn the brim so that the seam is inside"), and one that begins with a remark and goes on
    with nothing that has a place in the row below: bare stitches ("See how it grows? Six more trebles each row"), or a seam through
    both layers ("Bring the ends together and sl st through both layers").
    """
    if not steps or any(count.span.end - count.span.start > 3 for count in stated):
        return False  # "With A, sc all round, ... You should now have 25."; a number alone at the end of talk is no count
    if all(type(step) in _TOLD or type(step) is tree.NoJoin for step in steps):
        return any(type(step) is tree.Note for step in steps)
    turned = any(type(step) is tree.Turn for step in steps)  # "Leaving a long tail, fsc 90, turn.": stitches and a turn after them make a row
    return type(steps[0]) is tree.Note and not any(_worked(step) or turned and type(step) is tree.Stitch for step in steps)


def _worked(step) -> bool:
    """Whether a step does work on the row below, or begins it: all but remarks, bare stitches and seams."""
    if type(step) is tree.Stitch:
        return step.place is not None and (step.place.layers < 2 or step.place.n != 1 or step.n != 1)
    return type(step) not in _TOLD and type(step) not in (tree.NoJoin, tree.FastenOff, tree.Turn)
