"""From worked fabrics to the counts that stand at the end of the written rows."""

from hookwright.ground import PerSize

from .facts import RowFact


def row_facts(pattern, fabrics) -> tuple:
    """A RowFact, or None, for each written row of `pattern.rows()`, from one worked fabric per size.

    A count that nobody states is none where it is only likely, as along row ends. Where a written row stands for several worked rows, the counts are those of the last one.
    """
    by_size, unsure = [], set()
    for fabric in fabrics:
        worked: dict[int, list] = {}
        likely = set()  # worked rows whose count rests on row ends of which nothing says how many stitches they take
        for index, row in enumerate(fabric.rows):
            worked.setdefault(id(row.row), []).append(row)
            if row.end.get("likely") or row.below in likely and row.row is not None and not row.row.stated:
                likely.add(index)
                unsure.add(id(row.row))
        by_size.append(worked)
    return tuple(None if id(row) in unsure else _fact([worked.get(id(row), ()) for worked in by_size]) for _, row in pattern.rows())


def _fact(rows_by_size) -> RowFact | None:
    if not any(rows_by_size):
        return None
    last = [rows[-1].stitches if rows else None for rows in rows_by_size]
    return RowFact(_number(last), _each(rows_by_size))


def _each(rows_by_size) -> tuple:
    lengths = {len(rows) for rows in rows_by_size}
    if len(lengths) != 1 or lengths == {1}:
        return ()
    columns = [_number([rows[at].stitches for rows in rows_by_size]) for at in range(lengths.pop())]
    return tuple(columns) if len(set(columns)) > 1 else ()


def _number(values):
    return values[0] if len(set(values)) == 1 else PerSize(values)
