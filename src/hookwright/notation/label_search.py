"""Labels in the middle of a paragraph, where rows run on without line breaks.

A row that is only spoken of ("from Round 2", "as Row 3", "Row 5 is a WS row") must not be taken for one that begins.
"""

import re

from .label import Label, RowBudget
from .label_numbers import ROW_WORD
from .labels import KNOWN_NAMES, read_label
from .looks import looks_like_work, starts_like_work
from .manuscript_words import REFERENCE_AFTER, REFERENCE_BEFORE
from .number_words import CARDINAL_PATTERN, ORDINAL_PATTERN
from .patterns import Lazy

_CANDIDATE = Lazy(
    rf"(?<![\w])(?:(?:{ROW_WORD})\s*[.:]?\s*(?:#|no\.?)?\s*(?:\d|(?:{CARDINAL_PATTERN})(?![a-z])|\([a-z]\)|(?-i:[A-Z])(?=\s*[:=)]))"
    rf"|(?:\d{{1,4}}(?:st|nd|rd|th|d)?(?:\s*(?:[-–—,&]|and|to)\s*\d{{1,4}}(?:st|nd|rd|th|d)?)*|(?:{ORDINAL_PATTERN}))\s+(?:{ROW_WORD})(?!\s*[\d#]|\s*\((?!\s*(?:rs|ws|right|wrong|inc|dec)))"
    rf"|(?:next|last|final|following)\s+(?:\d+\s+)?(?:\([\d ,-]+\)\s*)?(?:{ROW_WORD})"
    rf"|(?:{KNOWN_NAMES})\s+(?:{ROW_WORD}))",
    re.I,
)
_AGAIN_BETWEEN = Lazy(r"(?<![a-z])r(?:ep(?:eat)?|pt)\.?\s+(?:the\s+)?(?:last|previous|these|rows?|rnds?|rounds?|r\s?\d|\d+(?:st|nd|rd|th)|first|second|third)\b", re.I)  # rows without numbers of their own lie between
_IMPERATIVES = frozenset(("make", "form", "complete", "work"))
_HINT = Lazy(r"(?<![a-z])r(?:ow|nd|ound|w|d|\.?\s?\d)", re.I)
_WORD_BEFORE = Lazy(r"([A-Za-z&]+)[\s(]*$")
_STOP_BEFORE = Lazy(r"[.;:)\]}!?*]\s*$")
_SIZE_BEFORE = Lazy(r"(?:(?:for\s+)?sizes?\s+[^:;.\n]{1,80}?\bonly\b|all\s+sizes)\s*[:.,-]*\s*$", re.I)
_LED_INTO = Lazy(r"\s*(?:(?:and|ok|okay|right|so)[,\s]+)?(?:now\s+(?:(?:for|on\s+to|onto|comes|it's)\s+)?|next(?:\s+(?:up|is|comes))|(?:moving\s+)?on\s+to|onto|time\s+for|(?:and\s+)?finally|lastly|let's\s+(?:do|start|work)|then|and)[,:.]?\s*(?:the\s+)?$", re.I)  # "Now for round 6: ..."
EASED_INTO = Lazy(r"\s*(?:(?:and|ok|okay|right|alright|so|well)[,\s]+){1,3}$", re.I)  # "ok so row 5 chain 2 turn and then ..."
_TOLD_NEXT = Lazy(r"\s*,?\s*(?:we|you|i|it|let)(?:'|\s)", re.I)  # "Now for round 4 we're going to ..."
_HEADED = Lazy(r"\s*[A-Za-z][A-Za-z' ]{1,28}(?:\s*\((?:x\s?\d|\d\s?x|make\s+\w+|\d|both|all)\))?\s*[,–—-]\s*$", re.I)  # "Arms, Round 6. Work ..."
_ONLY_CHAIN = Lazy(
    r"\s*(?:(?:with|using)\s+[\w ]{1,30}?,?\s*)?(?:(?:make|begin\s+with|start\s+with|work)\s+)?(?:an?\s+)?(?:foundation\s+)?(?:(?:ch|chain)s?\.?\s*-?(?:of\s+)?\d+|\d+\s*ch(?:ain)?s?)\s*(?:\([\d ,;/-]+\))?\s*(?:sts?|stitches)?"
    r"\s*[.,;:]?\s*(?:(?:and\s+)?turn\s*[.,;]?)?[\s*]*$",
    re.I,
)


