"""A row, written out for the pattern sheet, does not read back as the same fabric.

Every row is written out in US and in UK terms from what was understood, then read and worked again as a maker would. Both
must give the same stitches in the same places. Where they don't, the words on the sheet would mislead.

    has it:      a row whose meaning hangs on words around it, so that the written-out row stands for something else
    has it not:  Row 2: Ch 1, sc in each st across, turn.

What to do: write the row so that each step says what is worked and where, then look at the sheet once more.
"""

from hookwright.ground import LOOK, Finding

from ..reading_back import read_back

KIND = "written-reads-otherwise"


def find(case):
    """One finding a row, for the dialects concerned."""
    odd = {}
    results = read_back(case)
    for dialect, rows in results.items():
        for seen, words, _ in rows or ():
            odd.setdefault(id(seen), (seen, []))[1].append((dialect, words))
    if results:
        case.read_back = "US and UK text read back: " + ("same fabric" if not odd else f"{len(odd)} row{'s' * (len(odd) != 1)} otherwise")
    for seen, dialects in odd.values():
        if case.is_unread(seen):
            continue  # said already, in words that help more
        terms = " and ".join(dialect for dialect, _ in dialects)
        yield Finding(
            KIND,
            LOOK,
            f"{seen.label()}, written out in {terms} terms, does not read back as the same stitches: `{dialects[0][1][:160]}`. "
            "Say step by step what is worked and where, then look at it on the sheet",
            seen.span,
            seen.label(),
            expected="the same fabric",
            found=dialects[0][1],
        )
