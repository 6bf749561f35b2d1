"""Patterns that are compiled when they are first used: a short manuscript needs few of the many that the reader knows."""

import re

_ANSWERS = ("match", "search", "fullmatch", "finditer", "findall", "sub", "subn", "split")


class Lazy:
    """A regular expression that costs nothing before its first use, and after it answers as the compiled one does.

    >>> Lazy(r"\\d+").search("row 12")[0]
    '12'
    """

    def __init__(self, pattern: str, flags: int = 0):
        self.pattern = pattern
        self.flags = flags

    def __getattr__(self, name: str):
        # Asked only while the answers are not yet there: from then on they are attributes of their own, at full speed.
        if name not in _ANSWERS:
            raise AttributeError(name)
        compiled = re.compile(self.pattern, self.flags)
        for answer in _ANSWERS:
            self.__dict__[answer] = getattr(compiled, answer)
        return self.__dict__[name]
