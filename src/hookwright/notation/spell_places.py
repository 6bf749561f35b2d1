"""Places and extents on the way out: "in next ch-2 sp", "in each st to last 3 sts"."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from hookwright.ground import Number
from hookwright.stitches import Dialect, stitch

from .spell_numbers import is_one, number, ordinal
from .spell_own import OwnNames
from .tree import Counts, Extent, Place

LOOP_WORDS = {"back": "BLO", "front": "FLO", "third": "3rd loop", "bump": "back bump", "one": "one loop"}


@dataclass(slots=True)
class Manner:
    """How a row is spelt: in which words, in rows or rounds.

    own: what the designer's own stitches are called; put: turns her remarks into the words of the dialect. as_placed: id of a
    remark -> how it follows what stands before it (see Note.lead); others stand in brackets as what they are.
    """

    dialect: Dialect
    in_round: bool = False
    own: OwnNames = field(default_factory=OwnNames)
    put: Callable[[str], str] = str
    nouns: dict = field(default_factory=dict)
    other_side: bool = False  # said of the row so far: working across the other side of the chain
    as_placed: dict = field(default_factory=dict)
    free_loop: bool = False  # said of the row so far: the yarn is joined in a loop left free
    chain: str = "ch"  # what lies along the other side: "foundation ch" in a row that begins in it
    flat_corners: bool = False  # the row goes along the edges of flat work, whose corners are no spaces
    layers: int = 1  # said of the row so far: working through both layers

    @property
    def skipped(self) -> str:
        """What is said of stitches passed over."""
        return "missed" if self.dialect.name == "UK" else "skipped"

    @property
    def row_word(self) -> str:
        return "Rnd" if self.in_round else "Row"


def kind_word(manner: Manner, kind: str, many: bool = False) -> str:
    """A stitch as it is written in a row: "dc", "FPdc", "bobbles". Abbreviations that are no words take no s."""
    key = (kind, many)
    word = manner.nouns.get(key)
    if word is None:
        word = manner.nouns[key] = manner.own.noun(kind, many) or usual_word(manner, kind, many)
    return word


def usual_word(manner: Manner, kind: str, many: bool = False) -> str:
    """A stitch by the trade's word for it, though she may have one of her own."""
    word = manner.dialect.abbr(kind)
    if many and len(word) > 3 and word.isalpha() and stitch(kind) is None:  # a noun of hers: "tiles", "boxes"
        return word + ("es" if word.endswith(("x", "ch", "sh", "s")) else "s")
    if many and (len(word) > 4 or word.endswith("st") or word in ("cl", "fan")) and not _is_abbreviation(kind):
        word += "s"
    return word


def _is_abbreviation(kind: str) -> bool:
    fact = stitch(kind)
    return fact is not None and (fact.kind in ("post", "decrease", "extended", "foundation") or kind in ("slst", "rsc", "ldc", "cdc"))


def noun(manner: Manner, place: Place, many: bool) -> str:
    """What the hook goes into, one or many of them."""
    of = place.of
    if of == "st":
        return "sts" if many else "st"
    if of == "sp":
        word = "sps" if many else "sp"
        return word if place.chains is None else f"ch-{number(place.chains)} {word}"
    if of == "ch":
        return "ch"
    if of == "st+sp":
        return "sts and sps" if many else "st and sp"
    if of == "corner":
        if manner.flat_corners and place.chains is None:
            return "corners" if many else "corner"
        word = "corner sps" if many else "corner sp"
        return word if place.chains is None else word.replace("corner ", f"corner ch-{number(place.chains)} ")
    if of == "group":
        name = place.group or "group"
        return kind_word(manner, name, many) if place.group else name + "s" * many
    if of == "gap":
        return "sts"
    if of == "join":
        return "join"
    if of == "row end":
        return "row ends" if many else "row end"
    return kind_word(manner, of, many)


