"""Which size to choose: for which bodies each is right, whom it fits, what to take between two, and a picture of it."""

from functools import cache

from hookwright import sizing
from hookwright.drawing import Bar, Hump, size_plot

from .document import Definitions, Figure, Paragraph
from .measures import length, number, signed_length
from .sheet import Sheet

_POINTS = 48  # of a curve


def part_word(sheet: Sheet, fitting) -> str:
    """The part of the body in a word: "head", or "bust" where her measures call it so."""
    part = fitting.part or "body"
    if part == "chest":
        body = getattr(sheet.head, "body", None)
        told = f"{fitting.finished} {' '.join(body.measures) if body else ''}".lower()
        part = "bust" if "bust" in told or body is not None and "women" in body.table.lower() and "chest" not in told else "chest"
    return sheet.strings(f"fit.part.{part}")


def choices(sheet: Sheet, fitting) -> list:
    """For each size the bodies to choose it for, as (low_mm, high_mm); [] where that is not more than whom it is to fit."""
    chosen = [size.choose_mm for size in fitting.sizes]
    return chosen if all(chosen) and any(size.choose_mm != size.body_mm for size in fitting.sizes) else []


def which_size(sheet: Sheet, fitting, *, in_table: bool = False) -> list:
    """The blocks: for each size the bodies to choose it for and whom it fits; what to take where two meet; the picture; the sources.
    in_table: the bodies stand in the table of sizes."""
    say, part = sheet.strings, part_word(sheet, fitting)
    pairs = []
    for size in fitting.sizes:
        told = []
        if size.choose_mm and sheet.several() and not in_table:
            told.append(say("fit.choose", part=part, length=length(*size.choose_mm)))
        if people := _people(sheet, fitting, size):
            told.append(people if told else people[:1].upper() + people[1:])
        if told and (any(size.shares) or choices(sheet, fitting)):
            pairs.append(((size.name,), (". ".join(told) + ".",)))
    blocks: list = []
    between = _between(sheet, fitting, part) if fitting.part or pairs else ()
    if pairs or between:
        blocks.append(Paragraph((say("fit.whom" if pairs and in_table else "fit.which"),), "label"))
    if pairs:
        blocks.append(Definitions(tuple(pairs)))
    if between:
        blocks.append(Paragraph((" ".join(between),)))
    if picture := _picture(sheet, fitting, part):
        blocks.append(Figure(picture, "sizes-plot"))
    if said := _sources(sheet, fitting):
        blocks.append(Paragraph((" ".join(said),), "small"))
    return blocks


# ---------------------------------------------------------------- words

def _share(share: float) -> str:
    """Per cent to the nearest five, as surely as such figures are known; never quite all."""
    return str(min(max(round(share * 20) * 5, 5), 95))


def _people(sheet: Sheet, fitting, size) -> str:
    """ "Fits about 90% of children at 0–3 months, 60% at 3–6 months, 20% of women"."""
    say, told = sheet.strings, []
    for share, one in zip(size.shares, fitting.people):
        if share < sizing.SOME:
            continue
        if one.months:
            key = "fit.child_more" if any("%" in words for words in told) else "fit.child"
            told.append(say(key, share=_share(share), age=_age(sheet, one.months)))
        else:
            told.append(say("fit.adult", share=_share(share), who=say(f"fit.who.{one.who}")))
    return say("fit.people", list=", ".join(told)) if told else ""


def _age(sheet: Sheet, months) -> str:
    low, high = months
    if low >= 12 and low % 12 == 0 and high % 12 == 0:
        return sheet.strings("fit.years", low=number(low / 12), high=number(high / 12))
    return sheet.strings("fit.months", low=number(low), high=number(high))


def _who(sheet: Sheet, one) -> str:
    return sheet.strings(f"fit.who.{one.who}", age=_age(sheet, one.months) if one.months else "")


