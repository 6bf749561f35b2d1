"""Her own stitches, out of a special-stitches paragraph, an abbreviation list, the notes or the head.

"bs = bobble: 4 dc closed together in one st", "Shell: (3 dc, ch 2, 3 dc) in the same space", "trc = treble",
"V-stitch (V-st): (dc, ch 1, dc) in next st". What a stitch is made of is read with the same reader as the rows.
"""

import re

from hookwright.ground import LOOK, Finding, Span
from hookwright.stitches import stitch

from . import tree
from .looks import starts_like_work
from .number_words import CARDINAL_PATTERN, number_of
from .own_legs import leg_kind, made_of_legs
from .patterns import Lazy
from .sentences import sentences

MOST_STITCHES = 300

_N = rf"(?:\d{{1,2}}|{CARDINAL_PATTERN})"
_ENTRY = Lazy(
    r"[ \t*\"'-]*(?P<name>[A-Za-z0-9][\w'/+-]*(?:[ -][A-Za-z0-9][\w'/+-]*){0,5})\s*(?:[\(\[](?P<abbr>[^()\[\]\n]{1,40})[\)\]])?[\"'*]*\s*(?P<sep>=|:|—|–|-(?=\s)|\.?\s+(?:means|stands\s+for|signifies|denotes)(?:\s+(?:an?|the))?(?=\s))\s*(?=\S)"
)
_CUT = Lazy(r"[()\[\]]|;\s*|\.\s+(?=\S{1,20}\s*=)|,\s+(?:and\s+)?|\s+and\s+(?=\S{1,20}\s*[=:])")
_INLINE_ENTRY = Lazy(r"(?:^|[,;./|]\s+|\n\s*)(?=[A-Za-z][\w/()-]*(?:[ -][\w()]+){0,2}\s*(?:=|:|\s-\s|—)\s*\S)")
_THAT_IS = Lazy(r",?\s+(?:that\s+is(?:\s+to\s+say)?|i\.e\.?|meaning|in\s+other\s+words),?\s+(?:an?\s+)?(?P<rest>[a-z][a-z ]{1,40})$", re.I)
_CHAIN_SAID = Lazy(r"[;.]\s*(?:(?:and|the|this|its|beg(?:inning)?|turning|starting|first|initial)\s+)*(?:ch(?:ain)?s?[ -]?\d+|\d+[ -]?ch(?:ain)?s?)\s*(?:(?:at|in|on)\s+(?:the\s+)?(?:start|beg(?:in(?:ning)?)?)\.?\s+(?:(?:of\s+)?(?:(?:an?|each|every|all|the)\s+)?(?:rows?|rnds?|rounds?)\s*)?)?(?:=|(?:always\s+)?(?:counts?|stands?|serves?|acts?|is|are|do(?:es)?)\b)", re.I)
_ONLY_CHAIN = Lazy(rf"\s*(?:(?:an?|one|1)\s+)?(?:(?:loop|arch|space|chain)\s+(?:of|with|from)\s+)?(?:ch(?:ain)?s?[\s-]*(?P<n>{_N})|(?P<m>{_N})[\s-]*ch(?:ain)?s?)(?:\s*(?:loop|arch|space|sts?|stitches))?\s*$", re.I)
_IN_A_MANNER = Lazy(
    r"\s*(?:[a-z ]{1,24}[:,]\s*)?(?:(?:work(?:ed)?|made|make|crochet(?:ed)?)\s+(?:it\s+)?(?:like|as)\s+)?(?:(?:an?|1|one)\s+)?(?:(?:(?:very|extra)\s+)?(?P<how>tight|loose|firm|slack|normal|plain|regular|ordinary|simple)\s+)?(?P<kind>[a-z]{2,6}(?:\s[a-z]{4,7}){0,2}?)"
    r"(?:,?\s*(?:(?:but|and|that\s+is|which\s+is|it\s+is)\s+)?(?P<made>(?:worked|made|crocheted|done|pulled|drawn)\s+)?(?:(?:very|extra|quite|rather|really|slightly|a\s+(?:bit|little))\s+)?(?P<manner>tight|loose|firm|slack)(?:ly|er)?)?(?P<counts>[,;]\s*(?:and\s+)?(?:it\s+|this\s+)?counts\b.*)?$",
    re.I,
)
_SPACES = frozenset(("sp", "sps", "space", "spaces"))
_CHAIN_SPACE = Lazy(r"\bch(?:ain)?s?[ -]?\d?[ -]?sps?\b|\d[ -]?ch[ -]?sps?\b", re.I)
_NAME = Lazy(r"[A-Za-z]|\d+[A-Za-z]+\d?(?!\w)|\d+[ -]+[A-Za-z]")
_ONE_STITCH = frozenset(("basic", "post", "extended", "foundation", "edging", "decrease"))
_GENERAL = frozenset(
    "st sts stitch stitches rep repeat rnd rnds round rounds row rows sp sps space sk skip miss beg beginning tog together rs ws yo yoh yrh blo flo bl fl lp lps loop mc cc mr rem approx cont foll alt patt "
    "inc dec ch chs chain prev sl note notes tip gauge tension hook yarn size sizes materials pm sm hk co bo fo turn join pattern last first".split()
)


