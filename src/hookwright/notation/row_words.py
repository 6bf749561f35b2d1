"""The words of rows that are no stitches, as an editor sets them apart and offers them: from the reader's own table."""

from functools import cache

from .vocabulary import word_file

# What an editor shows: kinds of the table whose words do something or say where, and none that every sentence has.
_ACTS = ("TURN", "JOIN", "ATTACH", "REP", "SKIP", "CONTINUE", "CHANGE", "PM")
_PLACES = ("NEXT", "EACH", "FIRST", "LAST", "SAME", "REM", "ACROSS", "AROUND", "CENTER", "TCH", "PREVIOUS", "TIMES", "EVENLY", "RING")
_PHRASES = ("MAGIC", "FASTEN", "DONOTJOIN", "DONOTTURN", "RS", "WS")
_SECTIONS = ("places", "loops", "posts")
_OFFERED = 1  # of the spellings of one word


@cache
def row_words() -> tuple[tuple[str, str, bool], ...]:
    """(words, "act" or "place", whether they are worth offering to who types), small letters, each once."""
    table = word_file()
    lists = [(table["kinds"][kind], "act") for kind in _ACTS] + [(table["kinds"][kind], "place") for kind in _PLACES]
    lists += [(table["phrases"][kind], "act") for kind in _PHRASES]
    lists += [(words, "place") for section in _SECTIONS for words in table[section].values()]
    lists.append((table["stitches"]["STN"], "place"))
    out: dict[str, tuple[str, str, bool]] = {}
    for words, kind in lists:
        for at, word in enumerate(one.strip() for one in words.split(",")):
            if len(word) > 1:
                out.setdefault(word, (word, kind, at < _OFFERED))
    return tuple(out.values())
