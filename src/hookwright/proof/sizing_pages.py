"""Pages of the kinds of finding made where the numbers of the sizes are found."""

SIZING_PAGES: dict[str, str] = {
    "number-not-found": """A number that the head asks for, or a sum with one, can't be worked out.

    A sum is plain arithmetic over measures of the body, other numbers and lengths with a unit: `head - 3 cm`, `(body - 1) / 3`. A length
    and a count can't be added, and a number still to be found can't be multiplied by another. `{name}` in a row must be a number of
    the head.

    What to do: look at the words that are named; the finding lists what is known there.""",
    "wishes-clash": """What is asked of the numbers can't all hold together.

    A number that must be a multiple of 6 and within 5 mm of a length, where a stitch is 7 mm wide, has no answer in some size. The finding
    names a smallest set of wishes that clash, and what the numbers come to when one of them is given up, the nearest first.

    What to do: give up the wish that matters least, or widen what is allowed by `within`.""",
    "not-made-to-measure": """The pattern can't be made to a maker's measures in every part, or only nearly.

    Numbers that say what they come to (`{want: head - 3 cm, count: rows}`) are found anew for her. A number that is typed stays as it is, a
    measure that no number is found from changes nothing, and a coarse repeat may allow nothing nearer.
    Measures that she did not give are those of the size it starts from, which is named.

    What to do: let the head say what each number is to come to; or take the nearest size.""",
    "row-gauge-reckoned": """The height of a piece's rows was reckoned from the stitches in them, since no swatch is of that piece.

    A row is about as high as the tallest stitch in it. Where swatches of those stitches are in the head their rows are taken, else the
    proportions of published gauges, scaled to the swatch there is.

    What to do: measure a swatch of the stitch pattern; textured rows can differ from what their stitches tell.""",
    "body-not-known": """The head names a table of body measures, or a size of it, that there is not.

    `body: women` takes the measures of the sizes by their names; where yours have other names, `sizes:` under `body:` says which they are.
    Your own measures stand beside it, one a size: `head: 40 (44, 48) cm`.

    What to do: choose one of the tables and sizes that are named, or write the measures yourself.""",
}