def read_definitions(work: str, start: int, end: int, lexicon, section: str, findings: list, name: str = "") -> list[tree.OwnStitch]:
    """The stitches defined in [start, end). section: "special stitches", "abbreviations" or "notes"; name: from a sub-heading."""
    made: list[tree.OwnStitch] = []
    for entry_name, abbreviation, first, last in _entries(work, start, end, section, name):
        if len(made) >= MOST_STITCHES:
            break
        known = dict(lexicon.own)
        known.update((own.name, own) for own in made)
        own = define(entry_name, abbreviation, work, first, last, lexicon.but(own=known) if made else lexicon, section, findings)
        if own is not None:
            made.append(own)
    return made


def _entries(work: str, start: int, end: int, section: str, name: str):
    """(name, abbreviation, start of the words, end) of every definition."""
    if name:
        label = re.fullmatch(r"\s*(?P<name>[^()]{1,60}?)\s*(?:\((?P<abbr>[^()]{1,40})\))?\s*:?\s*", name)
        if label:
            yield label["name"], label["abbr"] or "", start, end
        return
    if section == "abbreviations":
        yield from _listed(work, start, end)
        return
    starts = []
    if section == "notes":
        spans = [part for first, last in _whole(work, sentences(work, start, end)) for part in _one_by_one(work, first, last)]
    else:
        spans = [(found.start(), found.end()) for found in re.compile(r"[^\n]+").finditer(work, start, end)]
    for first, last in spans:
        found = _ENTRY.match(work, first, last)
        if found and _is_definition(found, work, last, section):
            starts.append((found["name"], found["abbr"] or "", found.end(), last, first))
        elif starts and section == "notes" and first - starts[-1][3] < 4 and work[starts[-1][3] - 1 : starts[-1][3]] in ";:,":
            starts[-1] = (*starts[-1][:3], last, starts[-1][4])
        elif starts and section != "notes":
            starts[-1] = (*starts[-1][:3], last, starts[-1][4])
    for entry_name, abbreviation, first, last, _ in starts:
        yield entry_name, abbreviation, first, last


def _whole(work: str, spans: list) -> list:
    """Sentences put together again that a full stop within brackets parts: "V-st = (1 dc. Ch 1. 1 dc) in same st"."""
    made = []
    for first, last in spans:
        if made and (said := work[made[-1][0]:made[-1][1]]).count("(") > said.count(")") and ")" in work[first:made[-1][0] + 300]:
            made[-1] = (made[-1][0], last)
        else:
            made.append((first, last))
    return made


