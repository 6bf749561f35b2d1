"""Rows worked by reference: "Rep Rows 2-7 8 times more, ending with a Row 5", "As Row 3", "Work even until ...".

`read_again` reads such words from the start of a row's body and says where they end; what follows them is steps and counts.
"""

import re
from dataclasses import dataclass

from hookwright.ground import Number, Span

from . import again_words as words
from . import tree
from .intervals import read_intervals
from .label_numbers import read_numbers
from .lengths import read_amounts, skip_other_unit
from .number_words import listed_number, number_of


@dataclass(slots=True)
class AgainRead:
    """What was read: the reference, where its words end, how many rows it stands for where said ("for 5 rows"), clauses that
    tell a change as spans to be read as steps, words kept as notes."""

    again: tree.Again
    end: int
    count_of_rows: Number | None = None
    changes: list = None
    notes: list = None
    stitch: tuple[int, int] | None = None  # "work even in hdc": where the stitch is named


def read_again(work: str, start: int, end: int, *, sizes: int = 0) -> AgainRead | None:
    """A reference to other rows at the start of [start, end), None where the words are steps of their own."""
    for opening in (_intervals, _starred, _reference, _between, _alternate, _even, _manner, _in_pattern, _rows_of):
        found = opening(work, start, end, sizes)
        if found is not None:
            again = found.again
            again.span = Span(start, found.end)
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
        if words.LAST.match(work, found.name[0], end) or " " not in words_of.strip():
            again.last = 1
        elif words.NAMED.match(work, found.name[0], end):
            again.named = (" ".join(words.NAMED.match(work, found.name[0], end)["name"].split()).capitalize(),)
    return AgainRead(again, found.end, changes=[], notes=found.notes, stitch=found.stitch)


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
    _clauses(work, read, end, sizes)
    if again.times is not None and again.sense in ("more", "unclear"):
        again.times, again.sense = again.times + 1 if type(again.times) is int else again.times, "total"
    return read


