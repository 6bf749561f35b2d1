"""Size restrictions in and before row labels: "Sizes 2 and 4 only:", "All sizes:", "(size M only)"."""

import re

from .label import Label
from .patterns import Lazy

SIZE_ONLY = Lazy(
    r"[\(\[]?\s*(?:for\s+)?(?:the\s+)?(?:(?P<only1>only)\s+)?sizes?\s+(?P<names>[^:;.\n\[\]]{1,120}?)\s*[-–—,]?\s*\bonly\b\s*[\)\]]?\s*[:.,;–—-]*\s*", re.I
)
_ONLY_SIZES = Lazy(r"[\(\[]?\s*(?:for\s+)?only\s+(?:for\s+)?sizes?\s+(?P<names>[^:;.\n\[\]]{1,120}?)\s*[\)\]]?\s*[:]\s*", re.I)
_SIZE_COLON = Lazy(r"[\(\[]?\s*(?:for\s+)?(?:the\s+)?sizes?\s+(?P<names>[\w/ ,&.+-]{1,60}?)\s*[\)\]]?\s*:\s*", re.I)
_NAMES_ONLY = Lazy(r"[\(\[]?\s*(?:for\s+)?(?P<names>[\w/ ,&+-]{1,80}?)\s+(?:sizes?\s+)?only\b\s*[\)\]]?\s*[:.,;–—-]*\s*", re.I)
_ALL_SIZES = Lazy(r"[\(\[]?\s*(?:for\s+|in\s+)?(?:all|both)\s+(?:other\s+)?sizes?\s*[\)\]]?\s*(?P<sep>[:.,;–—-]+|(?=\n|$))\s*", re.I)


def read_restriction(text: str, at: int, end: int, size_names: tuple[str, ...]) -> Label | None:
    """A size restriction: "Sizes 2 and 4 only:", "All sizes:"."""
    first = text[at : at + 1].lower()
    if size_names:
        found = _NAMES_ONLY.match(text, at, end)
        names = split_size_names(found["names"], size_names) if found else ()
        if names and all(name in size_names for name in names):
            return Label(at, found.end(), only=names, core=False, firm=True)
    if first not in "sfaotbe([":
        return None
    found = _ALL_SIZES.match(text, at, end)
    if found:
        return Label(at, found.end(), all_sizes=True, core=False, firm=True)
    for pattern in (SIZE_ONLY, _ONLY_SIZES):
        found = pattern.match(text, at, end)
        if found:
            names = split_size_names(found["names"], size_names)
            return Label(at, found.end(), only=names, core=False, firm=True)
    found = _SIZE_COLON.match(text, at, end)
    if found:
        names = split_size_names(found["names"], size_names)
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