def extent_words(manner: Manner, extent: Extent) -> str:
    """How far: "across", "around", "to last 3 sts", "to next corner sp"."""
    if extent.kind == "end":
        return "around" if manner.in_round else "across"
    if extent.kind == "last" and extent.of == "repeat":
        return "to last repeat"
    if extent.kind == "last":
        return f"to last {counted(manner, extent.n, extent.of)}"
    if extent.kind == "place":
        if extent.place is not None and extent.place.which == "chain top":  # what is worked into it stops the repeat before it
            return "around" if manner.in_round else "across"
        before = f"{counted(manner, extent.n, extent.of, True)} before " if extent.n is not None else ""
        return f"to {before}{target(manner, extent.place)}" if extent.place is not None else "to next corner" if manner.flat_corners else "to next corner sp"
    if extent.kind == "open":
        return ""
    if extent.kind == "until":
        return f"until there are {counted(manner, extent.n, extent.of)}"
    return "halfway around" if manner.in_round else "halfway across"


def counted(manner: Manner, n: Number | None, of: str, digit: bool = False) -> str:
    """Number and noun: "3 sts", "st" where it is one (digit: "1 st")."""
    if n is None or n == 1 and not digit:
        return noun(manner, Place(of=of), False)
    return f"{number(n)} {noun(manner, Place(of=of), not is_one(n))}"


def counts_words(manner: Manner, says: Counts) -> str:
    """What is said of a chain: "counts as dc, ch 2", "does not count as a st", "counts as dc here and throughout"."""
    if says.kind == "sp":
        what = f"ch-{says.chains} sp" if says.chains else "ch sp"
        return f"counts as {what}{' here and throughout' if says.onward else ''}"
    if says.kind is None:
        what = "a st" if says.stitches == 1 else f"{says.stitches} sts"
    else:
        what = kind_word(manner, says.kind, says.stitches != 1)
        if says.stitches != 1:
            what = f"{says.stitches} {what}"
    if says.chains:
        what += f", ch {says.chains}"
    return f"{'counts' if says.counts else 'does not count'} as {what}{' here and throughout' if says.onward else ''}"


def place_words(manner: Manner, place: Place, each: bool = False, preposition: str = "in") -> str:
    """Where the hook goes, with the word before it: "in next st", "around front post of next dc".

    each: say "each of" where there are several places (2 dc in each of next 3 sts).
    """
    if place.which == "skipped" and place.n != 1:
        each = True
    if place.post:
        preposition = "around" if place.post == "around" else f"in {place.post} post of"
    elif place.loop:
        preposition = f"in {LOOP_WORDS.get(place.loop, place.loop)} of"
    words = target(manner, place, each)
    if words.startswith(("between", "before", "after")):
        return words
    return f"{preposition} {words}"


def target(manner: Manner, place: Place, each: bool = False) -> str:
    """The place without the word before it: "next st", "each of next 3 ch-2 sps", "each st across"."""
    which = place.which
    if which == "ring":
        return "ring"
    if which == "chain top":
        return _chain_top(manner, place)
    if which == "from hook":
        words = f"{ordinal(place.ordinal)} {noun(manner, place, False)} from hook"
        return words if place.says is None else f"{words} ({manner.skipped} chs {counts_words(manner, place.says).replace('counts', 'count').replace('does', 'do')})"
    if which == "nth" or which in ("first", "last") and place.ordinal is not None and place.group:
        return _nth(manner, place)
    if place.of == "gap":
        return _gap(manner, place)
    if place.part:
        return _part_of(manner, place, each)
    return _plain(manner, place, each)


_PETALS = frozenset(("petal", "scallop", "point", "wave"))  # gaps of a flower go by what they lie between


def _gap(manner: Manner, place: Place) -> str:
    """Between stitches: "between next 2 sts", "between each st across", "between next 2 petals"."""
    what = place.group if place.group in _PETALS else "st"
    if place.extent is not None:
        return f"between each {what} {extent_words(manner, place.extent)}"
    return f"between {place.which} 2 {what}s"


def _part_of(manner: Manner, place: Place, each: bool) -> str:
    """Part of a group, or beside it: "center of next shell", "ch-1 sp of next V-st", "between next 2 sts"."""
    part = place.part
    if part == "center":
        part = "centre" if manner.dialect.name == "UK" else "center"
    elif part == "sp":
        part = "sp" if place.chains is None else f"ch-{number(place.chains)} sp"
    if place.group and place.of != "group":
        inner = replace(place, of="group", part="", chains=None)
        noun_words = f" {noun(manner, place, False)}" if place.part in ("center", "sp") and place.of != "sp" else ""
        return f"{part}{noun_words} of {_plain(manner, inner, each)}"
    if place.part == "center" and place.of == "sp" and place.which == "next" and is_one(place.n) and place.extent is None and not each:
        return f"{part} {noun(manner, place, False)}"  # "in center sp": there is one
    if place.part in ("center", "sp"):
        words = _plain(manner, replace(place, chains=None) if place.part == "sp" else place, each)
        return f"{part} of {words.removesuffix(' sp') if place.of == 'corner' else words}"
    return f"{part} {_plain(manner, place, each)}"


