"""Body measures by table and size: the trade's standard sizes, surveyed adults, heads of children by age, hands, feet, and the usual sizes of blankets.

`measures("women", "M")` gives all measures of a size by name as (low_mm, high_mm). Names are the trade's: bust, chest, waist, hips,
upper arm, arm length to underarm, armhole depth, cross back, head, hand, foot ...
"""

import re
from functools import cache

from .growth import adult_heads, head_mm, older_head, surveyed
from .tables_read import CM, INCH, pair, table

TABLES = ("babies", "children", "women", "men", "surveyed women", "surveyed men", "heads", "hands", "socks", "household")
_ALSO = {"woman": "women", "womens": "women", "women's": "women", "ladies": "women", "lady": "women", "mens": "men", "men's": "men", "adult women": "women", "adult men": "men",
         "man": "men", "child": "children", "baby": "babies", "kids": "children", "youth": "children", "adults": "women", "head": "heads",
         "hand": "hands", "blanket": "household", "blankets": "household", "home": "household", "feet": "socks", "foot": "socks", "sock": "socks", "adult heads": "heads", "children's heads": "heads"}


ADULT_SIZES = ("women", "men", "women S", "women M", "women L", "men S", "men M", "men L")  # of those surveyed, in the tables of heads, hands and socks


def table_name(words: str) -> str | None:
    """The name of the table meant, or None: "Woman" -> "women"."""
    plain = " ".join(words.lower().replace("’", "'").split())
    plain = _ALSO.get(plain, plain)
    return plain if plain in TABLES else None


def sizes_of(name: str) -> tuple[str, ...]:
    """The sizes of a table in order; () where any age goes ("heads")."""
    if name == "hands":
        return (*(row[0] for row in table("hands_and_feet")["children_hands"]["rows"]), *ADULT_SIZES)
    if name == "household":
        return tuple(key.replace("_", " ") for key in _flat_things())
    if name == "socks":
        return (*(row[0] for row in table("hands_and_feet")["socks"]["rows"]), *ADULT_SIZES)
    if name == "heads":
        return tuple(size["name"] for size in table("heads")["trade"]["sizes"])
    return tuple(table("bodies")[name.replace(" ", "_")]["sizes"])


def measures(name: str, size: str) -> dict[str, tuple[float, float]] | None:
    """All measures of a size by name, each (low_mm, high_mm); None where the table has no such size. "heads" takes the trade's names, an
    age ("6-12 months", "3 years": WHO, 15th to 85th percentile of both sexes) or "women", "men", "adults" (surveyed, the same share), each also
    as S, M or L ("women S": the 5th to 35th percentile, M to the 65th, L to the 95th); hands and socks have these for women and men, too."""
    if name == "heads":
        return _head(size)
    if name == "hands":
        return _hand(size)
    if name == "socks":
        return _sock(size)
    if name == "household":
        return _flat(size)
    facts = table("bodies")[name.replace(" ", "_")]
    at = _index(facts["sizes"], size)
    if at is None:
        return None
    out = {}
    for measure, fact in facts.items():
        if isinstance(fact, dict) and "cm" in fact and at < len(fact["cm"]) and not measure.endswith("_sd"):
            low, high = pair(fact["cm"][at])
            out[measure.replace("_", " ")] = (low * CM, high * CM)
    for one in tuple(out):
        out.setdefault(also_called(one), out[one])
    return out


def also_called(measure: str) -> str:
    """The other name of a measure of the body, or the same one.

    >>> also_called("bust"), also_called("head")
    ('chest', 'head')
    """
    return {"bust": "chest", "chest": "bust", "hips": "hip", "hip": "hips"}.get(measure, measure)


@cache
def _all_measures() -> frozenset[str]:
    return frozenset(measure for name in TABLES for size in sizes_of(name) for measure in measures(name, size) or ())


def is_measure(word: str) -> bool:
    """Whether some table gives a measure of this name.

    >>> is_measure("back waist length"), is_measure("brim")
    (True, False)
    """
    return word in _all_measures()


def verified(name: str, measure: str) -> str:
    """How a figure of a trade table was checked: "two sources", "from memory" and so on."""
    fact = table("bodies").get(name.replace(" ", "_"), {}).get(measure.replace(" ", "_"), {})
    return fact.get("verified", "") if isinstance(fact, dict) else ""


def _index(sizes, size: str) -> int | None:
    plain = [_plain(one) for one in sizes]
    wanted = _plain(size)
    return plain.index(wanted) if wanted in plain else None


_SAME = {"xl": "1x", "xxl": "2x", "2xl": "2x", "3xl": "3x", "4xl": "4x", "5xl": "5x", "small": "s", "medium": "m", "large": "l", "xsmall": "xs"}


def _plain(size: str) -> str:
    words = re.sub(r"\b(?:years?|yrs?|y|age|size|extra)\b", lambda m: "x" if m[0] == "extra" else "", size.lower())
    words = re.sub(r"[^a-z0-9]", "", words.replace("months", "mo").replace("month", "mo").replace("mos", "mo"))
    return _SAME.get(words, words)


