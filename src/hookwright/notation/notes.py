"""What the notes settle for the whole pattern, sentence by sentence: turning chains, skipped chains, where a round starts ...

See tree.Convention. A sentence that settles nothing gives nothing and stays prose.
"""

import re

from hookwright.ground import Span

from . import tree
from .number_words import CARDINAL_PATTERN, number_of
from .patterns import Lazy
from .sentences import sentences

_DOTTED = Lazy(r"(?<=\b[a-zA-Z])\.\s*(?=[a-zA-Z]\b)")  # "d. c." of older books
_IS_NONE = Lazy(r"\b(?:is|are)\s+(?:never|not|no)\s+(?=(?:an?\s+|one\s+)?st(?:itch)?(?:es|s)?\b)", re.I)  # "ch 1 is never a stitch"
_N = rf"(?:\d{{1,3}}|{CARDINAL_PATTERN})"
_CHAIN = rf"(?:(?:ch(?:ain)?s?\.?[ -]*(?P<a>{_N}))|(?:(?P<b>{_N})[ -]?(?:ch\.?|chains?)(?![a-z])))"
_CHAIN_FREE = rf"(?:(?:ch(?:ain)?s?\.?[ -]*(?:{_N}))|(?:(?:{_N})[ -]?(?:ch\.?|chains?)(?![a-z])))"
_CHAIN_IN = Lazy(_CHAIN, re.I)
_TURNING = Lazy(r"(?<![a-z])(?:turning|beginning|beg\.?|starting|initial|first|t-?)[ -]*(?:ch(?:ain)?s?\b|tch\b)|\bt-?ch\b", re.I)
_NEITHER = Lazy(rf"[\s,;]*(?:and\s+)?(?:neither|nor|so)\s+(?:do(?:es)?|is)\s+(?:the\s+|a\s+)?(?:beginning\s+|turning\s+|starting\s+)?{_CHAIN}", re.I)
_COUNTS = Lazy(
    r"(?P<no>(?:do(?:es)?\s*n[o']?t|never|not|no longer|is not|are not|won't|will not|n't)\s+(?:be\s+|being\s+)?)?(?P<verb>count(?:s|ed|ing)?|considered|regarded|stands?\s+(?:in\s+)?for|replaces?|is\s+used\s+as|serves?\s+as|acts?\s+as|included?)(?![a-z])",
    re.I,
)
_AS = Lazy(r"\s*(?:as|for|like|towards?|to\s+be|in)?\s*(?:being\s+)?(?:(?:a|an|the|one|your|first|1st|beginning|1)\s+)*", re.I)
_CLAUSE = Lazy(
    rf"(?:,\s*(?:and\s+|but\s+|while\s+)?|\s+(?:and|but|while)\s+)(?=(?:the\s+)?(?:turning\s+|beginning\s+)?{_CHAIN_FREE}\s+(?:(?:at|of|in|the|beginning|start|end|a|each|every|row|rows|round|rounds)\s+){{0,7}}(?:also\s+)?(?:counts?\b|do(?:es)?\b|is\b|never\b|stands?\b))", re.I
)
_PLUS_CHAIN = Lazy(rf"\s*(?:,|\+|and|plus|&)\s*(?:and\s+)?(?:(?:an?|the|first|one)\s+){{0,2}}{_CHAIN}(?:\s*(?:sp\b|space))?", re.I)
_PLUS_ONE_CHAIN = Lazy(r"\s*(?:,|\+|and|plus|&)\s*(?:and\s+)?a\s+(?:ch\b|chain\b)(?!\s*-?\d)", re.I)
_SKIPPED = Lazy(
    rf"(?:(?:(?P<n>{_N})|the|any|beginning)\s+)*(?:skipped|missed|unworked|sk|skip(?=\s+ch)|miss(?=\s+ch))\s+(?:(?P<j>{_N})\s+)?(?:(?:beginning|foundation|beg|starting)\s+)?(?P<what>ch(?:ain)?s?\b|stitch(?:es)?)(?:\s*(?P<m>{_N}))?"
    rf"|first\s+(?P<k>{_N})\s+(?:ch(?:ain)?s?)\s+of\s+(?:the\s+)?foundation|(?P<h>{_N})\s+(?:(?:beginning|foundation|beg)\s+)?(?:ch(?:ain)?s?)\s+(?:(?:that|which)\s+(?:are|were)\s+)?(?:skipped|missed)",
    re.I,
)
_BASE_FIRST = Lazy(rf"(?P<as>\s*(?:as|for)\s+)(?:{_N}\s+(?:(?:skipped|missed|base|sk)\s+){{0,2}}ch(?:ain)?s?)(?:\s+of\s+the\s+(?:base|foundation(?:\s+ch(?:ain)?)?))?\s*(?:,|and|\+)\s*(?=(?:and\s+)?(?:the\s+|an?\s+|first\s+|1\s+|one\s+)*[a-z]{{2,}})", re.I)  # "count as 2 skipped ch, 1 dc and ch 2"
_SPACES_COUNT = Lazy(rf"(?:each|every|all|the|any)?\s*(?:{_CHAIN})?[ -]*(?:ch(?:ain)?[ -]?)?(?:spaces?|sps?\b|loops?)[^.]{{0,20}}?\s(?:{_COUNTS.pattern})", re.I)
_CHAINS_COUNT = Lazy(rf"^(?:all\s+|the\s+|each\s+)?(?:ch(?:ain)?(?:s|\s+st(?:itche)?s)|ch\s+sts)\s+(?:(?:are|is|also|do)\s+)*(?:{_COUNTS.pattern})", re.I)
_REPEAT = Lazy(r"r(?:ep(?:eat)?|pt)[^.]{0,30}?\b(?:n|x|\d+|number|so many)\b[^.]{0,20}?times?[^.]{0,30}?(?:means?|is|=|indicates?|tells?)", re.I)
_START = Lazy(r"(?:rounds?|rnds?|rows?|hook|work|yarn|you|loop)\b[^.]{0,30}?(?:starts?|begins?|is(?: now)?|are|starting|sits?)\s+(?:at|in|from|with|on)\s+(?P<where>[^.;]{3,60})", re.I)
_MADE_AT_END = Lazy(r"at\s+(?:the\s+)?end\s+of\s+(?:the\s+)?(?:previous|last|preceding|prior|row\s+(?:before|below)|round\s+(?:before|below))|(?:made|worked)\s+(?:\w+\s+){0,2}?(?:at\s+)?(?:the\s+)?end\s+of|(?:from|of)\s+(?:the\s+)?(?:previous|last|preceding)\s+(?:row|round|rnd)|before\s+turning", re.I)
_SPIRAL = Lazy(r"continuous(?:ly)?\b|in\s+a\s+(?:spiral|coil)|spiral(?:s|ly)?\b|(?:do|are)\s*n[o']t\s+join(?:ed)?|do\s+not\s+join|not\s+joined|without\s+joining", re.I)
_JOINED = Lazy(r"\b(?:join(?:ed)?|close[ds]?)\s+(?:each|every|all|with|at|rounds?|the\s+rounds?|rnds?)\b|(?:rounds?|rnds?)\s+(?:are|is)\s+(?:each\s+)?(?:joined|closed)", re.I)
_NO_TURN = Lazy(r"(?:do\s+not|don't|never|not|without)\s+turn(?:ed|ing)?\b|(?:right|same)\s+side\s+(?:is\s+)?(?:always\s+)?facing", re.I)
_TURN = Lazy(r"\bturn(?:ed)?\s+(?:at|after|the work|your work|each|every|work)|worked\s+(?:back and forth|flat)|back and forth", re.I)
_CLUSTER = Lazy(r"\b(?:cluster|cl|bobble|popcorn|pop|puff|pc|shell|group)s?\b", re.I)
_CLUSTER_IDS = {"cluster": "cl", "cl": "cl", "bobble": "bobble", "popcorn": "popcorn", "pop": "popcorn", "pc": "popcorn", "puff": "puff", "shell": "shell", "group": "group"}
_FIRST_IS = Lazy(rf"\bfirst\s+(?P<group>cluster|cl|bobble|popcorn|pop|puff|pc|shell)\b[^.;:]{{0,30}}?(?:\s(?:is|=|are|consists of|is made of|is worked as|replaces?)|:)\s+(?:a\s+)?{_CHAIN}", re.I)
_COUNTED = Lazy(r"^(?:(?:each|every|all|the|a)\s+)?(?P<name>[a-z0-9][\w -]{1,30}?)\s+(?:count(?:s|ed)?|are\s+counted|is\s+counted)\s+as\s+(?:1|one|a|single)\s+(?:single\s+)?(?:st\b|stitch)", re.I)
_FIRST_OF = Lazy(rf"\bfirst\s+(?P<n>\d|{CARDINAL_PATTERN})\s*(?:ch(?:ain)?s?\s+)?of\s+(?:the|these|this|each|every)\b", re.I)
_OF_BLOCK = Lazy(r"\bch(?:ain)?[ -]?\d(?:[ -]?(?:sp|space))?\s+(?:of|in)\s+(?:an?|each|every)\s+(?:new\s+)?(?P<word>[a-z]{3,20})(?=\s+(?:counts?|is|stands?|always|also)\b|\s*$)", re.I)
_NO_BLOCK = frozenset(("row", "round", "rnd", "repeat", "stitch", "cluster", "shell", "group", "fan", "chain", "space", "corner", "ring", "turn", "pattern", "motif", "row's", "bobble", "popcorn", "puff", "picot", "hexagon", "side", "new", "beginning", "following", "next", "first", "row"))
_RING = Lazy(r"(?:round|rnd|row|it)\s+is\s+worked\s+(?:over|into|in|around)\s+(?:the|a)\s+ring|(?:first\s+(?:round|rnd|row)|(?:round|rnd|row)\s+1)\b[^.]{0,40}\b(?:into|in)\s+(?:the|a)\s+(?:\w+\s+)?ring", re.I)
_NEXT_ROW = Lazy(r"next\s+(?:row|round|rnd)\b[^.]{0,60}?\b(?:as|like|same as)\s+(?:row|round|rnd)\s+(?P<n>\d{1,5})", re.I)
_ROWS_OF = Lazy(r"\b(?P<stitch>sc|hdc|dc|tr|dtr|htr)\s+(?:rows?|rounds?|rnds?)\b|(?:rows?|rounds?|rnds?)\s+of\s+(?P<other>sc|hdc|dc|tr|dtr|htr)\b", re.I)


