"""Spoken prose made plain, letter for letter: "So now we're going to single crochet" is "single crochet" with blanks before it.

Who tells a row as she would say it puts persons, ease and reasons around the same words of work. What only carries the telling is blanked out
where a verb of the work follows, so that every offset still holds; nothing is blanked that says where, how often or in what.
"""

import re

from .patterns import Lazy
from .spoken_places import plain_places
from .spoken_turns import plain_turns

_CRAFT = r"(?:half[\s-]+)?(?:single|double|treble|triple)[\s-]+crochet(?!s)|(?:half|double)[\s-]+treble(?!s)|treble(?!s)|slip[\s-]*stitch(?!es)|chain(?!s)|increase(?!s)|decrease(?!s)"
_STITCH = r"(?:(?:half[\s-]+)?(?:single|double|treble|triple)[\s-]+crochets?|(?:half|double)[\s-]+trebles?|trebles?|slip[\s-]*stitch(?:es)?|sc|hdc|dc|htr|tr|dtr|increases?|decreases?)\b"
# verbs of the work as they follow a person or "to"
_WORK = rf"(?:{_CRAFT}|sl\s?st|ch(?=\s*\d)|inc|dec|(?:s|hd|d)c(?:\d?tog)?|h?tr(?:\d?tog)?|skip|miss|work|put|place|make|turn|join|repeat|go|keep|continue|carry|start|begin|crochet|do(?!\s+not)|pop|finish(?!\s+(?:up|with\s+\d))|fasten|pull)\b"
_EASE = r"(?:so|and|then|now|next|ok|okay|right|alright|well|first|to\s+start(?:\s+with)?|to\s+begin(?:\s+with)?|this\s+time|from\s+here|here|after\s+that|finally|again|once\s+more)"
_PERSON = (
    r"(?:(?:you|we|i)(?:'(?:ll|re|m|d)|\s+(?:will|shall|should|must|then|now|are|am))?(?:\s+(?:just|simply|now|then|only|also))*"
    r"(?:\s+(?:going\s+to|gonna|want\s+to|wanna|need\s+to|have\s+to|like\s+to|be))?(?:\s+(?:just|simply|now|only))*)"
)
_LETS = r"(?:let's|let\s+us|go\s+ahead\s+and|(?:here|this|now)\s+is\s+where\s+(?:you|we)\s+(?:start\s+to|begin\s+to)|all\s+(?:you|we)\s+(?:need\s+to\s+|have\s+to\s+)?do(?:\s+(?:now|here|next))?\s+is)(?:\s+(?:just|all|now|then))*"
_TELLING = Lazy(rf"(?<![^\W_])(?:{_PERSON}|{_LETS})\s+(?={_WORK})", re.I)
_DOING = Lazy(r"(?<![^\W_])(?:you|we|i)(?:'re|'ll\s+be|\s+are|\s+will\s+be|\s+keep)(?:\s+(?:just|simply|now|then|only|also|going\s+to\s+be))*\s+(?:putting|making|doing|working|placing|popping)\s+(?=(?:an?|one|two|three|four|five|six|seven|eight|\d+|just|another)\s|[\d(\[])", re.I)
_BEFORE_TELLING = Lazy(r"(?:^|[.,;:!?—-]|\b(?:and|then|now|so|here|time|next|round|row|stitch|this|space|spaces|sp|loop|gap|corner|one|ring|circle|it))\s*$", re.I)
_EASE_BEFORE = Lazy(rf"(?:^|(?<=[.,;:!?—-]))\s*(?:{_EASE},?\s+){{1,2}}$", re.I)
_INTO_WITH = Lazy(rf"(?:\b(?:go|work|crochet)\s+)?\b(?P<place>(?:back\s+|straight\s+|right\s+)?in(?:to)?\s+(?:the|each|every|your|that)\b[^.,;:()*\d]{{0,12}}\d{{0,3}}[^.,;:()*\d]{{0,40}}?),?\s+(?P<with>with)\s+(?=(?:an?|one|two|three|four|\d+)\s+{_STITCH})", re.I)
_POPPED = Lazy(r"\b(?:pop|stick|pack)(?:ping)?\s+(?=(?:an?|one|two|three|four|five|\d+)\s+(?!stitch\s+marker|marker)(?:more\s+)?(?:in\b|into\b|sc\b|dc\b|hdc\b|tr\b|htr\b|single|double|half|treble|slip))", re.I)
_OWN_WAY = Lazy(r"(?:(?<=crochet)|(?<=double)|(?<=treble))(?:s|ing)?\s+(?:your|our|my)\s+way(?=\s)|(?<=stitch)(?:ing)?\s+(?:your|our|my)\s+way(?=\s)", re.I)
_IN_THIS_ROUND = Lazy(r"^\s*(?:(?:and|so|then|now)\s+)?(?:on|in|for)\s+(?:the|this|our|your)\s+(?:next|second|third|fourth|fifth|sixth|same|following)?\s*(?:round|row|one),?\s+(?=\S)", re.I)
_PART = r"(?:\s+(?:here|again|now|slightly|a\s+(?:bit|little)|(?:over|at|across|for|along|on|round|around|in)\s+(?:the\s+|each\s+|both\s+|either\s+)?(?!(?:next|first|last|same|stitch|st|sts|stitches)\b)[a-z]{3,12}(?:\s+of\s+(?:the|this|your)\s+[a-z]{3,8})?))*"
_SHAPE = r"(?:(?:start|begin)\s+(?:to\s+)?)?(?:decreas(?:e|ing)|increas(?:e|ing)|shap(?:e|ing)|(?:lose|gain|add)\s+an?\s+stitch)"
# "Time to decrease:", "Now we decrease at both ends. sc2tog, ...", "decrease over the toes, so sc2tog x 3": announced, and told after it
_ANNOUNCED = Lazy(
    rf"(?:(?<=^)|(?<=[.:;!-]))\s*(?:{_EASE},?\s+){{0,2}}(?:(?:it's\s+)?time\s+(?:to|for)\s+(?:the\s+|some\s+)?{_SHAPE}s?{_PART}\s*[:.!,-]|(?:(?:{_PERSON}|{_LETS}|to)\s+)?{_SHAPE}{_PART}\s*(?:,\s+so\b|:)|(?:{_PERSON}|{_LETS})\s+{_SHAPE}{_PART}\s*[:.!])(?=\s*(?:\S[^.]*?\b)?{_STITCH})",
    re.I,
)
_SOME = Lazy(rf"(?:(?<=^)|(?<=[.:;!-]))\s*(?:{_EASE},?\s+){{0,2}}(?:(?:{_PERSON}|{_LETS})\s+make|(?:time|on)\s+(?:for|to)|for|here\s+come|make)\s+(?:some|the|our|a\s+few|more)\s+(?:shells|petals|fans|clusters|scallops|bobbles|puffs|corners|decreases|increases|leaves|points)\s*[.:!](?=\s*\S)", re.I)
_AGAIN = Lazy(r"\b(?P<stitch>(?:sc|dc|hdc|tr|htr)\dtog|decrease|increase|inc|dec)\b(?P<times>(?:\s+(?:\d+|two|three|four|five|six)\s+times)?)\s+(?:again|once\s+more|one\s+more\s+time|one\s+last\s+time)(?=\s*(?:[.,;(-]|$|\s(?:which|so|and|to)\b))", re.I)
_TOGETHER = Lazy(r"(?:(?<=crochet )|(?<=treble )|(?<=sc )|(?<=dc )|(?<=tr ))(?:those|these|them)(?:\s+(?:two|2))?(?=\s+tog(?:ether)?\b)", re.I)
_LEADS = Lazy(
    rf"\s*(?:(?:{_EASE},?\s+){{1,3}}(?:(?:{_PERSON}|{_LETS})\s+)?|{_LETS}\s+|(?:we|i)(?:'ll|\s+will)?\s+(?=chain\s+(?:\d\d|[4-9])|(?:start|begin)\b)|(?:we|you)(?:'ll|'re|\s+will)?\s+(?:going|need|want)\s+to\s+"
    rf"|you(?:'ll)?\s+need\s+(?=(?:an?\s+)?(?:\d+\s+ch|magic)))(?={_CRAFT}|\d+\s+ch|(?:make|start|begin|work|put|turn|go)\b)",
    re.I,
)
_SHAPE_NAMES = ("shells", "petals", "fans", "clusters", "scallops", "bobbles", "puffs", "corners", "creases", "leaves", "points")
_NUMBERS = "aotf0123456789"  # first letters of "a", "one", "two", "three", "four" and numerals
_ROUND_LEADS = frozenset(("and", "so ", "the", "now", "on ", "in ", "for"))
_HABIT = Lazy(r"\b(?:(?:each|every)\s+(?:row|round|rnd|time)|as\s+(?:i|you|we)\s+go|always|usually|normally|prefer|clockwise)\b", re.I)  # "I chain 1 at the start of every row": how she works, and no row


