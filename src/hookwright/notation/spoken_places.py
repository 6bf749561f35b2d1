"""Spoken ways to say where stitches go, put into the plain words, letter for letter: "and one more dc in the last st" is "and 1 dc in same st".

As in spoken_turns: what is written is filled up with blanks to the length of what was said. `plain_places` is called for the words of one row.
"""

import re

from .patterns import Lazy

_ST = r"(?:half[\s-]+(?:double|treble)(?:[\s-]+crochets?)?|(?:single|double|treble|triple)(?:[\s-]+crochets?)?|trebles?|sc|hdc|dc|htr|tr|dtr)(?![a-z])"
_PUT = r"(?:work|pop|put|add|make|place|squeeze|tuck|do|stick|throw|fit|sneak|slip|drop|pack|squash|cram)"
_MORE = rf"(?:(?:another|(?:one|1|a|an)\s+(?:more|extra|further|second|additional)|a\s+second)\s+(?P<stitch>{_ST}|one(?![a-z]))|(?:(?:one|1)\s+)(?P<after>{_ST})\s+(?:more|extra)|(?P<first>{_ST})\s+(?:1|one)\s+(?:more|extra)|(?P<bare>one\s+more|another)(?=\s+in))"
# "and pop another dc in the last st": that stitch holds one by then
_ONE_MORE = Lazy(
    rf"(?P<lead>(?:^|[,;]|\band|\bthen|\bwith|\bplus)\s+)(?P<verb>(?:{_PUT}\s+)?){_MORE}\s+(?:all\s+)?(?:in(?:to)?\s+(?:the\s+|that\s+)?(?:very\s+)?(?:last|final|end|(?P<same>same))\s*(?:stitch|st|spot|place|one|sp(?:ace)?|{_ST})(?![a-z])|(?P<there>in\s+there(?![a-z])))", re.I
)
_NOT_YET = Lazy(r"(?:to|until|till|before|for)\s+(?:the\s+)?last|(?:remain|left)\w*[\s,;]*$", re.I)
_IN_LAST = Lazy(r"\bin(?:to)?\s+(?:the\s+)?(?:last|final|end|that|it)\b", re.I)
_IN_PUT = Lazy(rf"(?P<place>\bin(?:to)?\s+(?:the\s+|that\s+|your\s+)?(?:next|each|every|same|first|last|corner|centre|center|middle|\d)\b[^.,;:()*]{{0,30}}?)\s+(?:(?:you|we|i)\s+)?(?P<verb>place|put|goes|go|comes|come)\s+(?=(?:an?|one|two|three|four|\d+)\s+{_ST}|{_ST}|[(\[])", re.I)
_NEXT_GETS = Lazy(rf"(?:(?<=^)|(?<=[.:;,]))\s*(?:and\s+|then\s+)?(?:the\s+)?(?P<place>(?:next|first|last|corner|centre|center|middle)\s+(?:(?:ch|chain)-?\s?\d?\s*)?(?:corner\s+)?(?:stitch|st|space|sp|loop|lp|gap|{_ST}))\s+(?:gets|takes|receives|has)\s+(?=(?:an?|one|two|three|four|\d+)\s+{_ST}|{_ST}|[(\[])", re.I)
_TUCKED = Lazy(rf"\b(?:tuck|squeeze|squash|cram|fit|nestle)\s+(?=(?:an?|one|two|three|four|five|\d+)\s+{_ST})", re.I)
_FINISHED = Lazy(r"(?P<place>\bin(?:to)?\s+(?:the\s+)?(?:same|last|final|first|top)\s+[^.,;:()*]{0,24}?)\s+to\s+(?:finish|close|complete)(?:\s+(?:off|up|it))?(?:\s+the\s+(?:row|round|rnd))?(?=\s*(?:[.,;(]|$|\band\b))", re.I)
_THATS_A = Lazy(r"\s*[:,–—-]\s*(?:(?:and|so)\s+)?(?:that|this|it)(?:'s|\s+is|\s+makes|\s+gives\s+you)\s+(?:an?|one|your|the)\s+(?:whole\s+|full\s+)?(?P<shape>shell|fan|cluster|v-?st(?:itch)?|bobble|puff)(?:\s+(?:made|done|stitch))?(?:(?=\s*[.,;)])|\s*[–—-](?=\s))", re.I)
_SAME_IN = Lazy(r"(?P<lead>\bin(?:to)?\s+)(?:the\s+)?same\s+(?:place|stitch|st|spot)\s+(?=in(?:to)?\s)", re.I)  # "3 dc in same place in the 2nd ch"
_LAST_CH_CLOSES = Lazy(r",?\s*(?:(?:and|but)\s+)?(?:the\s+)?last\s+(?:ch(?:ain)?\s*-?\s*\d+|\d+\s*ch|arch|loop|arc)\s+(?:closes|is\s+closed|ends|joins|is\s+joined)\s+(?:with|by)\s+(?:an?\s+)?(?P<join>(?:sl\s?st|slip\s?stitch|ss)\s+(?:in|into|to|on)\s+(?:the\s+)?first\s+(?P<st>\w+))", re.I)
_TIP = Lazy(r"(?P<lead>\b(?:in|into|to|at)\s+)(?:the\s+)?(?P<next>(?:next|each|every|same)\s+)?tip(?![a-z])", re.I)
_HANDLE = Lazy(r"(?P<lead>\bin(?:to)?\s+)(?P<which>each|every|the\s+next|next|the)\s+(?:handles?|straps?|(?:button|thumb|arm|leg|ear|neck|tail)[\s-]?holes?)(?:\s+(?:thing(?:y|ie)?|bit))?(?:\s+(?:ch(?:ain)?s?|loop|space|sp))?(?![a-z])", re.I)
_SLIP_UP_TO = Lazy(r"\bslip\s+(?:stitch\s+)?(?:up\s?to|along\s+to|over\s+to)(?=\s)", re.I)
_AFTER_IT = Lazy(rf"(?P<place>\b(?:each|every)\s+(?:stitch|st|{_ST}))\s+(?:that\s+comes\s+)?(?:after|following|beyond)\s+(?:it|that|this)(?:\s+one)?(?![a-z])", re.I)
_TURNING_WITH = Lazy(r"(?:\b(?:always|and)\s+)?\bturn(?:ing)?\s+(?:(?:each|every)\s+(?:row|time)\s+)?with\s+(?:an?\s+)?ch(?:ain)?\s*-?(?P<n>[1-4])\b(?!\s*(?:sp|loop|lp))", re.I)
_ALWAYS_ENDING = Lazy(r"\b(?:always\s+(?:(?:end|finish|turn|begin|start)ing\s+)?(?:(?:each|every)\s+(?:row|round|rnd)\s+)?|(?:end|finish|begin|start)ing\s+(?:each|every|all)\s+(?:row|round|rnd)s?\s+)(?:with\s+|by\s+)?(?:an?\s+)?(?=ch(?:ain)?\s*-?\d)", re.I)
_THESE_ROWS = Lazy(r"(?:(?<=^)|(?<=work ))\s*(?:(?:work\s+)?(?:these|all|both|the)\s+(?:\w+\s+)?(?:rows|rounds|rnds)|(?P<all>all))\s+(?:are\s+(?:worked\s+)?)?in\s+(?=(?:plain\s+)?(?:sc|dc|hdc|htr|tr|single|double|half|treble)\b)", re.I)


