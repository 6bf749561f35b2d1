"""A draft: what a stretch of the manuscript was taken for, before it is read; and what names of pieces and sections tell."""

import re
from dataclasses import dataclass

from hookwright.ground import Number

from .label import Label
from .manuscript_words import PLAIN_HEADINGS, SECTION_OF
from .number_words import CARDINAL_PATTERN, listed_number, number_of
from .patterns import Lazy
from .spoken import past_telling


@dataclass(slots=True)
class Draft:
    """What was found, in order. kind: "row", "piece", "note", "prose", or "before" (steps before the next row: "Change to B.").

    row: `[start, end)` all of it, body_start where the steps begin, label (None: no header), foundation the span of what stands
    before the label ("Ch 41.", "Change to B."), name of a named part ("Handle"). piece: name, level, section, make. note: section it stands in.
    """

    kind: str
    start: int
    end: int
    body_start: int = 0
    label: Label | None = None
    foundation: tuple[int, int] | None = None
    name: str = ""
    level: int = 0
    section: str = ""
    make: Number | None = None
    only: tuple[str, ...] = ()
    remark: tuple[int, int] | None = None  # "(worked in a coil)" after the name of a part
    block: int = 0


MAKE = Lazy(rf"\(?\b(?:make|work|crochet|x)\s*(?P<n>\d{{1,4}}|{CARDINAL_PATTERN}|both)\b(?P<list>\s*\([\d\s,;-]+\))?\)?|\(\s*x?\s*(?P<x>\d{{1,3}})\s*x?\s*\)|[x×]\s*(?P<y>\d{{1,3}})\s*$|\(?\s*(?P<z>\d{{1,2}})\s*(?:parts|pcs|pieces|pc|units|x)\b\.?\s*\)?[.:]?\s*$", re.I)
CHAIN_ONLY = Lazy(
    r"\s*(?:[\w ]{1,20}\s(?:colou?r|yarn|thread)\.\s+)?(?:(?:starting|beginning|begin|start)\s+(?:at|from|in|with)\s+(?:the\s+)?[a-z ]{3,24},\s*)?(?:(?:with|using|in)\s+[\w#./ ]{1,48}?[,:-]?\s*)?(?:(?:you|we)(?:\s+will|'ll)?\s+(?=start|begin|make|chain))?(?:(?:loosely|to\s+(?:begin|start),?|(?:begin|commence|start|beginning|starting)(?:\s+(?:with|by(?:\s+making)?|off\s+(?:with|by)))?|first,?|make(?:\s+an?)?|create(?:\s+an?)?|a\s+slip\s?knot\s+and|(?:we\s+)?(?:dial|collect|recruit|knit|cast\s+on|crochet)|work|a|chain\s+of|foundation)\s+)*(?:(?:ch|chain|chaining|chn)s?\.?\s*-?\s*(?:of\s+)?\d+(?:\s*/\s*\d+){0,12}|\d+(?:\s*/\s*\d+){0,12}\s*(?:[\(\[]\s*\d[\d\s,;:/-]*[\)\]]\s*)?(?:ch|chain|chn)s?)"
    r"\s*(?:sts?\.?|stitches)?\s*(?:[\(\[][\d\s,;:/-]+[\)\]])?\s*(?:loosely)?\s*(?:[,;.]?\s*(?:and\s+)?(?:being|taking|making|without|careful|do(?:n't|\s+not)\s+twist)[^,;.:]{0,50})?(?:[,;.]?\s*(?:and\s+)?(?:join(?!\s+(?:(?:the|your|both|two|to)\s+){0,3}(?:(?:first|second|other|left|right)\s+)?legs?\b)|close|ss|sl st|sl\.? ?st|slip st)[^:]{0,90})?\s*[.,;:]?\s*$",
    re.I,
)
CHAIN_LEAD = Lazy(r"\s*(?:now\s+|you(?:\s+will|'ll)?\s+(?=start|begin)|we(?:\s+will|'ll)?\s+(?=start|begin))?(?:(?:starting|beginning|begin|start)\s+(?:at|from|in|with)\s+(?:the\s+)?[a-z ]{3,24},|to\s+begin,?|(?:begin|commence|start|beginning|starting)(?:\s+(?:with|by(?:\s+making)?|off\s+(?:with|by)))?)\s+(?:an?\s+)?(?:foundation\s+)?(?=(?:ch(?:ain(?:ing)?)?\b|\d+\s*(?:\([\d\s,;/-]+\)\s*)?ch|make\b|magic\b))", re.I)
RING_ONLY = Lazy(r"\s*(?:(?:make|form|start with|begin with|with)\s+)*(?:an?\s+)?(?:(?:magic|adjustable|sliding)\s+(?:ring|circle|loop|r|c)(?:/(?:ring|circle|loop))?|(?-i:MR|MC|KA))\s*[.,;:]?\s*$", re.I)
# Lines of their own that belong to the row before or to the row after.
ENDS_ROW = Lazy(
    r"\s*(?:(?:sl\.?\s?st|slip\s?stitch|ss)(?:\s+(?:in|into|to)\s+(?:the\s+)?(?:next|first)\s+(?:st|stitch|sc|dc)\b)?(?=\s*[.!]?\s*$|\s*,?\s*(?:and\s+)?(?:then\s+)?(?:fasten|leave|leaving|cut|finish|tie|end|FO)\b)|(?:do not|don't)\s+(?:turn|join|fasten off|cut|break)|(?:fasten|end|tie|cast|finish|bind)\s*off|fo(?=\s)|turn|join|close|break|cut)\b(?!\s+(?:[A-Z]\b|yarn\s+(?:in|to|at|with)|to\b|new|the\s+two|both|all\b|(?:the\s+)?(?:motifs|squares|pieces|seams?|shoulders?|sides?|sleeves?|blocks|hexagons|ends)\b|\w+\s+(?:in|to)\s+any))[^:*]{0,120}$",
    re.I,
)
BEGINS_ROW = Lazy(
    r"\s*(?:(?:hold|turn|sk|skip|miss|leave)\s[^.;:*]{3,60}?(?:,|\band)\s+(?=(?:join|attach|rejoin)\s)|)(?:ch(?:ain)?\s*\d{1,2}\s*(?:,|and)\s*join\s+(?:(?:the|your|both|two)\s+){0,2}legs\b[^:*]{0,60}:?\s*$|(?:change|switch)\s+(?:to|colou?r)|(?:join|attach|add|rejoin)\s+(?:the\s+)?(?:new\s+)?(?:yarn|colou?r|[A-Z]\b|MC|CC|[a-z]+\s+(?:yarn|in|to|at|with)\b)|(?:with|using)\s+[\w ]{1,48}(?:,\s*(?:join|attach|rejoin)\b[^:*]{0,80})?\s*[.,;:]?\s*$"
    r"|(?:sl\.?\s?st|slip\s?st(?:itch)?|ss)\s+(?:in|to|into|across|over)\s+(?:the\s+)?(?:corner|next|first|center|centre|each|\d))(?![^\n]{0,200}(?:\b(?:sc|dc|hdc|htr|tr)\b|\*|rep))[^:*]{0,160}$",
    re.I,
)


