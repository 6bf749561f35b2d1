"""What the pipeline itself says: assumptions, what was proved, and findings as JSON values."""

from collections import Counter

from hookwright.fabric import CHAINS, KIND_NAMES
from hookwright.ground import LOOK, MUST_MEND, NOWHERE, Finding, Lines, PerSize
from hookwright.notation.tree import Chain, Colour, Each, Either, Go, Group, Join, Note, Repeat, Stitch, Turn
from hookwright.stitches import dialect


def too_much(work, limit: int) -> Finding:
    """The finding for work that was refused before it was done."""
    wanted, span = work.too_much
    return Finding(
        "too-much-work", MUST_MEND,
        f"this asks for {wanted:,} stitches or rows and more than {limit:,} are not worked; nothing from here on was worked. "
        "Look at the number of times here: is a digit too many in it?",
        span, expected=limit, found=wanted,
    )


def no_row(below: bool) -> Finding:
    """The finding for a text in which there is nothing to work."""
    return Finding(
        "no-row-found", MUST_MEND if below else LOOK,
        "no row was found in this, so nothing was worked and nothing is proved. A row begins with its number (`Row 1:`, `Round 1:`) and says "
        "stitches by their name or abbreviation (`sc in each st across`)" + (", and the row below was given for one" if below else ""),
        NOWHERE, expected=1, found=0,
    )


def counts_of(row) -> dict:
    """Counts of a worked row; the chain a piece begins with, which has no stitches yet, gives its `chains` too.

    Of a row that could not be read as a whole its stated count is given, on which the next rows are worked; `worked` is what came of the words that were read.
    """
    if row.end.get("stated") is not None:
        stated, main = row.end["stated"]
        return {"stitches": stated, "by_kind": {main: stated}, "spaces": list(row.spaces), "unworked": row.unworked, "worked": row.stitches}
    counts = {"stitches": row.stitches, "by_kind": dict(row.by_kind), "spaces": list(row.spaces), "unworked": row.unworked}
    chains = 0 if row.stitches else sum(KIND_NAMES[kind] == "foundation ch" for kind in row.kind or ())
    return {**counts, "chains": chains} if chains else counts


def works_something(row) -> bool:
    """Whether a row is worked by another or has stitches of its own."""
    return row.again is not None or any(type(step) in (Each, Either, Go, Group, Repeat, Stitch) for step in row.steps)


def begins_anew(pattern) -> bool:
    """Whether the rows begin with a foundation of their own and Row 1: then nothing can lie below them."""
    rows = [row for _, row in pattern.rows()][:2]
    return len(rows) == 2 and rows[1].numbers[:1] == (1,) and any(type(step) is Chain for step in rows[0].steps) and not rows[0].numbers and \
        all(type(step) in (Chain, Colour, Note, Join, Turn) for step in rows[0].steps)


def begins_with_space(report, chains: int) -> bool:
    """Whether some row begins with a chain space of so many chains: then a chain of that length at the start is no turning chain everywhere,
    and what was found of it isn't a custom of the pattern."""
    return any(len(row.kind) and row.kind[0] == CHAINS and row.chains[0] == chains for fabric in report.fabrics for row in fabric.rows if row.kind is not None)


def below_not_used() -> Finding:
    """The finding for a row below that was stated for a pattern with a beginning of its own."""
    return Finding(
        "below-not-read", LOOK, "a row below was given, and the pattern begins with a foundation of its own, so it was not used; leave it out", NOWHERE,
    )


def standing_counts(lay) -> dict:
    """Counts of the row on which a size stands that does not work the rows the others work."""
    kinds = Counter(KIND_NAMES[kind] for kind in lay.kind if kind != CHAINS)
    spaces = [size for kind, size in zip(lay.kind, lay.size) if kind == CHAINS]
    return {"stitches": lay.stitches, "by_kind": dict(kinds), "spaces": spaces, "unworked": 0}


def plain(value):
    """A value that JSON can hold."""
    if isinstance(value, PerSize):
        return list(value)
    if isinstance(value, dict):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(item) for item in value]
    if value is None or isinstance(value, (bool, int, float, str)):
        return value
    return str(value)


def json_finding(finding: Finding, lines: Lines) -> dict:
    """One finding as the report gives it."""
    line, column = lines.place(min(finding.span.start, len(lines.text)))
    return {
        "kind": finding.kind, "grade": finding.grade, "message": finding.message,
        "line": None if finding.span == NOWHERE else line, "column": None if finding.span == NOWHERE else column,
        "length": finding.span.end - finding.span.start,
        "row": finding.row, "sizes": list(finding.sizes), "expected": plain(finding.expected), "found": plain(finding.found),
        "working": plain(finding.working), "echoes": list(finding.echoes), "sources": list(finding.sources),
        "suggestions": [
            {"says": s.says, "sure": s.sure, "text": s.text, "effect": s.effect,
             "at": None if s.span is None else [*lines.place(s.span.start), s.span.end - s.span.start]}
            for s in finding.suggestions
        ],
    }


def assumed_in_words(report) -> list[dict]:
    """Readings and conventions taken where the manuscript leaves them open, each with what speaks for it."""
    out = []
    abbreviation = dialect(report.pattern.terms).abbr
    for convened in report.work.conventions:
        words = "" if convened.key[0] == "tch" and begins_with_space(report, convened.key[1]) else convened.says(abbreviation)
        if words:
            of = convened.agree + convened.against
            out.append({"words": words, "rows_that_agree": convened.agree, "rows_with_a_count": of})
    seen = set()
    for fabric in report.fabrics:
        for row in fabric.rows:
            for assumption in row.assumed:
                if (assumption.kind, assumption.span) not in seen:
                    seen.add((assumption.kind, assumption.span))
                    out.append({"words": f"{row.label}: {assumption.words}", "row": row.label})
    return out


def proved_in_words(report) -> dict:
    """How much was proved: counts compared, rows and sizes worked, stitches, and a sentence of it."""
    counts = agree = stitches = rows = 0
    for fabric in report.fabrics:
        for row in fabric.rows:
            if row.row is None:
                continue
            rows += 1
            stitches += row.stitches
            said = sum(len(stated.items) for stated in row.row.stated)
            if any(trouble.kind == "below-unknown" and trouble.facts["shape"] for trouble in row.troubles):
                said = 0  # nothing to compare it with
            off = sum(trouble.kind == "count" for trouble in row.troubles)
            if any(trouble.kind in ("repeat-leaves", "runs-out", "left-over", "no-such-place", "no-end", "unread") for trouble in row.troubles):
                off = said  # where the row does not come out its count is not borne out
            counts += said
            agree += said - min(said, off)
    sizes = len(report.fabrics)
    read_back = getattr(report.case, "read_back", None)
    words = (f"{_so_many(counts, 'count')} in {_so_many(sizes, 'size')}, {counts - agree} disagree; {_so_many(rows, 'row')} and "
             f"{_so_many(stitches, 'stitch', 'stitches')} worked")
    if not rows:
        words = "nothing was worked" + (f", since `{report.sized.unworked}`, which the rows name, could not be found" if report.sized.unworked else "")
    elif read_back is not None:
        words += f"; {read_back}"
    return {"counts": counts, "disagree": counts - agree, "sizes": sizes, "rows": rows, "stitches": stitches, "words": words}


def _so_many(number: int, one: str, more: str = "") -> str:
    """ "1 row", "60 rows"."""
    return f"{number:,} {one if number == 1 else more or one + 's'}"
