"""One draft of a row read: label, foundation, steps or a reference to other rows, stated counts."""

import re
from dataclasses import replace

from hookwright.ground import LOOK, NOTE, Finding, Span

from . import tree
from .again import AgainRead, read_again, read_goal
from .again_piece import REJOINS, SIDES, plain_name, read_as_piece, speaks_of_piece
from .again_words import CORNERS, EDGES
from .draft import CHAIN_LEAD, Draft, is_foundation
from .label import Label
from .label_numbers import ROW_WORD
from .looks import starts_like_prose, starts_like_work
from .nouns import GROUP_KINDS
from .patterns import Lazy
from .remarks import in_her_letters, remarks_in, tells_of_work
from .row_colours import colour_row, notes_on_colours, stripes_in
from .row_label_read import RowLabelReading
from .row_wholes import close_own_ring, count_alone, has_unread, is_usual_group, only_a_chain, with_its_turning, works_nothing
from .run_on import again_sentences, stands_beside
from .steps import read_steps
from .talk import is_talk

_AS_ANOTHER = Lazy(r"\s*,?\s*(?:exactly\s+)?(?:as|like|of|from)\s+(?:given\s+)?(?:for|on|in|the)\b", re.I)  # "Work rnds 1-9 as for the front": once
_COLOUR_FIRST = Lazy(r"\s*(?:(?:still|again|now|continuing|keep\s+going|staying)\s+)?(?:with|using|in|change\s+to|changing\s+to|switch\s+to|join|rejoin|drop|turn\s+and)\s(?:[^,.;:()*]{1,36}|(?-i:[A-H])(?:,?\s+(?:and\s+|then\s+)?(?-i:[A-H])){1,5})(?:,?\s+(?=rep)|,|;|\.|:|\band\b|\s-)\s*(?=(?:work\s+)?(?:as|rep|rpt|repeat|same)\b)", re.I)
_TURN_FIRST = Lazy(r"\s*(?:now\s+)?turn(?:\s+(?:the\s+|your\s+)?work|\s+over)?(?:\s*[,.;:]\s*(?:and\s+|then\s+)?|\s+and\s+|\s+then\s+)(?=(?:(?:the|exactly|just)\s+)*(?:work|as|like|same|identical|rep|go|cont|do)\b|rep)", re.I)
_WORKED_IN = ("with ", "With ", "using ", "Using ", "in ", "In ")


_BEGINS_WITH_CHAIN = Lazy(r"\s*(?:(?:with|using)\s[^,.;:]{1,30},\s*)?(?:ch|chain)\s*-?(?:[6-9]|\d\d+)\b(?!\s*-?(?:sp|lp|loop))", re.I)  # longer than a turning chain


_OF_ROW = Lazy(rf"[(\[]?\s*(?:you\s+(?:should\s+)?have\s+)?\d{{1,4}}\s*(?:[a-z]+\.?\s+){{1,3}}?(?:after|at\s+(?:the\s+)?end\s+of|in|on)\s+(?:{ROW_WORD})\s*(?P<n>\d{{1,4}})\b", re.I)


_ONE_A_ROW = Lazy(r"[(\[]?\s*\d{1,4}\s*(?:,\s*(?:and\b|&)?|and\b|&|/)\s*\d{1,4}\b", re.I)  # "Rows 3-4: Rep Row 2. (18, 24 dc)"


_WHEN = Lazy(r"(?:after|before|at|on|for|from|when|halfway|every)\s", re.I)
_THEN_AS = Lazy(r"(?:[.;,]\s*(?:and\s+|then\s+)?|\s+(?:and|then)\s+)(?=(?:work|make|crochet|complete|proceed|continue)\s)", re.I)


