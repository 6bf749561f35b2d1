"""Plain repeats at one go: one pass told once, then laid as often as it fits."""

from hookwright.notation.tree import Skip, Stitch

from . import kinds
from .hand import Hand
from .needs import stitch_kind, takes_of
from .worked import FLAG_COUNTS, FLAG_GROUP


def template_of(hand: Hand, body):
    """(takes, kinds, feet offsets, flags, extra feet, skipped, [(made so far, span of the step)]) of one pass over plain stitches; None where it needs more than that."""
    if not hand.lay.plain or hand.lay.ring or hand.bare_in is not None or hand.inside is not None or hand.row_loop:
        return None
    at = 0
    kind, foot, flags, feet, skip, ends = [], [], [], {}, 0, []
    for step in body:
        if type(step) is Skip:
            place = step.place
            if place.which != "next" or place.of not in ("st", "ch") or place.extent is not None or place.layers != 1:
                return None
            count = hand.number(place.n)
            if not count:
                return None
            at += count
            skip = max(skip, count)
            continue
        if type(step) is not Stitch or step.loop or step.evenly or step.kind in ("slst", "picot", "spike"):
            return None
        place = step.place
        count = hand.number(step.n)
        if count is None or count > 5000:
            return None
        takes = takes_of(hand, step)
        number = stitch_kind(hand, step)
        makes = kinds.takes_makes(number)[1]
        if takes < 1 or makes != 1 and step.kind not in kinds.GATHERED:
            return None
        if step.kind == "inc":
            takes = 1
        if place is not None and (place.of in ("sp", "corner", "group", "gap", "st+sp", "unworked") or place.group):
            return None
        if place is not None and (place.which != "next" or place.extent is not None or place.loop or place.post or place.part
                                  or place.layers != 1 or place.of not in ("st", "ch")
                                  and len(hand.lay.of_kind(place.of)) != hand.lay.stitches and hand.lay.of_kind(place.of)):
            return None
        each = 1 if place is None else hand.number(place.n)
        if each is None:
            return None
        if place is not None and place.of not in ("st", "ch") and not hand.lay.of_kind(place.of) and hand.lay.built_on(place.of):
            return None
        small = kinds.number(number)
        counted = FLAG_COUNTS if kinds.counted(number) else 0
        if step.kind == "inc":
            units, per = (count, 2) if place is None else (each, 2 * count if each == 1 else 2)
            for _ in range(units):
                kind.extend([small] * per)
                foot.extend([at] * per)
                flags.extend([counted] + [counted | FLAG_GROUP] * (per - 1))
                at += 1
        elif takes > 1:
            units = count if place is None or each in (1, takes) else each // takes
            if place is not None and each > 1 and each % takes:
                return None
            for _ in range(units):
                feet[len(kind)] = tuple(range(at + 1, at + takes))
                kind.append(small)
                foot.append(at)
                flags.append(counted)
                at += takes
        elif place is None:
            kind.extend([small] * count)
            foot.extend(range(at, at + count))
            flags.extend([counted] * count)
            at += count
        else:
            for _ in range(each):
                kind.extend([small] * count)
                foot.extend([at] * count)
                flags.extend([counted] + [counted | FLAG_GROUP] * (count - 1))
                at += 1
        ends.append((len(kind), step.span))
    if at == 0 or not kind:
        return None
    return at, kind, foot, flags, feet, skip, ends


def fits(hand, template, times) -> bool:
    return hand.left() >= template[0] * times


def tile(hand: Hand, template, passes: int):
    """Works `passes` passes of a plain repeat at one go."""
    takes, kind, foot, flags, feet, skip, ends = template
    made = len(kind)
    hand.room(made * passes)
    if passes <= 0:
        return
    start, first = len(hand.kind), hand.cur
    hand.kind.extend(kind * passes)
    hand.flags.extend(flags * passes)
    hand.chains.extend([0] * (made * passes))
    if made == takes and foot == list(range(made)):  # one in each, as most are
        hand.foot.extend(range(first, first + takes * passes))
    elif made == 1:
        hand.foot.extend(range(first + foot[0], first + foot[0] + takes * passes, takes))
    else:
        hand.foot.extend([base + offset for base in range(first, first + takes * passes, takes) for offset in foot])
    hand.tiled(ends, passes)
    for index, places in feet.items():
        for done in range(passes):
            base = first + takes * done
            hand.feet[start + made * done + index] = tuple(base + place for place in places)
    at = 0
    while at < made:  # increases share their place
        end = at + 1
        while end < made and foot[end] == foot[at]:
            end += 1
        if end - at > 1:
            for done in range(passes):
                hand.groups[start + made * done + at] = (end - at, "")
        at = end
    hand.cur = first + takes * passes
    hand.here = hand.cur - takes + foot[-1] if foot else hand.cur - 1
    hand.last_skip = max(hand.last_skip, skip)
    if "first-worked" not in hand.memory:
        hand.memory["first-worked"] = first
    hand.starting = False
