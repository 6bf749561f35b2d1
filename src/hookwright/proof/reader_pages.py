"""Pages of the kinds of finding that other rooms report and no check looks for: what could not be read, and what was refused."""

READER_PAGES: dict[str, str] = {
    "unknown-word": """A word of a row is none that is known in these terms.

    Where one is close, it is read as that and the finding names it (`sx` as `sc`). A stitch of your own is explained under
    "Special stitches" or with `stitches:` in the head; then it is known. A stitch of the other set of terms is known as such.

    What to do: mend the spelling, or explain the stitch.""",
    "own-stitch-not-read": """What a stitch of your own is made of could not be worked out from its description.

    It is counted as one stitch that takes one place. A short form such as `bobble: 5 dc closed together in one stitch` in the head, or a
    sentence built like a row, lets its parts be counted.

    What to do: add the short form; your long description stays on the page.""",
    "size-not-known": """A row is for a size that the pattern does not have.

    "Size XL only: Row 5: ..." where the sizes are S, M and L is worked for no size.

    What to do: name a size as it is named in the head.""",
    "terms-guessed": """Nothing says whether the text is in US or in UK terms, so it was guessed.

    A single crochet exists in US terms only, a half treble in UK terms only; where neither stands there, turning chains and counts decide,
    and US terms are taken otherwise.

    What to do: write `terms: US` or `terms: UK` in the head.""",
    "no-row-found": """Nothing in the text is a row, so there is nothing to work and nothing to prove.

    A row begins with its number and says what is worked: "Row 1: Sc in 2nd ch from hook and in each ch across." A single row without a
    number is read too, as long as its stitches are spelled as the trade spells them.

    What to do: begin the row with its number, and look at the spelling of its stitches.""",
    "below-not-read": """The row below that was stated for a fragment could not be used.

    It is given in the order in which it was worked: "20 dc", "ch 3 (counts as dc), 19 dc", "[3 dc, ch 1] x 7, 3 dc, ch 2", "ring", "65 ch",
    "22 row ends".

    What to do: state it in one of these ways, or leave it out.""",
    "too-much-text": """The manuscript is longer than is read.

    What follows the limit is left out. A pattern is rarely longer than a few dozen pages.

    What to do: put what follows into a manuscript of its own.""",
    "too-much-work": """A row or a repeat asks for more stitches or rows than are worked.

    How much will be worked is known before it is worked, and over the limit it is refused. Mostly a digit too many stands in a number of
    times.

    What to do: look at the number. For a very large piece the limit can be set higher.""",
    "letter-not-in-font": """A letter or sign is not in the fonts of the pattern sheet.

    It would be printed as an empty box.

    What to do: write it with another sign, or spell it out.""",
    "head-not-read": """A part of the head could not be understood.

    The head stands between two lines of three dashes and holds keys and values: `title: Skerry Hat`, `sizes: [S, M, L]`. A value with a colon
    or a hash sign in it needs quotation marks.

    What to do: mend the line that is named. All other lines of the head are used.""",
    "head-key-unknown": """A key of the head is none that is known.

    Where one is close, the finding names it. Nothing is done with an unknown key.

    What to do: mend the spelling, or take the line out.""",
    "head-value": """A value of the head is not what its key needs.

    A hook needs a size in mm, a gauge its stitches and the width they were counted over, a list per size one value for each size, a silence
    its reason.

    What to do: write it as the finding shows.""",
    "head-twice": """A key or a size stands twice in the head.

    The first of them is used.

    What to do: take one of them out.""",
}
