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
from .patterns import Lazy
from .sentences import sentences

MOST_STITCHES = 300

_N = rf"(?:\d{{1,2}}|{CARDINAL_PATTERN})"
_ENTRY = Lazy(
    r"[ \t*\"'-]*(?P<name>[A-Za-z0-9][\w'/+-]*(?:[ -][A-Za-z0-9][\w'/+-]*){0,5})\s*(?:[\(\[](?P<abbr>[^()\[\]\n]{1,40})[\)\]])?[\"'*]*\s*(?P<sep>=|:|—|–|-(?=\s)|\.?\s+(?:means|stands\s+for|signifies|denotes)(?:\s+(?:an?|the))?(?=\s))\s*(?=\S)"
)
_INLINE_ENTRY = Lazy(r"(?:^|[,;./|]\s+|\n\s*)(?=[A-Za-z][\w/()-]*(?:[ -][\w()]+){0,2}\s*(?:=|:|\s-\s|—)\s*\S)")
_CLOSED = Lazy(
    rf"(?P<n>{_N})[ -]*(?P<base>[a-z]{{2,6}}(?:\s+(?:crochets?|trebles?|double\s+crochets?|c))?)s?\b(?:\s+sts?)?\s*(?:(?:are\s+|all\s+)?(?:closed|worked|joined|crocheted|drawn|gathered|finished|pulled)\s*(?:off\s+)?together|tog(?:ether)?\b|cluster|cl\b|bobble|popcorn|puff)",
    re.I,
)
_KEPT = Lazy(rf"(?P<n>{_N})[ -]*(?P<base>[a-z]{{2,6}}(?:\s+crochets?)?)\b[^.]{{0,60}}?(?:(?:keep|hold|leav)ing\s+(?:the\s+)?last\s+(?:loop|lp)|closed\s+(?:through|with|by|in)|(?:drop|remove|withdraw|take)\s+(?:the\s+)?(?:loop|lp|hook))", re.I)
_THAT_IS = Lazy(r",?\s+(?:that\s+is(?:\s+to\s+say)?|i\.e\.?|meaning|in\s+other\s+words),?\s+(?:an?\s+)?(?P<rest>[a-z][a-z ]{1,40})$", re.I)
_SPACES = frozenset(("sp", "sps", "space", "spaces"))
_CHAIN_SPACE = Lazy(r"\bch(?:ain)?s?[ -]?\d?[ -]?sps?\b|\d[ -]?ch[ -]?sps?\b", re.I)
_NAME = Lazy(r"[A-Za-z]|\d+[A-Za-z]+(?!\w)|\d+[ -]+[A-Za-z]")
_POPCORN = Lazy(r"closed?\s+(?:through|in|with)\s+(?:the\s+)?first|(?:drop|remove|withdraw|take out)\s+(?:the\s+)?(?:loop|lp|hook|your hook)|insert\s+hook\s+(?:from\s+front\s+to\s+back\s+)?(?:in|into|through)\s+(?:the\s+)?(?:top\s+of\s+(?:the\s+)?)?first", re.I)
_TOG_IN_ONE = Lazy(r"\b(?P<base>[a-z]{2,4}?)(?P<n>\d)tog\b[^.;]*\b(?:in|into)\s+(?:one|the\s+same|same|a\s+single|next)\s+(?:st|sp|place|loop|ch)", re.I)
_BEGUN = Lazy(r"\s*\(?(?:ch|chain)\s*-?\d\s*,?\s*(?:and|,|then|\+)?\s*(?:(?P<base>[a-z]{2,3}?)(?P<n>\d)tog|(?P<m>\d)\s*(?P<base2>[a-z]{2,3})\s*(?:tog|closed together|together))\b", re.I)
_OVER = Lazy(r"\b(?:over|across|in)\s+(?:the\s+)?(?:next|each\s+of\s+(?:the\s+)?next)\s+(?P<n>\d{1,2}|two|three|four|five|six)\b", re.I)
_LOOPS = Lazy(r"(?:all|through|thru)\s+(?:the\s+)?(?P<n>\d{1,2}|CARD)\s+(?:loops?|lps?)|(?P<m>\d{1,2}|CARD)\s+(?:loops?|lps?)\s+(?:\w+\s+){0,2}?on\s+(?:the\s+)?hook".replace("CARD", CARDINAL_PATTERN), re.I)
_TIMES = Lazy(rf"(?P<n>{_N})\s*(?P<more>more\s+)?times|(?P<word>twice|once)(?P<more2>\s+more)?", re.I)
_YARN_OVER = Lazy(r"^\W*(?:\(|\[|\*)?\s*(?:yo|yoh|yrh|yarn\s+over(?:\s+hook)?|yarn\s+round\s+hook|wrap\s+yarn)\s*(?P<twice>twice|two\s+times)?", re.I)
_KIND_WORDS = (("popcorn", "popcorn"), ("pop", "popcorn"), ("pc", "popcorn"), ("bobble", "bobble"), ("puff", "puff"), ("cluster", "cl"), ("cl", "cl"))
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
        spans = [part for first, last in sentences(work, start, end) for part in _between_semicolons(work, first, last)]
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


