"""A raised stitch stands out on the wrong side of the work.

Bobbles and clusters of their sort push away from the worker, popcorns closed in the plain way towards the worker. Worked on a row of the
other side they end up on the back of the piece. It may be meant; mostly the row was moved by one.

With it::

    Ch 11.
    Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
    Row 2 (WS): Ch 1, sc in next 4 sts, bobble in next st, sc in next 5 sts, turn. (9 sc, 1 bobble)
    Row 3 (RS): Ch 1, sc in next 2 sts, bobble in next st, sc in next 7 sts, turn. (9 sc, 1 bobble)

Without it::

    Ch 11.
    Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
    Row 2 (WS): Ch 1, sc in next 4 sts, bobble in next st, sc in next 5 sts, turn. (9 sc, 1 bobble)
    Row 3 (RS): Ch 1, sc in each st across, turn. (10 sc)
    Row 4 (WS): Ch 1, sc in next 2 sts, bobble in next st, sc in next 7 sts, turn. (9 sc, 1 bobble)

Working::

    a bobble pushes to the back: on a WS row that is the right side of the piece, on a RS row the wrong side

What to do: move the bobbles to rows of the other side, or leave them where both sides are meant to be textured.
"""

from collections import defaultdict

from hookwright.ground import LOOK, Finding, Suggestion, listing
from hookwright.stitches import stitch

from ..case import Case
from ..wording import stitch_word, with_article

KIND = "texture-on-other-side"
_RAISED = ("bobble", "popcorn")  # post stitches and puffs are turned both ways on purpose too often to ask about


def find(case: Case):
    if not any(seen.row.side for seen in case.seen):
        return
    found = {}
    for size, fabric in enumerate(case.fabrics):
        falls = defaultdict(lambda: ([], []))  # (piece, kind) -> rows where it falls on the right side, on the wrong side
        for worked in fabric.rows:
            if worked.in_round or not worked.side:
                continue
            for kind in _RAISED:
                if worked.by_kind.get(kind):
                    back = stitch(kind).texture == "back"
                    falls[worked.piece, kind][(worked.side == "RS") == back].append(worked)
        for (_, kind), (right, wrong) in falls.items():
            if not right or len(wrong) >= len(right) and len(wrong) > 1:
                continue  # all on one side, or as often on each: meant so
            for worked in wrong:
                found.setdefault((id(worked.row), kind), (worked, kind, right[0], set()))[-1].add(size)
    for worked, kind, other, sizes in found.values():
        name = case.name_of(worked.row, worked.label)
        word = stitch_word(kind, case.terms)
        where = "away from" if stitch(kind).texture == "back" else "towards"
        message = case.says(
            sizes,
            f"the {word} of {name} stands out on the wrong side of the piece, the {word} of {other.label} on the right side",
        )
        yield Finding(
            KIND,
            LOOK,
            message,
            worked.row.label_span,
            name,
            case.size_names(sizes),
            expected="right side",
            found="wrong side",
            whose="the other rows",
            suggestions=(
                Suggestion(f"work it on a {listing(['WS' if worked.side == 'RS' else 'RS'])} row: {with_article(word)} pushes {where} the worker", "likely"),
            ),
        )
