"""What the steps of a row are as a whole: a chain and its turning, a ring of their own, nothing that is worked, a count alone."""

from hookwright.ground import PerSize, Span

from . import tree


def has_unread(steps) -> bool:
    return any(isinstance(step, tree.Unread) or isinstance(step, tree.Repeat) and has_unread(step.steps) for step in steps)


def works_nothing(step) -> bool:
    """ "Rnd 9: Do not", "Row 2: Join A in any sp": what begins something and makes no stitch."""
    return isinstance(step, (tree.JoinYarn, tree.Turn, tree.Colour)) or isinstance(step, tree.Note) and not step.tells and len(step.text.split()) <= 4


def only_a_chain(steps: list) -> bool:
    """ "Ch 90, fasten off. Weave through Rnd 10 and tie in a bow": a cord."""
    return sum(type(step) in (tree.Chain, tree.Ring) for step in steps) == 1 and all(type(step) in (tree.Chain, tree.Ring, tree.FastenOff, tree.Note, tree.Colour) for step in steps)


def with_its_turning(steps: list) -> bool:
    """ "Ch 20, ch 1, turn." and nothing else: one chain, of which the last are for the turn; "Ch 20, join, ch 1.": a ring and the height of its first round."""
    kept = [step for step in steps if type(step) not in (tree.Turn, tree.Note)]
    if len(kept) > 1 and type(kept[1]) is tree.Repeat and kept[1].times in (None, 1) and len(kept[1].steps) == 1:
        kept[1] = kept[1].steps[0]  # "ch 1 more to turn"
    if [type(step) for step in kept] in ([tree.Chain, tree.Join, tree.Chain], [tree.Chain, tree.Ring, tree.Chain]) and kept[2].n == 1 and kept[2].says is None and type(kept[0].n) is int and kept[0].n > 5:
        steps.remove(kept[2])
        return True
    if [type(step) for step in kept] != [tree.Chain, tree.Chain] or kept[0] is not steps[0] or any(step.says is not None for step in kept):
        return False
    long, short = kept[0].n, kept[1].n
    if type(short) is int and short < 6 and (type(long) is int and long > 5 or type(long) is PerSize):
        kept[0].n = long + short if type(long) is int else PerSize(None if one is None else one + short for one in long)
        kept[0].span = kept[0].span.to(kept[1].span)
        steps[:] = [kept[0], *(step for step in steps if type(step) is tree.Note)]
        return True
    return False


def is_usual_group(group: tree.Group) -> bool:
    """Whether a shell, fan or V-stitch is what those words mean where nobody says more: stitches of one kind, or two with a chain between."""
    makes = group.steps
    if len(makes) == 1:
        return isinstance(makes[0], tree.Stitch) and makes[0].n == 5
    return group.name == "vst" and len(makes) == 3 and isinstance(makes[1], tree.Chain) and makes[1].n == 1


def close_own_ring(steps: list) -> None:
    """ "Ch 4, sl st in first ch. Round 1: ... in ring": a chain closed by a slip stitch is a ring, whatever it is called."""
    place = steps[1].place
    if type(steps[0]) is tree.Chain and steps[0].says is None and place is not None and place.which == "first" and place.of == "ch" and _in_ring(steps[2:]):
        steps[1] = tree.Ring("chain", steps[1].span)


def _in_ring(steps) -> bool:
    return any(getattr(getattr(step, "place", None), "which", "") == "ring" or isinstance(step, (tree.Group, tree.Repeat)) and _in_ring(step.steps) for step in steps)


def count_alone(row: tree.Row, before: int) -> None:
    """ "Rep last row 4 times. 33 (37, 41) sc.": bare stitches at the end of a reference are its count."""
    steps = row.steps[before:]
    if not steps or not all(isinstance(step, tree.Stitch) and step.place is None and not step.loop and step.legs is None and step.kind != "slst" for step in steps):
        return
    row.stated.append(tree.Stated(tuple((step.n, step.kind, None) for step in steps), span=Span(steps[0].span.start, steps[-1].span.end)))
    del row.steps[before:]