def _plain(manner: Manner, place: Place, each: bool) -> str:
    which, n = place.which, place.n
    many = n is not None and not is_one(n)
    words = _end_or_loop(place, many) or noun(manner, place, many)
    if which == "same" and place.of == "ch" and manner.free_loop:
        words = "loop"
    before, after = _which_words(manner, place)
    if which == "same" and isinstance(n, int) and n > 1:  # a decrease begun where the last stitch stands
        more = _plain(manner, replace(place, which="next", n=n - 1), False)
        return f"same {noun(manner, replace(place, n=1), False)} and {more}"
    if place.group.startswith("leg ") and place.group[4:].isdigit():
        number_of_leg = int(place.group[4:])
        after += f" of {'first' if number_of_leg == 1 else ordinal(number_of_leg)} leg"
    elif place.group and place.of != "group" and which in ("first", "last") and place.ordinal is None and not place.part:
        after += f" of {kind_word(manner, place.group)}"
    if place.row is not None and which != "free loops":
        after += f" of {manner.row_word} {place.row}"
    if place.extent is not None:
        one = _end_or_loop(place, False) or noun(manner, place, False)
        lead = "" if before == "next" else f"{before} "
        return f"each {lead}{one}{after} {extent_words(manner, place.extent)}".rstrip()
    if not many and n is not None:
        return f"{before} {words}{after}" if n == 1 else f"{before} {number(n)} {words}{after}"
    if n is None:
        return f"{before} {words}{after}"
    if which == "skipped":
        return f"each of the {number(n)} {before} {words}{after}"
    return f"{'each of ' if each else ''}{before} {number(n)} {words}{after}"


def _which_words(manner: Manner, place: Place) -> tuple[str, str]:
    """The words before and after the noun."""
    which = place.which
    if which in ("next", "first", "last", "marked", "any", "same"):
        return which, ""
    if which == "skipped":
        return manner.skipped, ""
    if which == "beginning":
        return "same", f" as beg ch-{number(place.chains)}" if place.chains is not None and place.of != "sp" else " as beginning"
    if which == "below":
        return "next", f" {place.rows_down} {'row' if place.rows_down == 1 else 'rows'} below"
    if which == "row ends":
        return "next", ""
    if which == "other side":
        return "next", ""  # said before, for all that follows: see spell_steps
    if which == "free loops":
        return "next", f" of {manner.row_word} {place.row}" if place.row is not None else ""
    return which, ""


def _end_or_loop(place: Place, many: bool) -> str:
    """The noun where it is not simply `of`: free loops, row ends, stitches left before."""
    if place.which == "free loops":
        return "free loops" if many else "free loop"
    if place.which == "row ends":
        return "row ends" if many else "row end"
    if place.of == "unworked" or place.group == "unworked":
        return "unworked sts" if many else "unworked st"
    return ""


def _nth(manner: Manner, place: Place) -> str:
    if place.of == "ch" and place.chains is not None:
        return f"{ordinal(place.ordinal)} ch of next ch-{number(place.chains)}"
    if place.of == "ch" and place.group:
        return f"{ordinal(place.ordinal)} ch of next {kind_word(manner, place.group)}"
    if place.group:
        return f"{ordinal(place.ordinal)} {noun(manner, place, False)} of {'next' if place.which == 'nth' else place.which} {kind_word(manner, place.group)}"
    words = f"{ordinal(place.ordinal)} {noun(manner, place, False)}"
    return words if place.row is None else f"{words} of {manner.row_word} {place.row}"


def _chain_top(manner: Manner, place: Place) -> str:
    chain = "turning ch" if not manner.in_round else "beg ch"
    if place.chains is not None:
        chain = f"{'beg ' if manner.in_round else ''}ch-{number(place.chains)}"
    return f"{ordinal(place.ordinal)} ch of {chain}" if place.ordinal is not None else f"top of {chain}"
