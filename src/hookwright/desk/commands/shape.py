"""`hookwright shape`: increases and decreases spread evenly, crowns, balls and other shapes from gauge, as rows to put into a manuscript."""

import click

from hookwright.desk.options import Whole


@click.group("shape", short_help="Spread shaping evenly; crowns, balls, shawls and yokes from gauge.")
def command():
    """Reckon shaping from counts or gauge and write it in the trade's words.

    \b
    hookwright shape rows 9 --over 42                 9 increases over 42 rows
    hookwright shape round 6 --stitches 26 --decrease
                                                      6 decreases in a round of 26
    hookwright shape crown "52 cm" --gauge "13 sts and 14 rows to 10 cm"
    """


GAUGE = click.option("--gauge", required=True, metavar="WORDS", help='Your gauge, such as "13 sts and 14 rows to 10 cm".')


class StitchWord(click.ParamType):
    """A stitch of the trade, as it is written in US or in UK terms."""

    name = "word"

    def convert(self, value, param, ctx):
        from hookwright.desk.main import did_you_mean, plain
        from hookwright.stitches import DIALECTS, dialect

        word = " ".join(str(value).split())
        words = [dialect(terms) for terms in DIALECTS]
        if not any(one.find(word) for one in words):
            known = sorted({short for one in words for short in one.words if short.isalpha()})
            self.fail(f"`{plain(word)}` is no stitch it knows. It takes one as you write it in a row, such as sc, hdc or htr.{did_you_mean(word.lower(), known)}", param, ctx)
        return word


STITCH = click.option("--stitch", type=StitchWord(), default="sc", show_default=True, metavar="WORD", help="The stitch, as you write it.")
UNEVEN = click.option("--stagger", is_flag=True, help="Begin every other round half a segment later, so that the shaping makes no corners.")


def _gauge(words: str) -> tuple[float, float]:
    """(stitch width, row height) in mm; a usage message for words that are no gauge."""
    from hookwright.notation import gauge_from_words

    found = gauge_from_words(words)
    if found is None or not (found.stitches and found.rows):
        raise click.UsageError(f'--gauge takes stitches, rows and what they are measured over, such as "13 sts and 14 rows to 10 cm", not "{words}"')
    return found.over_mm / found.stitches, found.rows_over_mm / found.rows


def _length(words: str) -> float:
    from hookwright.notation import length_from_words

    found = length_from_words(words)
    if found is None or found[0] <= 0:
        raise click.UsageError(f'a length with its unit is needed, such as "52 cm", not "{words}"')
    return sum(found) / 2


def _kind(stitch: str) -> str:
    """The catalogue's name of a stitch as it is written, in US terms where it is a word of both."""
    from hookwright.stitches import DIALECTS, dialect

    return next((kind for kind in (dialect(terms).find(stitch) for terms in DIALECTS) if kind), stitch)


def _say(lines) -> None:
    from hookwright.desk import terminal

    for line in lines:
        terminal.say(line)


def _told(reckon, *values, **named):
    """What a reckoning gives; its refusal as a usage message."""
    try:
        return reckon(*values, **named)
    except ValueError as refused:
        raise click.UsageError(str(refused)) from None


def _both(mm: float) -> str:
    return f"{mm / 10:.1f} cm ({mm / 25.4:.1f} in)"


def _proved(rounds: list[str], stitch: str) -> list[str]:
    """The rounds, and that they come out when they are worked stitch by stitch."""
    import hookwright
    from hookwright.sizing import many
    from hookwright.stitches import dialect

    report = hookwright.check("\n\n".join(rounds), terms="US" if dialect("US").find(stitch) else "UK", in_round=True)
    stitches = sum(row.stitches for row in report.fabrics[0].rows)
    if any(finding.kind.startswith("too-much") for finding in report.findings):
        said = "that is more than is worked stitch by stitch here, so these rounds are not proved"
    elif report.must_mend:
        said = "these rounds do not come out; `hookwright check` says where"
    else:
        said = f"worked stitch by stitch: {many(len(rounds), 'round')}, {many(stitches, 'st')} in all, every count agrees"
    return [*rounds, "", said]


@command.command("rows", short_help="So many increases or decreases over so many rows.")
@click.argument("changes", type=Whole(1, 10_000))
@click.option("--over", "rows", type=Whole(1, 100_000), required=True, help="Rows there are for it.")
@click.option("--right-side", is_flag=True, help="Shape on right-side rows only, every other one; Row 1 is taken as one.")
@click.option("--decrease", is_flag=True, help="Decreases instead of increases.")
def rows(changes, rows, right_side, decrease):
    """Spread CHANGES shaping rows evenly over the rows there are."""
    from hookwright.sizing import in_words, many, over_rows, shaped_rows

    stretches = _told(over_rows, changes, rows, step=2 if right_side else 1)
    told = in_words(stretches, "dec" if decrease else "inc")
    numbers = shaped_rows(stretches, after=-1 if right_side else 0)  # counted from before Row 1, so that odd rows are shaped
    named = ", ".join(map(str, numbers[:60])) + (" ..." if len(numbers) > 60 else "")
    left = rows - numbers[-1]
    after = f"{many(left, 'row')} after that {'is' if left == 1 else 'are'} worked even" if left else "no row after that is worked even"
    sides = ", all right-side rows where Row 1 is one" if right_side else ""
    _say([told[0].upper() + told[1:] + ".", f"That is in row{'s' if len(numbers) > 1 else ''} {named}{sides}; {after}."])


