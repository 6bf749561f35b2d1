"""Turns of spoken language put into the plain words for them, letter for letter: "every space gets 3 tr" is "in every space, 3 tr".

Each turn is written out of its own words and filled up with blanks, so that every offset still holds; a turn whose plain words are longer than it
is left as it stands. `plain_turns` is called for the words of one row.
"""

import re

from .patterns import Lazy

_NUMBER = r"(?:an?|one|two|three|four|five|six|seven|eight|\d+)"
_STITCH = r"(?:(?:half[\s-]+)?(?:single|double|treble|triple)(?:[\s-]+crochets?)?|(?:half|double)[\s-]+trebles?|trebles?|slip[\s-]*stitch(?:es)?|sc|hdc|dc|htr|tr|dtr|increases?|decreases?|inc|dec)\b"
_PLACE = r"(?:(?:ch(?:ain)?-?\s?\d\s+|\d-?ch(?:ain)?\s+|chain\s+|corner\s+)?(?:stitch|st|space|sp|loop|lp|gap|corner|hole|arch))"
_START = r"(?:the\s+(?:very\s+)?(?:start|beginning)(?:\s+of\s+the\s+(?:round|row))?|where\s+(?:you|we|u)\s+(?:started|began)|(?<=back\sto\s)(?:start|beginning)\b|(?<=back\sat\s)(?:start|beginning)\b)"
_END = r"(?:the\s+(?:very\s+)?end(?:\s+of\s+(?:the|your)\s+(?:row|round|chain))?)"
_BODY = r"(?:toes?|heels?|nose|cheeks?|tummy|belly|face|snout|forehead|neck|head|feet|foot|ankles?|thumb|knees?|elbows?|chest|muzzle|ears?|eyes?|hips?|shoulders?)"
_PARTS = ("toe", "heel", "nose", "cheek", "tummy", "belly", "face", "snout", "forehead", "neck", "head", "feet", "foot", "ankle", "thumb", "knee", "elbow", "chest", "muzzle", "ear", "eye", "hip", "shoulder")
_SHAPED = ("petal", "leaf", "shell", "fan", "scallop", "cluster")
_FIRST = r"(?:(?<=^)|(?<=[.:;,!—-])|(?<=\bso)|(?<=\btime))"