def _between(sheet: Sheet, fitting, part: str) -> list[str]:
    """What to take where the bodies of two sizes meet, with what each is there; and bodies that no size is for."""
    say, sizes = sheet.strings, [size for size in fitting.sizes if size.choose_mm]
    joints = [(a, b) for a, b in zip(sizes, sizes[1:]) if a.choose_mm[1] == b.choose_mm[0]]
    out = []
    if joints:
        known = all(a.finished_mm and b.finished_mm for a, b in joints)
        smaller = [a.finished_mm - a.choose_mm[1] for a, _ in joints] if known else []
        larger = [b.finished_mm - b.choose_mm[0] for _, b in joints] if known else []
        out.append(say("fit.meet_by", smaller=_than(sheet, smaller, part), larger=_than(sheet, larger, part)) if known else say("fit.meet"))
    if fitting.gaps:
        key = "fit.gap_stretch" if fitting.stretch is not None else "fit.gap"
        out.append(say(key, part=part, length=say("fit.or").join(length(*gap) for gap in fitting.gaps)))
    return out


def _than(sheet: Sheet, eases: list, part: str) -> str:
    low, high = round(min(eases)), round(max(eases))
    if high < 0:
        return sheet.strings("fit.narrower", length=length(-high, -low), part=part)
    if low > 0:
        return sheet.strings("fit.wider", length=length(low, high), part=part)
    return sheet.strings("fit.level", length=signed_length(low, high))


def _sources(sheet: Sheet, fitting) -> list[str]:
    say, shown = sheet.strings, [one for one, _ in _shown(fitting)]
    out = []
    if shown and fitting.stretch is not None:
        out.append(say("fit.stretch", percent=number(fitting.stretch * 100)))
    if any(one.months for one in shown):
        out.append(say("fit.source_children"))
    if any(not one.months for one in shown):
        out.append(say("fit.source_adults"))
    return out


# ---------------------------------------------------------------- picture

def _shown(fitting) -> list:
    """The people whom some size fits, with the place of their shares."""
    return [(one, at) for at, one in enumerate(fitting.people) if any(size.shares[at] >= sizing.SOME for size in fitting.sizes)]


def _picture(sheet: Sheet, fitting, part: str):
    say = sheet.strings
    people = [one for one, _ in _shown(fitting)]
    if not people and (not sheet.several() or not fitting.finished):
        return None
    humps = [Hump(sheet.strings("fit.who.women") if one.who == "women" else say("fit.who.men") if one.who == "men" else _age(sheet, one.months), _curve(one.population)) for one in people]
    finished = sheet.line(fitting.finished.replace("_", " "), "sizes")
    bars = [Bar(size.name, *(size.fits_mm or (None, None)) if people else (size.body_mm or (None, None)), size.finished_mm) for size in fitting.sizes]
    title = say("fit.title_people" if people else "fit.title" if finished else "fit.title_body", part=part, finished=finished)
    told = "; ".join(_told(sheet, bar) for bar in bars if bar.low_mm is not None or bar.mark_mm is not None)
    spread = "; ".join(say("fit.words_person", who=_who(sheet, one), length=length(*_most(one.population))) for one in people)
    words = say("fit.words_people", list=spread, sizes=told) if people else say("fit.words", sizes=told)
    means = say("fit.bar" if not people else "fit.bar_stretch" if fitting.stretch is not None else "fit.bar_choose", part=part)
    return size_plot(humps, bars, title=title, words=words, bar_means=means, mark_means=say("fit.mark", finished=finished) if finished else "")


def _told(sheet: Sheet, bar: Bar) -> str:
    words = sheet.strings("fit.words_size", size=bar.label, length=length(bar.low_mm, bar.high_mm) if bar.low_mm is not None else "")
    return words.strip() + (sheet.strings("fit.words_mark", length=length(bar.mark_mm)) if bar.mark_mm is not None else "")


@cache
def _curve(population) -> tuple:
    low, high = population.span_mm()
    steps = [low + (high - low) * at / _POINTS for at in range(_POINTS + 1)]
    return tuple((mm, population.density(mm)) for mm in steps)


def _most(population) -> tuple[float, float]:
    """The measures of all but the largest and smallest few: one and a half deviations round the middle of the outermost parts."""
    return min(mean - 1.5 * sd for mean, sd in population.parts), max(mean + 1.5 * sd for mean, sd in population.parts)