def _between_semicolons(work: str, start: int, end: int):
    """A sentence cut at semicolons that a further definition follows."""
    begin = start
    for found in re.compile(r";\s*").finditer(work, start, end):
        entry = _ENTRY.match(work, found.end(), end)
        if entry and _is_definition(entry, work, end, "notes"):
            yield begin, found.start()
            begin = found.end()
    yield begin, end


def _is_definition(found: re.Match, work: str, last: int, section: str) -> bool:
    words = found["name"].lower().split()
    if words[0] in _GENERAL and len(words) == 1 and words[0] not in ("inc", "dec"):
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
    if known and known.endswith("tog") and not re.search(r"\b(?:same|one)\s+(?:st|sp|place)", words, re.I):
        return None  # "dc3tog = 3 dc closed together over 3 sts" says what it is in any case
    if (known == "picot" or "picot" in name.lower().split()) and re.match(r"\s*\(?\s*(?:ch|chain)\s*-?\d|\s*\d\s*ch", words, re.I) and re.search(r"sl\s*st|slip|ss\b|\bsc\b|\bdc\b", words, re.I):
        own.kind, own.steps = "picot", [tree.Stitch("picot")]
        return own
    of_legs = re.match(rf"\s*(?:an?\s+)?(?P<name>[a-z][a-z -]{{1,20}}?)\s+(?:of|with)\s+(?P<n>{_N})\s+(?P<what>loops?|legs?|yarn\s+overs?|[a-z]{{2,4}})\b", words, re.I)
    if of_legs and _leg_kind(of_legs["name"]):
        own.kind, own.legs = _leg_kind(of_legs["name"]), number_of(of_legs["n"])
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
    if _made_of_legs(own, words, known, lexicon):
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
        if kind and kind != "ch" and re.match(r"\s*(?:[:=]|—|-\s|\()", words[found.end() :]):
            return kind, found.end(), found[1].strip()
    return None


def _only_alias(own: tree.OwnStitch, kind: str, known: str | None, spellings, find) -> tree.OwnStitch | None:
    """ "trc = treble": worth keeping only where the dialect does not say so already."""
    if known == kind and all(find(spelling) == kind for spelling in spellings):
        return None
    if own.name.lower() in _GENERAL and own.name.lower() not in ("inc", "dec"):
        return None
    own.kind = kind
    own.steps = [tree.Stitch(kind)]
    return own