_ROUND_BACK = Lazy(rf"\b(?:until|till|'til|til)\s+(?:you|we|u)(?:'re|'ve|\s+are|\s+have)?(?:\s+(?:get|got|come|reach|reached|arrive|are|all\s+the\s+way|round|around|back|again|to|at))*\s+(?:{_START}|{_END})(?:\s+again)?|\b(?:until|till)\s+(?:you've|you\s+have|you)\s+(?:filled|done|worked(?:\s+in(?:to)?)?|gone\s+in(?:to)?|used)\s+(?:all|every)(?:\s+(?:of\s+)?(?:the|your))?(?:\s+(?:\d+|two|three|four|five|six|seven|eight|ten|twelve))?\s+{_PLACE}(?:s|es)?\b", re.I)
_GETS = Lazy(rf"{_FIRST}\s*(?P<place>(?:each|every)\s+(?:single\s+)?{_PLACE})\s+(?P<verb>gets|takes|receives|has|needs)(?:(?P<shape>(?:\s+(?:an?\s+(?:petal|leaf|shell|fan|scallop|cluster)|the\s+following|this))?\s*:)|\s+(?=(?:{_NUMBER}|{_STITCH}|[(\[])))", re.I)
_WHERE_YOU_ARE = Lazy(rf"(?P<in>\bin(?:to)?|\bto|\baround)\s+(?:the|this|that|whichever)\s+(?:very\s+)?(?P<place>{_PLACE})\s+(?:that\s+|where\s+)?(?:(?:you|we)(?:'re|\s+are|\s+find\s+yourself|\s+(?:have\s+)?(?:just\s+)?(?:joined|ended(?:\s+up)?|finished|landed|left\s+off)|'ve\s+(?:just\s+)?(?:joined|ended\s+up|finished|landed))|your\s+(?:hook|yarn)\s+is)(?:\s+(?:currently|now|already|just|sitting|standing|working|resting))*(?:\s+(?:in(?:to)?|on|at|from|to)(?=\s*(?:[,.;:)(-]|and\b|then\b|$))|(?=\s*[,.;:)(]))", re.I)
_ALL_OTHERS = Lazy(rf"(?P<comma>[,;.:]\s*|\band\s+)(?P<every>every|each)\s+other\s+{_PLACE}\s+(?:just\s+|only\s+|simply\s+)?(?:gets|takes|receives|has)(?:\s+(?:just|only))?\s+(?:an?|one|1)\s+(?P<what>{_STITCH})", re.I)
_THAT_ONE_GETS = Lazy(rf"(?:\band\s+)?(?:that|this|the|which)(?:\s+(?:very\s+)?(?:last|final))?\s*(?:one|stitch|st)?\s+(?:just\s+|only\s+|simply\s+|also\s+)?(?:gets|takes|receives|has)\s+(?:just\s+)?(?=(?:{_NUMBER})\b)", re.I)
_THATS_THE_REPEAT = Lazy(r"(?:\band\s+)?(?:that's|that\s+is|this\s+is)\s+(?:(?:the\s+(?:bit|part|pattern|thing|sequence)\s+|what\s+)(?:that\s+)?(?:you|we)(?:'ll|\s+will|'re|\s+are)?(?:\s+(?:just|then|going\s+to|gonna))*\s+(?:keep\s+)?repeat(?:ing)?|(?:your|our|the)\s+(?:whole\s+)?repeat(?=\s+(?:all|across|around|round|to\s|until|till|the\s+whole|right)))|(?:\band\s+)(?:that|this|it)(?:\s+whole\s+(?:thing|bit|lot))?\s+(?:just\s+)?(?:repeats|gets\s+repeated|is\s+repeated)(?=\s+(?:all|around|round|across|to\s|until|till|the\s+whole|right|\d+\s+times|[a-z]{3,6}\s+times))", re.I)
_ROW_IS = Lazy(
    rf"^\s*(?:(?:so|and|now|then|okay|ok|right|alright|well|this\s+time|here|(?:for|on|in)\s+this\s+(?:round|row|one)),?\s+)*(?:it's|it\s+is|it'll\s+be|that's|that\s+is|this\s+(?:one|round|row)(?:'s|\s+is)|we've\s+got|we\s+have|you've\s+got|there's|there\s+are|we're\s+on\s+to|we're\s+back\s+to)\s+"
    rf"(?:just\s+|simply\s+|only\s+|all\s+|going\s+to\s+be\s+|gonna\s+be\s+|plain\s+)*(?=(?:{_NUMBER}\s+)?(?:{_STITCH}|singles?\b|doubles?\b|ch(?:ain)?\s*\d)[^.]*(?:,|\b(?:in|to|then|and|around|all|times|every|each)\b))",
    re.I,
)
_SINGLE = Lazy(r"(?<!every )(?<!each )\b(?:singles\b|single(?=\s+(?:in(?:to)?|each|all\s+a|around|across)\b|\s*[,;.)*]))", re.I)
_COUNT_THEM = Lazy(r"\s*[,;.!—-]\s*(?:so\s+)?count\s+(?:'em|them|those)(?:\s+(?:all|up|out|if\s+you\s+like))*(?=\s*(?:[.!,]|$))", re.I)
_IN_ALL = Lazy(r"(?:(?<=\d)|(?<=one)|(?<=two)|(?<=ree)|(?<=our)|(?<=ive)|(?<=six)|(?<=ven)|(?<=ght)|(?<=ine)|(?<=ten)|(?<=lve)|(?<=een)|(?<=nty)|(?<=rty)|(?<=incs)|(?<=decs)|(?<=creases))\s+in\s+all(?=\s*(?:[.,!;)]|$))", re.I)
_THATS_SO_MANY = Lazy(r"(?<=[.!;,—-]\s)(?:(?:so|and)\s+)*(?:that's|that\s+is|that\s+makes|this\s+makes|it\s+makes)(?:\s+(?:just|only|now))?\s+(?=(?:\d+|[a-z]{3,9}(?:-[a-z]{3,5})?)(?:\s+(?:in\s+)?(?:total|all|altogether))?\s*[.!]?\s*$)", re.I)
_WORKING_IN = Lazy(r"(?:\b(?:you|we)(?:'re|'ll\s+be|\s+are|\s+will\s+be)(?:\s+(?:all|just|only|now|going\s+to\s+be))*\s+working|\b(?:this|the\s+whole|this\s+whole)\s+(?:one|row|round|rnd)(?:'s|\s+is)(?:\s+(?:all|just|only))*\s+worked)\s+(?P<in>(?:only\s+)?(?:in|into|through)\s+(?:the\s+)?(?:back|front|third|both)\s+[a-z]+(?:\s+only)?)(?:\s+(?:this\s+time|here|now|again|for\s+this\s+(?:row|round|one)|on\s+this\s+(?:row|round|one)|all\s+the\s+way))?(?P<so>\s*,\s*so\b)?", re.I)
_PLAIN = Lazy(rf"\b(?P<n>{_NUMBER})\s+plain(?:\s+(?:stitch(?:es)?|sts?))?(?=\s*(?:[,;.)]|then\b|and\b|$))", re.I)
_AT_THE_SPACES = Lazy(r"(?:,\s*)?(?:\band\s+)?\b(?:when(?:ever)?|every\s+time|any\s+time|once|as)\s+(?:you|we)\s+(?:reach|get\s+to|come\s+to|hit|meet)\s+(?:(?:the|those)\s+(?P<many>[a-z0-9 -]{0,12}?(?:space|sp|loop|corner|gap|arche?))s|(?:each|every|an?|any)\s+(?P<one>[a-z0-9 -]{0,12}?(?:space|sp|loop|corner|gap|arch)))\s*,?\s+(?:just\s+|simply\s+)?(?:put\s+|work\s+|do\s+|make\s+|pop\s+)?(?P<steps>[^.;]{3,60}?)\s+(?:in(?:to)?\s+(?:it|them|there|those|each(?:\s+one|\s+of\s+them)?)|there)(?=\s*(?:[.,;]|$))", re.I)
_GRAB = Lazy(r"^\s*(?:(?:now|so|next|first),?\s+)?(?:grab|take|get|bring\s+in|pull\s+out|reach\s+for|swap\s+in)\s+(?:your\s+|the\s+|a\s+)?(?P<what>[a-z ]{0,18}?(?:colou?r|yarn|shade)(?:\s+[A-D]\b)?)(?=\s*[.,;:]|\s+and\b)", re.I)
_REPEAT_TOLD = Lazy(r"(?<=repeat that)\s*(?P<mark>[—(]|-{1,2}(?=\s)|\s-|,\s+so\s+that's)[^—()*;.]{5,70}?(?:[—),]|\s-{1,2}(?=\s))(?=\s*(?:until|till|all\s|across|around|to\s+the|\w+\s+times))", re.I)
_REPEAT_RETOLD = Lazy(
    rf"(?P<again>\b(?:repeat(?:ing)?|doing)\s+(?:that|this|the)(?:\s+same)?)\s+[—,:\"“]?\s*(?:skip|miss)(?:p?ing)?\s+(?:an?|the\s+next|{_NUMBER})(?:\s+(?:st|sts|stitch|stitches))?,?\s+(?:and\s+|then\s+)?"
    rf"(?:{_NUMBER})(?:\s+[a-z]{{2,9}}){{0,3}}?\s+in(?:to)?\s+(?:the\s+)?next(?:\s+(?:one|st|stitch))?\s*[—,\"”]?(?=\s+(?:all|across|around|round|along|until|till|to\s|down))",
    re.I,
)
_STILL = Lazy(r"(?<=[.!;,—-]\s)(?P<n>\d+|[a-z]{3,9}(?:-[a-z]{3,5})?)(?:\s+(?:stitches|sts))?\s+still(?=\s*[.!]?\s*$)", re.I)
_BY_TURNS = Lazy(r"\b(?:go|keep\s+going|swap|switch)\s+back\s+and\s+forth(?:\s+(?:like\s+that|between\s+(?:them|the\s+two|those(?:\s+two)?|these(?:\s+two)?)))?(?=\s+(?:all|across|to|until|around|the\s+whole))|\balternat(?:e|ing)\s+(?:(?:the|these|those|your)\s+)?(?:two\s+)?(?:loops|sts|stitches|them|these|those|these\s+two|the\s+two)(?=\s+(?:all|across|to|until|around|the\s+whole))", re.I)
_BRINGS_US = Lazy(r"(?:\band\s+)?\b(?:that|this|which|it)(?:'ll|\s+will|\s+should)\s+(?:bring|take|get|leave|give|put|make)(?:\s+(?:you|us|me|it))?(?:\s+(?:back|right))?(?:\s+(?:up|down))?(?:\s+(?:to|at|with|on))?\s+(?=(?:\d+|[a-z]{3,9}(?:-[a-z]{3,5})?)(?:\s+(?:st|sts|stitches|sc|dc|hdc|tr|htr))?\s*(?:[.!,;)]|$))", re.I)
_GO_INTO = Lazy(rf"(?P<stitch>{_STITCH})\s+goe?s?\s+(?=(?:all\s+)?in(?:to)?\s)", re.I)
_IS_A = Lazy(r"\bevery\s+(?:single\s+)?stitch\s+is\s+an?\s+(?P<what>increase|decrease)\b", re.I)
_IT_IS = Lazy(rf"{_FIRST}\s*(?:(?:this|now|then|next|so)\s+)?(?:it's|it\s+is|there's|there\s+are|comes?)\s+(?:just\s+|simply\s+|only\s+|back\s+to\s+)?(?=(?:{_NUMBER}\s+)?(?:{_STITCH}|ch(?:ain)?\s*\d))", re.I)
_FIRST_STITCH = Lazy(rf"\b(?:(?:that|this|it|these|which|the)(?:\s+(?:ch|chain|chains|three|3))?(?:'s|\s+is|\s+are|\s+will\s+be|\s+acts\s+as|\s+makes)|(?:is|as))\s+(?:going\s+to\s+be\s+)?(?:your|our|my|the)\s+first(?=\s+(?:{_STITCH}|double\b))", re.I)
_THAT_HOLDS = Lazy(rf"\b(?:the\s+)?(?P<noun>chain|ch|stitch|st|space|sp|loop|corner)\s+(?:that|which)\s+(?:(?:already|now|also)\s+)?(?:has|holds|contains|carries|got)\s+(?:already\s+)?(?:(?:the|your)\s+)?(?:first\s+)?(?:{_NUMBER}\s+)?(?P<st>{_STITCH})(?:\s+in\s+it)?(?:\s+already)?(?=\s*(?:[.,;:)]|$))", re.I)
_BELOW_IT = Lazy(r"(?<=skip the |miss the )(?P<noun>one|stitch|st)\s+(?:that's\s+)?(?:right\s+|directly\s+|just\s+|immediately\s+)?(?:below|under|underneath|beneath|at\s+the\s+(?:base|bottom|foot)\s+of)\s+(?:it|that|the\s+chain|your\s+chain)\b", re.I)
_AGAIN_AND_AGAIN = Lazy(r"(?<=that|this)\s+(?:again\s+and\s+again|over\s+and\s+over(?:\s+again)?|again(?=\s+(?:until|till|all\s+the|to\s+the|in\s+every|in\s+each)))", re.I)
_SKIP_AGAIN = Lazy(r"\b(?:skip|miss)\s+(?:the\s+next\s+|another\s+)?(?:\d|one|two|three|four|five)(?P<more>\s+(?:again|more))(?=\s*(?:,|and\b|;|stitches|sts|st\b|\.))", re.I)
_ANOTHER = Lazy(rf"(?<=\band )another(?=\s+{_STITCH}(?!\s*\d))|(?<=, )another(?=\s+{_STITCH}(?!\s*\d))", re.I)
_TWICE_INTO = Lazy(r"(?<=and |hen )(?P<often>twice|two\s+times|three\s+times)(?=\s+in(?:to)?\s)", re.I)
_OTHERS = Lazy(r"(?<=in the |to the )other(?=\s+(?:\d+|two|three|four|five|six|seven|eight|nine|ten)\s*(?:stitches|sts|[.,;:(-]|$))", re.I)
_KEEP_SHAPING = Lazy(r"\b(?:keep(?:\s+on)?|carry\s+on|continue|go\s+on|by)\s+(?P<what>(?:de|in)creasing)(?=\s+(?:all\s+the|the\s+whole|around|round|in\s+e|until|to\s+the))", re.I)
_AT_A_BODY = Lazy(rf"\s+(?:over|across|round|around|along)\s+(?:the|his|her|its)\s+(?:back\s+of\s+the\s+|top\s+of\s+the\s+)?{_BODY}(?=\s*(?:[.,;:-]|and\b|then\b|$))", re.I)
_SHAPE_IN = Lazy(r"(?:\b(?:an?|one|your|the)\s+|(?<=^)\s*|(?<=\*)\s*)(?:petal|leaf|shell|fan|scallop|cluster)\s+(?P<place>in(?:to)?\s+(?:each|every|the\s+(?:first|next))\s+(?:[\w-]+\s+)??(?:[\w-]+))(?:\s+(?:like\s+this|like\s+so|this\s+way|as\s+follows|made\s+of))?\s*(?P<mark>:|of\b)", re.I)
_SHAPES = r"(?:shells?|petals?|fans?|scallops?|clusters?|points?|repeats?|groups?|blocks?|v-?\s?stitch(?:es)?|motifs?|corners?|bobbles?|puffs?|leaf|leaves)"
_THATS_ONE = Lazy(rf"\b(?:that|this|it)(?:'s|\s+is|\s+makes|\s+completes|\s+gives\s+you)\s+(?:your\s+|the\s+)?(?:one|first|1)\s+{_SHAPES}(?:\s+(?:done|made|complete|finished))?(?=\s*[.!,;—-])", re.I)
_KEEP_MAKING = Lazy(rf"\b(?:keep(?:\s+on)?|carry\s+on|continue|go\s+on)\s+(?:making|working|doing)\s+(?:them|these|(?:the\s+|more\s+)?{_SHAPES})(?=\s+(?:until|till|all|to|around|round|right|the\s+whole|in\s))", re.I)
_MOVE_ON = Lazy(rf"\b(?:then\s+)?(?:move|go|skip|hop)\s+(?:on|over|along)?\s*to\s+the\s+next\s+(?:{_PLACE}|one)\s+and\s+(?=(?:do|repeat|work)\s+(?:that|this|the\s+same|it))", re.I)
_BACK_ALONG = Lazy(r"\bback(?=\s+(?:along|down|up|across)\s+the\s+(?:other|opposite|bottom|second))", re.I)
_GO_BACK = Lazy(rf"(?:(?<=[,;.] )|(?<=and )|(?<=hen ))(?:go|come|work|head)\s+(?:back\s+)?(?:all\s+the\s+way\s+)?(?:across|along|round|around|down|back)\s+with\s+(?={_NUMBER}\s+{_STITCH}\s+in)", re.I)
_BEGIN_BY = Lazy(r"\b(?:begin|start)(?:\s+off)?\s+(?:by\s+making|by|off\s+with|with)\s+(?=(?:an?\s+|your\s+)?(?:magic|adjustable|chaining|slip\s?knot))", re.I)
_A_CHAIN = Lazy(r"\ba(?=\s+chain(?:\s+(?:in|into|between|and|after)\b|\s*[,.;]))", re.I)
_AFTER_EACH = Lazy(r"(?:\band\s+)?\bch(?:ain)?\s*(?P<n>\d|one|two|three)\s+after\s+(?:each|every)(?:\s+(?:one|group|stitch|st|treble|cluster|shell|set))\b", re.I)
_CHAIN_BETWEEN = Lazy(r"\b(?:chaining|and\s+chain)\s+(?P<n>\d|one|two|three)\s+(?:in\s+)?between(?=\s+(?:each|every|them|the)\b)", re.I)
_AFTER_THAT = Lazy(r"(?P<place>\b(?:each|every)\s+(?:single\s+)?(?:ch(?:ain)?|st(?:itch)?|sc|dc|hdc|tr|htr))\s+(?:after(?:\s+(?:it|that|this|that\s+one|this\s+one))?|from\s+there(?:\s+on)?)(?=\s*(?:[.,;:=(&\[–—-]|$)|\s+(?:and|turn)\b)", re.I)
_COMMA_ROUND = Lazy(rf"(?P<place>\b(?:each|every)\s+{_PLACE})\s*,\s*(?=(?:all|right|the\s+whole)\s+(?:the\s+)?(?:way|around|round))", re.I)
_KEEP_REPEATING = Lazy(r"\b(?:keep(?:\s+on)?|carry\s+on|continue|go\s+on)\s+repeating(?=\s+(?:all|around|round|across|to|until|the\s+whole|this|that))", re.I)
_IN_THAT = Lazy(r"(?<=to the last one, and )(?P<made>[^.,;]{2,40}?\sin(?:to)?\s)that(?:\s+one)?(?=\s*(?:[.,;)]|$))|(?<=to the last stitch, and )(?P<more>[^.,;]{2,40}?\sin(?:to)?\s)that(?:\s+one)?(?=\s*(?:[.,;)]|$))", re.I)
_KEEP_ING = Lazy(r"\b(?:keep(?:\s+on)?|carry\s+on|continue|go\s+on)\s+(?P<steps>(?:chaining|skipping|missing|(?:single|half\s+double|double|half\s+treble|treble)\s+crocheting|trebling)\b[^.;:()*]{2,70}?(?:crochet|trebl|skipp|chain))ing(?P<how>(?:\s+(?:\d|one|two|three))?)(?=\s+(?:all\s+the|around|round|across|to\s+the|the\s+whole|until|right))", re.I)

