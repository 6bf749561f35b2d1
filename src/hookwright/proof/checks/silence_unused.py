"""A finding is silenced that does not occur.

`silence:` in the head lets a finding stand that you have looked at, with the reason. When the pattern has changed and the finding is gone,
the line does nothing any more, and could hide a new finding of the kind later.

With it::

    ---
    title: Plain Cloth
    silence:
      - {kind: count-differs, because: the edge is counted apart, rows: [Row 2]}
    ---
    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)

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

    silenced: 1 kind; found of it: none

What to do: take the line out, or mend the name of the kind or of the row.
"""

KIND = "silence-unused"


def find(case):
    """Found while the silences are applied: see proof.silence."""
    return ()
