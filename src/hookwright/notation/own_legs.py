"""What her own stitch is made of where its legs are closed together: bobbles, clusters, popcorns, puffs, and stitches worked together."""

import re

from hookwright.stitches import stitch

from . import tree
from .number_words import CARDINAL_PATTERN, number_of
from .patterns import Lazy

_N = rf"(?:\d{{1,2}}|{CARDINAL_PATTERN})"
_CLOSED = Lazy(
    rf"(?P<n>{_N})[ -]*(?P<base>[a-z]{{2,6}}(?:\s+(?:crochets?|trebles?|double\s+crochets?|c))?)s?\b(?:\s+sts?)?\s*(?:(?:are\s+|all\s+)?(?:closed|worked|joined|crocheted|drawn|gathered|finished|pulled)\s*(?:off\s+)?together|tog(?:ether)?\b|cluster|cl\b|bobble|popcorn|puff)",
    re.I,
)
_KEPT = Lazy(rf"(?P<n>{_N})[ -]*(?P<base>[a-z]{{2,6}}(?:\s+crochets?)?)\b[^.]{{0,60}}?(?:(?:keep|hold|leav)ing\s+(?:the\s+)?last\s+(?:loop|lp)|closed\s+(?:through|with|by|in)|(?:drop|remove|withdraw|take)\s+(?:the\s+)?(?:loop|lp|hook))", re.I)
_POPCORN = Lazy(r"closed?\s+(?:through|in|with)\s+(?:the\s+)?first|(?:drop|remove|withdraw|take out)\s+(?:the\s+)?(?:loop|lp|hook|your hook)|insert\s+hook\s+(?:from\s+front\s+to\s+back\s+)?(?:in|into|through)\s+(?:the\s+)?(?:top\s+of\s+(?:the\s+)?)?first", re.I)
_TOG_IN_ONE = Lazy(r"\b(?P<base>[a-z]{2,4}?)(?P<n>\d)tog\b[^.;]*\b(?:in|into)\s+(?:one|the\s+same|same|a\s+single|next)\s+(?:st|sp|place|loop|ch)", re.I)
_STITCHES_TOG = Lazy(rf"\s*(?:(?:work|make|do|crochet)\s+)?(?:(?P<base>[a-z]{{2,3}}|single crochet|(?:half )?(?:double|treble)(?: crochet)?|dc|tr)\s+)?(?:(?:the|over|across)\s+)*(?:next\s+)?(?P<n>{_N})\s+(?:sts?|stitches|loops)\s+tog(?:ether)?\b", re.I)
_BEGUN = Lazy(r"\s*\(?(?:ch|chain)\s*-?\d\s*,?\s*(?:and|,|then|\+)?\s*(?:(?P<base>[a-z]{2,3}?)(?P<n>\d)tog|(?P<m>\d)\s*(?P<base2>[a-z]{2,3})\s*(?:tog|closed together|together))\b", re.I)
_OVER = Lazy(r"\b(?:over|across|in)\s+(?:the\s+)?(?:next|each\s+of\s+(?:the\s+)?next)\s+(?P<n>\d{1,2}|two|three|four|five|six)\b", re.I)
_LOOPS = Lazy(r"(?:all|through|thru)\s+(?:the\s+)?(?P<n>\d{1,2}|CARD)\s+(?:loops?|lps?)|(?P<m>\d{1,2}|CARD)\s+(?:loops?|lps?)\s+(?:\w+\s+){0,2}?on\s+(?:the\s+)?hook".replace("CARD", CARDINAL_PATTERN), re.I)
_TIMES = Lazy(rf"(?P<n>{_N})\s*(?P<more>more\s+)?times|(?P<word>twice|once)(?P<more2>\s+more)?", re.I)
_YARN_OVER = Lazy(r"^\W*(?:\(|\[|\*)?\s*(?:yo|yoh|yrh|yarn\s+over(?:\s+hook)?|yarn\s+round\s+hook|wrap\s+yarn)\s*(?P<twice>twice|two\s+times)?", re.I)
_KIND_WORDS = (("popcorn", "popcorn"), ("pop", "popcorn"), ("pc", "popcorn"), ("bobble", "bobble"), ("puff", "puff"), ("cluster", "cl"), ("cl", "cl"))


def made_of_legs(own: tree.OwnStitch, words: str, known: str | None, lexicon) -> bool:
    """Bobbles, clusters, popcorns and puffs: kind, legs and their stitch. False where it is none of them."""
    find = lexicon.dialect.find
    kind = leg_kind(own.name) or leg_kind(" ".join(own.spellings)) or (own.kind if own.kind in ("bobble", "cl", "popcorn", "puff") else "")
    tog = _TOG_IN_ONE.search(words)
    if tog and find(tog["base"]):
        own.kind, own.legs, own.base = kind or "cl", number_of(tog["n"]), find(tog["base"])
        own.steps = [tree.Stitch(own.kind, legs=own.legs, base=own.base)]
        return True
    two = _STITCHES_TOG.match(words) if not kind else None
    of = two and (find(two["base"] or "") or (known if known in ("dec", "invdec") else own.kind if own.kind in ("dec", "invdec") else None))
    together = of and (of if of in ("dec", "invdec") else f"{of}{number_of(two['n'])}tog")
    if together and stitch(together) is not None:  # "dec = sc 2 sts together"
        own.kind, own.takes, own.steps = together, number_of(two["n"]) or 2, [tree.Stitch(together)]
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
    if not kind and (own.kind or known or "") in ("", "dec", "invdec") and find(f"{base}{legs}tog") and not _POPCORN.search(words) \
            and (known or own.kind or base == "sc" or legs == 2) and not re.search(r"\b(?:same|one|a\s+single)\s+(?:st|sp|place|ch|loop)|\b(?:in|into)\s+(?:the\s+)?(?:next|a)\s+(?:st|sp)", words, re.I):
        own.kind, own.takes, own.steps = f"{base}{legs}tog", legs, [tree.Stitch(f"{base}{legs}tog")]  # "A = 2 sc together"
        return True
    if not kind:
        kind = "popcorn" if _POPCORN.search(words) else "cl"
    own.kind, own.legs, own.base = kind, legs, base
    own.steps = [tree.Stitch(kind, legs=legs, base=base)]
    return True


def leg_kind(name: str) -> str:
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