_GRABBING = frozenset(("grab", "take", "get ", "brin", "pull", "reac", "swap", "now ", "now,", "so g", "so t", "next", "firs"))


def plain_turns(words: str, low: str) -> str:
    """`words` of a row with spoken turns made plain; as long as before. low: the same in small letters, in which is looked for what may be there."""
    if "til" in low:
        words = _ROUND_BACK.sub(_to_the_end, words)
    if " gets" in low or " takes" in low or " receives" in low or " has " in low or " needs" in low:
        words = _GETS.sub(lambda found: _filled(found, f" in {found['place']}{':' if found['shape'] else ','} "), words)
        if " other " in low:
            words = _ALL_OTHERS.sub(_all_others, words)
        if "one gets" in low or " just gets" in low or "last" in low or "final" in low:
            words = _THAT_ONE_GETS.sub(_in_that_one, words)
    if " you" in low or " we" in low:
        words = _where_you_are(words, low)
    if ("repeat" in low or " doing " in low) and ("that" in low or "this " in low or " it " in low):
        words = _REPEAT_TOLD.sub(_blank, words)
        if low.count("skip") + low.count("miss") > 1:
            words = _REPEAT_RETOLD.sub(lambda found: found["again"].ljust(len(found[0])), words)  # "repeat that skip one, two in the next all the way": said before
        words = _THATS_THE_REPEAT.sub(lambda found: _filled(found, "repeat that"), words)
    if "already" in low or "which has" in low or "that has" in low or "holds" in low:
        words = _THAT_HOLDS.sub(lambda found: _filled(found, f"same {found['noun']} as first {found['st']}"), words)
    if "stitch is a" in low:
        words = _IS_A.sub(lambda found: _filled(found, "increase in every stitch" if found["what"][0] in "iI" else "decrease all around"), words)
    if " go " in low or " goes " in low:
        words = _GO_INTO.sub(lambda found: _filled(found, found["stitch"]), words)
    if "that's" in low or "makes" in low or "that is" in low:
        words = _THATS_SO_MANY.sub(lambda found: _filled(found, "= "), words)
    if "count" in low:
        words = _COUNT_THEM.sub(_blank, words)
    if " in all" in low:
        words = _IN_ALL.sub(lambda found: _filled(found, " total"), words)
    if "loop" in low and ("working" in low or "worked" in low):
        words = _WORKING_IN.sub(lambda found: _filled(found, f"working {found['in']}{',' if found['so'] else ''}"), words)
    if "back and f" in low or "alternat" in low:
        words = _BY_TURNS.sub(lambda found: _filled(found, "alternate"), words)
    if "'ll " in low or " will " in low or " should " in low:
        words = _BRINGS_US.sub(lambda found: _filled(found, "= "), words)
    if " still" in low:
        words = _STILL.sub(lambda found: _filled(found, f"= {found['n']}"), words)
    if "plain" in low:
        words = _PLAIN.sub(lambda found: _filled(found, f"{found['n']} sc"), words)
    if (" you " in low or " we " in low) and ("when" in low or " time " in low or "once " in low or "as " in low):
        words = _AT_THE_SPACES.sub(lambda found: _filled(found, f", in each {found['many'] or found['one']}, {found['steps']}"), words)
    if low.lstrip()[:4] in _GRABBING:
        words = _GRAB.sub(lambda found: _filled(found, f"with {found['what']}"), words)
    if "single" in low:
        words = _SINGLE.sub(lambda found: _filled(found, "sc"), words)
    if "'s " in low or " is " in low or "'ve got" in low or "we " in low or "we're" in low or "there" in low or "it'll" in low:
        words = _ROW_IS.sub(_blank, words)
    if "it's" in low or "it is" in low or "there" in low:
        words = _IT_IS.sub(_blank, words)
    if " first" in low and ("is " in low or "s your" in low or "s the" in low or "are " in low or "be " in low or "s our" in low or "s my" in low):
        words = _FIRST_STITCH.sub(_first_stitch, words)
        words = _BELOW_IT.sub(lambda found: _filled(found, "first st"), words)
    if "again" in low or "more" in low or "over and" in low:
        words = _AGAIN_AND_AGAIN.sub(_blank, words)
        words = _SKIP_AGAIN.sub(lambda found: found[0][: found.start("more") - found.start()].ljust(len(found[0])), words)
    if "another" in low:
        words = _ANOTHER.sub(lambda found: _filled(found, "1"), words)
    if "twice in" in low or "times in" in low:
        words = _TWICE_INTO.sub(lambda found: _filled(found, "3" if found["often"][1] in "hH" else "2"), words)
    if "other " in low:
        words = _OTHERS.sub(lambda found: _filled(found, "rem"), words)
    if "creasing" in low:
        words = _KEEP_SHAPING.sub(lambda found: _filled(found, found["what"][:-3] + "e"), words)
    if (" the " in low or " his " in low or " her " in low or " its " in low) and any(part in low for part in _PARTS):
        words = _AT_A_BODY.sub(_blank, words)
    if (":" in low or " of " in low) and any(shape in low for shape in _SHAPED):
        words = _SHAPE_IN.sub(lambda found: _filled(found, f"{found['place']}:"), words)
    words = _shapes_and_ways(words, low)
    return words


