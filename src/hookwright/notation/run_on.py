"""Rows that run on in one paragraph taken apart; "Ch 41." set to the Row 1 that follows it on the same line."""

import re

from .draft import BEGINS_ROW, Draft, is_foundation, make_of
from .intervals import read_intervals
from .label import Label, RowBudget
from .label_search import EASED_INTO, find_labels
from .labels import read_label
from .looks import looks_like_work, works_again
from .patterns import Lazy
from .sentences import sentences

_AGAIN_SENTENCE = Lazy(
    r"[.;)\]]\s+(?=(?:r(?:ep(?:eat)?|pt)|work)\.?\s+(?:the\s+)?(?:(?:last|previous|these|those)(?!\s+(?:\w+\s+)?(?:steps?|instructions?|directions?|stitch(?:es)?|sts?|moves?|actions?)\b)(?!\s+(?:[sh]?dc|sc|h?tr|single|double|half|treble)\b)|this\s+(?:row|rnd|round)(?=\s+(?:until|till|for|another|a\s+further|once|twice|\w+\s+(?:more\s+)?times?))|(?:rows?|rnds?|rounds?)\s+\d|r\d|(?:\d{1,4}(?:st|nd|rd|th)|first|second|third|fourth|fifth)\s+(?:(?:and|to|through|thru|&|-)\s+\w+\s+)?(?:rows?|rnds?|rounds?))\b)", re.I
)
_THEN_WORK = Lazy(r"(?<=[\w)\]])\s*[,;]?\s+(?:and\s+)?(?:then|finally|and)\s+(?=work\s+\w+\s+(?:more\s+)?(?:rows?|rnds?|rounds?)\s+(?:in|with|of)\s+(?-i:[A-Z]))", re.I)

_BARE_ON = Lazy(r"(?<=[.;)])\s+(?P<n>\d{1,3})[.)]\s+(?=[a-z(\[*])", re.I)
_COUNT_BEFORE = Lazy(r"\(\s*\d+\s*(?:[a-z]{2,8}\.?)?\s*\)$", re.I)
_CLOSING = Lazy(r"(?<=[.;)\]])\s+(?=(?:pinch|flatten|fold|press|close|squash|squeeze)\b[^.;]{0,60}?\b(?:and|then|,)\s+(?:work\s+)?(?:\d+\s*)?(?:sc|dc|single\s+crochet|double\s+crochet)\b[^.;]{0,40}?\b(?:through|together|both)\b)", re.I)
_ON_UNTIL = Lazy(
    r"(?<=[.;)\]])\s+(?=(?:r(?:ep(?:eat)?|pt)\.?|(?:cont(?:inue)?\.?|carry\s+on)\s+in\s+(?:this|the\s+same|same)\s+(?:way|manner|fashion))\s+(?:until|till)\s+[^.;]{0,40}?\b(?:rem|left|you\s+have|there\s+are)[^.;]{0,30}[.;]?\s*$)",
    re.I,
)
_AT_INTERVALS = Lazy(r"\b(?:every|each|alt|alternate|foll\w*|next)\b", re.I)
_MAY_SHAPE = Lazy(r"[iIdD](?:[nN]|[eE])[cC]")  # a first look, led by its letters
_SHAPING = Lazy(r"(?:(?<=[.;:,)\]])\s*|\s(?=(?:and|then)\s))(?P<then>(?:(?:and|then|now|also)\s+)*)(?:inc|dec)(?:r?eas(?:e|ing)|r)?\.?\s", re.I)
_TURNED = Lazy(r"\s*(?:(?:ch|chain)\s*-?\d\s*(?:,|;|and)?\s*)?turn(?:\s+work)?\s*[,;.]?\s*(?:ch\s*-?\d\s*[,;.]?\s*)?", re.I)
_ROW_OVER = Lazy(r"(?<![a-z])(?:turn|join|fasten\s+off)", re.I)