_AGE = re.compile(r"(?P<a>\d+(?:\.\d+)?)\s*(?:-|–|to)?\s*(?P<b>\d+(?:\.\d+)?)?\s*(?P<u>months?|mos?|m|years?|yrs?|y)\b", re.I)


def age_in_months(words: str) -> tuple[float, float] | None:
    """The ages said, in months: "6-12 months", "2 years", "newborn".

    >>> age_in_months("3 to 5 years"), age_in_months("newborn")
    ((36.0, 60.0), (0.0, 1.0))
    """
    found = _AGE.search(words)
    if found:
        scale = 12.0 if found["u"].lower().startswith("y") else 1.0
        low = float(found["a"]) * scale
        return low, float(found["b"]) * scale if found["b"] else low
    return (0.0, 1.0) if "newborn" in words.lower() else None


_ADULTS = re.compile(r"(?P<who>women|woman|men|man|adults?)(?:\s+(?:size\s+)?(?P<part>s|m|l|small|medium|large))?")
# Between which deviations from the mean the people of a size lie: the middle seven in ten, and three in ten each for small, medium and large.
_PART = {None: (-1.04, 1.04), "s": (-1.64, -0.39), "m": (-0.39, 0.39), "l": (0.39, 1.64)}


def _adults(size: str) -> tuple[str, tuple[float, float]] | None:
    """("women", deviations) of a size that is said of surveyed adults: "women", "Woman S", "adults L"; None for other words."""
    found = _ADULTS.fullmatch(" ".join(size.lower().split()))
    if not found:
        return None
    who = {"woman": "women", "man": "men", "adult": "adults"}.get(found["who"], found["who"])
    return who, _PART[found["part"][0] if found["part"] else None]


def _span(people, part: tuple[float, float]) -> tuple[float, float]:
    """From the least to the largest measure of these people between two deviations from the mean."""
    return min(mean + part[0] * sd for mean, sd in people.parts), max(mean + part[1] * sd for mean, sd in people.parts)


def _head(size: str) -> dict | None:
    plain = " ".join(size.lower().split())
    if adults := _adults(size):
        return {"head": _span(adult_heads(adults[0]), adults[1])}
    age = age_in_months(plain)
    if age and age[0] <= age[1] <= 204:
        low = head_mm(age[0], "girls", -1.04) if age[0] <= 60 else _at(older_head(age[0]), -1.04)
        return {"head": (low, head_mm(age[1], "boys", 1.04) if age[1] <= 60 else _at(older_head(age[1]), 1.04))}
    for one in table("heads")["trade"]["sizes"]:
        if one["name"] == plain:
            return {"head": (one["cm"] * CM, one["cm"] * CM)}
    return None


def _at(spread: tuple[float, float], z: float) -> float:
    return spread[0] + z * spread[1]


def _hand(size: str) -> dict | None:
    if found := _surveyed(size, {"hand": "hand_circumference", "hand length": "hand_length", "palm length": "palm_length", "wrist": "wrist"}):
        return found
    rows = table("hands_and_feet")["children_hands"]["rows"]
    at = _index([row[0] for row in rows], size)
    if at is None:
        return None
    around, long = pair(rows[at][1]), pair(rows[at][2])
    return {"hand": (around[0] * INCH, around[1] * INCH), "hand length": (long[0] * INCH, long[1] * INCH)}


def _surveyed(size: str, names: dict[str, str]) -> dict | None:
    """Measures of surveyed women or men in a size said of them, by the names given and the survey's; None for another size."""
    adults = _adults(size)
    if adults is None or adults[0] == "adults":
        return None
    return {name: _span(surveyed(adults[0], measure), adults[1]) for name, measure in names.items()}


def _sock(size: str) -> dict | None:
    if found := _surveyed(size, {"foot": "ball_of_foot", "foot length": "foot_length", "ankle": "ankle", "heel": "heel_ankle", "calf": "calf"}):
        return found
    rows = table("hands_and_feet")["socks"]["rows"]
    at = _index([row[0] for row in rows], size)
    if at is None:
        return None
    _, around, high, long = rows[at]
    return {"foot": (around * INCH,) * 2, "sock height": (high * INCH,) * 2, "foot length": (long * INCH,) * 2}


def _flat_things() -> dict:
    """Blankets, beds and mattresses by name: lists of [width, length] in inches, one a source."""
    facts = table("household")
    things = {name: pairs for name, pairs in facts["blankets"].items() if isinstance(pairs, list) and name != "source"}
    for kind in ("bed_blanket", "us_mattress"):
        word = "bed" if kind == "bed_blanket" else "mattress"
        things.update({f"{name}_{word}": pairs for name, pairs in facts[kind].items() if isinstance(pairs, list) and name != "source"})
    return things


def _flat(size: str) -> dict | None:
    """Width and length of a thing for the house, from the smallest to the largest that the sources give."""
    pairs = _flat_things().get("_".join(size.lower().split()))
    if not pairs:
        return None
    out = {}
    for at, measure in enumerate(("width", "length")):
        values = [one[at] * INCH for one in pairs]
        out[measure] = (min(values), max(values))
    return out
