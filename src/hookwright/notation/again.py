"""Rows worked by reference: "Rep Rows 2-7 8 times more, ending with a Row 5", "As Row 3", "Work even until ...".

`read_again` reads such words from the start of a row's body and says where they end; what follows them is steps and counts.
"""

import re

from hookwright.ground import Span

from . import again_words as words
from . import tree
from .again_clauses import read_clauses, read_until
from .again_rows import AgainRead, rows_meant
from .intervals import read_intervals
from .looks import starts_like_work
from .number_words import listed_number, number_of
from .patterns import Lazy

_STITCH_FIRST = Lazy(r"\s*(?:(?:sc|dc|hdc|htr|tr|[fb]p\w{1,4}|sl|ss|single|double|half|treble)\s|(?:sc|dc|hdc|htr|tr)\d|(?P<chain>(?:ch|chain)\s*\d|\d{1,2}\s?ch\b))", re.I)
_NOTHING_MORE = Lazy(r"\s*\.?\s*(?:$|[(\[=])")
_SO_OFTEN = Lazy(r"\s*,?\s*(?:[x×]\s*(?P<n>\d{1,3})(?!\d)|(?:(?:are|is)\s+)?(?:repeated|worked)(?=\s))", re.I)  # "Rows 2 and 3 x 4"


def read_again(work: str, start: int, end: int, *, sizes: int = 0) -> AgainRead | None:
    """A reference to other rows at the start of [start, end), None where the words are steps of their own."""
    lead = words.IN_PATTERN.match(work, start, end)
    begin, start = start, lead.end() if lead else start  # "Cont in patt, rep Rows 2-4"
    first = work[start:start + 8].lstrip()[:4].lower()
    if first[:1] == "*" or first[:1] == "[" and "rep" not in work[start:start + 8].lower():  # steps and their marks: nothing else may begin so
        return _starred(work, start, end, sizes) if first[:1] == "*" else None
    stitch = _STITCH_FIRST.match(work, start, end)
    if stitch and stitch["chain"]:
        return None
    if first[:3] in ("row", "rnd", "rou") and (found := _rows_so_often(work, start, end, sizes)) is not None:
        found.again.span = Span(begin, found.end)
        return found
    for opening in _AFTER_A_STITCH if stitch else (_intervals, _starred, _bracketed, _more_rows, _reference, _between, _alternate, _even, _counted, _manner, _in_pattern, _in_colour, _rows_of, _bare):
        found = opening(work, start, end, sizes)
        if found is not None:
            again = found.again
            again.span = Span(begin, found.end)
            return found
    return None


