"""Notes, stitch multiple, abbreviations used and special stitches."""

import re

from hookwright import sizing
from hookwright.notation import Head
from hookwright.notation.tree import Chain, Prose, Row

from .convention_words import convention_words
from .document import Definitions, Listing, Paragraph, Section, Strong, words_of
from .measures import lengths
from .sheet import Sheet
from .sheet_instructions import piece_blocks
from .stitch_words import how_made, plain_stitch, stitches_to_explain
from .used_words import abbreviations_used, marks_used

_ENTRY = re.compile(r"^\W*([A-Za-z][\w .'/-]{0,20}?)\W*(?:\s*[=:]\s*|\s+[-–—]+\s+)(\S.*?)[.;,]?\s*$")
_TELLS_OF_CHAIN = re.compile(r"\bch(?:ain)?s?\b[^.\n]{0,60}\b(?:loosely|larger|bigger)\b|\b(?:larger|bigger) hook\b[^.\n]{0,60}\bch(?:ain)?s?\b", re.IGNORECASE)
_IN_BRACKETS = re.compile(r"\s*\([^()]*\)")  # how often it is made


def notes(sheet: Sheet) -> Section | None:
    """Her notes, then the conventions that were found to hold and that her notes do not say."""
    blocks: list = []
    for piece in sheet.pieces("notes"):
        blocks.extend(piece_blocks(sheet, piece, "notes"))
    said = {_bare(words) for words in (convention_words(one, sheet.dialect, sheet.strings) for one in sheet.pattern.conventions) if words}
    found = []
    for convention in sheet.facts.conventions:
        words = convention_words(convention, sheet.dialect, sheet.strings)
        if words and _bare(words) not in said and words not in found:
            found.append(words)
    if not sheet.pieces("notes"):  # conventions of the pattern that no words of hers on the page say
        found = [
            words
            for words in (convention_words(one, sheet.dialect, sheet.strings) for one in sheet.pattern.conventions)
            if words and words not in found
        ] + found
    found += _long_chains(sheet)
    sheet.written += found + [words_of(blocks)]
    if found:
        paragraphs = tuple(Paragraph((words,)) for words in dict.fromkeys(found))
        if blocks and isinstance(blocks[-1], Listing) and not blocks[-1].ordered:
            blocks[-1] = Listing(blocks[-1].items + tuple((one,) for one in paragraphs))
        else:
            blocks += paragraphs
    return Section("notes", sheet.strings("sections.notes"), tuple(blocks)) if blocks else None


def _long_chains(sheet: Sheet) -> list[str]:
    """For each piece that is begun on a long chain, how long it is to lie, where the gauge is known; the same for like pieces is said once."""
    gauges = sizing.gauges_of(sheet.head) if isinstance(sheet.head, Head) else []
    stitch_mm = next((gauge.stitch_mm for gauge in gauges if gauge.stitch_mm), None)
    long = sizing.table("proportions")["foundation_chain"]["long_chain"]
    found: dict[tuple, list[str]] = {}
    for piece in sheet.pattern.pieces if stitch_mm and not _TELLS_OF_CHAIN.search(sheet.pattern.text) else ():
        row = next((item for item in piece.items if isinstance(item, Row)), None)
        chain = next((step.n for step in row.steps if isinstance(step, Chain)), None) if row is not None and not row.numbers else None
        counts = [chain] if isinstance(chain, int) else [count for count in chain if count] if isinstance(chain, tuple) else []
        if counts and max(counts) >= long:
            found.setdefault((chain if isinstance(chain, tuple) else (chain,)), []).append(piece.name)
    out, spares = [], []
    for chain, names in found.items():
        told = [sizing.chain_allowance(count, _stitch_of(sheet, chain) or stitch_mm) if count else None for count in chain]
        spares += [one.spare for one in told if one]
        long_as = lengths([(one.wanted_mm,) * 2 if one else None for one in told])
        out.append((_IN_BRACKETS.sub("", sheet.line(names[0], "notes")).strip(), long_as))
    if not out:
        return []
    say = sheet.strings
    words = say("gauge.chain", length=out[0][1]) if len(out) == 1 else say("gauge.chains", list="; ".join(say("gauge.chain_of", piece=name, length=long_as).strip() for name, long_as in out))
    return [f"{words} {say('gauge.chain_how', low=min(low for low, _ in spares), high=max(high for _, high in spares))}"]


_TURNING = 5  # chains at most that a foundation has more than the stitches worked over it; common practice, no source


def _stitch_of(sheet: Sheet, chain) -> float | None:
    """How wide a stitch is over this foundation, one count or one a size, where it is made from a number found of one fabric alone."""
    units = set()
    for one in sheet.facts.found:
        values = one.values if len(chain) == len(one.values) else one.values[:1] if len(set(one.values)) == 1 else ()
        if one.counts == "sts" and values and all(count is None or 0 <= count - value <= _TURNING for count, value in zip(chain, values)):
            units |= {round(mm / value, 3) for mm, value in zip(one.mm, values) if mm and value}
    return units.pop() if len(units) == 1 else None


def _bare(words: str) -> str:
    return words.casefold().rstrip(".")