def again_sentences(work: str, start: int, end: int) -> list[int]:
    """Where "Rep Rows 2 and 3 ...", "Continue in this way until 9 sts remain", "Then dec 1 st at each end of every 4th row 3 times" begins as a
    sentence of its own after the steps of a row, or after words beside it ("With RS facing, ...").
    """
    found = [found.end() for found in _AGAIN_SENTENCE.finditer(work, start, end) if found.end() - start > 12]
    if work.find("ork ", start, end) >= 0:
        found = sorted({*found, *(found.end() for found in _THEN_WORK.finditer(work, start, end) if found.end() - start > 12)})
    found.extend(_shaping_sentences(work, start, end))
    onward = _ON_UNTIL.search(work, start, end) if not found and work.find("til", start, end) >= 0 else None
    if onward and _ROW_OVER.search(work, start, onward.start()):
        return [onward.end()]
    return found


def stands_beside(work: str, start: int, at: int) -> bool:
    """Whether the words before a sentence that works rows again are no row of their own: "With RS facing,", "Ch 1, turn,"."""
    return bool(_TURNED.fullmatch(work, start, at)) or not looks_like_work(work, start, at)


def _shaping_sentences(work: str, start: int, end: int) -> list[int]:
    """Where rows shaped at intervals begin after other words; after a comma only where those are no steps."""
    if not _MAY_SHAPE.search(work, start, end) or not _AT_INTERVALS.search(work, start, end) or read_intervals(work, start, end) is not None:
        return []
    found = []
    for shaping in _SHAPING.finditer(work, start, end):
        at = shaping.start("then")
        apart = "then" in shaping["then"].lower() or work[start:at].rstrip()[-1:] in (".", ";")
        if (apart or stands_beside(work, start, at)) and read_intervals(work, at, end) is not None:
            found.append(at)
    return found[:1]


def run_on(drafts: list[Draft], work: str, sizes: int, size_names: tuple[str, ...], budget: RowBudget) -> list[Draft]:
    """Splits rows that stand side by side in one paragraph, and sets "Ch 41." before "Row 1" to that row."""
    result: list[Draft] = []
    for index, draft in enumerate(drafts):
        if draft.kind == "before":
            if index + 1 < len(drafts) and drafts[index + 1].kind == "row" and drafts[index + 1].foundation is None:
                following = drafts[index + 1]
                following.foundation, following.start = (draft.body_start, draft.end), draft.start
                continue
            draft.kind = "prose"
        if draft.kind != "row":
            result.append(draft)
            continue
        for part in _split(draft, work, sizes, size_names, budget):
            before = result[-1] if result else None
            if part.kind != "row":
                result.append(part)
                continue
            if (
                part.label is not None and before is not None and before.kind == "row" and before.label is None and before.block == part.block
                and before.foundation is None and before.end <= part.start and _starts_fabric(part.label)
                and (is_foundation(work, before.body_start, before.end) and "\n" not in work[before.end : part.start] or _leads_on(work, before, part) or BEGINS_ROW.match(work, before.body_start, before.end))
            ):
                result.pop()
                if before.name:
                    result.append(Draft("piece", before.start, before.body_start, name=before.name, make=make_of(work[before.start : before.body_start])))
                part.foundation = (before.body_start, before.end)
                part.start = before.body_start
                part.only = part.only or before.only
            result.append(part)
    return result


