"""One row is called a round among rows, or a round a row.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
    Row 2: Ch 1, sc in each st across, turn. (10 sc)
    Rnd 3: Ch 1, sc in each st across, turn. (10 sc)
    Row 4: Ch 1, sc in each st across, turn. (10 sc)

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
    Row 2: Ch 1, sc in each st across, turn. (10 sc)
    Row 3: Ch 1, sc in each st across, turn. (10 sc)
    Row 4: Ch 1, sc in each st across, turn. (10 sc)

Working::

    Row, Row, Rnd, Row: the third stands alone

What to do: use one word. Where flat work is joined into the round, all that follows are rounds, and that is not reported.
"""

from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case

KIND = "row-word-differs"


def _sort(word: str) -> str:
    return "" if not word else "row" if word.lower().startswith(("row", "rw", "r ")) or word.lower() == "r" else "round"


def find(case: Case):
    for _, rows in case.by_piece:
        numbered = [seen for seen in rows if seen.row.numbers and seen.row.word]
        for before, here, after in zip(numbered, numbered[1:], numbered[2:], strict=False):
            sorts = [_sort(seen.row.word) for seen in (before, here, after)]
            if sorts[0] != sorts[2] or sorts[1] == sorts[0]:
                continue
            if before.row.numbers[-1] + 1 != here.row.numbers[0] or here.row.numbers[-1] + 1 != after.row.numbers[0]:
                continue
            word = before.row.word
            yield Finding(
                KIND,
                LOOK,
                f"{here.name} stands between {before.name} and {after.name} and goes by another word",
                here.row.label_span,
                here.name,
                expected=word,
                found=here.row.word,
                whose="the rows around it",
                suggestions=(Suggestion(f"call it {word} {here.row.numbers[0]}", "likely", effect="one word for all"),),
            )
