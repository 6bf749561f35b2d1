"""Materials and gauge."""

from dataclasses import replace

from hookwright import sizing
from hookwright.notation import Gauge

from .document import Break, Definitions, Listing, Paragraph, Section
from .measures import number, ounces, swatch, yards
from .sheet import Sheet
from .sheet_yarn import estimated, rests_on
from .size_lists import only_one, size_list
from .trade_tables import us_hook, yarn_weight

_SHORT_MM = 90.0  # a gauge over less than this is brought to 10 cm (4 in)


def materials(sheet: Sheet) -> Section | None:
    """Yarn with category, length and weight of a ball in both units, balls per size; hooks, mm first; all else that is needed."""
    say = sheet.strings
    groups = _alike(sheet.from_head("yarn", ()))
    pairs = [((_yarn_label(sheet, at, len(groups)),), _yarn(sheet, yarns)) for at, yarns in enumerate(groups)]
    if hooks := sheet.from_head("hook", ()):
        words = say("materials.hooks_between").join(_hook(hook) for hook in hooks)
        told = any("need" in hook.text or "obtain" in hook.text for hook in hooks if not hook.mm)
        pairs.append(((say("materials.hook"),), (sheet.line(words, "materials") if told else f"{words}, {say('materials.hook_or')}",)))
    blocks: list = []
    if pairs:
        blocks.append(Definitions(tuple(pairs)))
    if sheet.facts.yarn is not None and sheet.from_head("yarn", ()):
        blocks.append(Paragraph((rests_on(sheet),), "legend"))
    if notions := sheet.from_head("materials", ()):
        items = tuple((Paragraph(sheet.prose.inlines(str(item), say.named("materials"))),) for item in notions)
        blocks += [Paragraph((say("materials.notions"),), "label"), Listing(items)]
    blocks += sheet.prose_of("materials")
    return Section("materials", say("sections.materials"), tuple(blocks)) if blocks else None


def _yarn_label(sheet: Sheet, at: int, of: int) -> str:
    word = sheet.strings("materials.yarn")
    return word if of == 1 else f"{word} {at + 1}"


def _alike(yarns) -> list[list]:
    """Yarns that follow each other and differ only in colour and number of balls are one yarn in several colours."""
    groups: list[list] = []
    for yarn in yarns:
        first = groups[-1][0] if groups else None
        if first and yarn.name and yarn.colours and first.colours and _same(first) == _same(yarn):
            groups[-1].append(yarn)
        else:
            groups.append([yarn])
    return groups


def _same(yarn) -> tuple:
    return yarn.name, yarn.weight, yarn.fibre, yarn.metres, yarn.grams


def _yarn(sheet: Sheet, yarns) -> tuple:
    """The yarn, and below it each colour with its balls where there are several."""
    if len(yarns) == 1:
        return (_one_yarn(sheet, yarns[0]), *(part for line in estimated(sheet, yarns[0]) for part in (Break(), line)))
    lines: list = [_one_yarn(sheet, replace(yarns[0], balls=None, colours={}))]
    for yarn in yarns:
        colours = "; ".join(_colour(sheet, letter, name) for letter, name in yarn.colours.items())
        lines += [Break(), sheet.strings("materials.each", colour=colours, balls=_balls(sheet, yarn)) if yarn.balls is not None else colours]
        lines += [part for line in estimated(sheet, yarn) for part in (Break(), line)]
    return tuple(lines)


def _balls(sheet: Sheet, yarn) -> str:
    return sheet.strings("materials.balls", n=1 if only_one(yarn.balls) else 2, list=size_list(yarn.balls, lambda balls: number(balls, 2)))


def _one_yarn(sheet: Sheet, yarn) -> str:
    say = sheet.strings
    name = sheet.line(yarn.name, "materials")
    first = [name] if name else []
    if yarn.weight is not None:
        weight = yarn_weight(yarn.weight, sheet.dialect.name)
        first.append(say("materials.weight_number" if weight in name else "materials.weight", name=weight, number=yarn.weight))
    if yarn.fibre and yarn.fibre.casefold() not in name.casefold():
        first.append(sheet.line(yarn.fibre, "materials"))
    parts = [", ".join(first)] if first else []
    ball = {}
    if yarn.metres:
        ball["length"] = say("materials.ball_length", metres=number(yarn.metres), yards=yards(yarn.metres))
    if yarn.grams:
        ball["weight"] = say("materials.ball_weight", grams=number(yarn.grams), ounces=ounces(yarn.grams))
    if ball:
        key = "ball" if len(ball) == 2 else "ball_length_only" if "length" in ball else "ball_weight_only"
        parts.append(say(f"materials.{key}", **ball))
    if yarn.balls is not None:
        parts.append(_balls(sheet, yarn))
    if yarn.colours:
        named = [_colour(sheet, letter, name) for letter, name in yarn.colours.items()]
        parts.append(say("materials.colours_one" if len(named) == 1 else "materials.colours", list="; ".join(named)))
    return "; ".join(parts)


