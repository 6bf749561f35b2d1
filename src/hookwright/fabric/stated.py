"""Which stated counts hold for a worked row of a range or reference."""

from hookwright.ground import PerSize, at


def stated_of(sequence, row, source, nth, series, last_of_range):
    """Counts said of this row of a range: those of the range hold at its end, a series one by one, else those of the source."""
    if not sequence.counts:
        return []
    own = [said for said in row.stated if said.row is None]
    early = [said for said in row.stated if said.row is not None and row.numbers[nth:nth + 1] == (said.row,)]
    if early:
        return early
    if row.again is None:
        return own if last_of_range or series <= 1 else [said for said in own if said.series]
    if own:
        said = [s for s in own if s.series or last_of_range]
        if said or len(own):
            return said
    grows = row.again.changes is not None or row.again.same_manner
    if source.stated and not grows and len(source.numbers) and source is not row:
        return [] if count_grows(sequence, source) else source.stated
    return []


def count_grows(sequence, source) -> bool:
    """Whether a row made again gives another count than it states: its stated count held over another row below."""
    for thread in sequence.threads:
        for made in reversed(thread.fabric.rows):
            if made.row is source or made.row is not None and made.row.span == source.span:
                below = thread.fabric.rows[made.below].stitches if made.below >= 0 else None
                return below is not None and below != made.stitches or below is None
    return True


def total_stated(sequence, stated, size):
    for said in stated:
        if said.per == "unworked" or said.row is not None:
            continue
        for number, of, *_ in said.items:
            if of == "st" or len(said.items) == 1 and of != "row":
                value = at(number, size) if not isinstance(number, tuple) or isinstance(number, PerSize) else None
                if isinstance(value, int):
                    return value
    return 0


def stated_sign(sequence, stated, size):
    return tuple((at(number, size) if not isinstance(number, tuple) or isinstance(number, PerSize) else number, of, *rest, said.per)
                 for said in stated for number, of, *rest in said.items)