def _made_of_legs(own: tree.OwnStitch, words: str, known: str | None, lexicon) -> bool:
    """Bobbles, clusters, popcorns and puffs: kind, legs and their stitch. False where it is none of them."""
    find = lexicon.dialect.find
    kind = _leg_kind(own.name) or _leg_kind(" ".join(own.spellings)) or (own.kind if own.kind in ("bobble", "cl", "popcorn", "puff") else "")
    tog = _TOG_IN_ONE.search(words)
    if tog and find(tog["base"]):
        own.kind, own.legs, own.base = kind or "cl", number_of(tog["n"]), find(tog["base"])
        own.steps = [tree.Stitch(own.kind, legs=own.legs, base=own.base)]
        return True
    begun = _BEGUN.match(words) if kind else None
    if begun and (find(begun["base"] or begun["base2"])):
        own.kind, own.base = kind, find(begun["base"] or begun["base2"])
        own.legs = (number_of(begun["n"] or begun["m"]) or 0) + 1  # the chain stands for the first leg
        own.steps = [tree.Stitch(kind, legs=own.legs, base=own.base)]
        return True
    closed = _CLOSED.search(words) or _KEPT.search(words)
    if closed and re.match(r"\s*[\(\[*]", words) and not kind and not re.search(r"tog|closed|last l", words, re.I):
        closed = None
    legs = base = None
    if closed:
        base = find(closed["base"]) or find(closed["base"].rstrip("s")) or find(closed["base"].split()[0])
        legs = number_of(closed["n"])
        if base is None or base in ("ch", "slst"):
            closed = None
    if closed is None and kind:
        legs, base = _from_loops(words, kind)
        if legs is None:
            leading = re.match(rf"\s*(?:work\s+|make\s+)?(?P<n>{_N})[ -]*(?P<base>[a-z]{{2,6}}(?:\s+crochets?)?)\b", words, re.I)
            base = find(leading["base"]) if leading else None
            legs = number_of(leading["n"]) if base else None
            if base is None and (known or own.kind):
                own.kind = own.kind or kind
                return not re.match(r"\s*[\(\[\d]", words)
            if base is None:
                return False
            if re.search(r"same|one (?:st|place|sp)", words, re.I) and kind == "cl" and not re.search(r"tog|closed|last l|joined", words, re.I):
                return False  # a "cluster" of stitches not joined at the top is a group
    if legs is None or base is None:
        return False
    over = _OVER.search(words)
    if over and not kind and number_of(over["n"]) == legs and not re.search(r"same (?:st|sp)", words, re.I):
        own.kind, own.takes, own.steps = f"{base}{legs}tog", legs, [tree.Stitch(f"{base}{legs}tog")]
        return True
    if not kind:
        kind = "popcorn" if _POPCORN.search(words) else "cl"
    own.kind, own.legs, own.base = kind, legs, base
    own.steps = [tree.Stitch(kind, legs=legs, base=base)]
    return True


def _leg_kind(name: str) -> str:
    for word in re.split(r"[\s-]+", name.lower()):
        for start, kind in _KIND_WORDS:
            if word == start or (len(start) > 3 and word.startswith(start)):
                return kind
    return ""


def _from_loops(words: str, kind: str) -> tuple[int | None, str | None]:
    """Legs from a description by loops: a 5-leg bobble draws through 6 loops (trade arithmetic: one loop a leg and the one before)."""
    loops = [number_of(found["n"] or found["m"]) for found in _LOOPS.finditer(words)]
    loops = [number for number in loops if number]
    yarn_over = _YARN_OVER.match(words)
    base = "hdc" if kind == "puff" else "tr" if yarn_over and yarn_over["twice"] else "dc" if yarn_over else None
    if base is None or not (loops or _TIMES.search(words)):
        return None, None
    if loops:
        most = max(loops)
        legs = (most - 1) // 2 if kind == "puff" else most - 1
        if legs > 1:
            return legs, base
    times = [found for found in _TIMES.finditer(words) if not yarn_over or found.start() >= yarn_over.end()]
    if times:
        found = times[-1]
        number = number_of(found["n"] or found["word"]) or 0
        legs = number + 1 if (found["more"] or found["more2"]) else number
        if legs > 1:
            return legs, base
    return None, None


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
    if section == "abbreviations" and known or all(isinstance(step, tree.Ring) for step in steps):
        return None  # "KA - amigurumi ring" is a word for the ring and no stitch
    group = _one_place(steps)
    if group is None and len(steps) == 1 and isinstance(steps[0], tree.Either):  # of two readings, the one that goes into one place
        group = next((found for found in map(_one_place, steps[0].readings) if found is not None), None)
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
    if isinstance(step, tree.Group):
        return step.steps
    if isinstance(step, tree.Repeat) and step.times in (None, 1) and step.extent is None:
        return step.steps
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
