"""Rows shaped at intervals, told in one sentence: "Inc 1 st at each end of 5th and every foll 6th row 4 times, then every 4th row 3 times"."""

import re
from dataclasses import dataclass, field

from hookwright.ground import Number, PerSize

from .again_words import LIST, NUMBER_WORD, ONCE, STITCHES, TIMES, WORD
from .number_words import ORDINAL_PATTERN, listed_number, number_of
from .patterns import Lazy
from .tree import Interval, Shaping

_NTH = rf"(?:\d{{1,4}}(?:st|nd|rd|th)|(?:{ORDINAL_PATTERN})(?![a-z]))"
_NTHS = r"(?:\s*[\(\[](?:[\d\s,;:/–—-]|st|nd|rd|th)+[\)\]](?:st|nd|rd|th)?)"  # "6th (5th, 4th)", "8 (6)th"
_ALTERNATE = r"(?:other|alt(?:ernate)?\.?|second|2nd)"
_FOLLOWING = r"(?:foll(?:owing)?\.?|succeeding)"
_WHERE = r"(?:each|both)\s+(?:ends?|sides?|edges?)|(?:beg(?:inning)?\.?|start)\s+and\s+(?:the\s+)?end|beg(?:inning)?\.?|start|end|(?:neck|armhole|front|side|raglan|shaped|inner|outer|this|that|same|center|centre|opening)\s+edge|neck|armhole|(?:spaced\s+)?evenly(?:\s+(?:spaced|around|across|apart))*"
_AS_BEFORE = r"(?:(?:in\s+)?(?:this|the\s+same|same)\s+(?:way|manner)\s+|(?:as|like)\s+(?:before|set|given)\s+)?"
LEAD = Lazy(
    r"\s*(?:(?:then|now|and|also)[,:]?\s+)?(?:(?:cont(?:inue|inuing)?\.?|work(?:ing)?|keep(?:ing)?(?:\s+on)?)\s+(?:to\s+work\s+|working\s+)?"
    r"(?:(?:even|straight)(?!\s+in\b)|(?:in\s+|keeping\s+)?(?:the\s+)?(?:(?:est\w*|set|same)\s+)?patt?(?:ern)?\.?(?:\s+(?:as\s+(?:est\w*|set|before)|correct))?|as\s+(?:est\w*|set|before)|(?:in\s+)?(?:the\s+)?(?:same|this|that)\s+(?:manner|way|fashion)|like\s+this"
    r"|(?:(?:even|straight)\s+)?(?:in\s+)?(?P<in>(?!inc|dec)[a-z]{2,6}(?:\s+(?:crochet|treble|double\s+crochet))?))?\s*,?\s*(?:(?:and|but|while|at\s+the\s+same\s+time)\s+)*)?",
    re.I,
)
VERB = Lazy(
    rf"(?P<verb>inc|dec)(?:r?eas(?:e|ing)|r)?\.?(?![a-z])\s+(?:(?P<n>{NUMBER_WORD}|an?)(?P<list>{LIST})?\s*(?:sts?\.?|stitch(?:es)?|[sdh]d?c|h?tr)(?![a-z])\s*)?{_AS_BEFORE}"
    rf"(?:(?:at|on|in)?\s*(?:the\s+)?(?P<where>{_WHERE})(?![a-z])\s*)?,?\s*(?:(?:of|on|in|for)\s+)?(?:the\s+)?(?:row\s+(?=on\b|of\b|in\b|every\b|each\b)(?:(?:on|of|in)\s+)?(?:the\s+)?)?",
    re.I,
)
REFERENCE = Lazy(
    rf"\s*(?:then\s+)?(?:r(?:ep(?:eat(?:ing)?)?|pt)|work(?:ing)?)\.?\s+(?:(?:the|this|last|these)\s+)*(?:(?:neck|armhole|front|side|raglan|shoulder|edge|cent(?:er|re)|waist|sleeve|gusset|thumb|crown|same)\s+){{0,2}}(?P<name>(?:inc(?:rease)?|dec(?:rease)?|shaping|(?:last|previous))(?:\s+{WORD})|(?:inc(?:rease)?|dec(?:rease)?)(?=s?\s+(?:on\s+|in\s+|at\s+)?(?:rows?|every|each|alt)|\s*$)s?|{WORD})(?!\s*\d)\s+(?:(?:on|in)\s+)?(?:the\s+)?",
    re.I,
)
FIRST = Lazy(rf"(?:(?P<now>next|this|{_FOLLOWING})|(?P<nth>{_NTH})(?P<list>{_NTHS})?)(?:\s+{WORD})?\s*,?\s*(?:and|then)\s+(?:then\s+)?(?:(?:on|of|in|at)\s+)?(?:the\s+)?", re.I)
AFTERWARDS = Lazy(r"\s*,?\s*(?:thereafter|after\s+that|from\s+(?:here|then)(?:\s+on)?|afterwards?|following)(?![a-z])", re.I)
EVERY = Lazy(
    rf"(?:every|each|per)\s+(?!of\b)(?:{_FOLLOWING}\s+)?(?:(?P<other>{_ALTERNATE})|(?P<nth>{_NTH})(?P<list>{_NTHS})?|(?P<n>\d{{1,3}})(?P<nlist>{_NTHS})?)?\s*(?P<row>{WORD})(?![a-z])"
    rf"|(?:{_FOLLOWING}\s+)?(?P<count>{NUMBER_WORD})(?P<clist>{LIST})?\s*(?:{_FOLLOWING}\s+)?(?:(?P<calt>{_ALTERNATE})|(?P<cnth>{_NTH}))\s+(?:{WORD})(?![a-z])"
    rf"|(?:each\s+of\s+(?:the\s+)?)?(?:next|{_FOLLOWING})\s+(?P<straight>{NUMBER_WORD})(?P<slist>{LIST})?\s*(?:{WORD})(?![a-z])"
    rf"|(?:{_FOLLOWING}\s+)?(?P<alt>alt(?:ernate)?\.?)\s+(?:{WORD})(?![a-z])"
    rf"|{_FOLLOWING}\s+(?P<fnth>{_NTH})(?P<flist>{_NTHS})?\s+(?:{WORD})(?![a-z])",
    re.I,
)
TO_STITCHES = Lazy(rf"(?:to|until|till)\s+(?:(?:there\s+are|you\s+have|you\s+reach)\s+)?(?P<n>{NUMBER_WORD}|(?=[\(\[]))(?P<list>{LIST}{{0,3}})\s*(?:sts?|stitches)(?![a-z])\.?(?:\s*(?:rem(?:ain(?:ing|s)?)?\.?|are\s+left|left))?", re.I)
THEN = Lazy(r"\s*[,;.]?\s*(?:(?:and\s+)?then|and)\s+(?:(?:on|in|of|at)\s+)?(?:the\s+)?", re.I)
FOR_ROWS = Lazy(rf"(?:for\s+)?(?:the\s+)?(?:next\s+)?(?P<n>{NUMBER_WORD}|(?=[\(\[]))(?P<list>{LIST}{{0,3}})\s*(?:{WORD})(?![a-z])", re.I)
LISTED = Lazy(rf"(?:{WORD})\s+(?P<rows>\d{{1,4}}(?:\s*(?:,|&|\band\b)+\s*\d{{1,4}})+)(?!\d)", re.I)  # "on Rows 4, 6 and 8"
RANGE = Lazy(rf"(?:{WORD})\.?\s*(?P<n>\d{{1,4}})\s*(?:-|–|—|to|thru|through)\s*\d{{1,4}}", re.I)
SAID_AGAIN = Lazy(rf"\s*[,(\[]\s*(?:(?:i\.?e\.?|that\s+is|namely|on)[,:]?\s+)*(?:{WORD})\s+\d{{1,4}}(?:\s*(?:,|&|\band\b|-)+\s*\d{{1,4}})*\s*[)\],]", re.I)  # "every other row (Rows 4, 6 and 8)"
EVEN_BETWEEN = Lazy(
    rf"\s*[,;.]?\s*(?P<words>(?:(?:and|but|while)\s+)?work(?:ing)?\s+(?:the\s+|all\s+|in\s+){{0,3}}(?:(?:other|even|rem(?:aining)?|alternate|intervening|in-between|between)\s+)?(?:(?:{WORD})(?:\s+\d[\d\s,&and]*)?|others|rest)\s*(?:(?:in[\s-])?between\s+)?(?:in\s+(?:[sh]?[dsh]c|h?tr)\s+)?(?:even|straight|plain|without\s+shaping|in\s+patt(?:ern)?\.?|as\s+(?:usual|est\w*|set)|with(?:out|\s+no)\s+(?:inc|dec)\w*))(?![a-z])",
    re.I,
)
GAP = Lazy(r"\s*,?\s*(?:for\s+)?")
BESIDE = Lazy(r"\s*,?\s*(?P<words>(?:and\s+)?(?:work(?:ing)?|tak(?:e|ing)|keep(?:ing)?|bring(?:ing)?|incorporat\w+)\s+(?:(?:the|all|any)\s+)*(?:extra|inc\w*|new|added|additional|patt\w*|edges?)\b[^.;()\[\]]*)", re.I)
LABEL = Lazy(rf"(?:{WORD}\s*\d|\d\s*(?:st|nd|rd|th)\s|\d\s+{WORD})", re.I)  # a row that is numbered tells how many it stands for
CLOSED = Lazy(r"\s*(?:[.;:,(\[=–—-]|$)")