def _one_by_one(work: str, start: int, end: int):
    """A sentence cut where a further definition follows: "X = sc; V = 2 sc in one st", "inc = increase, dec = decrease and bs = bobble"."""
    begin, sign, depth = start, None, 0
    for found in _CUT.finditer(work, start, end):
        if found[0] in "()[]":
            depth = max(0, depth + (1 if found[0] in "([" else -1))
            continue
        if depth:
            continue
        entry = _ENTRY.match(work, found.end(), end)
        if not entry or not _is_definition(entry, work, end, "notes") and (entry["sep"] != "=" or entry["name"].lower() not in _GENERAL):
            continue
        if found[0][0] not in ";.":  # a comma parts definitions written alike: one word and the same sign each
            if sign is None:
                first = _ENTRY.match(work, start, end)
                sign = first["sep"] if first else ""
            if entry["sep"] != sign or " " in entry["name"].strip() and sign != "=":
                continue
        yield begin, found.start()
        begin = found.end()
    yield begin, end


def _is_definition(found: re.Match, work: str, last: int, section: str) -> bool:
    words = found["name"].lower().split()
    if words[0] in _GENERAL and len(words) == 1 and words[0] not in ("inc", "dec") and not (found["sep"] != ":" and _ONLY_CHAIN.match(work[found.end():last].rstrip(" .;,"))):
        return False
    if words[0] in ("note", "notes", "row", "rows", "round", "rounds", "rnd", "rnds", "when", "if", "the", "this", "you", "for", "each", "ch", "chain", "turning", "beginning"):
        return False
    if found["sep"][-1:].isalpha() and len(words) > 1:
        return False
    if section == "notes" and found["sep"] != "=" and not found["sep"][-1:].isalpha():
        rest = work[found.end() : last]
        plain = re.match(r"\(|\d|\[|work\b|sk\b|skip|miss\b|yo\b|yarn over|insert|ch\b|[\w-]+ in\b", rest, re.I) or starts_like_work(work, found.end(), last)
        return bool(plain) and len(words) <= 4 and words[0] != "first"
    return True


def _listed(work: str, start: int, end: int):
    """Entries of an abbreviation list, one a line or several in one."""
    for line in re.compile(r"[^\n]+").finditer(work, start, end):
        begins = [found.end() for found in _INLINE_ENTRY.finditer(work, line.start(), line.end())]
        first = _ENTRY.match(work, line.start(), line.end())
        if first and (not begins or begins[0] > first.start()):
            begins.insert(0, line.start())
        begins = sorted(set(begins))
        for index, at in enumerate(begins):
            last = begins[index + 1] if index + 1 < len(begins) else line.end()
            found = _ENTRY.match(work, at, last)
            if found and _is_definition(found, work, last, "abbreviations"):
                yield found["name"], found["abbr"] or "", found.end(), last


