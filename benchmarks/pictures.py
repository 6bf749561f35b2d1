"""Pictures in yarn: how long a piece of 3,000 stitches takes to draw beside solving its shape, and how large its mesh is."""

import hookwright

SHEET = """## Cloth

Ch 56.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (55 sc)

Rows 2-55: Ch 1, sc in each st across, turn.
"""
BALL = "\n\n".join([
    "## Ball\n\nMake an adjustable ring.", "Rnd 1: 6 sc in ring. (6 sc)", "Rnd 2: 2 sc in each st around. (12 sc)",
    *(f"Rnd {at}: *Sc in next {at - 2} st{'s' if at > 3 else ''}, 2 sc in next st; rep from * around. ({6 * at} sc)" for at in range(3, 13)),
    "Rnds 13-44: Sc in each st around. (72 sc)", ""])
PIXELS = 700


def surfaces():
    """[(what, report, surface)] of about 3,000 stitches each."""
    for what, text in (("flat cloth", SHEET), ("long ball", BALL)):
        report = hookwright.check(text)
        yield what, report, hookwright.surface_of(report)


def drawn(report, surface, to: str = "png"):
    """The bytes of a picture of the surface."""
    from hookwright.pipeline.pictures import photo_of

    return photo_of(report, surface, to=to, pixels=PIXELS).data
