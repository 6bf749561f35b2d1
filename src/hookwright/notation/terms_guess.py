"""Which terms a text is in, US or UK, from words that only one of them has."""

import re
from dataclasses import dataclass
from functools import cache

from .manuscript_words import word_table
from .patterns import Lazy


@dataclass(slots=True)
class TermsGuess:
    """terms: "US" or "UK"; sure: how far ahead it is (0: nothing told); words: what told it."""

    terms: str
    sure: int
    words: tuple[str, ...]


_FIRST_PAGES, _FURTHEST = 12_000, 200_000  # characters: what the first pages tell holds for the whole; the rest is asked only where they tell nothing
_SAID = Lazy(r"\bterms?(?:\s+used)?\s*:\s*(?:(?P<us2>US|U\.S\.|American)|(?P<uk2>UK|U\.K\.|British))\b|\b(?P<us>US|U\.S\.|American)\s+(?:crochet\s+)?(?:terms|terminology|abbreviations|stitch names)|\b(?P<uk>UK|U\.K\.|British|English)\s+(?:crochet\s+)?(?:terms|terminology|abbreviations|stitch names)", re.I)


_MAY_SAY = Lazy(r"[tT](?:erm|ERM)|[aA]bbreviations|stitch names")  # one plain search for what all of those need
_SC = Lazy(r"(?<![a-z])s ?c(?![a-z])", re.I)
_DC = Lazy(r"(?<![a-z])dcs?(?![a-z])", re.I)
_TR = Lazy(r"(?<![a-z])trs?(?![a-z])", re.I)
# Heights of the first chain and the order of words: common practice, no source.
_HABITS = (
    ("UK", 3, "3 chains for a tr", Lazy(r"(?:ch(?:ain)?[ -]?3|3[ -]?ch(?:ain)?)\b[^.;]{0,60}?\bcounts?\b[^.;)]{0,16}?\b\d{0,2}tr(?:eble)?(?:s|\b)", re.I)),
    ("UK", 3, "6 chains for a tr and 3 ch", Lazy(r"\b(?:ch ?[4567]|[4567] ?ch)\s*\(?(?:this )?counts? as (?:a |1 ?)?tr\s*(?:,|and|\+|plus)\s*(?:ch ?[123]|[123] ?ch)", re.I)),
    ("US", 3, "4 chains for a tr", Lazy(r"(?:ch(?:ain)?[ -]?4|4[ -]?ch(?:ain)?)\b[^.;]{0,60}?\bcounts?\b[^.;)]{0,12}?\b\d{0,2}tr(?:eble|c)?(?:s|\b)(?!\s*(?:,|and|\+|plus))", re.I)),
    ("US", 3, "4 chains for a dc and 1 ch", Lazy(r"\b(?:ch ?[-]?[456]|[456] ?ch)\b[^.;]{0,50}counts? as (?:a |1 ?)?dc\s*(?:,|and|\+|plus)\s*ch", re.I)),
    ("US", 3, "3 chains for a dc", Lazy(r"(?:ch(?:ain)?[ -]?3|3[ -]?ch(?:ain)?)\b[^.;]{0,60}?\bcounts?\b[^.;)]{0,16}?\b\d{0,2}d(?:c|ouble crochet)\b", re.I)),
    ("UK", 1, "the number before ch", Lazy(r"(?<![\w-])(?<!\bnext )(?<!\bfirst )(?<!\blast )(?<!\bthe )(?<!\bof )(?<!\bskip )(?<!\bsk )(?<!\brem )(?<!remaining )\d{1,2} ?ch\b(?![ -]*\d)(?! ?-?(?:sps?|spaces?|loops?)\b)", re.I)),
    ("UK", 1, "dc after 1 chain", Lazy(r"[:.] *(?:ch(?:ain)?[ -]?1|1[ -]?ch)\b[^.*]{0,16}?\b\d{0,2}dcs?\b(?! cl)(?![^.]{0,300}\b(?:sc|fpdc)\b)", re.I)),
    ("UK", 2, "tr 3 chains high", Lazy(r"[:.] *(?:ch(?:ain)?[ -]?3|3[ -]?ch)\b\s*(?:\([^()]{0,40}\))?\s*(?:,|and|\.)?\s*(?:work\s+)?\d{0,2}\s*(?:a\s+)?tr\b", re.I)),
    ("US", 2, "dc 3 chains high", Lazy(r"[:.] *(?:ch(?:ain)?[ -]?3)\b\s*(?:\([^()]{0,40}\))?\s*(?:,|and|\.)?\s*\d{0,2}\s*dc\b", re.I)),
    ("US", 2, "tr 4 chains high", Lazy(r"(?:[:.] *|counts as.{0,5} )ch(?:ain)?[ -]?4\b\s*(?:\([^()]{0,40}\))?\s*(?:,|and|\.)?\s*\d{0,2}\s*tr\b", re.I)),
)


@cache
def _patterns():
    weights: dict[str, tuple[str, int]] = {}
    for terms, by_weight in word_table()["terms"].items():
        for weight, words in by_weight.items():
            for word in words:
                weights[word] = (terms, int(weight))
    longest = sorted(weights, key=len, reverse=True)
    pattern = re.compile(rf"(?<![a-z])({'|'.join(map(re.escape, longest))})s?(?![a-z])", re.I)
    return pattern, weights


def guess_terms(work: str) -> TermsGuess:
    """US or UK from tell-tale words; US where nothing tells (most published patterns), with sure 0.

    >>> guess_terms("Row 2: ch 2, 1 htr in each st, miss 1 tr").terms
    'UK'
    """
    said = _SAID.search(work) if _MAY_SAY.search(work) else None
    if said:
        return TermsGuess("US" if said["us"] or said["us2"] else "UK", 9, (said[0],))
    first = _told(work, 0, _FIRST_PAGES)
    return first if first.sure or len(work) <= _FIRST_PAGES else _told(work, _FIRST_PAGES, _FURTHEST)


def _told(work: str, start: int, end: int) -> TermsGuess:
    """What the words and habits of one stretch tell."""
    pattern, weights = _patterns()
    score = {"US": 0, "UK": 0}
    told: dict[str, list[str]] = {"US": [], "UK": []}
    for word in dict.fromkeys(found.lower() for found in pattern.findall(work, start, end)):
        terms, weight = weights[word]
        told[terms].append(word)
        score[terms] += weight
    if not _SC.search(work, start, end) and _DC.search(work, start, end) and _TR.search(work, start, end):
        score["UK"] += 1
        told["UK"].append("dc and tr without sc")
    for terms, weight, told_by, hint in _HABITS:
        if hint.search(work, start, end):
            score[terms] += weight
            told[terms].append(told_by)
    terms = "UK" if score["UK"] > score["US"] else "US"
    return TermsGuess(terms, abs(score["UK"] - score["US"]), tuple(told[terms][:4]))