def multiple(sheet: Sheet) -> Section | None:
    """For which stitch counts the pattern works, in the trade's words."""
    lines = []
    for of, words in sheet.facts.multiples:
        if "multiple" not in words:
            continue  # a pattern for one count only has no multiple to tell of
        text = words[:1].upper() + words[1:].rstrip(".") + "."
        lines.append(Paragraph((Strong((f"{sheet.line(of, 'multiple')}: ",)), text) if of else (text,)))
    return Section("multiple", sheet.strings("sections.multiple"), tuple(lines)) if lines else None


def special(sheet: Sheet) -> Section | None:
    """Her own stitches in her words, then how the further stitches that are used are made."""
    own, say = sheet.pattern.own, sheet.strings
    blocks: list = []
    for piece in sheet.pieces("special stitches"):
        blocks.extend(piece_blocks(sheet, piece, "special"))
    explained = _explained(words_of(blocks), sheet.dialect)
    pairs = []
    unused = _unused(sheet, "\n".join([*sheet.written, *sheet.row_texts]))
    for name, stitch in own.items():
        if name in unused:
            continue
        words = stitch.words or sheet.from_head("stitches", {}).get(name, "")
        label = sheet.line(stitch.name or name, "special")
        if words and label.casefold() not in explained:
            explained |= {label.casefold(), sheet.dialect.find(label) or ""}
            pairs.append(((_titled(label),), _sentence(sheet.prose.inlines(words, say.named("special")))))
    plain_kind = plain_stitch(sheet.pattern)
    printed = "\n".join(sheet.written)
    for kind, legs, base in stitches_to_explain(sheet.pattern, own):
        name, short = sheet.dialect.name_of(kind), sheet.dialect.abbr(kind)
        words = how_made(kind, legs, base, plain_kind, sheet.dialect, say)
        if words and kind not in explained and re.search(rf"(?<!\w){re.escape(short)}", printed, re.IGNORECASE):
            label = name if name.casefold() == short.casefold() else f"{name} ({short})"
            pairs.append(((_titled(label),), (words[:1].upper() + words[1:] + ".",)))
    if pairs:
        blocks.append(Definitions(tuple(pairs), "long"))
    sheet.written.append(words_of(blocks))
    return Section("special", say("sections.special"), tuple(blocks)) if blocks else None


def _unused(sheet: Sheet, printed: str) -> set[str]:
    """Her stitches that are made known in the head alone and that nothing on the sheet, and no other of them, names."""
    own = sheet.pattern.own
    out = set()
    for name, stitch in own.items():
        others = "\n".join([printed, *(other.words for key, other in own.items() if key != name)])
        forms = {name, stitch.name, *stitch.spellings, sheet.line(stitch.name or name, "special")} - {""}
        if not any(re.search(rf"(?<!\w){re.escape(form)}(?:e?s)?(?!\w)", others, re.IGNORECASE) for form in forms):
            out.add(name)
    return out


_HEADED = re.compile(r"\W*([^:=.]{1,60}?)\s*(?:[:=]|\s[–—-]\s)")


def _explained(text: str, dialect) -> set[str]:
    """Names, in small letters, and ids of the stitches that stand before a colon at the start of a line of hers."""
    found = set()
    for line in text.splitlines():
        if head := _HEADED.match(line):
            for name in re.split(r"\s*[,/()]\s*|\s+(?:and|or)\s+", head[1]):
                if name:
                    found |= {name.casefold(), dialect.find(name) or ""}
    return found - {""}


def _titled(label: str) -> str:
    """A stitch as an entry begins with it: a large letter, but not in what may be an abbreviation."""
    word = len(label) > 3 and label.isalpha() and re.search(r"[aeiou]", label)
    return label[:1].upper() + label[1:] if word or " " in label else label


def _sentence(inlines: tuple) -> tuple:
    """Her words with a full stop at their end."""
    last = inlines[-1] if inlines else None
    return (*inlines[:-1], last.rstrip() + ".") if isinstance(last, str) and last.rstrip()[-1:].isalnum() else inlines


def abbreviations(sheet: Sheet) -> Section | None:
    """The abbreviations and marks that stand on this sheet, and no others."""
    printed = "\n".join(sheet.written)
    hers = {word: meaning for word, meaning in _her_list(sheet).items() if word.casefold() not in sheet.dialect.words}
    pairs = abbreviations_used(printed, sheet.dialect, hers)
    lists = [Definitions(_items(pairs), "short")] if pairs else []
    if marks := marks_used("\n".join(sheet.row_texts), sheet.strings, sheet.several()):
        lists.append(Definitions(_items(marks)))
    return Section("abbreviations", sheet.strings("sections.abbreviations"), tuple(lists)) if lists else None


def _items(pairs) -> tuple:
    return tuple(((short,), (meaning,)) for short, meaning in pairs)


def _her_list(sheet: Sheet) -> dict[str, str]:
    """Her own list of abbreviations, word -> meaning."""
    entries = {}
    for piece in sheet.pieces("abbreviations"):
        for item in piece.items:
            for line in item.rest.splitlines() if isinstance(item, Prose) else ():
                found = _ENTRY.match(line.replace("*", "")[:300])
                if found:
                    word, meaning = sheet.line(found[1], "abbreviations"), sheet.line(found[2], "abbreviations")
                    entries |= {word: meaning} if word.casefold() != meaning.casefold() else {}
    return entries