def _first_stitch(found) -> str:
    """ "That's your first dc": it counts; "in the same ch as the first sc" is a place."""
    return found[0] if found[0][:2].lower() == "as" and "same" in found.string[max(0, found.start() - 14):found.start()].lower() else _filled(found, "counts as 1")


def _shapes_and_ways(words: str, low: str) -> str:
    """Shapes named in passing, and going on, back and along."""
    if "keep" in low or "carry" in low or "contin" in low or "go on" in low:
        words = _KEEP_MAKING.sub(lambda found: _filled(found, "do that"), words)
        words = _KEEP_ING.sub(_bracketed, words)
        if "repeating" in low:
            words = _KEEP_REPEATING.sub(lambda found: _filled(found, "repeat"), words)
    if "in that" in low or "into that" in low:
        words = _IN_THAT.sub(lambda found: _filled(found, f"{found['made'] or found['more']}it"), words)
    if ("that" in low or "this" in low or "it" in low) and ("'s " in low or " is " in low or "makes" in low or "gives" in low or "compl" in low):
        words = _THATS_ONE.sub(_blank, words)
    if "to the next" in low:
        words = _MOVE_ON.sub(_blank, words)
    if "back" in low:
        words = _BACK_ALONG.sub(_blank, words)
    if "with " in low and ("go " in low or "come " in low or "work " in low or "head " in low):
        words = _GO_BACK.sub(_blank, words)
    if ("with " in low or "by " in low) and ("begin" in low or "start" in low):
        words = _BEGIN_BY.sub(_blank, words)
    if "a chain" in low:
        words = _A_CHAIN.sub("1", words)
    if "between" in low:
        words = _CHAIN_BETWEEN.sub(lambda found: _filled(found, f"with {found['n']} ch between"), words)
    if " after" in low and ("every " in low or "each " in low):
        words = _AFTER_THAT.sub(lambda found: found["place"].ljust(len(found[0])), words)
    if " after e" in low:
        words = _AFTER_EACH.sub(lambda found: _filled(found, f"with {found['n']} ch between each"), words)
    if ", all" in low or ", right" in low or ", the whole" in low:
        words = _COMMA_ROUND.sub(lambda found: found["place"].ljust(len(found[0])), words)
    return words


