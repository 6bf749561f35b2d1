"""Size restrictions in and before row labels: "Sizes 2 and 4 only:", "All sizes:", "(size M only)", "(two largest sizes)", "L and up:"."""

import re
from functools import lru_cache

from .label import Label
from .number_words import CARDINAL_PATTERN, ORDINAL_PATTERN, number_of
from .patterns import Lazy

SIZE_ONLY = Lazy(
    r"[\(\[]?\s*(?:for\s+)?(?:the\s+)?(?:(?P<only1>only)\s+)?sizes?\s+(?P<names>[^:;.\n\[\]]{1,120}?)\s*[-–—,]?\s*\bonly\b\s*[\)\]]?\s*[:.,;–—-]*\s*", re.I
)
_ONLY_SIZES = Lazy(r"[\(\[]?\s*(?:for\s+)?only\s+(?:for\s+)?sizes?\s+(?P<names>[^:;.\n\[\]]{1,120}?)\s*[\)\]]?\s*[:]\s*", re.I)
_SIZE_COLON = Lazy(r"[\(\[]?\s*(?:for\s+)?(?:the\s+|all\s+)?sizes?\s+(?P<names>[\w/ ,&.+-]{1,60}?)\s*[\)\]]?\s*:\s*", re.I)
_NAMES_ONLY = Lazy(r"[\(\[]?\s*(?:for\s+)?(?P<names>[\w/ ,&+-]{1,80}?)\s+(?:sizes?\s+)?only\b\s*[\)\]]?\s*[:.,;–—-]*\s*", re.I)
_ALL_SIZES = Lazy(r"[\(\[]?\s*(?:for\s+|in\s+)?(?:all|both)\s+(?:other\s+)?sizes?\s*[\)\]]?\s*(?P<sep>[:.,;–—-]+|(?=\n|$))\s*", re.I)
_BEFORE_LABEL = Lazy(
    r"[\(\[]?\s*(?:(?:for|in)\s+)?(?P<names>(?:(?:the|all|both|not|sizes?)\s+)?[A-Za-z0-9][\w/ ,&+'-]{0,60}?)\s*[\)\]]?\s*(?:(?P<sep>[:,.–—-]+)\s*|(?<=[\)\]])\s+)(?:(?:work|crochet)\s+)?(?=(?:rows?|rnds?|rounds?|r\d|next\s+(?:row|rnd|round))\b|r\d|\d+(?:st|nd|rd|th)\s)",
    re.I,
)
_AND_UP = Lazy(r"(?P<from>.+?)\s*(?:\+$|(?:and|&|or)\s+(?:up|larger|bigger|above|over|upwards?|greater|(?:all\s+)?larger(?:\s+sizes)?)$)|(?P<to>.+?)\s*(?:and|&|or)\s+(?:smaller|under|below|down)$", re.I)
_EXCEPT = Lazy(r"(?:all\s+)?(?:other\s+)?(?:sizes?\s+)?(?:except|but|other\s+than|not|excluding)\s+(?:for\s+)?(?:the\s+)?(?P<names>.+)$", re.I)
_RELATIVE = Lazy(rf"(?:(?P<n>\d|{CARDINAL_PATTERN})\s+)?(?P<which>largest|larger|biggest|bigger|last|smallest|smaller|first)(?:\s+(?P<n2>\d|{CARDINAL_PATTERN}))?$", re.I)
_NTH = Lazy(rf"(?:(?P<n>\d{{1,2}})(?:st|nd|rd|th)|(?P<word>{ORDINAL_PATTERN}))$", re.I)
_SHORT = {"extra small": "xs", "x-small": "xs", "small": "s", "medium": "m", "large": "l", "extra large": "xl", "x-large": "xl", "xx-large": "2xl", "xxl": "2xl", "xxxl": "3xl"}


@lru_cache(maxsize=512)
def sizes_meant(words: str, size_names: tuple[str, ...]) -> tuple[str, ...]:
    """The sizes that words mean: "two largest sizes", "Child and both Adult sizes", "L and up", "all but S"; () where any of them is no size.

    >>> sizes_meant("both Adult sizes", ("Child", "Small Adult", "Large Adult"))
    ('Small Adult', 'Large Adult')
    >>> sizes_meant("2nd and 3rd sizes", ("S", "M", "L")), sizes_meant("larger sizes", ("1", "2", "3"))
    (('M', 'L'), ('2', '3'))
    """
    many = bool(re.search(r"\bsizes\b", words, re.I))
    said = many or bool(re.search(r"\bsize\b", words, re.I))
    plain = " ".join(re.sub(r"\b(?:only|sizes?)\b", " ", words, flags=re.I).strip(" .,:()[]").split())
    if not plain or not size_names:
        return ()
    other = _EXCEPT.match(" ".join(words.split()))
    if other:
        out = sizes_meant(other["names"], size_names)
        return tuple(name for name in size_names if name not in out) if out else ()
    up = _AND_UP.match(plain)
    if up:
        ends = _part_meant(up["from"] or up["to"], size_names, many, said)
        if len(ends) == 1:
            at = size_names.index(ends[0])
            return size_names[at:] if up["from"] else size_names[: at + 1]
        return ()
    whole = _part_meant(plain, size_names, many, said)
    if whole:
        return whole
    found: set[str] = set()
    for part in re.split(r"\s*[,;&+]\s*(?:and\s+|or\s+)?|\s+(?:and|or)\s+|\s*/\s*|\s*[\(\[]\s*", plain):
        meant = _part_meant(part, size_names, many, said)
        if not meant:
            return ()
        found.update(meant)
    return tuple(name for name in size_names if name in found)


