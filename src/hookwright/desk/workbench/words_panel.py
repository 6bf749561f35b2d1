"""The words of a manuscript's dialect, with its own stitches: what the editor sets in colour and offers while she types."""

from functools import cache

from hookwright.notation import row_words
from hookwright.stitches import DIALECTS, dialect

from .reports import report_of

MOST_OWN = 200
_POSTS = ("fp", "bp")


def words(text: str) -> dict:
    """{"terms", "stitches": [{"word", "name", "offer"}], "words": [{"word", "kind", "name", "offer"}]}; only what is worth offering has its name."""
    report = report_of(text)
    terms = report.as_dict()["terms"]
    own = [{"word": word, "name": one.name, "offer": True} for one in list(report.pattern.own.values())[:MOST_OWN] for word in dict.fromkeys((one.name, *one.spellings)) if word]
    stitches, others = _of_dialect(terms if terms in DIALECTS else DIALECTS[0])
    return {"terms": terms, "stitches": own + stitches, "words": others}


@cache
def _of_dialect(terms: str) -> tuple[list, list]:
    spoken = dialect(terms)
    stitches = []
    for word, id in spoken.words.items():
        short_form = spoken.abbr(id)
        offer = word == short_form.lower()
        if word in spoken.everyday or id[:2] in _POSTS and not offer:  # a post stitch is spelt in a hundred ways
            continue
        stitches.append({"word": short_form if offer else word, "name": spoken.name_of(id), "offer": True} if offer else {"word": word})
    short = [{"word": word, "kind": "place", "name": meaning, "offer": True} for word, meaning in spoken.abbreviations.items()]
    known = {one["word"].lower() for one in short}
    return stitches, short + [{"word": word, "kind": kind, "offer": offer} for word, kind, offer in row_words() if word not in known]