_PARTED = Lazy(r";|\.\s+(?=ch(?:ain)?s?[ -]?\d)")  # "... in same place. ch3 counts as 1tr": a sentence in small letters
_SETTLES = Lazy(
    rf"[\s*_(–-]*(?:(?:the|all|each|every|any|nb\.?|note:?)\s+)*(?:beginning\s+|turning\s+|starting\s+|initial\s+)*{_CHAIN_FREE}\s*(?:sts?\s+|stitch(?:es)?\s+|(?:turning|beginning|starting|initial)\s+(?:ch(?:ain)?s?\b\s*)?)?(?:\((?:US|UK)[^()]{{0,20}}\)\s*)?"
    r"(?:(?:at|on|in|to|made|worked|of|for|used|before|beginning|starting|start|when|which|that|from)\b[^.;:*]{2,90}?\s)?(?:always\s+|also\s+|never\s+|(?:do(?:es)?|is|are|will)\s+(?:not|n't|always)?\s*)*(?:be\s+)?(?:counts?|counted|stands?|replaces?|considered|serves?|don't|doesn't|isn't|(?:an?\s+|one\s+)?st(?:itch)?(?=\s*(?:[.,;:]|$)))\b", re.I
)


def settles_something(work: str, start: int, end: int) -> bool:
    """True for a sentence of its own that says what a chain counts as ("Ch 3 at the beginning of a row counts as ..."): no row."""
    return any(_SETTLES.match(work, first, last) for first, last in sentences(work, start, end))


