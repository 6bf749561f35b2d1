"""Where a section or a part of the manuscript begins: "Notes:", "MATERIALS", "Handle" on a line of its own, "Handle: ch 30, ..."."""

import re

from .again_piece import REJOINS, SIDES, plain_name, read_as_piece, speaks_of_piece
from .blocks import Line
from .draft import CHAIN_ONLY, MAKE, Draft, is_foundation, make_of, section_of
from .label import Label
from .labels import read_label
from .looks import STITCH_WORD, is_lead_in, looks_like_work, starts_like_prose, starts_like_work, works_again
from .manuscript_words import PLAIN_HEADINGS, REFERENCE_BEFORE
from .patterns import Lazy

_SECTION_LINE = Lazy(r"[\s*#]*([A-Za-z][A-Za-z' &/-]{2,40}?)\s*(?:\((?:US|UK|U\.S\.|U\.K\.)[^()\n]{0,30}\))?\s*(?:\.(?=—))?(?:([:—])|(-)(?=\s)|$)")
_JOINS_TO_WORK = Lazy(r"\s*(?:join|attach|rejoin|with|using)\s[^:;*]{3,90}?[,.]\s*(?:ch\s*\d|\d\s*ch|work\s+\d|\d+\s*(?:\([\d ,]+\)\s*)?(?:sc|dc|hdc|htr|tr)\b)", re.I)
_WORKS_ALONG = Lazy(r"\s*(?:\*\s*)?(?:ch\s*\d|\d\s*ch|[sh]?[dsh]c\s+in|\d\s*[dh]?[ct]r?\s+in)[^.]{3,300}\b(?:r(?:ep(?:eat)?|pt)|around|across|join)\b", re.I)  # "*ch 3, skip 2 sts, sl st in next st; rep from * around"
_PART = Lazy(r"([A-Za-z][\w'&/. -]{1,34}?)\s*(\([^()\n]{1,80}\)\s*|[,–—-]?\s*(?:make|work|[x×])\s*(?:\d{1,2}|two|three|four|five|six|both)\s*)?(?:\.(?=—))?(?:(?P<colon>:)|(?P<dash>—|-(?=\s)))\s*")
_FOUNDATION_LEAD = Lazy(r"\s*(?:foundation|set-?\s?up|base|to\s+(?:begin|start))(?:\s+(?:ring|chain|ch))?\s*[:–—-]\s*", re.I)
_ADORNED = Lazy(r"(?P<mark>[~=•·*_—–<>+♥♡❤☆★❀✿-]{1,6})\s*(?P<name>[A-Za-z][^\n]{1,46}?)\s*[~=•·*_—–<>+♥♡❤☆★❀✿-]{1,6}")
_OF_YARN = Lazy(r"\b(?:yarn|thread|wool|cotton|colou?r)s?\.?$", re.I)
_NUMBER_OF = r"(?:[a-z]+\s+){0,2}(?:(?:no|nr)\.?\s*|#\s*)\d[\w-]{0,5}|(?:edging|motif|insertion|design|pattern|style|figure|fig|square|border|lace|doily|star|medallion|swatch|sample|stitch)\.?\s+(?:\d[\w-]{0,5}|[A-Z]{1,3})"
_NUMBERED = Lazy(_NUMBER_OF, re.I)  # "No. 417", "Edging No. 12", "Motif 3"
_NUMBERED_STOP = Lazy(rf"(?P<name>{_NUMBER_OF})\.\s+(?=(?:ch|chain|make|with|using|begin|beginning|start|starting|wind|join)\b)", re.I)
_CHAIN_EARLY = Lazy(r"(?:[^.:;*\n]{1,30}\.\s+)?(?:[a-z]+\s+){0,3}(?:(?:ch|chain)\s*\d+|\d+\s*(?:ch|chains)\b)", re.I)
_WITH_HOOK = Lazy(r"\([^()]{0,24}\b(?:mm|hook)\b[^()]{0,12}\)", re.I)  # "Base (5 mm hook)"
_CAPITALS = Lazy(r"(?:TURN|JOIN|CLOSE)(?:ING)?(?:\s+[A-Z]{3,}){1,3}:?$")  # "TURN HEEL" is a heading, "turn" an end of a row
_ALL_CAPITALS = Lazy(r"(?!(?:FASTEN|FINISH|END|TIE|CUT|NOTE|TIP|HINT|NB|CHANGE|REPEAT|REP|STUFF|DO|TURN|JOIN|CLOSE|CH|SC|DC|HDC|TR|HTR)\b)[A-Z]{3,}(?: (?:[A-Z]{2,}|&)){0,3}:?$")
_TITLE = Lazy(r"[A-Z0-9][\w'’&/.()!, -]{0,60}:?$")
STITCH_ONLY = Lazy(rf"{STITCH_WORD}$", re.I)


