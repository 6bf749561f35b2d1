"""Sizes on the sheet: whom they fit, finished measurements, ease, and the counts found for each; all in both units."""

import re

from .document import Break, Definitions, Paragraph, Section, Table, plain
from .measures import length, lengths, signed_length
from .sheet import Sheet, measured_alike
from .sheet_fit import choices, part_word, which_size

_MOST_COLUMNS = 6  # that fit on paper with the inches under the centimetres
_UNITS = {"sts": "gauge.stitches", "rows": "gauge.rows", "rnds": "gauge.rounds"}


def sizes(sheet: Sheet) -> Section | None:
    """Sizes, whom they fit, ease, finished measurements and counts: tables where there are several sizes, then which to choose."""
    say = sheet.strings
    finished = sheet.from_head("finished", {})
    several = sheet.several()
    blocks: list = []
    choosing = _choosing(sheet, finished) if several else []
    if several:
        blocks += _size_tables(sheet, finished, choosing)
    alike = {name: measure for name, measure in finished.items() if not several or measured_alike(measure, len(sheet.sizes))}
    pairs = [
        ((sheet.line(_named(name), "finished"),), (lengths([measure.at(0)]) if measure.at(0) else sheet.line(measure.text, "finished"),))
        for name, measure in alike.items()
    ]
    if not several:
        for at, name in enumerate(sheet.sizes):
            fit = _fit(sheet, at)
            pairs.insert(0, ((say("sizes.size"),), (f"{name}, {say('sizes.to_fit').lower()} {fit}" if fit else name,)))
    if ease := _ease(sheet):
        pairs.append(((say("sizes.ease_name"),), (sheet.line(ease, "sizes"),)))
    pairs = _with_counts(sheet, pairs)
    if pairs:
        blocks.append(Definitions(tuple(pairs)))
    if several:
        blocks += _count_tables(sheet)
        blocks.append(Paragraph((say("sizes.legend", list=sheet.size_list_example()),), "legend"))
    if sheet.facts.fitting is not None:
        blocks += which_size(sheet, sheet.facts.fitting, in_table=bool(choosing))
    title = say("sections.sizes" if several or not finished else "sections.finished")
    return Section("sizes", title, tuple(blocks)) if blocks else None


# ---------------------------------------------------------------- measurements

def _choosing(sheet: Sheet, finished: dict) -> list:
    """The column of the bodies to choose each size for; [] where there is nothing to tell or no room for it."""
    fitting = sheet.facts.fitting
    chosen = choices(sheet, fitting) if fitting is not None else []
    others = sum(not measured_alike(measure, len(sheet.sizes)) for measure in finished.values()) + 2 + (len(set(_eases(sheet))) > 1)
    return [(sheet.strings("fit.choose_head", part=part_word(sheet, fitting)), chosen, length)] if chosen and others < _MOST_COLUMNS else []


def _size_tables(sheet: Sheet, finished: dict, choosing: list) -> list:
    """One table of all measurements; where it would be too wide for paper, one of the fit and one of the rest."""
    say, count = sheet.strings, len(sheet.sizes)
    columns = [(sheet.line(_named(name), "finished"), [measure.at(at) for at in range(count)], length) for name, measure in finished.items() if not measured_alike(measure, count)]
    main = sheet.facts.fitting.finished if sheet.facts.fitting else ""
    fits = [_fit(sheet, at) for at in range(count)]
    head = [*([(say("sizes.to_fit"), fits, None)] if any(fits) else []), *choosing]
    eases = _eases(sheet)
    ease = [(say("sizes.ease_name"), eases, signed_length)] if len(set(eases)) > 1 else []
    if not columns and not head:
        return []
    caption = say("sizes.table" if columns else "sections.sizes")
    if 1 + len(head) + len(columns) + len(ease) <= _MOST_COLUMNS:
        tables = [_table(sheet, caption, head + columns + ease)]
    else:
        first = [one for one in columns if one[0] == sheet.line(_named(main), "finished")] if main else []
        rest = [one for one in columns if one not in first]
        tables = [_table(sheet, caption, head + first + ease)] if head or first or ease else []
        named = say("sections.finished") if tables else caption
        tables += [_table(sheet, _continued(sheet, named, at), part) for at, part in enumerate(_parts(rest))]
    if ease:
        fitting = sheet.facts.fitting
        tables.append(Paragraph((say("sizes.ease_of", finished=_lower(sheet, fitting.finished), part=part_word(sheet, fitting)),), "legend"))
    return tables


def _continued(sheet: Sheet, caption: str, at: int) -> str:
    """The caption of the table at this place among those that are one table parted."""
    return sheet.strings("sizes.continued", caption=caption) if at else caption