_NEEDED = Lazy(r"(?:^|(?<=[.!]\s))\s*(?:so\s+)?(?:you|we)(?:'ll)?\s+need\s+(?=\d+\s*ch)", re.I)


_WORDS = Lazy(r"with (?:sl st|ss)\b|[a-z']+")
_TERSE = frozenset(  # the commonest words of rows that are written and not told: none of the turns is made of them alone
    "ch chs sc dc hdc tr htr dtr slst sl ss inc dec st sts stitch stitches sp sps in each next of rep repeat from to around across turn join x and sk skip miss as here "
    "throughout times tog first last counts back front loop loops only double half crochet fpdc bpdc fpsc bpsc fphdc bphdc fptr bptr mr rnd rs ws corner corners beg tch "
    "flo blo".split()
) | {"with sl st", "with ss"}


def plainly(words: str) -> str:
    """The words of a row with what only carries the telling blanked out; as long as before, and `words` itself where nothing is.

    >>> plainly("So we single crochet in each st").split()
    ['single', 'crochet', 'in', 'each', 'st']
    """
    low = words.lower()
    return words if is_terse(low) else _untold(words, low)


def is_terse(low: str) -> bool:
    """Whether a row in small letters has nothing but words of the work, in which there is no telling."""
    return _TERSE.issuperset(_WORDS.findall(low))