def define(name: str, abbreviation: str, work: str, start: int, end: int, lexicon, section: str, findings: list) -> tree.OwnStitch | None:
    """One stitch from its name and what is said of it; None where it is a stitch of the dialect or no stitch at all."""
    while end > start and work[end - 1] in " .;,\n\t\"'":
        end -= 1
    other = _THAT_IS.search(work, start, end)
    if other and lexicon.dialect.find(other["rest"].strip()):
        start = other.start("rest")  # "a long stitch, that is a treble"
    chain = _CHAIN_SAID.search(work, start + 1, end)
    if chain and work.count("(", start, chain.start()) == work.count(")", start, chain.start()):
        end = chain.start()  # "(ch 3, dc, ch 2, 2 dc) in one sp; the ch 3 counts as a dc": said of the chain, no part of the stitch
    words = work[start:end]
    if not words.strip() or len(words) > 3000 or not _NAME.match(name):
        return None
    span = Span(start, end)
    name = " ".join(name.split())
    name, *others = re.split(r"\s+or\s+|\s*/\s*", name)  # "V or V-st: ..."
    spellings = (*others, *(part.strip() for part in re.split(r"\s*(?:,|/|\bor\b)\s*", abbreviation) if _NAME.match(part)))
    if spellings and any(spelling.lower() in _SPACES for spelling in spellings) and _CHAIN_SPACE.search(work):
        spellings = tuple(spelling for spelling in spellings if spelling.lower() not in _SPACES)  # "Space (sp)" of a filet whose rows speak of ch-2 sps
    find = lexicon.dialect.find
    known = find(name)
    own = tree.OwnStitch(name, spellings, words=words, span=span)
    loop = _ONLY_CHAIN.match(words) if not known else None
    if loop:  # "lp = ch 5": chains over what is skipped
        own.steps, own.takes = [tree.Chain(number_of(loop["n"] or loop["m"]))], 0
        return own
    manner = _IN_A_MANNER.match(words) if not known and section != "special stitches" else None
    if manner and (manner["how"] or manner["manner"] or manner["counts"] or manner.start("kind") > 8) and (kind := find(manner["kind"])) and kind != "ch":
        return _only_alias(own, kind, known, spellings, find)  # "hs = 1 sc worked very tight, counts as a sc"
    if known and known.endswith("tog") and not re.search(r"\b(?:same|one)\s+(?:st|sp|place)", words, re.I):
        return None  # "dc3tog = 3 dc closed together over 3 sts" says what it is in any case
    if (known == "picot" or "picot" in name.lower().split()) and re.match(r"\s*\(?\s*(?:ch|chain)\s*-?\d|\s*\d\s*ch", words, re.I) and re.search(r"sl\s*st|slip|ss\b|\bsc\b|\bdc\b", words, re.I):
        own.kind, own.steps = "picot", [tree.Stitch("picot")]
        return own
    of_legs = re.match(rf"\s*(?:an?\s+)?(?P<name>[a-z][a-z -]{{1,20}}?)\s+(?:of|with)\s+(?P<n>{_N})\s+(?P<what>loops?|legs?|yarn\s+overs?|[a-z]{{2,4}})\b", words, re.I)
    if of_legs and leg_kind(of_legs["name"]):
        own.kind, own.legs = leg_kind(of_legs["name"]), number_of(of_legs["n"])
        own.base = find(of_legs["what"]) or ("hdc" if own.kind == "puff" else "dc")
        own.steps = [tree.Stitch(own.kind, legs=own.legs, base=own.base)]
        return own
    alias = _alias(words, find)
    if alias:
        kind, length, alias_name = alias
        rest = words[length:].lstrip(" :=-—(,")
        if not rest.strip(" .)"):
            return _only_alias(own, kind, known, spellings, find)
        if alias_name and alias_name.lower() != name.lower():
            own.spellings = (*own.spellings, alias_name)
        own.kind = kind
        start, words = start + words.index(rest, length), rest
    if made_of_legs(own, words, known, lexicon):
        return own
    plain = alias[0] if alias else known
    fact = stitch(plain) if plain else None
    if fact is not None and fact.kind in _ONE_STITCH and plain not in ("ch", "dec", "inc"):
        # Her words explain how a stitch of the trade is worked; it stays that stitch.
        own.kind, own.steps = plain, [tree.Stitch(plain)]
        return _only_alias(own, plain, known, own.spellings, find)
    if known and not alias and re.match(r"\s*(?:yo\b|yarn over|yrh|insert|wrap|\(?with|draw|pull|hook)", words, re.I):
        own.kind = known
        return own if spellings and not all(find(spelling) for spelling in spellings) else None
    return _from_steps(own, work, start, end, known, lexicon, section, findings)


def _alias(words: str, find) -> tuple[str, int, str] | None:
    """The stitch that the words begin with, where they are no more than its name: (kind, length, name)."""
    plain = re.sub(r"\(\s*(?:s|es)\s*\)", "", words).strip(" .")
    kind = find(plain) or (find(plain[:-1]) if plain.endswith("s") else None) or find(re.sub(r"\s+(?:stitch|st)(?:es|s)?$", "", plain, flags=re.I))
    if kind:
        return kind, len(words), plain
    found = re.match(r"\s*([A-Za-z][\w -]{1,40}?)(?:\s*(?:\([^()]{1,20}\)))?\s*(?=[:=(]|,\s|—|\s-\s)", words)
    if found:
        kind = find(found[1].strip())
        if kind and kind != "ch" and re.match(r"\s*(?:[:=]|—|-\s|\()" if _said_by_itself(kind) else r"\s*(?:[:=,]|—|-\s|\()", words[found.end() :]):
            return kind, found.end(), found[1].strip()
    return None


def _said_by_itself(kind: str) -> bool:
    """Whether a stitch needs no words after its name: "dc, ch 1, dc" is a list, "increase, 2 sc in one st" and "bobble, 5 dc closed together" explain."""
    fact = stitch(kind)
    return fact is not None and fact.kind in _ONE_STITCH and kind not in ("inc", "dec", "invdec")


