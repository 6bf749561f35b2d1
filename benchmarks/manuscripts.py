"""Manuscripts for measuring: made by rule, correct, in the ordinary way of writing."""

SIZE_NAMES = ("Newborn", "Baby", "Toddler", "Child", "Tween", "Small", "Medium", "Large", "Extra large")


def per_size(numbers) -> str:
    """Numbers in the trade's way: "60 (66, 72)"; one number where all sizes share it.

    >>> per_size([60, 66, 72]), per_size([5, 5, 5])
    ('60 (66, 72)', '5')
    """
    first, *others = numbers
    return str(first) if all(number == first for number in others) else f"{first} ({', '.join(map(str, others))})"


def hat(rounds: int = 60, sizes: int = 9) -> str:
    """A hat worked up from the brim in joined rounds: ribbing, a textured body, a crown of eight decreasing rounds."""
    around = [60 + 6 * size for size in range(sizes)]
    counts = per_size(around)
    join = "join with sl st to first st."
    out = [
        "---",
        "title: Harbour Hat",
        "terms: US",
        f"sizes: [{', '.join(SIZE_NAMES[:sizes])}]",
        "hook: 5 mm",
        "gauge:",
        "  - {stitches: 14, rows: 16, over: 10 cm, in: sc}",
        "---",
        "",
        "## Body",
        "",
        f"Ch {counts}, join with sl st to form a ring, being careful not to twist.",
        f"Rnd 1: Ch 1, sc in each ch around, {join} {counts} sc",
        f"Rnd 2: Ch 1, hdc in each st around, {join} {counts} hdc",
    ]
    for number in range(3, rounds - 7):
        if number < 10:
            body = "*fpdc around next st, bpdc around next st; rep from * around"
        elif number % 2:
            body = "sc in each st around"
        else:
            body = "[sc in next 2 sts, hdc in next st] around"
        out.append(f"Rnd {number}: Ch 1, {body}, {join} {counts} sts")
    out += ["", "## Crown", ""]
    for step, number in enumerate(range(rounds - 7, rounds + 1)):
        before = [count // 6 - 2 - step for count in around]
        left = per_size([count - 6 * (step + 1) for count in around])
        stitches = f"sc in next {per_size(before)} st{'s' if before != [1] else ''}, "
        out.append(f"Rnd {number}: Ch 1, *{stitches}sc2tog; rep from * around, {join} {left} sc")
    return "\n".join([*out, "Fasten off, leaving a long tail.", ""])


def blanket(stitches: int, width: int = 250, written_out: bool = False) -> str:
    """A blanket of about that many stitches in rows of `width` (even) stitches.

    written_out: every row written, else two rows and the words to repeat them.
    """
    rows = max(4, round(stitches / width))
    out = [f"Row 1 (RS): Ch {width + 1}, sc in 2nd ch from hook and in each ch across. {width} sc"]
    two = (
        f"Ch 1, turn, *sc in next st, dc in next st; rep from * across. {width} sts",
        f"Ch 1, turn, sc in each st across. {width} sc",
    )
    if written_out:
        out += [f"Row {number}: {two[number % 2]}" for number in range(2, rows + 1)]
    else:
        out += [f"Row 2: {two[0]}", f"Row 3: {two[1]}"]
        out.append(f"Rows 4-{rows}: Rep Rows 2 and 3.")
    return "\n".join(out) + "\n"


def triangle(stitches: int) -> str:
    """A triangle of about that many stitches: every row has two more than the one before, so that no two rows are the same."""
    rows = max(4, round(stitches**0.5))
    out = ["Row 1 (RS): Ch 3, sc in 2nd ch from hook and in next ch. 2 sc"]
    for number in range(2, rows + 1):
        out.append(f"Row {number}: Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st. {2 * number} sc")
    return "\n".join(out).replace("sc in each st to last st, 2 sc in last st. 4 sc", "2 sc in last st. 4 sc") + "\n"


SHAPES = (
    "sc in each st across, turn. (48 sts)",
    "[3 sc, inc] x 6 (30)",
    "*2 sc, inc; rep from * around. 24 sts",
    "Ch 3 (counts as dc here and throughout), dc in next 4 sts, 2 dc in next st, "
    "*dc in next 5 sts, 2 dc in next st; rep from * around. 42 dc",
    "Single crochet in each of the next 5 stitches, 2 single crochet in the next stitch.",
    "Ch 1, hdc in first st, *sk 1, (hdc, ch 1, hdc) in next st; rep from * to last st, hdc in last st.",
    "sc2tog, sc in next 8 sts, sc2tog (10 sts)",
    "*fpdc around next st, bpdc around next st* rep from * to * around, join with sl st to first st. 48 sts",
    "Ch 3, 2 dc in same sp, *ch 1, 3 dc in next ch-1 sp; rep from * to corner, (3 dc, ch 2, 3 dc) in corner ch-2 sp",
    "SC in back loop only of each st across, turn. 20 sc",
)


def rows(count: int) -> str:
    """Rows of ten ordinary shapes in turn, for the speed of reading alone (they do not follow from one another)."""
    return "".join(f"Row {number}: {SHAPES[number % len(SHAPES)]}\n" for number in range(1, count + 1))


def long_pattern(pieces: int = 4, rounds: int = 40) -> str:
    """A pattern of several pieces that fills about six pages of A4."""
    head, body = hat(rounds, 5).split("\n## Body\n")
    parts = [f"\n## Piece {number}\n{body}".replace("## Crown", f"## Crown of piece {number}") for number in range(1, pieces + 1)]
    return head + "".join(parts)


def garment() -> str:
    """A drop-shoulder top in the nine women's sizes of the body tables: every number is found from bust, ease, arm and back."""
    return """---
title: Skerry Top
terms: US
sizes: [XS, S, M, L, 1X, 2X, 3X, 4X, 5X]
body: women
ease: 10 cm
hook: 5.5 mm
gauge:
  - {stitches: 14, rows: 10, over: 10 cm, in: hdc}
  - {stitches: 13, rows: 14, over: 10 cm, in: ribbing}
numbers:
  half: {want: (bust + ease) / 2, count: stitches, in: hdc, fits: Back, grows: 1, within: 3 cm}
  rib: {want: 5 cm, count: rows, in: ribbing, even: yes, same in: all}
  armhole: {want: armhole depth + 4 cm, count: rows, in: hdc, even: yes, grows: yes}
  body: {want: back waist length - 5 cm, count: rows, in: hdc, even: yes, at least: armhole, grows: yes}
  neck: {want: cross back * 0.45, count: stitches, in: hdc, even: yes, at most: half - 24}
  shoulder: (half - neck) / 2
  top: {want: armhole * row * 2, count: stitches, in: hdc, even: yes, grows: yes}
  cuff: {want: upper arm * 0.8, count: stitches, in: hdc, even: yes, at most: top - 6, grows: yes}
  increases: (top - cuff) / 2
  sleeve: {want: arm length to underarm - 8 cm, count: rows, in: hdc, even: yes, at least: increases + 4}
finished:
  bust: half * stitch * 2
  length: body * row + armhole * row
---

## Ribbing (make 2)

Row 1: Ch 8, sc in 2nd ch from hook and in each ch across. (7 sc)
Rows 2-{rib}: Ch 1, turn, sc in back loop of each st across. (7 sc)

## Back (make 2)

Row 1 (RS): Ch {half + 1}, sc in 2nd ch from hook and in each ch across. ({half} sc)
Row 2: Ch 1, turn, *hdc in next 2 sts, fpdc around next 2 sts; rep from * across. ({half} sts)
Rows 3-{body}: Ch 1, turn, hdc in each st across. ({half} hdc)
Rows {body + 1}-{body + armhole}: Ch 1, turn, hdc in each st across. ({half} hdc)

## Sleeve (make 2)

Row 1 (RS): Ch {cuff + 1}, sc in 2nd ch from hook and in each ch across. ({cuff} sc)
Rows 2-{increases + 1}: Ch 1, turn, 2 hdc in first st, hdc in each st to last st, 2 hdc in last st.
Rows {increases + 2}-{sleeve}: Ch 1, turn, hdc in each st across. ({top} hdc)

## Finishing

Sew {shoulder} sts of each shoulder and leave {neck} sts for the neck.
"""


def sideways_hat() -> str:
    """A hat worked sideways in eight sizes from newborn to adult, its numbers found from heads as measured."""
    return """---
title: Quay Hat
terms: US
sizes: [Newborn, Baby, Toddler, Small child, Child, Tween, Adult S, Adult L]
body:
  head: 35 (41, 46, 48, 50, 52, 54, 58) cm
ease: -4 cm
hook: 5 mm
gauge:
  - {stitches: 14, rows: 11, over: 10 cm, in: ribbing}
numbers:
  rows: {want: head + ease, count: rows, even: yes, grows: yes}
  tall: {want: head * 0.4, count: stitches, multiple: 3, plus: 1, at least: brim + 9, grows: yes}
  brim: {want: head * 0.1, count: stitches, grows: yes}
finished:
  circumference: rows * row
---

## Hat

Row 1 (RS): Ch {tall + 1}, sc in 2nd ch from hook and in each ch across. ({tall} sc)
Rows 2-{rows}: Ch 1, turn, sc in back loop of each st across. ({tall} sc)
"""


def long_rows(rows: int = 400, sizes: int = 5) -> str:
    """So many rows, each written out, that turn between plain rows, shaping and two stitch patterns."""
    around = [40 + 8 * size for size in range(sizes)]
    more = 0

    def counted(plus: int = 0) -> str:
        return per_size([count + more + plus for count in around])

    out = ["---", "title: Long Sands", "terms: US", f"sizes: [{', '.join(SIZE_NAMES[-sizes:])}]", "hook: 4 mm", "gauge: [{stitches: 18, rows: 20, over: 10 cm, in: sc}]", "---", "",
           "## Body", "", f"Ch {counted(1)}.", f"Row 1: Sc in 2nd ch from hook and in each ch across, turn. {counted()} sc"]
    for number in range(2, rows + 1):
        step, words, stitch = number % 6, "sc in each st across", "sc"
        if step == 0:
            words, more = "2 sc in first st, sc in each st across to last st, 2 sc in last st", more + 2
        elif step == 3:
            words, more = "sc2tog, sc in each st across to last 2 sts, sc2tog", more - 2
        elif step == 1:
            words, stitch = "[sc in next st, hdc in next st] across", "sts"
        elif step == 4:
            words, stitch = "sc in first st, *hdc in next st, sc in next st; rep from * to last st, sc in last st", "sts"
        out.append(f"Row {number}: Ch 1, {words}, turn. {counted()} {stitch}")
    return "\n".join([*out, "Fasten off.", ""])


def tube(stitches: int) -> str:
    """A tube of about that many stitches of sc, a little higher than it is round, worked in a spiral."""
    around = round((stitches * 1.2) ** 0.5)
    rounds = stitches // around
    return "\n\n".join([
        "---\ntitle: Sleeve\ngauge: {stitches: 16, rows: 18, over: 10 cm, in: sc}\n---", "## Tube", "Do not join rounds.",
        f"Ch {around}, join with sl st in first ch to form a ring.", f"Rnd 1: Sc in each ch around. ({around})",
        f"Rnds 2-{rounds}: Sc in each st around. ({around})\n"])


def gathered_hat(stitches: int) -> str:
    """A hat of about that many hdc worked sideways, seamed, and drawn together at its crown."""
    high = round((stitches / 2.2) ** 0.5)
    rows = 2 * (stitches // high // 2)
    return "\n\n".join([
        "---\ntitle: Drawn Hat\ngauge: {stitches: 14, rows: 11, over: 10 cm, in: hdc}\n---", "## Hat", f"Ch {high + 1}.",
        f"Row 1 (RS): Hdc in 2nd ch from hook and in each ch across, turn. ({high} sts)", f"Rows 2-{rows}: Ch 1, hdc in each st across, turn. ({high} sts)",
        f"Seam row: Ch 1, working through both thicknesses, sl st in each st across. ({high} sl sts)", "Fasten off.", "## Finishing",
        "Run the tail through the row ends of the crown edge, draw up firmly and close.\n"])


def ball(around: int = 60) -> str:
    """A toy's ball by the sine rule with so many stitches at its middle."""
    from hookwright.sizing import ball as rounds
    from hookwright.sizing import workable

    counts = workable(rounds(around, 5.0, 4.5))
    rows = [f"Rnd 1: {counts[0]} sc in magic ring ({counts[0]})"]
    for number, (under, count) in enumerate(zip(counts, counts[1:], strict=False), 2):
        rows.append(f"Rnd {number}: {evenly_changed(under, count)} ({count})")
    return "---\ntitle: Ball\nfor: [toy]\ngauge: {stitches: 20, rows: 22, over: 10 cm, in: sc}\n---\n\n## Ball\n\nDo not join rounds.\n\n" + "\n\n".join(rows) + "\n"


def evenly_changed(under: int, count: int) -> str:
    """The words of a round of `count` sc over one of `under`, its changes spread."""
    change, parts, at = abs(count - under), [], 0
    for step in range(change):
        end = (step + 1) * under // change
        plain = end - at - (1 if count > under else 2)
        parts += [f"{plain} sc"] * (plain > 0) + ["2 sc in next st" if count > under else "sc2tog"]
        at = end
    return ", ".join([*parts, *([f"{under - at} sc"] if at < under else [])])