def _titled(words: str) -> bool:
    """Whether words are written as a title: "Armhole and Neck Shaping"."""
    return words.istitle() or words[:1].isupper() and all(word[:1].isupper() or word in ("and", "of", "the", "for", "in", "with", "to", "&", "or", "on", "at") for word in words.split())


class PartSorting:
    """Sorts the lines with which sections of notes and parts of the work begin."""

    def as_piece(self, start: int, end: int) -> bool:
        """Whether the words work a piece as one before it: "Work as for Left Front, reversing all shapings"."""
        if not speaks_of_piece(self.work, start, end):
            return False
        names = {plain_name(draft.name) for draft in self.drafts if draft.kind == "piece" and draft.name and draft.section in ("", "finishing")}
        last = next((draft for draft in reversed(self.drafts[-3:]) if draft.kind == "row"), None)
        if last is not None and REJOINS.search(self.work, last.start, last.end):
            names |= SIDES
        return read_as_piece(self.work, start, end, (names | self.pieces) - {""}) is not None

    def _begins_anew(self, following: Line | None) -> bool:
        """Whether the next line is a Row 1 after other rows: what stands before it names the part."""
        if following is None or self.number is None:
            return False
        label = read_label(self.work, following.start, following.end, sizes=self.sizes, size_names=self.size_names)
        return bool(label and label.core and label.firm and not label.bare and label.numbers[:1] == (1,))

    def _names_before_one(self, words: str, following: list[Line]) -> bool:
        """Whether "Head." is a heading though it ends in a full stop: a Row 1 or a chain to begin with is on one of the next two lines."""
        if len(words.split()) > 4 or _OF_YARN.search(words):
            return False
        for line in following:
            if line.kind != "text":
                return False
            label = read_label(self.work, line.start, line.end, sizes=self.sizes, size_names=self.size_names)
            if label and label.core:
                return label.firm and label.numbers[:1] == (1,)
            if _CHAIN_EARLY.match(self.work, line.start, line.end):
                return True
        return False

    def _section_lead(self, line: Line) -> bool:
        """ "Notes: ...", "MATERIALS" and the like begin a section."""
        found = _SECTION_LINE.match(self.work, line.start, line.end)
        if not found:
            return False
        alone = found.end() >= line.end
        if alone and found[1].lower().strip() in PLAIN_HEADINGS:
            self.open = None
            self.section, self.section_block, self.number, self.bare = "", 0, None, False
            self.drafts.append(Draft("piece", line.raw_start, line.end, name=" ".join(found[1].split()), block=line.block))
            return True
        section = section_of(found[1])
        if not section:
            return False
        if not found[2] and not found[3] and not alone:
            return False
        if alone and self.open is not None and not line.gap and not found[1][0].isupper():
            return False
        if section == "finishing" and not alone:
            return False
        if self.open is not None and not line.gap and not alone and section == "notes":
            self._prose(line.raw_start, line.end, line.block)
            return True
        if alone:
            self.open = None
            self.section, self.section_block, self.section_level = section, 0, 0
            name = " ".join(found[1].split())
            self.drafts.append(Draft("piece", line.raw_start, line.end, name=name, section=section, level=0, block=line.block))
            return True
        if section in ("special stitches", "abbreviations") and found[3]:
            return False
        self.open = None
        self.section, self.section_block = section, line.block
        self.drafts.append(Draft("note", line.raw_start, line.end, found.end(), section=section, name=" ".join(found[1].split()), block=line.block))
        return True

    def _end_section(self, label: Label, line: Line) -> None:
        """A row with a firm label ends a section of notes that no heading ends."""
        if not self.section or self.section == "finishing" or label.bare:
            return
        alone = line.gap and bool(label.word) and label.end >= line.end  # "Round 1", and below it what is worked
        if (label.firm or alone or starts_like_work(self.work, label.end, len(self.work))) and (label.numbers or label.name) and label.core:
            if not self.section_block:
                self.drafts.append(Draft("piece", label.start, label.start))
            self.section, self.section_block = "", 0

    def _begins_rows(self, line: Line, lines: list[Line], index: int) -> bool:
        """True where a chain or the name of a part stands right before a numbered row: the notes are over, though no heading says so."""
        if not line.gap or self.section_block:
            return False
        if self._foundation_line(line, lines, index):
            return True
        if not self._heading_like(line, lines, index):
            return False
        for following in lines[index + 1 : index + 3]:
            label = read_label(self.work, following.start, following.end, sizes=self.sizes, size_names=self.size_names)
            if CHAIN_ONLY.match(self.work, following.start, following.end) or label and label.firm and label.name.lower().startswith(("found", "set", "base")):
                return True
            if label and label.core and (label.firm or starts_like_work(self.work, label.end, following.end)) and 1 in label.numbers[:1] and not (label.bare and self.section == "notes"):
                return True
        return False

    def _foundation_line(self, line: Line, lines: list[Line], index: int) -> bool:
        """ "Ch 20.", "Make a magic ring.", "Foundation: Ch 20." on a line of its own before a Row 1."""
        lead = _FOUNDATION_LEAD.match(self.work, line.start, line.end)
        if not is_foundation(self.work, lead.end() if lead else line.start, line.end):
            return False
        if index + 1 >= len(lines):
            return False
        following = lines[index + 1]
        label = read_label(self.work, following.start, following.end, sizes=self.sizes, size_names=self.size_names)
        return bool(label and label.core and (1 in label.numbers[:1] or label.name.lower().startswith("found")))

    def _heads_capitals(self, line: Line, lines: list[Line], index: int) -> bool:
        """ "TURN HEEL", "JOINING LEGS" after a gap and right before rows: a heading, though it begins like the end of a row."""
        return line.gap and bool(_CAPITALS.match(self.work, line.start, line.end)) and self._heading_like(line, lines, index)

    def _heads_words(self, line: Line, lines: list[Line], index: int) -> bool:
        """ "JOINING" in capitals on a line by itself, after rows, and her words right below it."""
        words = self.work[line.start : line.end]
        if not line.gap or line.mark or not _ALL_CAPITALS.match(words) or not any(draft.kind == "row" for draft in self.drafts) or index + 1 >= len(lines):
            return False
        following = lines[index + 1]
        return following.kind == "text" and not following.gap and not self.work[following.start : following.end].isupper()

    def _heading_like(self, line: Line, lines: list[Line], index: int) -> bool:
        """A short line that names a part and stands before rows."""
        words = self.work[line.start : line.end].strip()
        if self._heads_words(line, lines, index):
            return True
        adorned = _ADORNED.fullmatch(words)
        if adorned:  # "~ Left leg ~"
            words = adorned["name"].strip(" *_")
        if not words or len(words) > 48 or line.mark or not _TITLE.match(words) or looks_like_work(MAKE.sub("", words), 0, len(words)):
            return False
        if words[-1] == "." and self._names_before_one(words, lines[index + 1 : index + 3]):
            words = words[:-1]  # "Head.", and below it "1r: 6 sc in ring"
        the = 4 if line.gap and words[:4].lower() == "the " and 1 < len(words.split()) < 5 else 0  # "THE SIDES", "The bottom (Sand)"
        if not words or words[-1] in ".,;!" or words[the:].split()[0].lower() in REFERENCE_BEFORE or starts_like_prose(self.work, line.start + the, line.end):
            return False
        if re.search(r"\d", _WITH_HOOK.sub("", MAKE.sub("", words))) and not re.search(r"(?:leg|ear|arm|part|piece|square|motif|side|panel|section|wing|petal|horn|foot|month|year|yrs)", words, re.I):
            return False
        bare = re.sub(r"\([^)]*\)", "", words).strip(" :")
        if not (words.endswith(":") or words.isupper() or _titled(bare) or MAKE.search(words) or ((len(bare.split()) <= 3 or adorned) and bare[:1].isupper())):
            return False
        for following in lines[index + 1 : index + 3]:
            label = read_label(self.work, following.start, following.end, sizes=self.sizes, size_names=self.size_names)
            if following.kind == "text" and ((label and label.core and (label.firm or label.numbers)) or CHAIN_ONLY.match(self.work, following.start, following.end)):
                return True
            if following.kind == "text" and self.as_piece(following.start, following.end):
                return True
            if following.kind == "text" and looks_like_work(self.work, following.start, following.end) and not starts_like_prose(self.work, following.start, following.end):
                return True
        return False

    def _numbered_part(self, line: Line, lines: list[Line], index: int) -> bool:
        """ "No. 417. Make a chain 42 sts long. ...": a leaflet numbers its pieces, and the work comes right after."""
        found = _NUMBERED_STOP.match(self.work, line.start, line.end)
        if not found:
            return False
        self.open = None
        self.drafts.append(Draft("piece", line.start, found.end("name"), name=" ".join(found["name"].split()), block=line.block))
        self._line(Line(found.end(), line.end, found.end(), line.raw_end, gap=True, block=line.block), lines, index)
        return True

    def _part(self, line: Line, lines: list[Line], index: int) -> bool:
        """ "Handle" on a line of its own, or "Handle: ch 30, ..."."""
        work, start, end = self.work, line.start, line.end
        if self._heading_like(line, lines, index):
            adorned = _ADORNED.fullmatch(work[start:end])
            name = " ".join((adorned["name"] if adorned else work[start:end]).strip(": *_").split())
            section = section_of(name)
            self.open = None
            self.section, self.section_block, self.only, self.number, self.bare = section, 0, (), None, False
            self.drafts.append(Draft("piece", line.raw_start, end, name=name, section=section, level=0, make=make_of(name), block=line.block))
            return True
        found = _PART.match(work, start, end)
        if not found or found.end() >= end:
            return False
        if self.section == "finishing" and not _JOINS_TO_WORK.match(work, found.end(), end) and not _WORKS_ALONG.match(work, found.end(), end):
            return False  # "Armhole edging: Join yarn at underarm, ch 1, work 60 sc ..." is work, all else there is sewing
        name = re.sub(r"^for\s+(?:the\s+)?", "", found[1], flags=re.I).rstrip(".")
        words = name.lower().split()
        numbered = _NUMBERED.fullmatch(name) is not None if name[-1:].isalnum() else False
        if not words or len(words) > 4 or ". " in name and not numbered or words[0] in REFERENCE_BEFORE or not found[1][0].isupper() or any(STITCH_ONLY.match(word) for word in words[:1]):
            return False
        if is_lead_in(work, start, end) or starts_like_prose(work, start, end):
            return False
        if any(word in ("st", "sts", "next", "each", "join", "turn", "ch") for word in words) or not numbered and re.search(r"\d", name):
            return False
        label = read_label(work, found.end(), end, sizes=self.sizes, size_names=self.size_names)
        if label and label.core and label.firm and (label.numbers or label.word) and not label.bare:
            self.open = None
            self.drafts.append(Draft("piece", start, found.end(), name=" ".join(name.split()), make=make_of(found[0]), block=line.block))
            self._row(label, line)
            return True
        if found["colon"] and not found[2] and name[:1].isupper() and not looks_like_work(work, found.end(), end) and self._begins_anew(lines[index + 1] if index + 1 < len(lines) else None):
            self.open, self.number, self.bare = None, None, False
            self.drafts.append(Draft("piece", start, found.end(), name=" ".join(name.split()), block=line.block))
            self._prose(found.end(), end, line.block)  # "Hem ribbing: Change to smaller hook."
            return True
        if not (self.as_piece(found.end(), end) or starts_like_work(work, found.end(), end) or works_again(work, found.end(), end) or (looks_like_work(work, found.end(), min(end, found.end() + 60)) and not starts_like_prose(work, found.end(), end))):
            return False
        self._row(None, line)
        self.open.name = " ".join(name.split())
        if found[2]:
            self.open.remark = (found.start(2) + 1, found.end(2) - len(found[2]) + len(found[2].rstrip()) - 1)
        self.open.body_start = found.end()
        return True
