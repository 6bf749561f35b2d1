"""A swatch gives stitches or rows of a size that hardly any yarn makes, or changes much in washing.

Numbers are found from swatches, so a digit too many or a millimetre for a centimetre goes into every count of the pattern.

With it::

    ---
    swatches:
      - {of: sc, stitches: 32, width: 20 mm, rows: 36, height: 20 cm}
    ---
    Ch 41.
    Row 1: Sc in 2nd ch from hook and in each ch across. (40 sc)

Without it::

    ---
    swatches:
      - {of: sc, stitches: 32, width: 20 cm, rows: 36, height: 20 cm}
    ---
    Ch 41.
    Row 1: Sc in 2nd ch from hook and in each ch across. (40 sc)

Working::

    20 mm / 32 = 0.6 mm a stitch; the finest standard yarn has 42 single crochet to 10 cm, 2.4 mm each

What to do: look at the figures and their units. Where the swatch is so there is nothing to do: silence it with a reason.
"""

from hookwright import sizing
from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..wording import number_text

KIND = "swatch-unlikely"
_FINER, _COARSER = 0.4, 4.0  # of a single crochet in the finest and the thickest standard yarn: thread, and lace or stitch patterns with wide repeats; common practice, no source
_TALLER = 6.0  # rows: tall stitches are several times as high as a single crochet
_WASHED = 0.3  # more or less of the length, felted pieces aside; common practice, no source


def find(case: Case):
    swatches = case.from_head("swatches") or ()
    if not swatches:
        return
    counts = [count for weight in sizing.table("yarn_weights")["weight"] for count in weight["sc_per_10cm"] if count]
    finest, widest = 100 / max(counts), 100 / min(counts)
    for index, swatch in enumerate(swatches):
        for what, counted, length, washed, most in (("stitch", swatch.stitches, swatch.width_mm, swatch.washed_width_mm, widest * _COARSER),
                                                    ("row", swatch.rows, swatch.height_mm, swatch.washed_height_mm, widest * _TALLER)):
            part = "width" if what == "stitch" else "height"
            if length and counted and not finest * _FINER <= length / counted <= most:
                each = f"{number_text(length / counted)} mm" if length / counted < 100 else f"{number_text(length / counted / 10)} cm"
                yield _finding(case, index, swatch, f"{number_text(counted)} {what}{'es' if what == 'stitch' else 's'} over {number_text(length / 10)} cm are {each} each, "
                               f"which hardly any yarn makes: a single crochet is {number_text(finest)} to {number_text(widest)} mm wide in the standard yarns", part)
            elif length and washed and abs(washed / length - 1) > _WASHED:
                yield _finding(case, index, swatch, f"the {part} is {number_text(length / 10)} cm before washing and {number_text(washed / 10)} cm after it, "
                               f"{number_text(abs(washed / length - 1) * 100)} % {'more' if washed > length else 'less'}", f"washed {part}")


def _finding(case: Case, index: int, swatch, message: str, key: str) -> Finding:
    span = case.span_in_head(f"swatches.{index}.{key}")
    return Finding(KIND, LOOK, f"swatch{f' of {swatch.of}' if swatch.of else ''}: {message}", span if span.end else case.span_in_head("swatches"),
                   suggestions=(Suggestion("look at the figure and its unit once more", "your choice"),))
