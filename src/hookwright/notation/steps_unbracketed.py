"""Groups written without brackets: "3 tr, ch 3, 3 tr in corner sp", "Sl st in ch sp. Ch 3, 6 dc, ch 2, ...": which steps before a place share it."""

from copy import copy

from .tree import Chain, Colour, Either, Group, Join, JoinYarn, Note, Place, Stitch, Turn

SPACES = frozenset(("sp", "corner", "group", "gap"))
_SHAPING = frozenset(("inc", "dec", "invdec"))


def begun_in_space(steps: list) -> list:
    """ "Sl st in ch sp. Ch 3, 6 dc, ch 2, ...": what has no place goes where the row began, or on along the row."""
    start = next((index for index, step in enumerate(steps) if type(step) not in (Note, Colour, Chain, Join)), len(steps))
    if start >= len(steps):
        return steps
    opening = steps[start]
    if not (type(opening) is JoinYarn or type(opening) is Stitch and opening.kind == "slst") or opening.place is None or opening.place.of not in ("sp", "corner"):
        return steps
    first = start + 1
    while first < len(steps) and type(steps[first]) in (Note, Colour):
        first += 1
    last = first
    while last < len(steps) and type(steps[last]) in (Chain, Stitch) and getattr(steps[last], "place", None) is None:
        last += 1
    if last < len(steps) and type(steps[last]) is Stitch and not (steps[last].place is not None and steps[last].place.which == "same"):
        nxt = steps[last].place
        if nxt is not None and nxt.of == opening.place.of and nxt.which == "next" and nxt.n == 1 and _begun_with_chain(steps[first:last], steps[last]):
            closing = copy(steps[last])  # "sl st into corner, ch 3, 2 dc, ch 3, 3 dc in corner": all of it in that corner
            closing.place = None
            group = Group([*steps[first:last], closing], Place("same", opening.place.of), span=steps[first].span.to(closing.span))
            return [*steps[:first], group, *steps[last + 1:]]
        if nxt is not None and nxt.of in ("sp", "corner") and nxt.which == "next" and nxt.n == 1 and _begun_with_chain(steps[first:last], steps[last]):
            closing = copy(steps[last])  # "sl st to corner sp, ch 3, 2 dc, ch 2, 3 dc in ch-2 sp": the corner is a ch-2 space
            closing.place = None
            group = Group([*steps[first:last], closing], Place("same", opening.place.of), span=steps[first].span.to(closing.span))
            why = "the group may go into the space where the round begins, or into the next one"
            return [*steps[:first], Either([[group], steps[first:last + 1]], why, group.span), *steps[last + 1:]]
        if nxt is not None and nxt.of in SPACES and _mirror(steps[first:last + 1]):
            return steps
    while last > first and type(steps[last - 1]) is Chain:
        last -= 1
    run = steps[first:last]
    if not any(type(step) is Stitch for step in run):
        return steps
    group = Group(list(run), Place("same", opening.place.of), span=run[0].span.to(run[-1].span))
    following = steps[last + (last < len(steps) and type(steps[last]) is Chain)] if last + 1 < len(steps) else None
    where = getattr(following, "place", None)
    if where is not None and where.which == "same" and where.of in SPACES:
        return [*steps[:first], group, *steps[last:]]  # "..., ch 3, 3 tr in same sp": all of it there
    why = "the stitches without a place may all go into the space where the row begins, or along the row"
    return [*steps[:first], Either([[group], list(run)], why, group.span), *steps[last:]]


def _mirror(run: list) -> bool:
    """Whether a run reads the same from both ends: 3 tr, ch 3, 3 tr."""
    stitches = [step for step in run if type(step) is Stitch]
    kinds = [(step.kind, step.n) for step in stitches]
    return len(stitches) > 1 and kinds == kinds[::-1] and type(run[0]) is Stitch


def unbracketed(steps: list, text: str) -> list:
    """Steps before a place that may share it, as a group or apart. text: what the spans are of."""
    out: list = []
    for step in steps:
        place = getattr(step, "place", None)
        if type(step) is Stitch and place is not None and place.n == 1 and place.extent is None and place.which in ("next", "same", "last", "first") and not place.post:
            run = _run_before(out, step)
            if run:
                first = len(out) - len(run)
                inner = [*run, copy(step)]
                inner[-1].place = None
                group = Group(inner, place, span=run[0].span.to(step.span))
                apart = [*run, step]
                if place.of in SPACES and type(run[-1]) is Chain and text[run[-1].span.end:step.span.start].strip(" ,") == "and":
                    out[first:] = [group]  # "1 dc, 3 ch and 1 dc into next sp": one thing in three parts
                    continue
                readings = [[group], apart]
                if place.of not in SPACES and not any(type(one) is Chain for one in run) and len({one.kind for one in run}) < 3:
                    readings.reverse()
                why = "without brackets it is not plain whether all of it goes into the one place or only the last stitch"
                out[first:] = [Either(readings, why, group.span)]
                continue
        elif place is not None and type(place.n) is int and place.n > 1 and place.which == "next" and not (place.each or place.post or place.extent) and _shared_out(out, step, place):
            continue
        out.append(step)
    return out


