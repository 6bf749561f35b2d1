"""Conventions that hold throughout a pattern, put into words: "Ch 3 counts as dc throughout."."""

from hookwright.notation.tree import Convention
from hookwright.stitches import Dialect

from .strings import Strings


def convention_words(convention: Convention, dialect: Dialect, strings: Strings) -> str:
    """One sentence, or "" where the convention has nothing to tell the maker.

    >>> from hookwright.notation.tree import Counts
    >>> from hookwright.stitches import dialect
    >>> from .strings import strings
    >>> convention_words(Convention("tch", 3, "dc", Counts(True, "dc")), dialect("UK"), strings("en", "UK"))
    'Ch 3 counts as tr throughout.'
    """
    writer = _WRITERS.get(convention.kind)
    return writer(convention, dialect, strings) if writer else ""


def _turning(convention: Convention, dialect: Dialect, strings: Strings) -> str:
    says = convention.says
    if says is None:
        return ""
    chain = strings("conventions.chain_any") if convention.chains is None else strings("conventions.chains", n=convention.chains)
    kind = says.kind or convention.stitch
    if not says.counts:
        if convention.chains is None and convention.stitch:
            return strings("conventions.counts_not_with", stitch=dialect.abbr(convention.stitch))
        return strings("conventions.counts_not", chain=chain)
    if kind is None:
        return strings("conventions.counts_as_st", chain=chain)
    if says.chains:
        return strings("conventions.counts_as_chains", chain=chain, stitch=dialect.abbr(kind), chains=says.chains)
    if says.stitches > 1:
        return strings("conventions.counts_as_many", chain=chain, n=says.stitches, stitch=dialect.abbr(kind))
    return strings("conventions.counts_as", chain=chain, stitch=dialect.abbr(kind))


def _skipped(convention: Convention, dialect: Dialect, strings: Strings) -> str:
    says = convention.says
    if says is None:
        return ""
    if not says.counts:
        return strings("conventions.skipped_not")
    kind = says.kind or convention.stitch
    return strings("conventions.skipped_count", stitch=dialect.abbr(kind)) if kind else strings("conventions.skipped_count_st")


def _chains(convention: Convention, dialect: Dialect, strings: Strings) -> str:
    return strings("conventions.chains_count" if convention.says and convention.says.counts else "conventions.chains_not")


def _repeat(convention: Convention, dialect: Dialect, strings: Strings) -> str:
    return strings("conventions.repeat_more" if convention.value == "more" else "conventions.repeat_total")


def _join(convention: Convention, dialect: Dialect, strings: Strings) -> str:
    return strings("conventions.spiral") if convention.value == "spiral" else strings("conventions.joined", slst=dialect.abbr("slst"))


def _turn(convention: Convention, dialect: Dialect, strings: Strings) -> str:
    return strings("conventions.turn_no" if convention.value == "no" else "conventions.turn")


def _counted(convention: Convention, dialect: Dialect, strings: Strings) -> str:
    return strings("conventions.counted", stitch=dialect.abbr(convention.value)) if convention.value else ""


def _start(convention: Convention, dialect: Dialect, strings: Strings) -> str:
    key = {"corner": "start_corner", "space": "start_space", "first sp": "start_space", "side": "start_side"}.get(convention.value)
    return strings(f"conventions.{key}") if key else ""


_WRITERS = {
    "tch": _turning,
    "skipped": _skipped,
    "chains": _chains,
    "repeat": _repeat,
    "join": _join,
    "turn": _turn,
    "counted": _counted,
    "start": _start,
}