def _where_you_are(words: str, low: str) -> str:
    """ "In the loop you're sitting in": in the same loop."""
    if "in" not in low and "to" not in low or "'re" not in low and " are" not in low and " find" not in low and "ed" not in low and "left off" not in low and " is" not in low:
        return words
    return _WHERE_YOU_ARE.sub(lambda found: _filled(found, f"{found['in']} same {found['place']}"), words)


def _all_others(found) -> str:
    """ "..., every other stitch just gets one dc" beside what goes elsewhere: all the stitches that are left."""
    return _filled(found, f"{found['comma']}{found['what']} in all sts")


def _in_that_one(found) -> str:
    return _filled(found, "in last st, ") if "until" in found.string[: found.start()].lower() else found[0]


def _bracketed(found) -> str:
    """ "keep chaining 2, skipping 1 and trebling all round": what is gone on with as a group."""
    last = found["steps"] + ("e" if found["steps"].lower().endswith("trebl") else "")
    last = last[:-1] if last.lower().endswith("skipp") else last
    return _filled(found, f"({last}{found['how']})")


def _to_the_end(found) -> str:
    before = found.string[: found.start()].rstrip().lower()
    if before.endswith(("round", "across", "along")):  # "all the way round until you're back where you began" says one thing twice
        return _blank(found) if found[0].lower().endswith(("start", "started", "began", "beginning")) else found[0]
    return _filled(found, "to the end")


def _blank(found) -> str:
    return " " * len(found[0])


def _filled(found, plain: str) -> str:
    return plain.ljust(len(found[0])) if len(plain) <= len(found[0]) else found[0]