def _part_meant(part: str, size_names: tuple[str, ...], many: bool, said: bool) -> tuple[str, ...]:
    """The sizes one part of the words means."""
    part = re.sub(r"^(?:(?:the|for|in|both|all|size)\s+)+", "", part.strip(" .,:()[]"), flags=re.I)
    lower = [name.lower() for name in size_names]
    small = part.lower()
    short = [_SHORT.get(name, name) for name in lower]
    for names in (lower, short):
        if small in names:
            return (size_names[names.index(small)],)
    if not small:
        return ()
    ends = re.split(r"\s*(?:[-–—]|\bto\b|\bthrough\b|\bthru\b)\s*", small, maxsplit=1)
    if len(ends) == 2 and all(end in lower or end in short for end in ends):
        first, last = (lower.index(end) if end in lower else short.index(end) for end in ends)
        return size_names[first : last + 1]
    relative = _RELATIVE.match(small) if said else None
    if relative:
        which, number = relative["which"], relative["n"] or relative["n2"]
        comparing = which in ("larger", "bigger", "smaller")
        count = number_of(number) if number else max(1, len(size_names) - 1) if comparing and many else 1
        if not count or count >= len(size_names):
            return ()
        return size_names[:count] if which in ("smallest", "smaller", "first") else size_names[-count:]
    nth = _NTH.match(small) if said else None
    if nth:
        index = int(nth["n"]) if nth["n"] else number_of(nth["word"]) or 0
        return (size_names[index - 1],) if 0 < index <= len(size_names) else ()
    if len(small) > 2 and small.replace(" ", "").isalpha():
        one = small.removesuffix("s")
        return tuple(name for name in size_names if re.search(rf"(?<!\w){re.escape(one)}s?(?!\w)", name, re.I))
    return ()


def read_restriction(text: str, at: int, end: int, size_names: tuple[str, ...]) -> Label | None:
    """A size restriction: "Sizes 2 and 4 only:", "All sizes:"."""
    first = text[at : at + 1].lower()
    if size_names:
        found = _NAMES_ONLY.match(text, at, end)
        names = split_size_names(found["names"], size_names) if found else ()
        if names and all(name in size_names for name in names):
            return Label(at, found.end(), only=names, core=False, firm=True)
        names = sizes_meant(found["names"], size_names) if found else ()
        if not names:
            found = _BEFORE_LABEL.match(text, at, end)
            names = sizes_meant(found["names"], size_names) if found else ()
            names = names if names and (re.search(r"size", found["names"], re.I) or all(not name.isdigit() for name in names)) else ()
        if names:
            return Label(at, found.end(), only=names, core=False, firm=True)
    if first not in "sfaotbe([":
        return None
    found = _ALL_SIZES.match(text, at, end)
    if found:
        return Label(at, found.end(), all_sizes=True, core=False, firm=True)
    for pattern in (SIZE_ONLY, _ONLY_SIZES):
        found = pattern.match(text, at, end)
        if found:
            names = sizes_meant(found["names"] + " sizes", size_names) or split_size_names(found["names"], size_names)
            return Label(at, found.end(), only=names, core=False, firm=True)
    found = _SIZE_COLON.match(text, at, end)
    if found:
        names = sizes_meant(found["names"], size_names) or split_size_names(found["names"], size_names)
        known = {name.lower() for name in size_names}
        if all(name.lower() in known or len(name) <= 4 for name in names) and (known or len(names) == 1):
            return Label(at, found.end(), only=names, core=False, firm=True)
    return None


def split_size_names(words: str, size_names: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Size names out of "S, M and 2/3XL" or, with the names known, "S-L".

    >>> split_size_names("5, 7 and 9"), split_size_names("S-L", ("S", "M", "L", "XL"))
    (('5', '7', '9'), ('S', 'M', 'L'))
    """
    known = {name.lower(): index for index, name in enumerate(size_names)}
    whole = words.strip(" .,()[]")
    if whole.lower() in known:
        return (size_names[known[whole.lower()]],)
    names: list[str] = []
    for part in re.split(r"\s*,\s*(?:and\s+|or\s+|&\s*)?|\s+(?:and|or)\s+|\s*&\s*|\s*;\s*|\s*\+\s*|\s+\((?=[^()]*\)?$)", whole):
        part = re.sub(r"^(?:sizes?|and|or)\s+", "", part.strip(" .()[]"), flags=re.I)
        if not part:
            continue
        ends = re.split(r"\s*(?:[-–—]|\bto\b|\bthrough\b)\s*", part, maxsplit=1)
        if part.lower() not in known and len(ends) == 2 and all(e.lower() in known for e in ends):
            low, high = known[ends[0].lower()], known[ends[1].lower()]
            names.extend(size_names[low : high + 1])
        elif part.lower() in known:
            names.append(size_names[known[part.lower()]])
        else:
            names.append(part)
    return tuple(names)
