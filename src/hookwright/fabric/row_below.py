"""What lies below a row: round or flat, turned or not, chain carried over, the stitch it is made of."""

from dataclasses import replace

from hookwright.notation.tree import Chain, NoJoin, Skip, Stitch, Turn

from . import kinds, layout
from .kinds import FOUNDATION
from .legs import both_legs, names_legs
from .row_signs import first_plain, joins_round, ring_start, turns_at_start, turns_work
from .starting import BEFORE


def is_round(sequence, row, source, thread) -> bool:
    if sequence.in_round:
        return True
    steps = source.steps or row.steps
    word = row.word or source.word
    joined, turns = joins_round(steps), turns_work(steps)
    if sequence.below is not None and thread.last < 0 and not joined:
        return word == "Round" and False or sequence.in_round
    if joined:
        return True
    if word == "Round":
        return not (turns and thread.in_round is False)
    if turns:
        return thread.in_round is True and word != "Row"
    if thread.in_round is not None and word == "Row":
        return thread.in_round if not any(c.kind == "turn" for c in sequence.settings.said) else False
    if thread.in_round is None:
        return ring_start(steps) and word != "Row"
    return bool(thread.in_round)


def turns_of(steps):
    """(whether these steps turn the work before anything is worked, whether they say that it is not turned)."""
    return turns_at_start(steps), any(isinstance(step, NoJoin) and step.turn for step in steps)


def below_of(sequence, thread, source, row, in_round, first, turns):
    """(layout as this row meets it, whether the work was turned, chain carried over). turns: what `turns_of` says of its steps."""
    lay, carried = thread.lay, thread.carried
    if first and sequence.below is not None and thread.last < 0:
        from .groups_by_shape import with_groups_named
        from .statement import layout_from

        size = sequence.threads.index(thread)
        lay = with_groups_named(layout_from(sequence.below, size), source.steps or row.steps, sequence.pattern.own, size, in_round)
        ended = sequence.settings.end_chain()
        if ended is not None and carried is None:
            carried = Chain(ended.chains or 1, ended.says)
        elif carried is None and not in_round:
            carried = _chain_like_its_own(source.steps or row.steps)
    if thread.ended and _on_legs(sequence, source):
        lay = both_legs(thread, sequence.threads.index(thread), lay)
        return lay, False, None
    if lay is None:
        return None, False, None
    turned = False
    foundation = lay.kind[:1] == [FOUNDATION] or lay.kind[:1] == [kinds.ROW_END] or lay.ring
    if not foundation:
        at_start, stays = turns
        said = thread.turned_end or at_start
        if in_round:
            turned = said
        else:
            turned = True if thread.in_round is not True or said else bool(said)
            if getattr(thread, "side", None) == "no turn" or stays:
                turned = False
        if turned:
            lay = turned_layout(sequence, lay)
    if carried is not None and in_round and not turned:
        carried = None
    if in_round and not turned and not lay.plain:
        lay = layout.closing_loop(lay)
    return lay, turned, carried


def _chain_like_its_own(steps):
    """The chain that the row told below must have ended with: "Sk first dc, dc in each dc ..., dc in top of turning ch; ch 3, turn" begins as it ends; else None."""
    if len(steps) < 4 or not isinstance(steps[-1], Turn) or not isinstance(steps[-2], Chain):
        return None
    first = next((step for step in steps if not isinstance(step, BEFORE)), None)
    if not isinstance(first, Skip) or first.place is None or first.place.which != "first" or first.place.n != 1 or first.place.of in ("sp", "corner", "gap", "group", "ch"):
        return None
    into_top = any(isinstance(step, Stitch) and step.place is not None and step.place.which == "chain top" for step in steps[-4:-2])
    return replace(steps[-2]) if into_top else None


def _on_legs(sequence, source) -> bool:
    key = ("legs", id(source))
    found = sequence.memo.get(key)
    if found is None:
        found = sequence.memo[key] = names_legs(source.steps)
    return found


def turned_layout(sequence, lay):
    key = ("turned", id(lay))
    found = sequence.memo.get(key)
    if found is None or found[0] is not lay:
        found = (lay, lay.turned())
        sequence.memo[key] = found
    return found[1]


def base_of(sequence, source, thread, lay=None) -> str:
    """The plain stitch "inc" and "dec" are made of in this row: its own first one, else the row below's, else sc."""
    first = first_plain(source.steps)
    if first is not None:
        return first
    if thread.last >= 0:
        counts = thread.fabric.rows[thread.last].by_kind
        if counts:
            return kinds.plain_of(max(counts, key=counts.get))
    elif lay is not None and lay.n:
        stitches = [k for k in lay.kind if k >= kinds.FIRST_STITCH]
        if stitches:
            return kinds.plain_of(kinds.NAMES[max(set(stitches), key=stitches.count)])
    return "sc"