def read_notes(work: str, start: int, end: int, find) -> list[tree.Convention]:
    """The conventions in [start, end) of the cleaned text. `find(words)` gives the catalogue id of a stitch name or None."""
    found: list[tree.Convention] = []
    for first, last in sentences(work, start, end):
        for begin, stop in _clauses(work, first, last):
            if stop - begin < 600:
                as_well = _NEITHER.match(work, begin, stop) if found else None
                if as_well and found[-1].says is not None:  # "ch 1 does not count as a st; neither does the ch 2"
                    found.append(tree.Convention(found[-1].kind, chains=_chain_number(as_well), says=found[-1].says, span=Span(begin, stop)))
                    continue
                found.extend(_sentence(work[begin:stop], Span(begin, stop), find))
    return found


def _clauses(work: str, start: int, end: int):
    """The parts of a sentence between semicolons, and those that speak of another chain ("ch 3 counts as dc and ch 1 does not")."""
    begin = start
    cuts = [(found.start(), found.end()) for found in _PARTED.finditer(work, start, end)]
    cuts += [found.span() for found in _CLAUSE.finditer(work, start, end)]
    for stop, after in sorted(cuts):
        yield begin, stop
        begin = after
    yield begin, end


def _sentence(words: str, span: Span, find) -> list[tree.Convention]:
    words = _IS_NONE.sub("does not count as ", _DOTTED.sub("", words.strip(" .")))
    made: list[tree.Convention] = []
    if re.match(r"count\s+(?:the\s+|all\s+|each\s+|every\s+)?ch(?:ain)?(?:s|\s+sts?|\s+stitches)?\s+as\b", words, re.I):
        return [tree.Convention("chains", says=tree.Counts(True, onward=True, span=span), span=span)]
    if _REPEAT.search(words):
        value = "more" if re.search(r"\b(?:more|further|additional|again|after the first)\b", words, re.I) else "total" if re.search(r"\b(?:in all|in total|total|altogether)\b", words, re.I) else ""
        return [tree.Convention("repeat", value=value, span=span)] if value else []
    first = _FIRST_IS.search(words)
    if first:
        kind = _CLUSTER_IDS[first["group"].lower()]
        return [tree.Convention("cluster", chains=_chain_number(first), stitch=kind, says=tree.Counts(True, kind, onward=True, span=span), value=kind, span=span)]
    counts = _COUNTS.search(words)
    if counts:
        made = _counting(words, counts, span, find)
        if made:
            if re.search(r"\b(?:unless|except)\b", words, re.I):
                for convention in made:
                    convention.value = convention.value or "unless"
            return made
    if _RING.search(words):
        made.append(tree.Convention("start", value="ring", span=span))
    where = _START.search(words)
    if where and not made:
        value = _place_of_start(where["where"])
        if value:
            made.append(tree.Convention("start", value=value, span=span))
    following = _NEXT_ROW.search(words)
    if following:
        made.append(tree.Convention("next row", value=following["n"], span=span))
    if _SPIRAL.search(words) and re.search(r"rounds?|rnds?|spiral|coil|join", words, re.I) and not re.search(r"yarn|colou?r|last|fasten", words, re.I):
        made.append(tree.Convention("join", value="spiral", span=span))
    elif _JOINED.search(words) and re.search(r"rounds?|rnds?", words, re.I) and not counts:
        made.append(tree.Convention("join", value="joined", span=span))
    if _NO_TURN.search(words):
        made.append(tree.Convention("turn", value="no", span=span))
    elif _TURN.search(words) and not _CHAIN_IN.search(words):
        made.append(tree.Convention("turn", value="yes", span=span))
    return made