def _untold(words: str, low: str) -> str:
    """The words of a row that is not terse, made plain. Plain searches in `low` are so quick that most rows pay little for the rest."""
    whole = words
    told = "you" in low or "we " in low or "we'" in low or "let" in low or "i " in low or "i'" in low or "go a" in low
    words = plain_places(plain_turns(words, low), low)
    if "tog" in low and ("those" in low or "these" in low or "them" in low):
        words = _TOGETHER.sub(_both, words)
    if " again" in low or " more" in low or "last time" in low:
        again = _AGAIN.search(words)
        if again and again["stitch"].lower() in low[: again.start()]:  # "decrease, sc to the last 2, decrease again"
            words = words[: again.end("times")].ljust(again.end()) + words[again.end() :]
    if ("creas" in low or "shap" in low or "a stitch" in low) and (told or ":" in low or ", so " in low or "time" in low):
        words = _ANNOUNCED.sub(_blank, words)
    if ("s:" in low or "s." in low or "s!" in low) and ("some " in low or " the " in low or "our " in low or "few " in low or "more " in low) and any(shape in low for shape in _SHAPE_NAMES):
        words = _SOME.sub(_blank, words)
    if (" round" in low or " row" in low or " one" in low) and low.lstrip()[:3] in _ROUND_LEADS:
        words = _IN_THIS_ROUND.sub(_blank, words)
    if told:
        if "need" in low:
            words = _NEEDED.sub(_blank, words)
        if "ing " in low:
            words = _DOING.sub(_blank, words)
        words = _without_persons(words)
    if "pop" in low or "stick" in low:
        words = _POPPED.sub(_blank, words)
    if " way " in low:
        words = _OWN_WAY.sub(_blank, words)
    if " with " in low and any(after[:1] in _NUMBERS for after in low.split(" with ")[1:]):
        words = _INTO_WITH.sub(_place_first, words)
    return whole if words == whole else words


def _without_persons(words: str) -> str:
    """"So now we're going to" before a verb of the work is blanked out, where a sentence or clause begins with it."""
    for found in _TELLING.finditer(words):
        if not _BEFORE_TELLING.search(words[max(0, found.start() - 12) : found.start()]):
            continue
        near = max(0, found.start() - 40)
        ease = _EASE_BEFORE.search(words[near : found.start()])
        at = near + ease.start() if ease else found.start()
        words = words[:at] + " " * (found.end() - at) + words[found.end() :]
    return words


def past_telling(text: str, start: int, end: int) -> int:
    """Where the work begins in a line that begins with its telling ("So we chain 24", "Let's start with 21 chains"); `start` where none does."""
    found = _LEADS.match(text, start, end)
    return found.end() if found and not _HABIT.search(text, start, end) else start


def _blank(found) -> str:
    return " " * len(found[0])


def _both(found) -> str:
    return "2".ljust(len(found[0]))


def _place_first(found) -> str:
    """ "Go into the 4th chain with a dc": "in the 4th chain, a dc"."""
    return (" " * (found.start("place") - found.start()) + found["place"] + ",").ljust(len(found[0]))