@command.command("taper", short_help="From so many stitches to so many, over so many rows.")
@click.argument("start", type=Whole(1, 100_000))
@click.argument("end", type=Whole(1, 100_000))
@click.option("--over", "rows", type=Whole(1, 100_000), required=True, help="Rows there are for it.")
@click.option("--one-edge", is_flag=True, help="Shape at one edge only, a stitch each time.")
@click.option("--right-side", is_flag=True, help="Shape on right-side rows only, every other one.")
def taper(start, end, rows, one_edge, right_side):
    """A sleeve, a mitten top or a neck edge: START stitches to END stitches."""
    from hookwright.sizing import in_words, many, over_rows, shaped_rows

    each = 1 if one_edge else 2
    changes, odd = divmod(abs(end - start), each)
    if odd:
        raise click.UsageError(f"from {start} to {end} is {abs(end - start)} sts, and 2 are made or taken each time, 1 at each end: take {end - 1} or {end + 1} at the end, or --one-edge")
    if start == end:
        _say([f"Nothing to shape: {start} sts from first to last."])
        return
    stretches = _told(over_rows, changes, rows, step=2 if right_side else 1)
    told = in_words(stretches, ("inc" if end > start else "dec") + (" 1 st at one edge" if one_edge else " 1 st at each end of"))
    numbers = shaped_rows(stretches, after=-1 if right_side else 0)
    counts = [start + (each if end > start else -each) * time for time in range(1, changes + 1)]
    made = [f"row {number}: {count}" for number, count in zip(numbers, counts)]
    left = rows - numbers[-1]
    _say([told[0].upper() + told[1:] + f". ({end} sts)",
          f"Counts: {start} sts, then {', '.join(made[:40])}{' ...' if len(made) > 40 else ''}.",
          f"{many(left, 'row')} after that {'is' if left == 1 else 'are'} worked even." if left else "No row after that is worked even.",
          *(["All shaped rows are right-side rows where Row 1 is one."] if right_side else [])])


@command.command("round", short_help="So many increases or decreases in a round.")
@click.argument("changes", type=Whole(1, 10_000))
@click.option("--stitches", type=Whole(1, 100_000), required=True, help="Stitches of the round.")
@click.option("--decrease", is_flag=True, help="Decreases instead of increases.")
@click.option("--number", type=Whole(1, 10_000), help="The number of the round: even ones begin half a segment later.")
@STITCH
def round_(changes, stitches, decrease, number, stitch):
    """Spread CHANGES evenly in one round or row."""
    from hookwright.sizing import round_words

    change, eats = (f"{stitch}2tog", 2) if decrease else ("inc", 1)
    words = _told(round_words, changes, stitches, word=stitch, change=change, eats=eats, number=number)
    _say([f"{words}. ({stitches + (-changes if decrease else changes)} sts)"])


@command.command("crown", short_help="A flat crown that ends on a wanted circumference.")
@click.argument("around")
@GAUGE
@STITCH
@UNEVEN
@click.option("--multiple", type=Whole(1, 200), default=1, show_default=True, help="The last round is a multiple of so many.")
@click.option("--per-round", type=Whole(3, 60), help="Stitches gained every round; by the gauge if not said.")
def crown(around, gauge, stitch, stagger, multiple, per_round):
    """A crown for a hat AROUND round (a length such as "52 cm"): its diameter is the circumference divided by pi."""
    from math import pi

    from hookwright.sizing import crown as reckon
    from hookwright.sizing import increases_per_round, rounds_words

    stitch_mm, row_mm = _gauge(gauge)
    stitches = max(multiple, 3, round(_length(around) / stitch_mm / multiple) * multiple)
    counts = _told(reckon, stitches, stitch_mm, row_mm, per_round=per_round)
    rounds = _told(rounds_words, counts, word=stitch, decrease=f"{stitch}2tog", stagger=stagger)
    flat = increases_per_round(stitch_mm, row_mm)
    _say([*_proved(rounds, stitch), f"{stitches} sts are {_both(stitches * stitch_mm)} round; the disc is {_both(stitches * stitch_mm / pi)} across.",
          f"At this gauge a disc lies flat with {flat:.1f} sts more in each round."])


