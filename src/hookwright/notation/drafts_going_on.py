"""Rows that go on over more than one line: which lines belong to the row that is open, and how they are put to it."""

import re

from .blocks import Line
from .draft import ENDS_ROW, Draft, is_foundation
from .drafts_parts import STITCH_ONLY
from .looks import is_lead_in, looks_like_work, starts_like_prose, starts_like_work, works_again
from .patterns import Lazy
from .sentences import sentences

FINISHED = Lazy(r"(?:[.!?)\]:;](?:\s*\d{1,3}\s+(?:rows?|rounds?|rnds?))?|=\s*\d{1,4}(?:\s*(?:sts?|stitches|sc|dc))?)\s*$")
_CUT = Lazy(r"\b(?:fasten|end|tie|cast|finish)\s+off[.!]\s*(?:\([^()]*\))?[.!]?\s*$", re.I)
_COUNTED = Lazy(r"[(\[{]\s*=?\s*\d+\s*(?:sts?|stitches|[a-z]{2,4})?\s*[)\]}]\.?\s*$", re.I)
_OTHER_ALIKE = Lazy(r"\s*(?:then\s+|now\s+)?(?:repeat|work|do|make)\s+(?:(?:this|it|the\s+same|again|all\s+this|in\s+the\s+same\s+way)\s+)?(?:on|for|along|around|at|with|to)?\s*(?:the\s+)?(?:other|second|opposite|remaining)\s+(?:side|edge|end|one|piece|half|strap|sleeve|handle|leg|ear|foot|shoulder)s?\b[^:*]{0,40}$", re.I)
_OPEN_PHRASE = Lazy(r"\b(?:with|last|first|next|each|every|the|a|an|same|of|to|into|in|from|rep|repeat|and|then|around|top|as|beg|beginning|skip|sk|miss)\s*$|[,*(\[]\s*$", re.I)
_PART_BEGINS = Lazy(  # "Edging: *skip 1 st, ..." on the line under a row
    r"(?-i:[A-Z])(?=[a-z' ]{2,30}(?:\s*\([^()]{1,20}\))?\s*:\s*\S)(?:[a-z']+\s){0,2}[a-z]*(?:dging|order|rim|ibbing|traps?|andles?|ies?|uttonband|button\s?bands?|ollar|uffs?|eckband|em)\b", re.I
)
_UNFINISHED = Lazy(r"[,(\[*&+-]\s*$|\b(?:and|in|next|each|of|the|to|into|then|rep|rpt|repeat|from)\s*$", re.I)


def _opens_list(work: str, draft: Draft) -> bool:
    return work[draft.end - 1 : draft.end] in ":,;"