def _place_of_start(where: str) -> str:
    if re.search(r"corner", where, re.I):
        return "corner"
    if re.search(r"middle|center|centre|side", where, re.I):
        return "side"
    if re.search(r"first\s+[\w -]{0,12}(?:sp\b|space|loop|lp\b)", where, re.I):
        return "first sp"
    if re.search(r"\b(?:sp|space|loop|lp)\b", where, re.I):
        return "space"
    return ""


def _counting(words: str, counts: re.Match, span: Span, find) -> list[tree.Convention]:
    """ "Ch 3 counts as a dc", "the 2 skipped ch do not count", "each ch-3 space counts as 3 sts", "puffs count as one st"."""
    subject, said = words[: counts.start()], words[counts.end() :]
    yes = not counts["no"] and not re.search(r"\b(?:does|do)\s*n[o']t\b|\bnever\b|\bnot\s*$", subject, re.I)
    says = counts_of(said, yes, span, find)
    skipped = _SKIPPED.search(subject)
    if skipped:
        base = _BASE_FIRST.match(said)
        if base:
            says = counts_of(base["as"] + said[base.end():], yes, span, find)
        number = next((skipped[key] for key in "njmkh" if skipped[key]), None)
        return [tree.Convention("skipped", chains=number_of(number) if number else None, says=says, span=span)]
    if _SPACES_COUNT.search(words) or re.search(r"(?:space|sp|loop)s?\s*$", subject.strip(), re.I):
        chain = _CHAIN_IN.search(subject)
        return [tree.Convention("chains", chains=_chain_number(chain), says=says, span=span)]
    if _CHAINS_COUNT.search(words):
        return [tree.Convention("chains", says=says, span=span)]
    chain = _CHAIN_IN.search(subject)
    turning = _TURNING.search(subject)
    if not chain and not turning:
        return _counted(words, span, find)
    chains = _chain_number(chain)
    rows_of = _ROWS_OF.search(subject)
    stitch = find(rows_of["stitch"] or rows_of["other"]) if rows_of else None
    made: list[tree.Convention] = []
    group = _CLUSTER.search(said)
    besides = re.search(rf"{_CHAIN_FREE}\s*(?:and|\+|plus|&|,|with)\s*(?:the\s+|a\s+|\d+\s*)?[a-z]", subject, re.I)
    direct = says.kind is None or says.kind in _CLUSTER_IDS.values()
    if group and direct and yes and (besides or _MADE_AT_END.search(subject) or re.search(r"\bfirst\b", said)):
        kind = _CLUSTER_IDS.get(group[0].lower().rstrip("s"), "cl")
        made.append(tree.Convention("cluster", chains=chains, stitch=kind, says=says, value=kind, span=span))
        if _MADE_AT_END.search(subject):
            made.append(tree.Convention("end chain", chains=chains, says=says, span=span))
        return made
    if _MADE_AT_END.search(subject):
        return [tree.Convention("end chain", chains=chains, says=says, span=span)]
    part = _FIRST_OF.search(subject)
    if part and yes and isinstance(chains, int) and not says.chains:
        says.chains = max(0, chains - (number_of(part["n"]) or chains))  # "the first three of the 5 chain stand for a treble": two are a space
    of = _OF_BLOCK.search(subject)  # "the ch 3 of a tile"
    word = of["word"].lower() if of and of["word"].lower() not in _NO_BLOCK else ""
    value = "block" if word or re.search(r"\b(?:block|square)", subject, re.I) else ""
    made.append(tree.Convention("tch", chains=chains, stitch=stitch, says=says, value=value, span=span, word=word))
    further = re.search(r"\bstands?\s+for\s+(?:the\s+)?(?:first\s+)?(?P<name>[\w -]{2,30})", said, re.I)
    if further and says.kind is None:
        says.kind = _stitch_at(further["name"], find)[0]
    return made