def plain_places(words: str, low: str) -> str:
    """`words` of a row with such turns made plain; as long as before. low: the same in small letters, in which is looked for what may be there."""
    if " last" in low or " final" in low or " end " in low or " same" in low or "in there" in low:
        if "more" in low or "another" in low or "extra" in low or "second " in low or "further" in low or "additional" in low:
            words = _ONE_MORE.sub(_one_more, words)
    if " place " in low or " put " in low or " goes " in low or " comes " in low:
        words = _IN_PUT.sub(lambda found: f"{found['place']},".ljust(len(found[0])), words)
    if " gets " in low or " takes " in low or " receives " in low or " has " in low:
        words = _NEXT_GETS.sub(lambda found: f" in {found['place']}, ".ljust(len(found[0])) if len(found["place"]) + 6 <= len(found[0]) else found[0], words)
    if "tuck" in low or "squ" in low or "cram" in low or "fit " in low or "nestle" in low:
        words = _TUCKED.sub(lambda found: " " * len(found[0]), words)
    if ("s a " in low or "s one " in low or "s your " in low or "s the " in low) and ("that" in low or "this" in low or "it" in low):
        words = _THATS_A.sub(lambda found: f" ({found['shape']} made),"[: 14 + len(found["shape"])].ljust(len(found[0])) if len(found["shape"]) + 9 <= len(found[0]) else found[0], words)
    if "same " in low and " in" in low:
        words = _SAME_IN.sub(lambda found: " " * len(found[0]), words)
    if "last " in low and ("close" in low or " join" in low or " ends " in low):
        words = _LAST_CH_CLOSES.sub(lambda found: f", ending with {found['join']} instead of last {found['st']}".ljust(len(found[0])) if len(found["join"]) + len(found["st"]) + 30 <= len(found[0]) else found[0], words)
    if " tip" in low and ("to " in low or "in " in low or "at " in low):
        words = _TIP.sub(_peak, words)
    if "handle" in low or "strap" in low or "hole" in low:
        words = _HANDLE.sub(lambda found: f"{found['lead']}{found['which']} sp".ljust(len(found[0])), words)
    if "slip " in low and ("to " in low):
        words = _SLIP_UP_TO.sub(lambda found: "sl st to".ljust(len(found[0])), words)
    if "after it" in low or "after th" in low or "following it" in low:
        words = _AFTER_IT.sub(lambda found: found["place"].ljust(len(found[0])), words)
    if "turn" in low and " with " in low:
        words = _TURNING_WITH.sub(lambda found: f"ch {found['n']}, turn".ljust(len(found[0])), words)
    if ("always" in low or "ing each" in low or "ing every" in low or "ing all" in low) and "ch" in low:
        words = _ALWAYS_ENDING.sub(lambda found: " " * len(found[0]), words)
    if "s in " in low or "all in " in low[:10]:
        words = _THESE_ROWS.sub(lambda found: ("even" if found["all"] else "in").rjust(len(found[0]) - 1) + " ", words)
    if "to finish" in low or "to close" in low or "to complete" in low:
        words = _FINISHED.sub(lambda found: found["place"].ljust(len(found[0])), words)
    return words


def _peak(found) -> str:
    lead = found["lead"] + (found["next"] or "")
    if len(lead) + 4 > len(found[0]):
        lead = found["lead"]  # "in next tip": that it is the next goes without saying
    return lead.ljust(len(found[0]) - 4) + "peak" if len(lead) + 4 <= len(found[0]) else found[0]


def _one_more(found) -> str:
    before = found.string[max(0, found.start() - 60) : found.start()]
    not_yet = _NOT_YET.search(before) if not found["same"] and not found["there"] else None
    if found["same"] and not found["verb"]:
        return found[0]
    if not_yet and not _IN_LAST.search(before, not_yet.end()):
        return found[0]
    stitch = found["stitch"] or found["after"] or found["first"] or ""
    if stitch.lower() == "one" or found["bare"]:
        earlier = list(re.finditer(_ST, found.string[: found.start()], re.I))
        stitch = earlier[-1][0] if earlier else ""
    plain = f"{found['lead'].lower().replace('with', ' and')}1 {stitch} in same st"
    return plain.ljust(len(found[0])) if stitch and len(plain) <= len(found[0]) else found[0]