@command.command("ball", short_help="A ball of a wanted size, by the sine rule.")
@click.argument("across")
@GAUGE
@STITCH
@UNEVEN
@click.option("--multiple", type=Whole(1, 60), default=1, show_default=True, help="Every round is a multiple of so many.")
def ball(across, gauge, stitch, stagger, multiple):
    """A ball ACROSS across (a length such as "9 cm")."""
    from math import pi

    from hookwright.sizing import ball as reckon
    from hookwright.sizing import ball_diameter_mm, many, rounds_words, workable

    stitch_mm, row_mm = _gauge(gauge)
    around = max(6, round(_length(across) * pi / stitch_mm / multiple) * multiple)
    counts = workable(_told(reckon, around, stitch_mm, row_mm, multiple=multiple), multiple=multiple)
    rounds = _told(rounds_words, counts, word=stitch, decrease=f"{stitch}2tog", stagger=stagger)
    _say([*_proved(rounds, stitch), f"{max(counts)} sts at the middle make a ball {_both(ball_diameter_mm(max(counts), stitch_mm))} across, {many(len(counts), 'round')} from end to end."])


@command.command("triangle", short_help="A top-down triangle that lies flat.")
@click.argument("depth")
@GAUGE
def triangle(depth, gauge):
    """A triangle shawl with a spine, DEPTH deep (a length such as "60 cm")."""
    from hookwright.sizing import many, triangle_increases
    from hookwright.sizing import triangle as reckon

    stitch_mm, row_mm = _gauge(gauge)
    made = reckon(_length(depth), stitch_mm, row_mm)
    _say([f"{many(made.rows, 'row')}, {made.gain} sts more in each, {made.stitches} sts in the last: half the gain at the ends, half at the spine.",
          f"Depth {_both(made.depth_mm)}, top edge {_both(made.span_mm)}.",
          f"At this gauge the top edge is straight with {triangle_increases(stitch_mm, row_mm):.1f} sts more in each row."])


@command.command("crescent", short_help="A crescent or half circle that lies flat.")
@GAUGE
def crescent(gauge):
    """How many stitches every row of a crescent gains."""
    from hookwright.sizing import crescent_increases

    stitch_mm, row_mm = _gauge(gauge)
    gain = crescent_increases(stitch_mm, row_mm)
    _say([f"At this gauge a crescent lies flat with {gain:.1f} sts more in each row: {round(gain * 2)} in every two rows.", "Fewer draw the ends up into a wider curve, more make the lower edge wave."])


@command.command("border", short_help="The first round of a border round a flat piece.")
@click.option("--stitches", type=Whole(1, 100_000), required=True, help="Stitches across the piece.")
@click.option("--rows", type=Whole(1, 100_000), required=True, help="Rows of the piece.")
@GAUGE
@STITCH
def border(stitches, rows, gauge, stitch):
    """How many stitches stand along the row ends and in the corners."""
    from hookwright.sizing import border_stitches, corner_gain, many

    stitch_mm, row_mm = _gauge(gauge)
    gain = corner_gain(_kind(stitch))
    side, corner, whole = border_stitches(stitches, rows, stitch_mm, row_mm, corner=gain + 1)
    _say([f"{side} {stitch} along each side of {many(rows, 'row')}, {stitches} {stitch} along top and bottom, {corner} in each corner: {whole} sts in the first round.",
          f"Every further round of {stitch} takes {4 * gain} sts more, {gain} in each corner."])


@command.command("raglan", short_help="Counts of a raglan yoke from the neck down.")
@click.option("--chest", type=Whole(8, 10_000), required=True, help="Stitches round the body.")
@click.option("--sleeve", type=Whole(4, 10_000), required=True, help="Stitches round one sleeve.")
@click.option("--rounds", type=Whole(1, 10_000), required=True, help="Rounds of the yoke.")
@click.option("--underarm", type=Whole(0, 1000), default=4, show_default=True, help="Stitches chained at each underarm.")
@click.option("--neck", type=Whole(1, 1000), help="Stitches of the back neck.")
def raglan(chest, sleeve, rounds, underarm, neck):
    """Where the four lines begin and end, and in which rounds they grow."""
    from hookwright.sizing import in_words, many, over_rows
    from hookwright.sizing import raglan as reckon

    if chest % 2:
        raise click.UsageError(f"{chest} sts can't be halved for back and front: take {chest - 1} or {chest + 1} round the chest")
    made = _told(reckon, chest, sleeve, rounds, underarm=underarm, neck=neck)
    back, front, arm = made.neck
    end, end_front, end_arm = made.underarm
    told = in_words(_told(over_rows, made.increases, rounds), "inc", "round")
    _say([f"Begin with {made.neck_stitches} sts: back {back}, front {front}, sleeves {arm} each.",
          f"{told[0].upper() + told[1:]}, 8 sts more each time: {made.yoke_stitches} sts, back {end}, front {end_front}, sleeves {end_arm} each.",
          f"With {many(underarm, 'st')} chained at each underarm the body has {end + end_front + 2 * underarm} sts and a sleeve {end_arm + underarm}."])