def _colour(sheet: Sheet, letter: str, name) -> str:
    return sheet.strings("materials.colour", letter=letter, name=sheet.line(str(name), "materials")) if name else str(letter)


def _hook(hook) -> str:
    if not hook.mm:
        return hook.text
    label = us_hook(hook.mm)
    size = f"{number(hook.mm, 2)}\u00a0mm"
    return f"{size} (US {label})" if label else size


def gauge(sheet: Sheet) -> Section | None:
    """Stitches and rows over 10 cm or what she measured over, in which stitch, blocked or not; a swatch goes before a stated gauge of the same."""
    say = sheet.strings
    swatches = [one for one in sheet.from_head("swatches", ()) if sizing.gauge_of(one).stitch_mm or sizing.gauge_of(one).row_mm]
    measured = {one.of.casefold() for one in swatches}
    lines = [line for one in swatches for line in _swatch(sheet, one)]
    lines += [_gauge(sheet, gauge) for gauge in sheet.from_head("gauge", ()) if (gauge.stitches or gauge.rows) and gauge.in_.casefold() not in measured]
    sheet.written += lines
    blocks: list = [Paragraph((line,)) for line in lines]
    blocks += sheet.prose_of("gauge")
    if lines:
        blocks.append(Paragraph((say("gauge.take_time"),), "legend"))
    return Section("gauge", say("sections.gauge"), tuple(blocks)) if blocks else None


def _swatch(sheet: Sheet, one) -> list[str]:
    """The gauge of a swatch in the trade's form, to the half stitch, and what it was before washing where that differs."""
    say, made = sheet.strings, sizing.gauge_of(one)
    washed = made.said.endswith("washed")
    trade = Gauge(_halves(made.per_10cm[0]), _halves(made.per_10cm[1]), in_=one.of, hook=one.hook)
    lines = [_gauge(sheet, trade, say("gauge.washed" if washed else "gauge.unwashed"))]
    if washed:
        before = sizing.gauge_of(replace(one, washed_width_mm=None, washed_height_mm=None))
        told = [(name, _halves(was), _halves(now)) for name, was, now in zip(("stitches", "rows"), before.per_10cm, made.per_10cm) if was and now]
        if any(was != now for _, was, now in told):
            counts = [say(f"gauge.{name}", n=1 if was == 1 else 2, number=number(was)) for name, was, _ in told]
            lines.append(say("gauge.before_washing", list=say("gauge.and").join(counts), over=swatch(100)))
    return lines


def _halves(count: float | None) -> float | None:
    return None if count is None else max(round(count * 2) / 2, 0.5)


def _over_ten(gauge):
    """A gauge over less than 10 cm (4 in) as it is over that: what a maker can compare, and the trade prints. Over more it stays."""
    if not gauge.over_mm or gauge.over_mm != gauge.rows_over_mm or gauge.over_mm > _SHORT_MM:
        return gauge
    ten = 101.6 if round(gauge.over_mm / 12.7, 6).is_integer() else 100.0  # inches go on in inches
    scale = ten / gauge.over_mm
    return replace(gauge, stitches=gauge.stitches and _halves(gauge.stitches * scale), rows=gauge.rows and _halves(gauge.rows * scale), over_mm=100.0, rows_over_mm=100.0)


def _gauge(sheet: Sheet, gauge, also: str = "") -> str:
    say, gauge = sheet.strings, _over_ten(gauge)
    values = {"over": swatch(gauge.over_mm), "rows_over": swatch(gauge.rows_over_mm), "stitch": sheet.line(gauge.in_, "gauge")}
    counts = {}
    for name, value in (("stitches", gauge.stitches), ("rows", gauge.rows)):
        if value:
            counts[name] = say(f"gauge.{name}", n=1 if value == 1 else 2, number=number(value))
    plain = "" if gauge.in_ else "_plain"
    if len(counts) == 1:
        name, words = next(iter(counts.items()))
        values["over"] = values["over"] if name == "stitches" else values["rows_over"]
        text = say(f"gauge.one{plain}", stitches=words, **values)
    else:
        key = "both" if gauge.over_mm == gauge.rows_over_mm else "both_over"
        text = say(f"gauge.{key}{plain}", **counts, **values)
    extras = []
    if gauge.hook is not None:
        extras.append(say("gauge.hook", hook=_hook(gauge.hook)))
    if gauge.blocked is not None:
        extras.append(say("gauge.blocked" if gauge.blocked else "gauge.unblocked"))
    return ", ".join([text, *extras, *([also] if also else [])]) + "."