def find_labels(text: str, start: int, end: int, *, sizes: int = 0, size_names: tuple[str, ...] = (), previous: int | None = None, budget: RowBudget | None = None) -> list[Label]:
    """Labels that stand inside [start, end): rows that run on in one paragraph. previous: the number of the row that is open."""
    found_labels: list[Label] = []
    if not _HINT.search(text, start + 1, end):
        return found_labels
    budget = budget or RowBudget()
    begin = start
    for found in _CANDIDATE.finditer(text, start + 1, end):
        at = found.start()
        if at < begin:
            continue
        if budget.labels <= 0:
            break
        before = text[max(start, at - 120) : at]
        restricted = _SIZE_BEFORE.search(before)
        opening = at - (len(before) - restricted.start()) if restricted else at
        lead = text[max(start, opening - 24) : opening]
        word = _WORD_BEFORE.search(lead)
        stop = bool(_STOP_BEFORE.search(lead)) or not lead.strip()
        head = text[start:opening] if begin == start and opening - start < 44 else ""
        led = bool(head) and bool(_LED_INTO.match(head))
        eased = bool(head) and not led and bool(EASED_INTO.match(head))
        if word and not stop and not led and not eased and word[1].lower() in REFERENCE_BEFORE:
            continue
        if lead.rstrip().endswith("(") and not lead.rstrip().endswith("(("):
            continue
        if text[opening - 1] == "[" and opening == at and opening - 1 > begin:
            opening, stop = opening - 1, True  # "[Row 1]"
        label = read_label(text, opening, end, sizes=sizes, size_names=size_names)
        if label is None or not label.core or label.bare or label.end <= at:
            continue
        if _speaks_of(text, label, end):
            continue
        strong = any(mark in label.separator for mark in ":=") or (label.letter and label.firm)
        number = label.numbers[0] if label.numbers else None
        in_order = number is not None and (previous is None or number == previous + 1 or number == 1 or number > previous and bool(_AGAIN_BETWEEN.search(text, begin, opening)))
        chain_before = bool(_ONLY_CHAIN.match(text, begin, opening)) if opening - begin < 80 else False
        headed = (label.firm or led and bool(_TOLD_NEXT.match(text, label.end, end))) and bool(head) and (led or bool(_HEADED.match(head)) and not looks_like_work(text, start, opening))
        headed = headed or eased and (label.firm or starts_like_work(text, label.end, end))
        if not (strong or headed or (stop and label.firm and in_order) or (chain_before and number == 1) or (stop and in_order and not label.firm and previous is not None)):
            continue
        if not strong and re.match(r"[,)]", label.separator) and not in_order:
            continue
        budget.take(label)
        found_labels.append(label)
        begin = label.end
        if label.numbers:
            previous = label.numbers[-1]
    return found_labels


def _speaks_of(text: str, label: Label, end: int) -> bool:
    """True where the words after say something about the row ("Row 3 is a WS row")."""
    if any(mark in label.separator for mark in ":=-–—"):
        return False
    following = re.compile(r"\s*([A-Za-z]+)").match(text, label.end, end)
    if following and len(label.numbers) == 1 and following[1].lower() in _IMPERATIVES:
        return False  # "Round 1 make a magic ring": one row makes, so this is no sentence about it
    if following and any(mark in label.separator for mark in ".)") and following[1][0].isupper():
        return False  # "Round 1. Make 6 ch": a sentence of its own
    return bool(following and following[1].lower() in REFERENCE_AFTER)


def speaks_of_row(text: str, label: Label, end: int) -> bool:
    """True where a label at the start of a line is the subject of a sentence, and so no label."""
    return not label.bare and label.core and _speaks_of(text, label, end)