def _split(draft: Draft, work: str, sizes: int, size_names: tuple[str, ...], budget: RowBudget) -> list[Draft]:
    previous = draft.label.numbers[-1] if draft.label and draft.label.numbers else None
    labels = find_labels(work, draft.body_start, draft.end, sizes=sizes, size_names=size_names, previous=previous, budget=budget)
    cuts = [(label.start, label) for label in labels]
    if not cuts and (draft.label is None or draft.label.bare or draft.label.name.startswith("Foundation")):
        cuts.extend(_numbered_on(work, draft, previous))
    if (draft.label is not None or labels) and any(work.find(word, draft.body_start, draft.end) >= 0 for word in ("hrough", "ogether", "oth ")):
        cuts.extend((found.end(), None) for found in _CLOSING.finditer(work, draft.body_start, draft.end))
    cuts.extend((at, None) for at in again_sentences(work, draft.body_start, draft.end) if draft.label is None or not stands_beside(work, draft.body_start, at) or works_again(work, draft.body_start, at))
    if not cuts:
        return [draft]
    cuts.sort(key=lambda cut: cut[0])
    parts, end = [draft], draft.end
    for at, label in cuts:
        if at < parts[-1].body_start:
            continue
        parts[-1].end = _trimmed(work, parts[-1].body_start, at)
        part = Draft("row", at, end, label.end if label else at, label, only=label.only if label and label.only else draft.only, block=draft.block)
        if label is not None and label.all_sizes:
            part.only = ()
        parts.append(part)
    parts[-1].end = max(parts[-1].end, parts[-1].body_start)
    first = parts[0]
    if first.label is None and not first.name and len(parts) > 1 and not is_foundation(work, first.body_start, first.end):
        spans = sentences(work, first.body_start, first.end)
        at = next((index for index in range(1, len(spans)) if is_foundation(work, spans[index][0], spans[-1][1])), None)
        if at is not None and not any(looks_like_work(work, *span) for span in spans[:at]):  # "Begin at center back. Ch 4, join. 1st round: ..."
            parts.insert(0, Draft("prose", first.start, spans[at - 1][1], block=first.block))
            first.start = first.body_start = spans[at][0]
            return parts
    words = work[first.body_start : first.end].strip(" .,;:-")
    if first.label is None and not first.name and (not words or len(words) < 24 and EASED_INTO.match(words + " ")):
        parts.pop(0)
        parts[0].foundation = parts[0].foundation or first.foundation
    elif first.label is None and not first.name and len(parts) > 1 and len(words) < 40 and words[:1].isupper() and not is_foundation(work, first.body_start, first.end):
        if re.fullmatch(r"[A-Za-z][A-Za-z' ()&-]*", words) and not looks_like_work(work, first.body_start, first.end):
            parts[0] = Draft("piece", first.start, first.end, name=words, make=make_of(words), block=first.block)  # "Body, Rnd 1: ..."
    return parts


def _numbered_on(work: str, draft: Draft, previous: int | None) -> list[tuple[int, Label]]:
    """Rows with bare numbers that run on: "Foundation chain: 21 ch. 1) sc in ... (20) 2) ch 1, sc ...", each the next after the one before."""
    found, begin, number = [], draft.body_start, previous or 0
    for candidate in _BARE_ON.finditer(work, draft.body_start, draft.end):
        at = candidate.start("n")
        if int(candidate["n"]) != number + 1 or work.count("(", begin, at) != work.count(")", begin, at):
            continue
        before = work[begin:at].rstrip()
        if before[-1:] == ")" and not _COUNT_BEFORE.search(before):
            continue
        label = read_label(work, at, draft.end)
        if label is None or not label.bare or not looks_like_work(work, label.end, draft.end):
            continue
        found.append((at, label))
        begin, number = label.end, number + 1
    return found


def _leads_on(work: str, before: Draft, part: Draft) -> bool:
    """ "Ch 15. Start in the second ch," on the line before Row 1 is the beginning of that row."""
    return part.label.numbers[:1] == (1,) and work[before.end - 1 : before.end] == "," and bool(re.match(r"\s*(?:ch|chain)\b", work[before.body_start : before.end], re.I))


def _trimmed(work: str, start: int, end: int) -> int:
    while end > start and work[end - 1] in " \t\n":
        end -= 1
    return end


def _starts_fabric(label: Label) -> bool:
    return label.numbers[:1] == (1,) or label.name.lower().startswith(("found", "set", "base"))