def _reference(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    opened = words.START.match(work, start, end)
    if not opened:
        return None
    again = tree.Again()
    position = _rows_meant(work, opened.end(), end, again, sizes)
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
    _clauses(work, read, end, sizes)
    if verb.startswith("work") and again.last and again.times is None and again.until is None and read.count_of_rows is None and again.total_rows is None:
        return None  # "Work last row" is no reference of its own
    return read


def _rows_meant(work: str, at: int, end: int, again: tree.Again, sizes: int) -> int | None:
    """Reads which rows are meant into `again`; where they end, or None."""
    found = words.LAST.match(work, at, end)
    if found:
        which = found["which"].lower()
        number = listed_number(found["n"].split("(")[0].split("[")[0].strip(), found["list"]) if found["n"] else None
        plural = found["word"].rstrip(".").lower().endswith("s")
        again.last = number or (2 if which in ("both", "these", "those") and plural else 1)
        return _of_piece(work, found.end(), end, again)
    found = words.ONE_BEFORE.match(work, at, end)
    if found:
        again.last = 1
        return found.end()
    found = words.ROWS.match(work, at, end)
    if found:
        numbers = read_numbers(work, found.end(), end, sizes=0, plural=True)
        if numbers:
            again.rows, again.first_number, again.last_number = numbers.numbers, numbers.first_number, numbers.last_number
            return _of_piece(work, numbers.end, end, again)
    found = words.ORDINALS.match(work, at, end)
    if found:
        numbers = read_numbers(work, found.end(), end)
        after = re.compile(rf"\s+(?:{words.WORD})", re.I).match(work, numbers.end, end) if numbers else None
        if after:
            again.rows, again.first_number, again.last_number = numbers.numbers, numbers.first_number, numbers.last_number
            return _of_piece(work, after.end(), end, again)
    called = words.CALLED.match(work, at, end)
    if called:
        return _rows_meant(work, called.end(), end, again, sizes)
    found = words.LETTERS.match(work, at, end)
    if found:
        letters = [found[key] for key in ("a", "b", "c", "d") if found[key]]
        again.named = tuple(f"Row ({letter.lower()})" for letter in letters)
        return found.end()
    found = words.NAMED.match(work, at, end)
    if found:
        again.named = (" ".join(found["name"].split()).capitalize(),)
        of_piece = words.OF_PIECE.match(work, found.end(), end)  # a named row is the latest of that name
        return of_piece.end() if of_piece else found.end()
    found = words.PIECE_ONLY.match(work, at, end)
    if found:  # "Rounds 1-2: Work as for First Motif.": its rows with the same numbers
        again.piece = found["name"]
        return found.end()
    return None


def _of_piece(work: str, at: int, end: int, again: tree.Again) -> int:
    found = words.OF_PIECE.match(work, at, end)
    if found:
        again.named = (*again.named, found["name"])
        return found.end()
    return at


def _between(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    """ "Work one fewer st between decreases than in Dec Rnd 1": the row named, or the last one, with longer or shorter stretches."""
    found = words.BETWEEN.match(work, start, end)
    if not found:
        return None
    again = tree.Again(same_manner=True, sense="total")
    position = _rows_meant(work, found.end(), end, again, sizes) if found["than"] else found.end("more")
    if position is None:
        return None
    if not found["than"]:
        again.last, position = 1, found.end()
    read = AgainRead(again, position, changes=[], notes=[(found.start("n"), found.end() - len(found["than"] or ""))])
    _clauses(work, read, end, sizes)
    return read


def _alternate(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    found = words.ALTERNATE.match(work, start, end)
    if not found:
        return None
    again = tree.Again(alternate=True, sense="unclear")
    position = found.end()
    if found["rows"]:
        position = _rows_meant(work, found.start("rows"), end, again, sizes)
        if position is None:
            return None
    else:
        again.last = number_of(found["n"]) if found["n"] else 2
    read = AgainRead(again, position, changes=[], notes=[])
    _clauses(work, read, end, sizes)
    return read


def _even(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    found = words.EVEN.match(work, start, end)
    alone = found and re.match(r"(?:straight|even|un|with|no)", found["even"], re.I) and re.compile(r"\s*(?:[.;,(\[]|for\b|until\b|$)", re.I).match(work, found.end(), end)
    if not found or not (found["verb"] or found["n"] or found["stitch"] or alone):
        return None
    if found["even"].lower() == "evenly" and not found["n"]:
        return None
    again = tree.Again(last=1, even=True, sense="total")
    read = AgainRead(again, found.end(), changes=[], notes=[])
    if found["n"]:
        read.count_of_rows = listed_number(found["n"], found["list"])
    named = "in" if found["in"] else "stitch" if found["stitch"] else ""
    if named:
        read.stitch = found.span(named)
    _clauses(work, read, end, sizes)
    if re.match(r"\s*(?:along|across|around|in\b|into|over)", work[read.end : read.end + 10], re.I):
        return None
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
    _clauses(work, read, end, sizes)
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
    _clauses(work, read, end, sizes)
    again.even = not any(words.MORE_GROUPS.search(work, *span) for span in read.notes)
    rest = work[read.end : min(end, read.end + 60)].lstrip(" ,")
    if rest and not re.match(r"[.;)(\[]|—|-", rest):
        return None  # "Work in pattern across first 32 sts, turn" is one row: the steps tell how far
    return read


def _manner(work: str, start: int, end: int, sizes: int) -> AgainRead | None:
    found = words.MANNER.match(work, start, end)
    if not found:
        return None
    again = tree.Again(last=1, same_manner=True, sense="total")
    read = AgainRead(again, found.end(), changes=[], notes=[])
    _clauses(work, read, end, sizes)
    rest = re.compile(r"[^.;]*").match(work, read.end, end)
    if rest and rest[0].strip() and again.until is None and read.count_of_rows is None:
        if re.match(r"\s*(?:to end|around|across|to last|to next|in (?:each|next))", rest[0], re.I):
            return None
    if rest and rest[0].strip(" ,"):
        read.notes.append((read.end, rest.end()))
        read.end = rest.end()
    return read


def read_goal(work: str, start: int, end: int, *, sizes: int = 0) -> tree.Again | None:
    """The last row again until what is said in [start, end): "until 12 sts remain"."""
    again = tree.Again(last=1, sense="unclear", span=Span(start, end))
    return again if _until(work, start, end, again, sizes) is not None else None


# ---------------------------------------------------------------- clauses

def _clauses(work: str, read: AgainRead, end: int, sizes: int) -> None:
    """Reads all that is said of the reference: how often, until when, how it ends, what differs."""
    again = read.again
    for _ in range(12):
        at = words.GAP.match(work, read.end, end).end()
        position = _clause(work, at, end, read, sizes)
        if position is None or position <= read.end:
            break
        read.end = position
        if again.then is not None:
            break
    stop = re.compile(r"\s*[.,;]").match(work, read.end, end)
    if stop:
        read.end = stop.end()


def _clause(work: str, at: int, end: int, read: AgainRead, sizes: int) -> int | None:
    again = read.again
    alternative = re.compile(r"or\s+(?:work\s+)?(?=until|to\b|for|till)", re.I).match(work, at, end)
    if alternative and (again.total_rows is not None or again.times is not None or read.count_of_rows is not None or again.until is None):
        before = again.until
        position = _until(work, alternative.end(), end, again, sizes)
        if position is not None:
            again.until.or_fixed = True
            return position
        again.until = before
    found = words.THEN.match(work, read.end, end) or words.THEN.match(work, max(read.end, at - 2), end)
    if found:
        further = tree.Again(sense="total", times=1)
        position = _rows_meant(work, found.end(), end, further, sizes)
        if position is not None:
            again.then = further
            inner = AgainRead(further, position, changes=[], notes=[])
            further.times, further.sense = None, "total"
            _clauses(work, inner, end, sizes)
            return inner.end
    found = words.ALTERNATELY.match(work, at, end)
    if found:
        again.alternate = True
        return found.end()
    found = words.TO_ROW.match(work, at, end)
    if found:
        again.total_rows = int(found["n"])
        return found.end()
    found = words.ROW_COUNT.match(work, at, end)
    of_rows = found and found["n"] and work[at : at + 2].lower() == "un"  # "until there are 60 rows"
    position = None if of_rows else _until(work, at, end, again, sizes)
    if position is not None:
        return position
    if found and (found["n"] or found["list"]):
        number = listed_number(found["n"], found["list"])
        before = work[at : found.start("n")].lower() if found["n"] else work[at : found.start("list")].lower()
        if number is not None and (before.strip(" ,") or found["more2"] or found["total2"] or again.even or again.same_manner):
            if found["total"] or found["total2"] or before.startswith("until"):
                again.total_rows = number
            else:
                read.count_of_rows = number
            return found.end()
    found = words.TIMES.match(work, at, end)
    if found and (found["n"] or found["list"]):
        again.times = listed_number(found["n"], found["list"])
        if found["total"] or found["total2"]:
            again.sense = "total"
        elif found["more1"] or found["more2"] or (found["more3"] and found["more3"].lower() != "over"):
            again.sense = "more"
        else:
            again.sense = "unclear"
        return found.end()
    found = words.ONCE.match(work, at, end)
    if found:
        word = found["n"] or found["again"]
        again.times = int(found["x"]) if found["x"] else number_of(word) or 1
        again.sense = "more" if (found["more"] or found["again"]) else "total" if found["total"] else "unclear"
        return found.end()
    for pattern in (words.FACING, words.ENDING):
        found = pattern.match(work, at, end) or pattern.match(work, read.end, end)
        if found:
            again.until = again.until or tree.Until()
            if found["side"]:
                again.until.side = "RS" if found["side"].lower().startswith("r") else "WS"
                if pattern is words.FACING:  # the side that faces next is the other than the row that ends
                    again.until.side = "WS" if again.until.side == "RS" else "RS"
            elif found["n"] or found["ord"]:
                again.until.ending_on = number_of(found["n"] or found["ord"])
            again.until.span = Span(*found.span())
            return found.end()
    found = words.FILLER.match(work, at, end)
    if found:
        if re.search(r"for\s+(?:the\s+)?patt|throughout", found[0], re.I) and not (again.times or again.until or again.total_rows or read.count_of_rows):
            again.until = tree.Until(desired=True, span=Span(*found.span()))
        return found.end()
    found = words.KEEPING.match(work, read.end, end)
    if found:
        read.notes.append(found.span())
        return found.end()
    found = words.CABLES.match(work, read.end, end) or words.JOINED_ON.match(work, read.end, end)
    if found:
        read.notes.append((at, found.end()))
        return found.end()
    found = words.CHANGE.match(work, read.end, end)
    goal = re.search(r",?\s+(?=(?:until|till)\b)", found["rest"]) if found else None
    if goal and words.GROWS.search(found["rest"][: goal.start()]):  # "working 1 fewer st between decreases, until 12 sts remain"
        found = words.CHANGE.match(work, read.end, found.start("rest") + goal.start())
    if found:
        begun = "word" if found["word"][:3].lower() in ("inc", "dec") else "rest"
        opened = words.VERBS.match(work, found.start(begun), found.end())
        edges = words.EDGES.match(work, opened.end(), found.end())
        if edges:
            read.changes.append((edges.start(), edges.end()))
            return edges.end()
        corners = words.CORNERS.search(found[0])
        if corners:
            read.changes.append((found.start() + corners.start(), found.start() + corners.end()))
            instead = re.compile(r"\s+(?:instead|in\s+place)\s+of\s+[^.;(]*").match(work, found.start() + corners.end(), found.end())
            return instead.end() if instead else found.start() + corners.end()
        steps = found["rest"].lstrip()[:1] in ("[", "(", "{", "*")  # "working [ch 1, 3 tr in next sp] 3 times on each side"
        if words.GROWS.search(found[0]) and not steps or words.EXACTLY.search(found[0]) or re.match(r"\s*(?:note|that)\b", found["rest"], re.I):
            again.same_manner = True
            count = words.COUNT_AFTER.search(work, found.start("rest"), found.end())
            read.notes.append((found.start("word"), count.start() if count else found.end()))
            if count:
                return count.start()  # "... with one less sc between decreases. (42)": the count is the row's
        else:
            instead = re.search(r"\s+instead\s+of\b|\s+in\s+place\s+of\b" if not steps else r"\s+(?:(?:on|along)\s+(?:each|every)\s+side|instead\s+of|in\s+place\s+of)\b", found["rest"], re.I)
            verb = re.match(r"(?:(?:having|working|work|making|make|with|only)\s+)*", found["rest"], re.I)
            first = found.start("rest") + verb.end()
            read.changes.append((first, found.start("rest") + instead.start() if instead else found.end()))
            if instead:
                read.notes.append((found.start("word"), found.end()))
        return found.end()
    return None


def _part(subject: str) -> str:
    """The part that is measured, where the words before "measures" are a name for one: "your thumb" is "thumb", "it" or "the whole piece" is ""."""
    found = words.PART.fullmatch(subject)
    return " ".join(found["part"].split()) if found and not words.NO_PART.search(found["part"]) else ""


def _until(work: str, at: int, end: int, again: tree.Again, sizes: int) -> int | None:
    """Reads "until ..." into again.until; where it ends, or None."""
    found = words.DESIRED.match(work, at, end)
    if found:
        again.until = again.until or tree.Until()
        again.until.desired, again.until.span = True, Span(*found.span())
        return found.end()
    found = words.STITCHES.match(work, at, end)
    if found and (found["n"] or found["list"]):
        again.until = again.until or tree.Until()
        again.until.stitches, again.until.span = listed_number(found["n"], found["list"]), Span(*found.span())
        return found.end()
    for pattern in (words.MEASURES, words.FOR_LENGTH):
        found = pattern.match(work, at, end)
        amounts = read_amounts(work, found.end(), end, sizes=sizes, unit_needed=True) if found else None
        if amounts is None or amounts.unit_mm is None:
            continue
        position = skip_other_unit(work, amounts.end, end, sizes)
        rest = words.FROM.match(work, position, end)
        again.until = again.until or tree.Until()
        until = again.until
        values = [None if value is None else value[0] for value in amounts.in_mm()]
        until.measure_mm = values[0] if len(values) == 1 else tuple(values)
        until.measured_from = " ".join((rest["from"] or "").split()) or ("here" if pattern is words.FOR_LENGTH and found["word"].lower() == "for" else "")
        until.measured = _part(found["subject"]) if pattern is words.MEASURES else ""
        position = rest.end() if rest["from"] or rest[0].strip() else position
        if re.match(r"\s*(?:shorter|longer|less|more|wider|narrower)\b[^.;]*", work[position:end], re.I):
            until.measure_mm, until.desired = None, True
            position += re.match(r"[^.;]*", work[position:end]).end()
        until.span = Span(found.start(), position)
        return position
    found = re.compile(r"(?:until|till)\s+[^.;]{3,200}", re.I).match(work, at, end)
    if found:
        again.until = again.until or tree.Until()
        again.until.desired, again.until.span = True, Span(*found.span())
        return found.end()
    return None