@dataclass(slots=True)
class IntervalsRead:
    """The shaping, where its words end, the span of the stitch named, the span of the row referred to, notes as spans."""

    shaping: Shaping
    end: int
    stitch: tuple[int, int] | None = None
    name: tuple[int, int] | None = None
    notes: list = field(default_factory=list)


def read_intervals(work: str, start: int, end: int) -> IntervalsRead | None:
    """Shaping at intervals at the start of [start, end), None where the words are something else."""
    name = stitch = None
    lead = LEAD.match(work, start, end)
    verb = VERB.match(work, lead.end(), end)
    if verb:
        stitch = lead.span("in") if lead["in"] else None
        number = listed_number("1" if verb["n"] and verb["n"].lower() in ("a", "an") else verb["n"], verb["list"]) if verb["n"] else None
        where = (verb["where"] or "").lower()
        shaping = Shaping(verb["verb"].lower(), number, _place(where), ())
        at = verb.end()
    else:
        found = REFERENCE.match(work, start, end) or REFERENCE.match(work, lead.end(), end)
        if not found:
            return None
        shaping, name, at = Shaping("", None, "", ()), found.span("name"), found.end()
    intervals = []
    while True:
        interval, position = _interval(work, at, end)
        if interval is None:
            break
        intervals.append(interval)
        end_of = position
        then = THEN.match(work, position, end)
        if not then:
            break
        at = then.end()
    if not intervals or intervals[0].every == 1 and intervals[0].times is None and intervals[0].stitches is None and not (
        verb and isinstance(shaping.n, int) and shaping.n > 2 and shaping.where in ("", "evenly") and LABEL.search(work, max(0, start - 60), start)
    ):
        return None
    shaping.intervals = tuple(intervals)
    read = IntervalsRead(shaping, end_of, stitch, name)
    again = SAID_AGAIN.match(work, read.end, end)
    if again:
        read.end = again.end() - (work[again.end() - 1] == ",")
    beside = BESIDE.match(work, read.end, end) or EVEN_BETWEEN.match(work, read.end, end)
    if beside:
        read.notes.append(beside.span("words"))
        read.end = beside.end()
    return read if work[read.end - 1] == "." or CLOSED.match(work, read.end, end) else None