def _shared_out(out: list, step, place: Place) -> bool:
    """ "1 sc, 1 hdc, 1 dc, 1 hdc in next 4 sts", "(sc, hdc, dc) over next 3 sts": as many stitches as places, so one in each; puts both readings into `out`."""
    run = step.steps if type(step) is Group else [step]
    if type(step) is Stitch:
        if step.over or step.kind == "slst" or step.kind.startswith(("fp", "bp")):
            return False
        total, first = step.n if type(step.n) is int else 0, len(out)
        while total and total < place.n and first and type(out[first - 1]) is Stitch and out[first - 1].place is None and type(out[first - 1].n) is int and out[first - 1].kind != "slst":
            first -= 1
            total += out[first].n
        run = [*out[first:], step]
    if len(run) < 2 or any(type(one) is not Stitch or type(one.n) is not int or one.kind in _SHAPING or one.kind.endswith("tog") for one in run) or len({one.kind for one in run}) < 2 \
            or sum(one.n for one in run) != place.n or type(step) is Group and any(one.place is not None for one in run):
        return False
    apart = [copy(one) for one in run]
    for one in apart:
        one.place = Place("next", place.of, one.n, loop=place.loop, layers=place.layers) if one.n > 1 or place.loop else None
    readings = [apart, [step] if type(step) is Group else list(run)]
    if type(step) is Stitch:
        alone = first and type(out[first - 1]) is Stitch and out[first - 1].place is None
        if len(run) == 2 or alone:
            readings.reverse()  # "sc 3, hdc, dc in next 2 sts": each as it is said
        del out[first:]
    if readings[0] is apart and len(run) > 2 and all(one.n == 1 for one in run):
        out.extend(apart)  # surely
        return True
    out.append(Either(readings, "as many stitches as places are named, so that one may go into each of them, or all of that into each", run[0].span.to(step.span)))
    return True


def each_unbracketed(steps: list) -> list:
    """ "2 tr, 1 ch, 2 tr in each corner sp": surely a group, since a chain between lies in no place."""
    out: list = []
    for step in steps:
        place = getattr(step, "place", None)
        if type(step) is Stitch and place is not None and (place.n is None or place.each and isinstance(place.n, int)) and place.of in SPACES:
            run = _run_before(out, step)
            if run:
                del out[len(out) - len(run):]
                inner = [*run, copy(step)]
                inner[-1].place = None
                out.append(Group(inner, place, span=run[0].span.to(step.span)))
                continue
            if place.of == "sp" and step.n != 1 and _chained_before(out):
                chain, inner = out.pop(), copy(step)  # "..., ch 1, 3 dc in each ch-1 sp along the side": a chain before each
                inner.place = None
                out.append(Group([chain, inner], place, span=chain.span.to(step.span)))
                continue
        out.append(step)
    return out


def _chained_before(out: list) -> bool:
    """Whether a chain of a space stands last, after something that is worked."""
    last = out[-1] if out else None
    if type(last) is not Chain or not isinstance(last.n, int) or last.n > 3 or last.role or last.says is not None:
        return False
    before = out[-2] if len(out) > 1 else None
    return type(before) is Group or type(before) is Stitch and before.kind != "slst"


def _begun_with_chain(run: list, last: Stitch) -> bool:
    """ "Ch 3, 2 dc, ch 2, 3 dc in corner": the chain stands for the first stitch of the group."""
    return (
        len(run) == 3 and type(run[0]) is Chain and isinstance(run[0].n, int) and run[0].n > 1 and type(run[1]) is Stitch and type(run[2]) is Chain
        and run[1].kind == last.kind and isinstance(last.n, int) and run[1].n == last.n - 1 and last.place.of in SPACES
    )


def _run_before(out: list, last: Stitch) -> list:
    """The steps just before that may share the place of `last`: stitches without a place and chains, mirrored."""
    first = len(out)
    while first and type(out[first - 1]) in (Stitch, Chain) and getattr(out[first - 1], "place", None) is None and (first == 1 or not getattr(out[first - 1], "says", None)):
        if type(out[first - 1]) is Chain and out[first - 1].role or type(out[first - 1]) is Stitch and (
            out[first - 1].kind in ("inc", "dec") or out[first - 1].kind.endswith("tog") or out[first - 1].loop and last.place.of in SPACES  # a space has no loops
        ):
            break
        first -= 1
    run = out[first:]
    if first == 0 and _begun_with_chain(run, last):
        return run
    if first == 2 and type(out[1]) is Turn and type(out[0]) is Chain and run and type(run[0]) is Stitch and _begun_with_chain([out[0], *run], last):
        return run  # "ch 3, turn, 2 dc, ch 3, 3 dc in 1st sp"
    while run and type(run[0]) is not Stitch:
        run.pop(0)
    while run and not (run[0].kind == last.kind and run[0].n == last.n and (len(run) > 1 and _mirror([*run, last]))):
        run.pop(0)
        while run and type(run[0]) is not Stitch:
            run.pop(0)
    chained = any(type(step) is Chain for step in run)
    if not run or not chained and (len(run) < 2 or last.place.of not in SPACES and len({step.kind for step in run}) < 2):
        return []
    if any(type(step) is Chain and not isinstance(step.n, int) for step in run):
        return []
    return run