def _intervals(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    """ "Inc 1 st at each end of every 6th row 4 times", "Rep Inc Row every 8th row 3 times": shaped rows and the even ones between."""
    found = read_intervals(work, start, end)
    if found is None:
        return None
    again = tree.Again(last=1, sense="total", shaping=found.shaping)
    if found.name:
        words_of = work[slice(*found.name)]
        if words_of[:3].lower() in ("inc", "dec") and " " not in words_of.strip():
            again.named = ("Increase" if words_of[0] in "iI" else "Decrease",)  # "rep the neck decrease every other row"
        elif words.LAST.match(work, found.name[0], end) or " " not in words_of.strip():
            again.last = 1
        elif words.NAMED.match(work, found.name[0], end):
            again.named = (" ".join(words.NAMED.match(work, found.name[0], end)["name"].split()).capitalize(),)
    return AgainRead(again, found.end, changes=[], notes=found.notes, stitch=found.stitch)


def _bracketed(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    """ "[Rep Rows 2-4] 3 times": the reference in brackets, and how often after them."""
    opened = words.BRACKETED.match(work, start, end)
    close = work.find("]" if opened[1] == "[" else ")", opened.end(), end) if opened else -1
    read = _reference(work, opened.end(), close, sizes) if close > 0 else None
    if read is None or read.again.times is not None or read.again.until is not None or work[read.end:close].strip(" ."):
        return None
    read.end = close + 1
    read_clauses(work, read, end, sizes)
    return read if read.again.times is not None else None


def _more_rows(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    """ "Work 9 more rows, repeating Rows 2-4"."""
    found = words.MORE_ROWS.match(work, start, end)
    read = _reference(work, found.end(), end, sizes) if found else None
    if read is None or read.count_of_rows is not None or read.again.times is not None:
        return None
    read.count_of_rows = listed_number(found["n"], found["list"])
    return read


def _starred(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    """ "*Rep Row 2, then Row 3; rep from * twice more": the rows named between the marks, so often."""
    opened = words.STAR.match(work, start, end)
    read = _reference(work, opened.end(), end, sizes) if opened else None
    closed = words.FROM_STAR.match(work, read.end, end) if read is not None else None
    if closed is None or read.again.until is not None or read.again.times is not None:
        return None
    again, rows = read.again, read.again.rows
    then = again.then
    while then is not None:
        rows, then = (*rows, *then.rows), then.then
    again.rows, again.then = rows, None
    read.end = closed.end()
    read_clauses(work, read, end, sizes)
    if again.times is not None and again.sense in ("more", "unclear"):
        again.times, again.sense = again.times + 1 if type(again.times) is int else again.times, "more"
    return read


def _reference(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    opened = words.START.match(work, start, end)
    if not opened:
        return None
    again = tree.Again()
    position = rows_meant(work, opened.end(), end, again, sizes)
    if position is None and opened["verb"] and opened["verb"].lower().startswith("rep") and words.STITCHES.match(work, opened.end(), end):
        again.last, position = 1, opened.end() - 1  # "Repeat until 9 sts are left"
    if position is None:
        return None
    verb = (opened["verb"] or "").lower()
    if again.piece and not opened["as"]:
        return None
    if verb.startswith(("cont", "make", "cr", "follow")) and not again.rows:
        return None
    read = AgainRead(again, position, changes=[], notes=[])
    if opened["as"]:
        again.sense = "total"
        again.times = None
    else:
        again.sense = "unclear"
    far = words.AS_FAR.match(work, read.end, end)
    if far and (opened["as"] or verb.startswith("work")):  # "Work as Row 4 to last 2 sts, sc2tog, turn"
        read.changes.append(far.span("far"))
        read.end = far.end()
    read_clauses(work, read, end, sizes)
    if verb.startswith("work") and again.last and again.times is None and again.until is None and read.count_of_rows is None and again.total_rows is None:
        return None  # "Work last row" is no reference of its own
    return read


def _bare(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    """ "Row 2 over and over", "Row 2, seventeen times more": nothing but the rows and how often."""
    opened = words.BARE.match(work, start, end) if end - start < 100 else None
    again = tree.Again(sense="unclear")
    position = rows_meant(work, opened.end(), end, again, sizes) if opened else None
    if position is None or not again.rows:
        return None
    read = AgainRead(again, position, changes=[], notes=[])
    read_clauses(work, read, end, sizes)
    return read if words.BARE_ENDS.match(work, read.end, end) and not read.changes else None


def _between(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    """ "Work one fewer st between decreases than in Dec Rnd 1": the row named, or the last one, with longer or shorter stretches."""
    found = words.BETWEEN.match(work, start, end)
    if not found:
        return None
    again = tree.Again(same_manner=True, sense="total")
    position = rows_meant(work, found.end(), end, again, sizes) if found["than"] else found.end("more")
    if position is None:
        return None
    if not found["than"]:
        again.last, position = 1, found.end()
    read = AgainRead(again, position, changes=[], notes=[(found.start("n"), found.end() - len(found["than"] or ""))])
    read_clauses(work, read, end, sizes)
    return read


def _alternate(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    found = words.ALTERNATE.match(work, start, end)
    if not found:
        return None
    again = tree.Again(alternate=True, sense="unclear")
    position = found.end()
    if found["rows"]:
        position = rows_meant(work, found.start("rows"), end, again, sizes)
        if position is None:
            return None
    else:
        again.last = number_of(found["n"]) if found["n"] else 2
    read = AgainRead(again, position, changes=[], notes=[])
    read_clauses(work, read, end, sizes)
    return read


def _even(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    found = words.EVEN.match(work, start, end)
    alone = found and re.match(r"(?:straight|even|un|with|no|plain)", found["even"], re.I) and words.ALONE.match(work, found.end(), end)
    if not found or not (found["verb"] or found["n"] or found["stitch"] or alone):
        return None
    if found["even"].lower() == "evenly" and not found["n"] and not words.ROW_COUNT.match(work, words.GAP.match(work, found.end(), end).end(), end):
        return None
    again = tree.Again(last=1, even=True, sense="total")
    read = AgainRead(again, found.end(), changes=[], notes=[])
    if found["n"]:
        read.count_of_rows = listed_number(found["n"], found["list"])
    named = "in" if found["in"] else "stitch" if found["stitch"] else "lead" if found["lead"] else ""
    if named:
        read.stitch = found.span(named)
    read_clauses(work, read, end, sizes)
    if re.match(r"\s*(?:along|across|around|in\b|into|over)", work[read.end : read.end + 10], re.I):
        return None
    return read


def _counted(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    """ "24 sts, no inc or dec", "24 sts each round": only how many stitches there are, as before."""
    found = words.COUNTED.match(work, start, end)
    if not found or work[found.end():found.end() + 1] in (".", ";") and starts_like_work(work, found.end() + 1, end):
        return None  # "24 sts. Sc in next 2 sts, ...": the count is told first
    return AgainRead(tree.Again(last=1, even=True, sense="total"), start, changes=[], notes=[])


def _rows_so_often(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    """ "Rows 2 and 3 three times", "Row 8, twelve times": rows with how often they are worked, and no verb."""
    again = tree.Again(sense="total")
    position = rows_meant(work, start + len(work[start:end]) - len(work[start:end].lstrip()), end, again, sizes)
    if position is None or not again.rows:
        return None
    said = _SO_OFTEN.match(work, position, end)
    if said and said["n"]:
        again.times = int(said["n"])
    read = AgainRead(again, said.end() if said else position, changes=[], notes=[])
    read_clauses(work, read, end, sizes)
    return read if again.times is not None or _NOTHING_MORE.match(work, read.end, end) else None


def _in_colour(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    """ "2 rows B", "Work 4 rows in Moss": so many rows like the last, in that colour."""
    found = words.IN_COLOUR.match(work, start, end)
    if not found:
        alone = words.ONLY_COLOUR.match(work, start, end) if end - start < 40 else None
        return AgainRead(tree.Again(last=1, sense="total"), alone.end(), changes=[], notes=[(start, alone.end())]) if alone else None
    read = AgainRead(tree.Again(last=1, sense="total"), found.end(), changes=[], notes=[found.span("colour")])
    read.count_of_rows = listed_number(found["n"], found["list"])
    return read


def _rows_of(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    """ "Work 5 rows of sc", "Continue in rounds of hdc until ...", "Work in sc for 6 rows"."""
    found = words.ROWS_OF.match(work, start, end)
    if not found or not (found["verb"] or found["n"]) or not (found["rows"] or found["verb"]):
        return None
    again = tree.Again(last=1, even=True, sense="total")
    read = AgainRead(again, found.end(), changes=[], notes=[])
    if found["n"] and not found["rows"]:
        return None  # "Work 6 sc." is one step
    if found["n"]:
        read.count_of_rows = listed_number(found["n"], found["list"])
    read.stitch = found.span("in")
    read_clauses(work, read, end, sizes)
    if read.count_of_rows is None and again.until is None and again.total_rows is None:
        return None
    return read


def _in_pattern(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    found = words.PATTERN.match(work, start, end)
    if not found or not (found["verb"] or found["n"]):
        return None
    again = tree.Again(last=1, even=True, same_manner=True, sense="total")
    read = AgainRead(again, found.end(), changes=[], notes=[])
    if found["n"]:
        read.count_of_rows = listed_number(found["n"], found["list"])
    read_clauses(work, read, end, sizes)
    again.even = not any(words.MORE_GROUPS.search(work, *span) for span in read.notes)
    rest = work[read.end : min(end, read.end + 60)].lstrip(" ,")
    if rest and work[read.end - 1] not in ".;" and not re.match(r"[.;)(\[=—–-]", rest):
        return None  # "Work in pattern across first 32 sts, turn" is one row: the steps tell how far
    return read


def _manner(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    found = words.MANNER.match(work, start, end)
    if not found:
        return None
    again = tree.Again(last=1, same_manner=True, sense="total")
    read = AgainRead(again, found.end(), changes=[], notes=[])
    read_clauses(work, read, end, sizes)
    rest = re.compile(r"[^.;]*").match(work, read.end, end)
    if rest and rest[0].strip() and again.until is None and read.count_of_rows is None:
        if re.match(r"\s*(?:to end|around|across|to last|to next|in (?:each|next))", rest[0], re.I):
            return None
    if rest and rest[0].strip(" ,") and work[read.end - 1] != "." and not re.match(r"\s*[\[(]\s*\d", rest[0]):
        read.notes.append((read.end, rest.end()))
        read.end = rest.end()
    return read


def read_goal(work: str, start: int, end: int, *, sizes: int = 0) -> tree.Again | None:
    """The last row again until what is said in [start, end): "until 12 sts remain"."""
    again = tree.Again(last=1, sense="unclear", span=Span(start, end))
    return again if read_until(work, start, end, again, sizes) is not None else None


# ---------------------------------------------------------------- clauses


_AFTER_A_STITCH = (_even, _rows_of, _in_pattern)  # "Sc even for 5 rnds"; all else begins with a word that works