def _only_alias(own: tree.OwnStitch, kind: str, known: str | None, spellings, find) -> tree.OwnStitch | None:
    """ "trc = treble": worth keeping only where the dialect does not say so already."""
    if known == kind and all(find(spelling) == kind for spelling in spellings):
        return None
    if own.name.lower() in _GENERAL and own.name.lower() not in ("inc", "dec"):
        return None
    own.kind = kind
    own.steps = [tree.Stitch(kind)]
    return own


def _from_steps(own, work: str, start: int, end: int, known, lexicon, section: str, findings: list):
    from .steps import read_steps

    read = read_steps(work, start, end, lexicon, in_round=False)
    steps = [step for step in read.steps if not isinstance(step, tree.Note)]
    unread = [step for step in steps if isinstance(step, tree.Unread)]
    if not steps or len(unread) * 2 >= len(steps):
        if known or own.kind:
            own.kind = own.kind or known
            return own if own.spellings or not known else None
        if section == "special stitches" and len(own.name.split()) <= 4 and re.search(r"hook|loop|yo\b|yarn", work[start:end], re.I):
            findings.append(
                Finding(
                    "own-stitch-not-read", LOOK,
                    f"what `{own.name}` is made of could not be worked out from its description; add a short form such as `{own.name}: 5 dc in one stitch`, so that its stitches can be counted",
                    own.span,
                )
            )
        return None
    if known in ("dec", "invdec") and not own.kind and not any(isinstance(step, tree.Skip) for step in steps):
        return None  # "dec: dc over next 2 sts": a decrease stays one
    if section == "abbreviations" and known or all(isinstance(step, tree.Ring) for step in steps):
        return None  # "KA - amigurumi ring" is a word for the ring and no stitch
    group = _one_place(steps)
    if group is not None:
        own.steps, own.group = group, True
        if len(group) == 1 and isinstance(group[0], tree.Stitch) and group[0].n == 1 and not own.kind:
            own.kind, own.group = group[0].kind, False
        return own
    own.steps = steps
    own.takes = _takes(steps)
    if len(steps) == 1 and isinstance(steps[0], tree.Stitch) and steps[0].n == 1:
        own.kind = steps[0].kind
    return own


def _one_place(steps: list) -> list | None:
    """The steps inside where all go into one place: "(3 dc, ch 2, 3 dc) in the same space", "5 dc in next st"."""
    if len(steps) != 1:
        if all(isinstance(step, (tree.Stitch, tree.Chain)) for step in steps) and sum(isinstance(step, tree.Stitch) for step in steps) > 1:
            if all(step.place is None or step.place.which == "same" for step in steps[1:] if isinstance(step, tree.Stitch)) and steps and getattr(steps[-1], "place", None) is not None:
                for step in steps:
                    if isinstance(step, tree.Stitch):
                        step.place = None
                return steps
        return None
    step = steps[0]
    if isinstance(step, tree.Either):  # of two readings, the one that goes into one place
        return next((found for found in map(_one_place, step.readings) if found is not None), None)
    if isinstance(step, tree.Group):
        return step.steps
    if isinstance(step, tree.Repeat) and step.times in (None, 1) and step.extent is None:
        return _one_place(step.steps) if len(step.steps) == 1 and isinstance(step.steps[0], tree.Either) else step.steps
    if isinstance(step, tree.Stitch) and step.n != 1 and step.place is not None and not step.over:
        step.place = None
        return [step]
    return None


def _takes(steps: list) -> int:
    """How many places the steps use up: skipped ones and those worked into, each once."""
    taken = 0
    for step in steps:
        place = getattr(step, "place", None)
        if isinstance(step, tree.Skip):
            taken += step.place.n if isinstance(step.place.n, int) else 1
        elif isinstance(step, tree.Stitch) and (place is None or place.which == "next"):
            taken += place.n if place is not None and isinstance(place.n, int) else (step.n if place is None and isinstance(step.n, int) else 1)
    return max(1, taken)
