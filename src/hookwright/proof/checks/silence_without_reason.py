"""A finding is silenced and no reason is given.

The reason is kept with the pattern, so that next year you know why.

With it::

    ---
    title: Plain Cloth
    silence:
      - {kind: count-differs, rows: [Row 2]}
    ---
    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (12 sc)

Without it::

    ---
    title: Plain Cloth
    silence:
      - {kind: count-differs, because: the edge is counted apart, rows: [Row 2]}
    ---
    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (12 sc)

Working::

    kind, because, rows: the second is missing

What to do: add `because:`. Until then the finding is shown.
"""

KIND = "silence-without-reason"


def find(case):
    """Found while the silences are applied: see proof.silence."""
    return ()
