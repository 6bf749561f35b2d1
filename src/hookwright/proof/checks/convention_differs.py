"""One row holds only if its turning chain is counted in another way than in the rest of the pattern.

What a beginning chain counts as is settled once for a pattern, by what is said or by the rows that agree. This row is one stitch off under
what holds for the others, and would come out if its chain were counted the other way.

With it::

    Ch 12.
    Row 1: Hdc in 3rd ch from hook and in each ch across, turn. (10 hdc)
    Row 2: Ch 2, hdc in first st and in each st across, turn. (10 hdc)
    Row 3: Ch 2, hdc in first st and in each st across, turn. (10 hdc)
    Row 4: Ch 2, hdc in first st and in each st across, turn. (10 hdc)
    Row 5: Ch 2, hdc in first st and in each st across, turn. (11 hdc)

Without it::

    Ch 12.
    Row 1: Hdc in 3rd ch from hook and in each ch across, turn. (10 hdc)
    Row 2: Ch 2, hdc in first st and in each st across, turn. (10 hdc)
    Row 3: Ch 2, hdc in first st and in each st across, turn. (10 hdc)
    Row 4: Ch 2, hdc in first st and in each st across, turn. (10 hdc)
    Row 5: Ch 2, hdc in first st and in each st across, turn. (10 hdc)

Working::

    10 there, the ch 2 does not count in Rows 2 to 4: 10 worked
    11 would need it to count in Row 5 alone

What to do: state the count as it comes out, or say in the notes what the chain counts as and go through all the rows.
"""

from hookwright.ground import LOOK, MUST_MEND, Finding, Suggestion
from hookwright.notation.tree import Chain
from hookwright.stitches import stitch

from ..about_row import about_row
from ..case import Case
from ..conventions import other_way, uneven_rows
from ..counting import count_suggestions, said_and_made
from ..sums import sum_table
from ..wording import count, stitch_word

KIND = "convention-differs"


def find(case: Case):
    for off in case.off("count"):
        other = other_way(case, off)
        if other is None:
            continue
        name = case.name_of(off.row, off.label)
        expected, found = off.each("expected"), off.each("found")
        holds, here = _ways(other.counts)
        message = case.says_of(
            off,
            said_and_made(case, off, name) + ";",
            f"it would hold only if its ch {other.chains} {here}, and in this pattern ch {other.chains} {holds}",
            f"({count(other.agree, 'other row')} {'agrees' if other.agree == 1 else 'agree'})",
        )
        yield about_row(
            case,
            off,
            KIND,
            case.grade(off),
            message,
            expected=expected[min(expected)],
            found=found[min(found)],
            whose="the stated count",
            working=sum_table(case, off, {}),
            suggestions=(
                *count_suggestions(case, off),
                Suggestion(
                    f"say in the notes what ch {other.chains} counts as, and hold it in every row",
                    "your choice",
                    effect=f"{count(other.agree, 'row')} would have to change",
                ),
            ),
        )
    yield from _let_pass(case)
    yield from _against_custom(case)


def _let_pass(case: Case):
    """Rows whose count was understood by taking the chain the other way, while other rows speak against it."""
    for row in uneven_rows(case):
        if row.chains <= 1:
            continue  # a single chain counts by nobody's custom: see count-differs
        worked, chains = row.worked, row.chains
        name = case.name_of(worked.row, worked.label)
        holds, here = _ways(row.counts)
        if row.said:
            against = f"and the row says that it {holds}"
        elif row.noted:
            against = f"and the notes say that it {holds}"
        elif row.agree:
            against = f"and in {count(row.agree, 'other row')} ch {chains} {holds}"
        elif _said_below(case, chains):
            against = "and the row below says otherwise of its own"
        else:
            against = "and nothing else tells how it is counted"
        certain = row.agree >= 3 or (row.said or row.noted) and not row.counts
        yield Finding(
            KIND,
            MUST_MEND if certain else LOOK,
            case.says(
                row.sizes,
                f"{name} states {count(row.stated, 'stitch')}, and {worked.stitches} are worked;",
                f"it would hold only if its ch {chains} {here}, {against}",
            ),
            worked.row.stated[0].span,
            name,
            case.size_names(row.sizes),
            expected=row.stated,
            found=worked.stitches,
            whose="the stated count",
            suggestions=(
                Suggestion(f"state {worked.stitches}, as is worked", "likely"),
                Suggestion(f"say in the notes what ch {chains} counts as, and hold it in every row", "your choice"),
            ),
        )


def _said_below(case: Case, chains: int) -> bool:
    """Whether the row below, stated with the fragment, says what a chain of this length counts as."""
    return any(type(step) is Chain and step.n == chains and step.says is not None for step in case.below or ())


def _against_custom(case: Case):
    """A chain taken otherwise than by custom on the word of one count alone."""
    for convened in getattr(case.work, "conventions", None) or ():
        if convened.key[0] != "tch" or not convened.option or convened.agree != 1 or convened.against:
            continue
        _, chains, kind = convened.key[:3]
        fact = stitch(kind)
        if fact is None or fact.tch != chains or fact.tch_counts not in ("yes", "no") or (fact.tch_counts == "yes") == bool(convened.counts):
            continue
        seen = next((seen for seen in case.seen if seen.row.stated and _begins_with(seen.row, chains)), None)
        if seen is None:
            continue
        word = stitch_word(kind, case.terms)
        takes, custom = ("counts", "does not") if convened.counts else ("does not count", "does")
        yield Finding(
            KIND,
            LOOK,
            f"{seen.name} comes out as stated only if its ch {chains} {takes} as {word}; by custom it {custom}, and no other row tells",
            seen.row.stated[0].span,
            seen.name,
            whose="the stated count",
            suggestions=(Suggestion(f"say what ch {chains} counts as, or look at the count once more", "your choice"),),
        )


def _begins_with(row, chains: int) -> bool:
    first = next((step for step in row.steps if type(step) is Chain), None)
    return first is not None and first.n == chains and first.says is None


def _ways(counts: bool) -> tuple[str, str]:
    """How the chain is held in the pattern, and how this row would need it."""
    return ("counts as a stitch", "were left out of the count") if counts else ("does not count as a stitch", "counted as one")
