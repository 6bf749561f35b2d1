"""A stitch on the way out, with its make-up, number and place: "3 dc", "5-dc bobble in next st", "dc2tog over 3rd and 4th ch from hook"."""

from dataclasses import replace

from hookwright.stitches import stitch as fact_of

from .spell_numbers import is_one, number, ordinal
from .spell_places import LOOP_WORDS, Manner, extent_words, place_words, usual_word
from .tree import Place, Stitch


def _head(manner: Manner, step: Stitch) -> str:
    """The stitch with its make-up and number: "3 dc", "5-dc bobble", "2 3-dc cl"."""
    many = not is_one(step.n)
    word = manner.own.stitch(step.kind, step.legs, step.base, many)
    if word is None:
        word = usual_word(manner, step.kind, many)
        if step.legs is not None and step.base:
            word = f"{step.legs}-{manner.dialect.abbr(step.base)} {word}"
        elif step.base:
            word = f"{manner.dialect.abbr(step.base)} {word}"
    if step.n != 1:
        word = f"{number(step.n)} {word}"
    return word


def stitch_words(manner: Manner, step: Stitch, each: bool = False) -> str:
    """ "3 dc in next sp", "sc in BLO of next st", "dc2tog over 3rd and 4th ch from hook".

    each: say "in each of next 3 sts" of one in each, too, lest the places be shared with the stitches before.
    """
    word = _head(manner, step)
    place = step.place
    if step.loop and place is not None and not (place.loop or place.post or step.over or step.evenly or place.which == "edge"):
        place = replace(place, loop=step.loop)
    elif step.loop:
        word += f" in {LOOP_WORDS.get(step.loop, step.loop)}"
    if place is None:
        return f"work {word} evenly" if step.evenly else word
    if place.which == "edge":
        return f"work {word} evenly {place.group}" if step.evenly else f"{word} {place.group}"
    if step.evenly:
        word = f"1 {word}" if step.n == 1 and step.kind in ("inc", "dec") else word
        return f"work {word} evenly {_along(manner, place)}"
    if step.kind.endswith("tog") and step.n == 1 and place_words(manner, place) in ("in each st across", "in each st around"):
        return f"{word} {extent_words(manner, place.extent)}"  # no stitch of the row below takes one by itself
    if step.over and place.which == "from hook":
        return f"{word} over {_chains_together(step, place)} from hook"
    if step.over:
        return f"{word} {place_words(manner, place, preposition='over')}"
    fact = fact_of(step.kind)
    if fact is not None and fact.post and not place.post and not place.loop:
        return f"{word} {place_words(manner, place, step.n != 1, 'around')}"
    return f"{word} {place_words(manner, place, each or step.n != 1)}"


def _chains_together(step: Stitch, place: Place) -> str:
    """The chains that are drawn together at a row's start: "3rd and 4th ch"."""
    first, many = place.ordinal, "".join(letter for letter in step.kind if letter.isdigit())
    if not isinstance(first, int) or many not in ("2", "3", "4"):
        return f"{ordinal(first)} ch"
    words = [ordinal(first + more) for more in range(int(many))]
    return f"{', '.join(words[:-1])} and {words[-1]} ch"


def _along(manner: Manner, place: Place) -> str:
    if place.which == "row ends" and place.extent is not None and place.extent.kind == "end":
        return "along row ends"
    if place.which == "other side" and place.extent is not None and place.extent.kind == "end":
        return f"across other side of {manner.chain}"
    if place.extent is not None and place.of == "st":
        return extent_words(manner, place.extent)
    return place_words(manner, place)