_TURNED = Lazy(r"[,.;]?\s*(?:and\s+)?turn(?:\s+(?:the\s+|your\s+)?work)?\s*[.,;]?\s*$", re.I)
_LONG = Lazy(r"(?<!\d)(?:[6-9]|\d\d+)(?!\d)")  # longer than a turning chain


def is_foundation(work: str, start: int, end: int) -> bool:
    """True for words that only make a chain, a chain ring or an adjustable ring."""
    start = past_telling(work, start, end)
    if CHAIN_ONLY.match(work, start, end) or RING_ONLY.match(work, start, end):
        return True
    turned = _TURNED.search(work, max(start, end - 40), end)
    return bool(turned and _LONG.search(work, start, turned.start()) and CHAIN_ONLY.match(work, start, turned.start()))


_OF_SEVERAL = ("notes", "special stitches", "abbreviations", "materials", "gauge", "about", "finishing")  # "Techniques & notes": what a heading of several is taken for


def section_of(name: str) -> str:
    """The section a heading names ("Notes" -> "notes"), "" for a piece."""
    plain = _bare(name)
    section = SECTION_OF.get(plain, "")
    if not section and len(plain) < 60:  # "Yarn and tools", "Notes & abbreviations": where all its parts name the same section
        named = {SECTION_OF.get(part, "") for part in re.split(r"\s*(?:,|&|\+|/|\band\b)\s*", plain) if part}
        section = named.pop() if len(named) == 1 else "" if "" in named else next((first for first in _OF_SEVERAL if first in named), "")
    return section


def is_plain_heading(name: str) -> bool:
    """Whether a heading stands over the instructions and names no piece: "Pattern", "Let's begin".

    >>> is_plain_heading("Pattern:"), is_plain_heading("Brim")
    (True, False)
    """
    return _bare(name) in PLAIN_HEADINGS


def _bare(name: str) -> str:
    return re.sub(r"\s*\([^)]*\)", "", name).strip(" :.*#-").lower().replace("’", "'")


def make_of(name: str) -> Number | None:
    """How often the piece is to be made: "Ear (make 2)" -> 2."""
    found = MAKE.search(name)
    if not found:
        return None
    word = found["n"] or found["x"] or found["y"] or found["z"]
    if found["list"]:
        return listed_number(word, found["list"])
    return 2 if word.lower() == "both" else number_of(word)