def _parts(columns: list) -> list:
    """Columns parted among tables that are about as wide, each with room for the sizes."""
    if not columns:
        return []
    parts = -(-len(columns) // (_MOST_COLUMNS - 1))
    each = -(-len(columns) // parts)
    return [columns[at : at + each] for at in range(0, len(columns), each)]


def _table(sheet: Sheet, caption: str, columns) -> Table:
    narrow = len(columns) > 3  # then inches stand under the centimetres
    rows = []
    for at, name in enumerate(sheet.sizes):
        cells = [(name,)]
        for _, values, show in columns:
            value = values[at]
            cells.append(_cell(value if show is None else show(*value) if value else "", narrow))
        rows.append(tuple(cells))
    return Table(caption, (sheet.strings("sizes.size"), *(head for head, _, _ in columns)), tuple(rows))


def _cell(text: str, narrow: bool) -> tuple:
    first, gap, rest = text.partition(" (")
    return (first, Break(), f"({rest}") if narrow and gap else (text or "-",)


def _fit(sheet: Sheet, at: int) -> str:
    """Whom a size is to fit: as the head says, else by the body it is made for."""
    facts = getattr(sheet.head, "sizes", ()) or ()
    fact = facts[at] if at < len(facts) else None
    if fact is not None and (fact.to_fit_mm or fact.to_fit):
        return length(*fact.to_fit_mm) if fact.to_fit_mm else fact.to_fit
    fitting = sheet.facts.fitting
    body = fitting.sizes[at].body_mm if fitting is not None and at < len(fitting.sizes) else None
    return length(*body) if body else ""


# ---------------------------------------------------------------- ease

def _eases(sheet: Sheet) -> list:
    """The ease of each size as (low_mm, high_mm), to whole mm; [] where it isn't known of one."""
    fitting = sheet.facts.fitting
    eases = [size.ease_mm for size in fitting.sizes] if fitting else []
    return [(float(round(low)), float(round(high))) for low, high in eases] if eases and all(eases) else []


def _ease(sheet: Sheet) -> str:
    """Her words on ease; where they are only a length, what it comes to in the sizes, and else the length in both units. "" where the table
    of sizes tells it."""
    words = sheet.from_head("ease_text", "")
    ease = sheet.from_head("ease")
    only_a_length = not words or not any(len(word) > 2 for word in re.findall(r"[^\W\d_]+", words) if word not in ("inch", "inches"))
    if words and not only_a_length:
        return words
    if eases := _eases(sheet):
        fitting = sheet.facts.fitting
        told = {"finished": _lower(sheet, fitting.finished), "part": part_word(sheet, fitting)}
        return sheet.strings("sizes.ease_meaning", ease=signed_length(*eases[0]), **told) if len(set(eases)) == 1 else ""
    if ease is None:
        return words
    spans = {ease.at(size) for size in range(max(len(sheet.sizes), 1))} - {None}
    return signed_length(*spans.pop()) if len(spans) == 1 else lengths([ease.at(size) for size in range(len(sheet.sizes))])


# ---------------------------------------------------------------- counts

def _counted(sheet: Sheet, *, alike: bool) -> list:
    """The numbers found that count stitches or rows over a length, that she gave a name for buyers, and that are the same in all sizes or not."""
    return [one for one in sheet.facts.found if one.said and one.counts in _UNITS and (len(set(one.values)) == 1) == alike]


def _count_tables(sheet: Sheet) -> list:
    found = _counted(sheet, alike=False)
    return [
        Table(
            _continued(sheet, sheet.strings("sizes.counts"), at),
            (sheet.strings("sizes.size"), *(sheet.line(_named(one.said), "sizes") for one in part)),
            tuple(((name,), *(_count(sheet, one, size) for one in part)) for size, name in enumerate(sheet.sizes)),
        )
        for at, part in enumerate(_parts(found))
    ]


def _count(sheet: Sheet, one, at: int) -> tuple:
    """ "29 sts" and the length they come to."""
    words = sheet.strings(_UNITS[one.counts], n=1 if one.values[at] == 1 else 2, number=one.values[at])
    mm = one.mm[at]
    return (words,) if mm is None else (f"{words}, {length(mm)}",)


def _with_counts(sheet: Sheet, pairs: list) -> list:
    """The pairs with the counts that are the same in all sizes, beside the finished measure of the same name where there is one."""
    pairs = list(pairs)
    for one in _counted(sheet, alike=True):
        name, words = (sheet.line(_named(one.said), "sizes"),), _count(sheet, one, 0)
        at = next((at for at, (other, _) in enumerate(pairs) if other == name), None)
        if at is None:
            pairs.append((name, words))
        else:
            pairs[at] = (name, (f"{plain(pairs[at][1])}, {plain(words).split(', ')[0]}",))
    return pairs


def _lower(sheet: Sheet, name: str) -> str:
    return sheet.line(name.replace("_", " ").strip(), "sizes")


def _named(name: str) -> str:
    name = name.replace("_", " ").strip()
    return name[:1].upper() + name[1:]
