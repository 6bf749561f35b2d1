"""The outline of every piece that is drawn: by its counts, or by its solved surface where the counts do not tell one."""

_STITCHES = 120_000  # of all sizes that are solved for a piece: ten seconds or so
_CHEAP = 8_000  # the same for a sheet, which is not to wait: what is larger is left out there
_FULL = 2.5  # times as much fabric as its outline holds: blocks from corner to corner, whose rows hang on each other by their spaces
_ROWS_BETWEEN = 4  # so many rows to and fro between rounds turn the work: a heel
_FEW_ROUNDS, _SHORT, _SHARE = 4, 0.55, 0.15  # rounds, and stitches in one of them that are as much shorter than others, that make a leaf or a petal


def outlined(report, pieces, shown: int, *, upside: bool, cheap: bool = False, progress=None) -> list:
    """[(drawing.Piece, its SchematicPart, names that it is called by)] of the pieces that have an outline.

    shown: size that is drawn; upside: closed ends on top; cheap: solve only what is small, and leave out what is
    large and would have to be solved; progress(share from 0 to 1) is called as shapes are solved.
    """
    from hookwright.shape import parts_of

    made, taken = [], set()
    groups = {}
    parts = parts_of(report.fabrics[shown]) if report.work.too_much is None else []
    firsts = [part.names[0] for part in parts]
    for part in parts:
        mine = [one for one in pieces if one.heading in part.names]
        if mine and firsts.count(part.names[0]) == 1 and _doubtful(mine, [report.fabrics[shown].rows[at] for at in part.rows], report.fabrics[shown].kinds):
            groups[id(mine[0])] = (part, mine)
    done = 0
    for one in pieces:
        if id(one) in groups:
            part, mine = groups[id(one)]
            solved = _solved(report, part, shown, cheap, None if progress is None else lambda share, done=done: progress((done + share) / len(groups)))
            done += 1
            if solved is not None or cheap:  # no drawing is better on a sheet than a wrong one
                taken |= {id(other) for other in mine}
            if solved is not None:
                made.append((one, solved, list(dict.fromkeys(name for other in mine for name in other.names))))
        if id(one) not in taken:
            part = one.part(shown, upside=upside)
            if part is not None and part.dims:
                made.append((one, part, one.names))
    return made


def _doubtful(pieces, rows, kinds) -> bool:
    """Whether counts tell no outline of what hangs together in these pieces: some part has none, one heading falls into several, rounds go on after
    rows to and fro, there is much more fabric than the outline holds, or a few rounds of long and short stitches make a leaf."""
    if any(one.shape == "other" or any(plan is not None and plan.fullness > _FULL for plan in one.plans) for one in pieces) or len({one.heading for one in pieces}) < len(pieces):
        return True
    return _turns_between_rounds(rows) or _is_leaf(pieces, rows, kinds)


def _turns_between_rounds(rows) -> bool:
    between, before = 0, False
    for row in rows:
        if not row.has_height or not row.stitches:
            continue
        if row.in_round:
            if before and between >= _ROWS_BETWEEN:
                return True
            before, between = True, 0
        else:
            between += 1
    return False


def _is_leaf(pieces, rows, kinds) -> bool:
    high = [row for row in rows if row.has_height]
    if not 0 < len(high) <= _FEW_ROUNDS or not any(about is not None and about.ring for one in pieces for about in one.rounds):
        return False  # no closed beginning to go round
    return any(_long_and_short(row) for row in high)


def _long_and_short(row) -> bool:
    from hookwright.sizing import row_ratio

    heights = sorted((row_ratio(kind), count) for kind, count in row.by_kind.items() if kind not in ("slst", "ch"))
    if not heights:
        return False
    low = sum(count for height, count in heights if height <= _SHORT * heights[-1][0])
    high = sum(count for height, count in heights if height > _SHORT * heights[-1][0])
    return min(low, high) >= _SHARE * (low + high)


def _solved(report, part, shown: int, cheap: bool, progress):
    """The SchematicPart of a part by its solved surfaces; None where it is too large, or does not come to rest in the size that is drawn."""
    from hookwright import sizing
    from hookwright.drawing import of_surfaces
    from hookwright.shape import form, parts_of

    sizes = [next((one for one in parts_of(fabric) if one.names[0] == part.names[0]), None) for fabric in report.fabrics]
    if any(one is not None and [other.names[0] for other in parts_of(fabric)].count(part.names[0]) > 1 for one, fabric in zip(sizes, report.fabrics, strict=True)):
        return None  # several under one heading in some size: which is meant is not said
    order = [shown, *(at for at in range(len(sizes)) if at != shown)]
    room, surfaces = _CHEAP if cheap else _STITCHES, [None] * len(sizes)
    for turn, at in enumerate(order):
        if sizes[at] is None:
            continue
        room -= sum(report.fabrics[at].rows[row].stitches for row in sizes[at].rows)
        if room < 0:
            if cheap:
                return None
            break
        try:
            found = form(report.fabrics[at], part.names[0], pattern=report.pattern, progress=None if progress is None else lambda share, turn=turn: progress((turn + share) / len(order)))
        except ValueError:
            continue
        surfaces[at] = found if found.settled else None
    if surfaces[shown] is None:
        return None
    head = report.pattern.head or report.pattern.front
    words = " ".join((*part.names, head.title if head is not None and head.title else ""))
    return of_surfaces(surfaces, shown, part.name, down=sizing.worn_on(words) == "foot" and "toe" not in part.names[0].lower())