class RowReader(RowLabelReading):
    """Reads drafts of rows into tree.Row values; `work` is the cleaned text.

    every: id of a row -> its Label, for rows that speak of further rows ("Row 2 and all even rows").
    """

    def __init__(self, work: str, pattern: tree.Pattern, findings: list[Finding], in_round: bool, lexicon, before=None):
        self.work = work
        self.pattern = pattern
        self.findings = findings
        self.in_round = in_round
        self.lexicon = lexicon
        self.before = before  # ReadBefore, None where nothing is remembered
        self.every: dict[int, Label] = {}
        self.all_rows = False  # nothing is taken for words about the work
        self.sides = False  # whether "the first side" may be meant though no row before joins the yarn anew
        self._restricted: dict[tuple, object] = {}
        self._goal = None  # what the round at hand is to come down to
        self._index = {name.lower(): index for index, name in enumerate(pattern.sizes)}

    def items(self, draft: Draft) -> list:
        """The rows of a draft, or its prose where a line without a label turns out to be mostly words.

        Of a line taken for prose only that is said.
        """
        said = len(self.findings)
        rows = self.rows(draft)
        if self.all_rows:
            return rows
        if draft.label is None and not draft.name and rows[0].again is None and rows[0].name != "Foundation" and not starts_like_work(self.work, draft.body_start, draft.end):
            if is_talk(rows[0].steps, rows[0].stated) and not draft.foundation:
                del self.findings[said:]
                return [tree.Prose(self.pattern.text[draft.start : draft.end], Span(draft.start, draft.end))]
            unread = sum(len(step.text) for step in rows[0].steps if isinstance(step, tree.Unread))
            if unread * 3 > draft.end - draft.body_start and not draft.foundation:
                del self.findings[said:]
                words = " ".join(self.work[draft.start : draft.end].split())
                self.findings.append(
                    Finding(
                        "cannot-read", NOTE, f"`{words[:60]}` is taken as words about the work and not as a row. If it is a row, begin it with its number",
                        Span(draft.start, draft.end),
                    )
                )
                return [tree.Prose(self.pattern.text[draft.start : draft.end], Span(draft.start, draft.end))]
        return rows

    def rows(self, draft: Draft) -> list[tree.Row]:
        """The row of a draft; two where one sentence makes a row and then repeats it ("work even in hdc until ...")."""
        label = draft.label
        row = tree.Row(span=Span(draft.start, draft.end), text=self.pattern.text[draft.start : draft.end], only=draft.only)
        lexicon = self._lexicon_for(row)
        if label is not None:
            self._labelled(row, label, lexicon)
        elif draft.name:
            row.name = draft.name
            if draft.remark:
                self._remark(row, *draft.remark, lexicon)
        elif is_foundation(self.work, draft.body_start, draft.end):
            row.name = "Foundation"
            draft.body_start = self._past_lead(draft.body_start, draft.end)
        if draft.foundation:
            if is_foundation(self.work, *draft.foundation):
                draft.foundation = (self._past_lead(*draft.foundation), draft.foundation[1])
            self._steps(row, *draft.foundation, lexicon, first_row=is_foundation(self.work, *draft.foundation))
        self._goal = None
        further = self._body(row, draft, lexicon)
        if len(row.numbers) > 1:
            self._counts_of_rows(row)
        if row.again is None and all(said.per == "more" for said in row.stated) and has_unread(row.steps):
            self._say_total(row, draft)
        if row.notes or len(row.numbers) > 1:
            colour_row(row, lexicon, notes_on_colours(row))
        if label is not None and row.numbers and row.again is None and not row.notes and all(map(works_nothing, row.steps)) and not starts_like_prose(self.work, draft.body_start, draft.end):
            self.findings.append(
                Finding("cannot-read", LOOK, f"{row.label()} has a label and no instruction after it that can be worked; write what is worked, or take the label out", row.span, row.label())
            )
        if label is None and not draft.name and row.name in ("", "Foundation"):
            if with_its_turning(row.steps) or only_a_chain(row.steps):
                row.name = "Foundation"
        if label is not None and label.goal:
            again = read_goal(self.work, *label.goal, sizes=len(self.pattern.sizes))
            if again is not None:  # "Row 5 and every row thereafter until 12 sts remain: ..."
                further = [*further, tree.Row(row.word, again=again, only=row.only, span=row.span, text="")]
        if len(row.steps) > 2 and type(row.steps[1]) is tree.Stitch and row.steps[1].kind == "slst":
            close_own_ring(row.steps)
        if self._goal is not None and not further:  # "Rnd 9: sc2tog around until 6 sts remain": more than once round, if need be
            until = tree.Until(stitches=self._goal.stitches, span=self._goal.span)
            again = tree.Again(last=1, until=until, span=self._goal.span)
            further = [tree.Row(row.word, again=again, only=row.only, span=row.span, text="", stated=row.stated)]
            row.stated = []
        return [row, *further]

    def _say_total(self, row: tree.Row, draft: Draft) -> None:
        """Of a row that could not be read as a whole: the count that stands in it in some form."""
        from .total_said import total_said

        said = total_said(self.work, draft.body_start, draft.end)
        if said is not None and (not isinstance(said[0], tuple) or len(said[0]) == len(row.only or self.pattern.sizes)):
            row.stated.insert(0, tree.Stated(((said[0], "st", None),), span=said[1]))

    def _past_lead(self, start: int, end: int) -> int:
        """Where the chain is named in "Commence with 50 ch"."""
        lead = CHAIN_LEAD.match(self.work, start, end)
        return lead.end() if lead else start

    # ------------------------------------------------------------ body

    def _body(self, row: tree.Row, draft: Draft, lexicon) -> list[tree.Row]:
        start, end = draft.body_start, draft.end
        first = row.numbers[:1] == (1,) or row.name == "Foundation" or draft.label is None and bool(_BEGINS_WITH_CHAIN.match(self.work, start, end))
        if self.before is not None and row.numbers and self.before.is_plain(self.work[start : end + 1]):
            self._steps(row, start, end, lexicon, first_row=first)
            return []
        read = None if row.numbers else self._as_piece(start, end)
        if read is None:
            read = read_again(self.work, start, end, sizes=len(self.pattern.sizes))
        if read is None and row.numbers and end - start < 60:
            read = self._as_piece(start, end)  # "Rnds 1-3: Same as newborn": those of that piece
            read = read if read is not None and not read.again.to else None
        if read is None and not row.numbers and not row.name and (then := self._chain_then_piece(start, end)):
            row.name = "Foundation"
            self._steps(row, self._past_lead(start, then[0]), then[0], lexicon, first_row=True)
            as_piece = tree.Row(again=then[1].again, only=row.only, span=Span(then[0], end), text=self.pattern.text[then[0]:end].lstrip(" .,;"))
            self._steps(as_piece, then[1].end, end, lexicon, after=True)
            return [as_piece]
        lead = _COLOUR_FIRST.match(self.work, start, end) if read is None else None
        lead = lead or (_TURN_FIRST.match(self.work, start, end) if read is None else None)
        if lead:  # "Change to B, as row 2."; "Turn, same as row 2"
            read = read_again(self.work, lead.end(), end, sizes=len(self.pattern.sizes))
            if read is not None:
                self._steps(row, start, lead.end(), lexicon)
        if read is None:
            for at in again_sentences(self.work, start, end):
                if stands_beside(self.work, start, at):
                    read = read_again(self.work, at, end, sizes=len(self.pattern.sizes))
                    if read is not None:
                        self._steps(row, start, at, lexicon)
                        break
        if read is None:
            if self.before is not None and row.numbers:
                self.before.keep_plain(self.work[start : end + 1])
            self._steps(row, start, end, lexicon, first_row=first)
            return []
        further = self._again(row, read, lexicon, end)
        worked = further[-1] if further else row
        before = len(worked.steps)
        self._steps(worked, read.end, end, lexicon, after=worked.again is not None or before > 0 and isinstance(worked.steps[-1], tree.Go))
        if worked.again is not None and not worked.stated:
            count_alone(worked, before)
        if worked.again is not None:
            self._colour_told_when(worked.steps, before)
            for step in worked.steps[before:]:  # "Rep Rows 3 and 4. Change to C.": when they are done
                if type(step) is tree.Colour and not self.work.startswith(_WORKED_IN, step.span.start):
                    step.late = True
        return further

    def _colour_told_when(self, steps: list, first: int) -> None:
        """ "Rep Row 18. Change to Sand after R24.": within the rows that it stands for, and so part of no single one: her words, whole."""
        for at in range(len(steps) - 2, first - 1, -1):
            colour, note = steps[at], steps[at + 1]
            if type(colour) is tree.Colour and type(note) is tree.Note and note.lead == " " and _WHEN.match(note.text):
                span = Span(colour.span.start, note.span.end)
                steps[at:at + 2] = [tree.Note(self.pattern.text[span.start:span.end], span, ".", note.stop)]

    def _names(self) -> set[str]:
        """Names of the pieces before the one at hand."""
        names = {plain_name(piece.name) for piece in self.pattern.pieces[:-1] if piece.name and piece.section in ("", "finishing")} - {""}
        items = self.pattern.pieces[-1].items if self.pattern.pieces else []
        last = next((item for item in reversed(items[-3:]) if isinstance(item, tree.Row)), None)
        return names | SIDES if self.sides or last is not None and REJOINS.search(last.text) else names

    def _as_piece(self, start: int, end: int) -> AgainRead | None:
        if not speaks_of_piece(self.work, start, end):
            return None
        read = read_as_piece(self.work, start, end, self._names())
        if read is not None:
            read.again.span = Span(start, read.end)
        return read

    def _chain_then_piece(self, start: int, end: int) -> tuple[int, AgainRead] | None:
        """Of "With F, make 40ch and work as Back to end of Row 12": (where its chain ends, the reference after it)."""
        for found in _THEN_AS.finditer(self.work, start, end):
            if speaks_of_piece(self.work, found.end(), end) and is_foundation(self.work, start, found.start()):
                read = self._as_piece(found.end(), end)
                return (found.start(), read) if read is not None else None
        return None

    def _again(self, row: tree.Row, read: AgainRead, lexicon, end_of_body: int) -> list[tree.Row]:
        again = read.again
        if read.count_of_rows is not None and row.count_of_rows is None:
            row.count_of_rows = read.count_of_rows
        for start, end in read.changes or ():
            if len(stripes_in(self.work[start:end], lexicon)) > 1:  # "working two rows in C and two rows in D"
                verb = self.work.rfind("working", read.again.span.start, start)
                row.notes.append(self._clause(verb if verb >= 0 else start, end))
                continue
            corners = CORNERS.search(self.work, start, end)
            if corners:
                steps = [tree.Group([tree.Chain(int(corners["n"] or corners["m"]))], tree.Place(of="corner", each=True), span=Span(*corners.span()))]
            else:
                told = self._read(start, end, lexicon, row, False)
                steps = told.steps
                if EDGES.match(self.work, start, end):  # what lies between the ends is the row's own
                    steps = [step for step in steps if not isinstance(step, tree.Go)]
            if any(not isinstance(step, (tree.Note, tree.Unread)) for step in steps):
                again.changes = [*(again.changes or ()), *steps]
                if not corners:
                    row.stated.extend(stated for stated in told.stated if self.work[stated.span.start] in "([")
            else:
                again.same_manner = True
                row.notes.append(self._clause(start, end))
        for start, end in read.notes or ():
            row.notes.append(self._clause(start, end))
        if again.rows and again.times is None and again.sense == "unclear" and _AS_ANOTHER.match(self.work, read.end, end_of_body):
            again.sense = "total"
        if again.shaping is not None:
            if read.stitch:
                again.shaping.stitch = self.lexicon.dialect.find(self.work[slice(*read.stitch)].strip(" .")) or ""
            row.again = again
            return []
        if read.stitch:
            kind = self.lexicon.dialect.find(self.work[slice(*read.stitch)].strip(" ."))
            if kind and (kind in ("ch",) or not re.search(r"[a-z]", kind)):
                kind = None
            if kind is None and not re.match(r"\s*(?:work\w*|cont\w*)?\s*even|\s*(?:(?:just|only|knit|crochet|simply)\s+){1,3}(?:without|with\s+no|no)\s|\s*(?:work\w*|cont\w*)?\s*straight", self.work[again.span.start : again.span.end], re.I):
                self._steps(row, again.span.start, read.end, lexicon)  # "work in stripes for 5 rows": no stitch that is known
                return []
            if kind:
                place = tree.Place(n=None, extent=tree.Extent(), each=True, span=Span(*read.stitch))
                row.steps.append(tree.Stitch(kind, place=place, span=Span(*read.stitch)))
                if again.until is None and again.times is None and again.total_rows is None:
                    return []
                again.even = False
                return [tree.Row(row.word, again=again, only=row.only, span=row.span, text="")]
        if again.piece:
            if again.to or not row.numbers and plain_name(again.piece) in self._names():
                again.changes, again.same_manner = None, False
                row.again = again
                return []
            if not row.numbers:  # "Work as for First Motif" where none has that name: told, not worked
                self._steps(row, again.span.start, read.end, lexicon)
                return []
            again.rows, again.first_number, again.last_number = row.numbers, row.first_number, row.last_number
        row.again = again
        return []

    def _counts_of_rows(self, row: tree.Row) -> None:
        """ "Rows 2-7: ... (14 sts after Row 6)": of a row before the last."""
        told = []
        for stated in row.stated:
            span = stated.span
            if len(row.numbers) == len(stated.items) == 2 and not stated.series and _ONE_A_ROW.match(self.work, *span):
                (one, _, _), (other, of, chains) = stated.items
                told.append(replace(stated, items=(((one, other), of, chains),), series=True))
                continue
            found = list(_OF_ROW.finditer(self.work, span.start, min(len(self.work), span.end + (0 if len(stated.items) > 1 else 30))))
            if stated.series or len(found) != len(stated.items) or found[0].start() != span.start or any(int(one["n"]) not in row.numbers for one in found):
                told.append(stated)
                continue
            for item, one in zip(stated.items, found, strict=True):
                number = int(one["n"])
                told.append(replace(stated, items=(item,), row=number if number != row.numbers[-1] else None, span=span if len(found) < 2 else Span(one.start(), one.end())))
        row.stated = told

    def _clause(self, start: int, end: int) -> tree.Note:
        """Words that a reference to other rows goes on with, after a comma or straight on."""
        text = self.work[start:end].strip(" ,;.()")
        before = self.work[:start].rstrip()[-1:] + self.work[start:].lstrip()[:1]
        lead = "," if set(",;") & set(before) else " "
        return tree.Note(text, Span(start, end), lead, tells=tells_of_work(text))

    def _steps(self, row: tree.Row, start: int, end: int, lexicon, first_row: bool = False, after: bool = False) -> None:
        while start < end and self.work[start] in " .,;\n\t":
            start += 1
        if start >= end:
            return
        read = self._read(start, end, lexicon, row, first_row, after)
        for note in remarks_in(read.steps):
            in_her_letters(note, self.pattern.text)
        row.steps.extend(read.steps)
        self._keep_named(read.steps)
        self._goal = self._goal or read.goal
        row.stated.extend(read.stated)
        row.notes.extend(read.notes)
        for finding in read.findings:
            self.findings.append(finding if finding.row else finding.but(row=row.label()))
        silent = not after and read.steps and read.stated and (row.numbers or self.all_rows) and not row.stated[len(read.stated):] and all(isinstance(step, tree.Note) for step in [*row.steps, *read.steps])
        if silent or read.steps and not read.findings and all(isinstance(step, tree.Unread) for step in read.steps):
            words = " ".join(self.work[start:end].split())
            row.steps = [tree.Unread(step.text, span=step.span) if isinstance(step, tree.Note) else step for step in row.steps]
            self.findings.append(
                Finding(
                    "cannot-read", LOOK,
                    f"{row.label()} could not be read: `{words[:80]}`. The rows after it are worked from its stated count; write what is worked, stitch by stitch",
                    Span(start, end), row.label(),
                )
            )

    def _keep_named(self, steps: list) -> None:
        """ "(3 dc, ch 2, 3 dc) in next sp (shell made)": what a shell is in all rows after this one."""
        for step in steps:
            if type(step) is tree.Repeat:
                self._keep_named(step.steps)
            elif type(step) is tree.Group and step.name in GROUP_KINDS and not is_usual_group(step):
                known = self.lexicon.own.get(step.name)
                if known is None or not known.words and known.steps != step.steps:
                    own = tree.OwnStitch(step.name, steps=list(step.steps), group=True)
                    self.lexicon = self.lexicon.but(own={**self.lexicon.own, step.name: own})
                    self._restricted = {}

    def _read(self, start: int, end: int, lexicon, row: tree.Row, first_row: bool, after: bool = False):
        in_round = self.in_round or row.word == "Round"
        if self.before is None:
            return read_steps(self.work, start, end, lexicon, in_round=in_round, first_row=first_row, after=after)
        return self.before.steps(self.work, self.pattern.text, start, end, lexicon, (in_round, first_row, after),
                                 lambda: read_steps(self.work, start, end, lexicon, in_round=in_round, first_row=first_row, after=after))

    def _lexicon_for(self, row: tree.Row):
        """The lexicon for a row of some sizes only, whose lists hold values for those."""
        if not row.only or not self.pattern.sizes:
            return self.lexicon
        indexes = tuple(self._index[name.lower()] for name in row.only if name.lower() in self._index)
        if len(indexes) != len(row.only):
            unknown = [name for name in row.only if name.lower() not in self._index]
            if not self.pattern.head and self.pattern.sizes == tuple(str(n + 1) for n in range(len(self.pattern.sizes))):
                return self.lexicon
            self.findings.append(
                Finding(
                    "size-not-known", LOOK,
                    f"{' and '.join(f'`{name}`' for name in unknown[:4])} {'is' if len(unknown) == 1 else 'are'} not among the sizes {', '.join(self.pattern.sizes)}",
                    row.span,
                )
            )
            if not indexes:
                return self.lexicon
        if indexes not in self._restricted:
            self._restricted[indexes] = self.lexicon.but(only=indexes)
        return self._restricted[indexes]