class GoingOnSorting:
    """Sorts the lines that go on with the row before them."""

    def _extend(self, line: Line) -> None:
        draft = self.open
        between = self.work[draft.end : line.start]
        ended = self.work[draft.end - 1 : draft.end]
        if draft.body_start >= draft.end:
            draft.body_start = line.start
        self._blank_between(draft.end, line.start, between, ended, line)
        if not line.gap and _OPEN_PHRASE.search(self.work, max(draft.body_start, draft.end - 40), draft.end):
            self.widest, self.broken = max(self.widest, len(self._last_line())), self.broken + 1
        draft.end = line.end
        draft.block = line.block

    def _blank_between(self, at: int, start: int, between: str, ended: str, line: Line) -> None:
        """List marks, quote marks and line ends inside a row become spaces, or a comma where a step ended without one."""
        word = re.search(r"([A-Za-z]+)$", self.work[max(0, at - 20) : at - 1]) if ended == "-" else None
        if ended == "-" and between == "\n" and word and self.work[start : start + 1].islower() and not STITCH_ONLY.match(word[1]):
            # The rest of the word moves up to its beginning; all that stands after it keeps its place.
            rest = re.match(r"[A-Za-z]+", self.work[start : start + 30])[0]
            self.edits.extend((at - 1 + offset, char) for offset, char in enumerate(rest + "  "))
            return
        for offset, char in enumerate(between):
            if char not in " ":
                self.edits.append((at + offset, " "))
        number = re.match(r"\d{1,3}[.)]\s+", self.work[start : start + 8]) if line.mark == "1" else None
        if number:
            self.edits.extend((start + offset, " ") for offset in range(number.end()))
        if line.mark in ("-", "1") and ended.isalnum():
            self.edits.append((at, ","))

    def _sentence_end(self, start: int, end: int) -> int:
        found = sentences(self.work, start, end)
        return found[0][1] if found else end

    def _for_all_sizes(self, line: Line) -> bool:
        """ "Fasten off." as a paragraph after a row for some of the sizes only: all sizes do it."""
        return bool(self.drafts[-1].only) and line.block != self.drafts[-1].block and bool(re.match(r"\s*(?:fasten|end|tie|cast|finish|bind|break|cut)\b", self.work[line.start : line.end], re.I))

    def _take_endings(self, line: Line) -> Line | None:
        """Sets "Fasten off." and the like to the row before; gives what is left of the line, None where nothing is."""
        spans = sentences(self.work, line.start, line.end)
        taken = 0
        while taken < len(spans) and ENDS_ROW.match(self.work, *spans[taken]):
            taken += 1
        if taken < len(spans) and self.work[spans[taken][0]] in "([{=0123456789-—":
            taken = len(spans)  # "turn. (18 sts)": the count belongs to the row
        last = spans[taken - 1][1]
        self.open = self.drafts[-1]
        at = self.open.end
        unended = at > self.open.body_start and self.work[at - 1] not in ".,;:!-" and self.work[at : at + 1] == "\n"
        self._extend(Line(line.start, last, line.raw_start, last, mark=line.mark, gap=line.gap, block=line.block))
        if unended:
            self.edits.append((at, "."))  # "34 [38, 42]" and on the next line "Cut yarn."
        if taken == len(spans):
            return None
        self.open = None
        start = spans[taken][0]
        return Line(start, line.end, start, line.raw_end, gap=True, block=line.block)

    def _last_line(self) -> str:
        """The last line of the row that is open."""
        return self.work[self.work.rfind("\n", 0, self.open.end) + 1 : self.open.end]

    def _begins_below(self, line: Line) -> bool:
        """Whether a line is the first of a row whose label stands above it by itself ("Step Two: The first row"); what is said of its chain belongs to it, too."""
        draft, work = self.open, self.work
        if draft is None or draft.body_start < draft.end or not line.gap or draft.label is None or draft.label.bare:
            return False
        return looks_like_work(work, line.start, line.end) and not is_foundation(work, line.start, line.end) and not is_lead_in(work, line.start, line.end)

    def _broken(self, line: Line) -> bool:
        """Whether a line goes on where a page set narrow broke the one before: in mid-phrase, or, once that was seen, where the next word had no room."""
        draft, work = self.open, self.work
        if draft is None or line.gap or line.mark in ("-", "1") or draft.body_start >= draft.end or draft.kind != "row":
            return False
        if _OPEN_PHRASE.search(work, max(draft.body_start, draft.end - 40), draft.end):
            return not work[line.start].isupper()
        if self.broken < 3 or is_lead_in(work, line.start, line.end) or starts_like_prose(work, line.start, line.end) or works_again(work, line.start, line.end):
            return False
        room = self.widest - len(self._last_line())
        return -3 <= room <= len(work[line.start : line.end].split(" ", 1)[0]) + 6  # letters are not all as wide

    def _goes_on(self, line: Line, lines: list[Line], index: int) -> bool:
        work, draft = self.work, self.open
        empty = draft.body_start >= draft.end
        if empty:
            return not is_lead_in(work, line.start, line.end)
        tail = work[max(draft.body_start, draft.end - 40) : draft.end]
        unfinished = bool(_UNFINISHED.search(tail)) or tail.rstrip().endswith(":")
        if is_lead_in(work, line.start, line.end) or _OTHER_ALIKE.match(work, line.start, line.end):
            return False
        if line.gap and not (unfinished or (line.mark in ("-", "1") and _opens_list(work, draft))):
            return False
        if unfinished:
            return True
        working = looks_like_work(work, line.start, line.end)
        if working and (_CUT.search(tail) or draft.label is not None and _COUNTED.search(tail)) and work[line.start].isupper() and line.mark not in ("-", "1"):
            return False
        finished = bool(FINISHED.search(tail)) and not tail.rstrip().endswith(";")
        if draft.label is None and finished and (starts_like_work(work, line.start, line.end) or working):
            return False
        if self._foundation_line(line, lines, index) or self._heading_like(line, lines, index):
            return False
        if finished and draft.label is not None and line.mark not in ("-", "1") and _PART_BEGINS.match(work, line.start, line.end):
            return False
        if finished and re.match(r"For\s+(?:the\s+)?[a-z ]{3,24}:", work[line.start : line.end]):
            return False
        if finished and not working and (starts_like_prose(work, line.start, line.end) or (work[line.start].isupper() and line.mark not in ("-", "1"))):
            return False
        return True
