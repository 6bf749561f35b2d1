"""Values of the head read from their words: numbers and lengths per size, hooks, weights, sizes."""

import re

from hookwright.ground import PerSize

from .head import Hook, Measure, SizeFact
from .lengths import read_amounts, skip_other_unit
from .patterns import Lazy

_HOOK_MM = Lazy(r"(\d{1,2}(?:[.,]\d{1,2})?)\s*-?\s*mm", re.I)
_HOOK_BARE = Lazy(r"\s*(\d{1,2}(?:[.,]\d{1,2})?)\s*")
# Weight categories 0 to 7 and their words: Craft Yarn Council standard yarn weight system, as printed in Crochet World, October 2018.
WEIGHTS = {
    "lace": 0, "cobweb": 0, "laceweight": 0, "super fine": 1, "superfine": 1, "sock": 1, "fingering": 1, "4 ply": 1, "4-ply": 1, "fine": 2, "sport": 2, "baby": 2, "5 ply": 2,
    "light": 3, "dk": 3, "double knitting": 3, "light worsted": 3, "8 ply": 3, "medium": 4, "worsted": 4, "aran": 4, "afghan": 4, "10 ply": 4, "bulky": 5, "chunky": 5,
    "craft": 5, "12 ply": 5, "super bulky": 6, "superbulky": 6, "super chunky": 6, "roving": 6, "jumbo": 7,
}
# What a piece is for: the words that cautions go by, and other words for them (common practice, no source).
USES = ("baby", "child", "adult", "toy", "home", "kitchen", "pet")
ALSO_USES = {
    "babies": "baby", "infant": "baby", "infants": "baby", "newborn": "baby", "newborns": "baby", "preemie": "baby", "preemies": "baby", "baby shower": "baby",
    "children": "child", "kid": "child", "kids": "child", "toddler": "child", "toddlers": "child", "girl": "child", "girls": "child", "boy": "child",
    "boys": "child", "teen": "child", "teens": "child", "adults": "adult", "woman": "adult", "women": "adult", "man": "adult", "men": "adult", "ladies": "adult",
    "toys": "toy", "doll": "toy", "dolls": "toy", "amigurumi": "toy", "plushie": "toy", "plush": "toy", "soft toy": "toy", "house": "home", "household": "home",
    "pets": "pet", "cat": "pet", "cats": "pet", "dog": "pet", "dogs": "pet",
}
LEVELS = ("basic", "easy", "intermediate", "complex")
OLD_LEVELS = {"beginner": "basic", "novice": "basic", "experienced": "complex", "advanced": "complex", "expert": "complex"}


def number_per_size(words: str, sizes: int) -> int | PerSize | None:
    """A whole number, or one a size: "8 (9, 10)"; None where the words are no such number.

    >>> number_per_size("8 (9, -, 10)", 4)
    PerSize((8, 9, None, 10))
    """
    amounts = read_amounts(words, 0, len(words), sizes=sizes)
    if amounts is None or words[amounts.end :].strip() or amounts.unit_mm is not None:
        return None
    values = []
    for value in amounts.values:
        if value is None:
            values.append(None)
        elif value[0] != value[1] or value[0] != int(value[0]):
            return None
        else:
            values.append(int(value[0]))
    return values[0] if len(values) == 1 else PerSize(values)


def measure(words: str, sizes: int) -> Measure | None:
    """A length, or one a size, in mm: "44 (48, 54) cm", "16 1/2 in", "38-42 cm"."""
    amounts = read_amounts(words, 0, len(words), sizes=sizes, unit_needed=True)
    if amounts is None or amounts.unit_mm is None:
        return None
    rest = words[skip_other_unit(words, amounts.end, len(words), sizes) :].strip(" .)]")
    if rest and re.search(r"\d", rest):
        return None
    return Measure(amounts.in_mm(), words.strip())


def plain_number(words: str) -> float | None:
    """A number with or without a fraction, with words after it ("17 rows"): 17.0."""
    amounts = read_amounts(words, 0, len(words))
    if amounts is None or len(amounts.values) != 1 or amounts.values[0] is None:
        return None
    return amounts.values[0][0]


def length_value(words: str) -> tuple[float, float] | None:
    """One length in mm as (low, high)."""
    found = measure(words, 0)
    return found.mm[0] if found and len(found.mm) == 1 else None


def hook(words: str) -> Hook:
    """A hook: the mm where they are written. A number alone is mm where a hook has such a size: `mm_assumed` says so.

    >>> hook("5.5"), hook("H-8").mm
    (Hook(mm=5.5, text='5.5 mm', mm_assumed=True), None)
    """
    bare = _HOOK_BARE.fullmatch(words)
    if bare and 0.5 <= float(bare[1].replace(",", ".")) <= 25:  # 0.35 to 25 mm are made; most beyond are a US number or a slip
        return Hook(float(bare[1].replace(",", ".")), f"{bare[1].replace(',', '.')} mm", True)
    found = _HOOK_MM.search(words)
    return Hook(float(found[1].replace(",", ".")) if found else None, words.strip())


def weight(words: str) -> int | None:
    """The yarn weight category, 0 to 7, from its number or word."""
    plain = " ".join(words.lower().replace("weight", "").replace("yarn", "").split())
    number = re.match(r"#?\s*(\d)\b(?!\s*ply)", plain)
    if number and int(number[1]) <= 7:
        return int(number[1])
    if plain in WEIGHTS:
        return WEIGHTS[plain]
    found = [word for word in WEIGHTS if re.search(rf"(?<![a-z\d]){re.escape(word)}(?![a-z])", plain)]
    return WEIGHTS[max(found, key=len)] if found else None


def size_from_words(words: str) -> SizeFact:
    """ "Baby", or "Baby (38-42 cm)" with the body it is to fit."""
    found = re.fullmatch(r"\s*(?P<name>[^(:]{1,60}?)\s*(?:\(\s*(?:to fit\s*)?(?P<fit>[^()]{2,60})\)|:\s*(?P<fit2>.{2,60}))\s*", words)
    if found:
        fit = found["fit"] or found["fit2"]
        value = length_value(fit)
        if value:
            return SizeFact(found["name"].strip(), value, fit.strip())
    return SizeFact(words.strip())


_SHARES = Lazy(r"\s*([-−–+]?\d{1,2}(?:\.\d{1,2})?)\s*(?:%|per ?cent|percent)?\s*(?:[(\[]((?:\s*[-−–+]?\d{1,2}(?:\.\d{1,2})?\s*(?:%|per ?cent|percent)?\s*[,;]?)+)[)\]])?\s*(?:%|per ?cent|percent)?\s*", re.I)


def ease_shares(words: str) -> tuple[float, ...]:
    """Ease in per cent as shares, one a size or one for all; () where the words are no per cent.

    >>> ease_shares("-5 (-5, -8) %"), ease_shares("5 % (8 %)"), ease_shares("4 cm")
    ((-0.05, -0.05, -0.08), (0.05, 0.08), ())
    """
    found = _SHARES.fullmatch(words)
    if not found or not re.search(r"%|per ?cent", words, re.I):
        return ()
    values = [found[1], *re.findall(r"[-−–+]?\d{1,2}(?:\.\d{1,2})?", found[2] or "")]
    return tuple(float(value.replace("−", "-").replace("–", "-")) / 100 for value in values)