def _place(where: str) -> str:
    if not where:
        return ""
    if "evenly" in where:
        return "evenly"
    if where.startswith(("each", "both")) or " and " in where:
        return "ends"
    return "last" if where == "end" else "first"


def _interval(work: str, at: int, end: int) -> tuple[Interval | None, int]:
    first = FIRST.match(work, at, end)
    every = EVERY.match(work, first.end(), end) if first else None
    if every is None:
        first, every = None, EVERY.match(work, at, end)
    if every is None:
        return _in_rows_listed(work, at, end) or (None, at)
    interval = Interval(_distance(every))
    if interval.every is None:
        return None, at
    if first:
        interval.first = 1 if first["now"] else _numbers(first["nth"], first["list"])
    if every["fnth"]:  # "next and foll 6th row"
        interval.times, interval.after = 1, first is not None
    if every["count"]:
        interval.times, interval.after = listed_number(every["count"], every["clist"]), first is not None
    if every["straight"]:  # "at each end of next 4 rows"
        interval.times = listed_number(every["straight"], every["slist"])
        return interval, every.end()
    position = every.end()
    after = AFTERWARDS.match(work, position, end)
    position = after.end() if after else position
    gap = GAP.match(work, position, end).end()
    for pattern in (STITCHES, TO_STITCHES):
        found = pattern.match(work, gap, end)
        if found and (found["n"] or found["list"]):
            interval.stitches = listed_number(found["n"], found["list"])
            return interval, found.end()
    found = FOR_ROWS.match(work, gap, end) if interval.every == 1 and interval.first is None else None
    if found and (found["n"] or found["list"]):  # "every row for 3 rows"
        interval.times = listed_number(found["n"], found["list"])
        return interval, found.end()
    found = TIMES.match(work, gap, end)
    if found and (found["n"] or found["list"]):
        interval.times = listed_number(found["n"], found["list"])
        interval.after = bool(first and (found["more1"] or found["more2"] or found["more3"] and found["more3"].lower() != "over"))
        return interval, found.end()
    found = ONCE.match(work, gap, end)
    if found and not found["again"]:
        interval.times = int(found["x"]) if found["x"] else number_of(found["n"])
        return interval, found.end()
    return interval, position


