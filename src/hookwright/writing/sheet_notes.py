"""Notes, stitch multiple, abbreviations used and special stitches."""

import re

from hookwright.notation.tree import Prose

from .convention_words import convention_words
from .document import Definitions, Listing, Paragraph, Section, Strong, words_of
from .sheet import Sheet
from .sheet_instructions import piece_blocks
from .stitch_words import how_made, plain_stitch, stitches_to_explain
from .used_words import abbreviations_used, marks_used

_ENTRY = re.compile(r"^\W*([A-Za-z][\w .'/-]{0,20}?)\W*(?:\s*[=:]\s*|\s+[-–—]+\s+)(\S.*?)[.;,]?\s*$")


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
    sheet.written += found + [words_of(blocks)]
    if found:
        items = tuple((Paragraph((words,)),) for words in dict.fromkeys(found))
        if blocks and isinstance(blocks[-1], Listing) and not blocks[-1].ordered:
            items = blocks.pop().items + items
        blocks.append(Listing(items))
    return Section("notes", sheet.strings("sections.notes"), tuple(blocks)) if blocks else None


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
    on_page = words_of(blocks).casefold()
    pairs = []
    for name, stitch in own.items():
        words = stitch.words or sheet.from_head("stitches", {}).get(name, "")
        label = sheet.line(stitch.name or name, "special")
        if words and label.casefold() not in on_page:
            pairs.append(((label,), sheet.prose.inlines(words, say.named("special"))))
    plain_kind = plain_stitch(sheet.pattern)
    printed = "\n".join(sheet.written)
    for kind, legs, base in stitches_to_explain(sheet.pattern, own):
        name, short = sheet.dialect.name_of(kind), sheet.dialect.abbr(kind)
        words = how_made(kind, legs, base, plain_kind, sheet.dialect, say)
        if words and name.casefold() not in on_page and re.search(rf"(?<!\w){re.escape(short)}", printed, re.IGNORECASE):
            label = name if name.casefold() == short.casefold() else f"{name} ({short})"
            pairs.append(((label[:1].upper() + label[1:],), (words[:1].upper() + words[1:] + ".",)))
    if pairs:
        blocks.append(Definitions(tuple(pairs)))
    sheet.written.append(words_of(blocks))
    return Section("special", say("sections.special"), tuple(blocks)) if blocks else None


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
            for line in item.text.splitlines() if isinstance(item, Prose) else ():
                found = _ENTRY.match(line.replace("*", "")[:300])
                if found:
                    word, meaning = sheet.line(found[1], "abbreviations"), sheet.line(found[2], "abbreviations")
                    entries |= {word: meaning} if word.casefold() != meaning.casefold() else {}
    return entries
