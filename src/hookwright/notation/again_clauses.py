"""What is said of a reference to other rows: how often, until when, how it ends, what differs."""

import re

from hookwright.ground import Span

from . import again_words as words
from . import tree
from .again_rows import AgainRead, rows_meant
from .lengths import read_amounts, skip_other_unit
from .number_words import listed_number, number_of


def read_clauses(work: str, read: AgainRead, end: int, sizes: int) -> None:
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
        position = read_until(work, alternative.end(), end, again, sizes)
        if position is not None:
            again.until.or_fixed = True
            return position
        again.until = before
    found = words.THEN.match(work, read.end, end) or words.THEN.match(work, max(read.end, at - 2), end)
    if found:
        further = tree.Again(sense="total", times=1)
        position = rows_meant(work, found.end(), end, further, sizes)
        if position is not None:
            again.then = further
            inner = AgainRead(further, position, changes=[], notes=[])
            further.times, further.sense = None, "total"
            read_clauses(work, inner, end, sizes)
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
    position = None if of_rows else read_until(work, at, end, again, sizes)
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
    if found and not words.MORE_GROUPS.search(found[0]):
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
        told = words.VERBS.match(work, found.start("rest"), found.end()).end()
        chains = words.CHAINS_TOLD.match(work, told, found.end())
        if chains:
            read.changes.append(chains.span(chains.lastgroup))
            stop = work.find("(", chains.end(), found.end())
            stop = found.end() if stop < 0 else stop
            return stop
        nth = words.EVERY_NTH.search(found[0])
        if nth:  # "with an increase in every 7th st"
            read.changes.append((opened.end(), found.start() + nth.end()))
            return found.start() + nth.end()
        steps = work[told : told + 1] in ("[", "(", "{", "*")  # "working [ch 1, 3 tr in next sp] 3 times on each side"
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
            count = re.compile(r"(?<=[\w)])\.\s*[(\[]\s*\d[^()\[\]]*[)\]]\s*$").search(work, first, found.end())
            if count and not instead:  # "but working ch 7. (24 sc, 24 ch-7 sps)": the count is the row's
                read.changes.append((first, count.start()))
                return count.start()
            read.changes.append((first, found.start("rest") + instead.start() if instead else found.end()))
            if instead:
                read.notes.append((found.start("word"), found.end()))
        return found.end()
    return None


def _part(subject: str) -> str:
    """The part that is measured, where the words before "measures" are a name for one: "your thumb" is "thumb", "it" or "the whole piece" is ""."""
    found = words.PART.fullmatch(subject)
    return " ".join(found["part"].split()) if found and not words.NO_PART.search(found["part"]) else ""


def read_until(work: str, at: int, end: int, again: tree.Again, sizes: int) -> int | None:
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
        until.measured = _part(found["subject"] or "") if pattern is words.MEASURES else ""
        position = rest.end() if rest["from"] or rest[0].strip() else position
        if re.match(r"\s*(?:shorter|longer|less|more|wider|narrower)\b[^.;]*", work[position:end], re.I):
            until.measure_mm, until.desired = None, True
            position += re.match(r"(?:[^.;]|\.(?=\d))*", work[position:end]).end()
        until.span = Span(found.start(), position)
        return position
    found = re.compile(r"(?:until|till)\s+(?:[^.;]|\.(?=\d)){3,200}", re.I).match(work, at, end)
    if found:
        again.until = again.until or tree.Until()
        again.until.desired, again.until.span = True, Span(*found.span())
        return found.end()
    return None