def _in_rows_listed(work: str, at: int, end: int) -> tuple[Interval, int] | None:
    """ "Rows 3-8: dec at neck edge on Rows 4, 6 and 8": rows that are evenly spread, told by their numbers."""
    listed = LISTED.match(work, at, end)
    labels = list(RANGE.finditer(work, max(work.rfind("\n", 0, at) + 1, at - 120), at)) if listed else ()
    label = labels[-1] if labels else None
    if label is None:
        return None
    rows = [int(number) for number in re.findall(r"\d+", listed["rows"])]
    steps = {after - before for before, after in zip(rows, rows[1:], strict=False)}
    if len(steps) != 1 or min(steps) < 1 or rows[0] < int(label["n"]):
        return None
    return Interval(steps.pop(), first=rows[0] - int(label["n"]) + 1, times=len(rows)), listed.end()


def _distance(found: re.Match) -> Number | None:
    if found["other"] or found["calt"] or found["alt"]:
        return 2
    if found["nth"]:
        return _numbers(found["nth"], found["list"])
    if found["cnth"]:
        return number_of(found["cnth"])
    if found["fnth"]:
        return _numbers(found["fnth"], found["flist"])
    return _numbers(found["n"], found["nlist"]) if found["n"] else 1  # "every row", "next 4 rows"


def _numbers(word: str, listed: str | None) -> Number | None:
    """A distance, or one a size; None where it is none."""
    listed = re.sub(r"(?<=[\)\]])(?:st|nd|rd|th)$", "", listed.strip()) if listed else listed
    number = listed_number(word, listed)
    if isinstance(number, PerSize):  # a size without this stretch has a dash, or none
        number = PerSize(value or None for value in number)
    values = number if isinstance(number, PerSize) else (number,)
    return None if any(value is not None and not 0 < value < 1000 for value in values) or all(value is None for value in values) else number
