"""A colour is used that the yarns of the head do not list.

With it::

    ---
    yarn:
      - name: worsted wool
        colours: {A: cream, B: slate}
    ---
    With A, ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across, change to C. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)

Without it::

    ---
    yarn:
      - name: worsted wool
        colours: {A: cream, B: slate}
    ---
    With A, ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across, change to B. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)

Working::

    listed: A, B; used: A, C

What to do: add the colour to the yarn, or mend the letter.
"""

from hookwright.ground import LOOK, Finding, Suggestion, listing

from ..case import Case
from ..materials import colours_listed, colours_used

KIND = "colour-not-listed"
_GENERAL = {
    "mc",
    "cc",
    "main",
    "contrast",
    "main colour",
    "main color",
    "contrasting colour",
    "contrasting color",
    "new",
    "new colour",
    "new color",
    "next",
    "next colour",
    "next color",
    "old",
    "old colour",
    "same",
    "any",
    "another",
    "yarn",
}


def find(case: Case):
    known = colours_listed(case)
    if not known:
        return
    names = {key.casefold() for key in known} | {value.casefold() for value in known.values() if value}
    told = set()
    for seen, colour, span in colours_used(case):
        name = colour.strip().casefold()
        for prefix in ("colour ", "color ", "yarn "):
            name = name.removeprefix(prefix)
        name = name.removesuffix(" yarn").removesuffix(" colour").removesuffix(" color")
        if (
            not name
            or name in names
            or name in _GENERAL
            or name in told
            or any(name in one or one in name for one in names if len(one) > 2 and len(name) > 2)
        ):
            continue
        told.add(name)
        yield Finding(
            KIND,
            LOOK,
            f"{seen.name} uses {colour}, and the yarns listed are {listing(_shown(known))}",
            span,
            seen.name,
            expected=listing(known, "or"),
            found=colour,
            whose="the head",
            suggestions=(Suggestion(f"add {colour} to the yarn, or name the colour that is meant", "your choice"),),
        )


def _shown(known: dict) -> list[str]:
    return [f"{key} ({value})" if value else key for key, value in known.items()]