def _counted(words: str, span: Span, find) -> list[tree.Convention]:
    found = _COUNTED.match(words)
    if not found:
        return []
    if re.fullmatch(r"(?:ch(?:ain)?s?)(?:\s+st(?:itche)?s?)?", found["name"], re.I):
        return [tree.Convention("chains", says=tree.Counts(True, onward=True, span=span), span=span)]
    kind = find(found["name"]) or find(found["name"].rstrip("s")) or _stitch_at(found["name"], find)[0]
    return [tree.Convention("counted", stitch=kind, value=kind or found["name"].lower(), span=span)]


def _chain_number(found: re.Match | None) -> int | None:
    if not found:
        return None
    return number_of(found["a"] or found["b"])


def counts_of(said: str, yes: bool, span: Span, find) -> tree.Counts:
    """What stands after "counts": as a stitch, as a dc, as dc and ch 2, as 3 sts."""
    says = tree.Counts(yes, onward=True, span=span)
    lead = _AS.match(said)
    rest = said[lead.end() :]
    number = re.match(rf"(?P<n>\d{{1,3}}|(?:{CARDINAL_PATTERN})(?![a-z]))\s*", rest, re.I)
    if number:
        says.stitches = number_of(number["n"]) or 1
        rest = rest[number.end() :]
    kind, length = _stitch_at(rest, find)
    says.kind = kind
    chain = _PLUS_CHAIN.match(rest[length:])
    if chain:
        says.chains = number_of(chain["a"] or chain["b"]) or 0
    elif _PLUS_ONE_CHAIN.match(rest[length:]):
        says.chains = 1
    return says


def _stitch_at(words: str, find) -> tuple[str | None, int]:
    """The stitch named at the start of `words` and how long its name is; (None, length) for "stitch", (None, 0) for nothing."""
    pieces = [(found.start(), found.end()) for found in re.finditer(r"[A-Za-z][A-Za-z'-]*\.?", words[:60])][:5]
    if not pieces or words[: pieces[0][0]].strip():
        return None, 0
    for count in range(len(pieces), 0, -1):
        if any(re.search(r"[^\s-]", words[pieces[i][1] : pieces[i + 1][0]]) for i in range(count - 1)):
            continue
        name = words[pieces[0][0] : pieces[count - 1][1]]
        kind = find(name) or (find(name[:-1]) if name.endswith("s") else None)
        if kind:
            return kind, pieces[count - 1][1]
    first = words[pieces[0][0] : pieces[0][1]].lower().rstrip(".")
    if first in ("st", "sts", "stitch", "stitches"):
        return None, pieces[0][1]
    return None, 0
