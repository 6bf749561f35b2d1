"""More chains are said to count than are passed over, or a chain counts that leaves nothing over.

"Sc in 2nd ch from hook" passes over one chain. Words in brackets that speak of two skipped chains do not fit.

With it::

    Ch 48.
    Row 1: Sc in 2nd ch from hook (first 2 chs count as first sc), sc in each ch across. (47 sc)

Without it::

    Ch 48.
    Row 1: Sc in 2nd ch from hook and in each ch across. (47 sc)

Working::

    2nd ch from hook: 2 - 1 = 1 chain is passed over, not 2

What to do: take the words out, or work into the chain that fits them (after 2 skipped chains the 3rd from the hook).
"""

import re

from hookwright.ground import LOOK, Finding, Span, Suggestion

from ..case import Case
from ..wording import count, quoted

KIND = "skipped-chains-differ"
_FROM_HOOK = re.compile(r"\b(?:in|into)?\s*(?:the )?(?P<n>\d{1,2})(?:st|nd|rd|th) (?:ch|chain)s? from (?:the )?(?:hook|hk)", re.IGNORECASE)
_COUNT_AS = re.compile(
    r"(?P<m>\d{1,2}|two|three|four|five) (?:skipped |missed |sk |unworked |beg(?:inning)? )?(?:chs?|chains?)(?: skipped| missed)? "
    r"(?:count|counts|counted|stand|stands)\b(?! as a? ?(?:ch|sp))",
    re.IGNORECASE,
)
_WORDS = {"two": 2, "three": 3, "four": 4, "five": 5}


def find(case: Case):
    for seen in case.seen:
        body = seen.body
        words = case.text[body.start : body.end].lower()
        if "hook" not in words and "hk" not in words:
            continue
        where = _FROM_HOOK.search(case.text, body.start, body.end)
        if where is None:
            continue
        said = _COUNT_AS.search(case.text, where.end(), min(body.end, where.end() + 90))
        if said is None:
            continue
        passed = int(where["n"]) - 1
        number = _WORDS.get(said["m"].lower()) or int(said["m"])
        if number in (passed, passed + 1) and not (number == passed + 1 and passed == 1):
            continue  # "4th ch from hook (first 4 chs ...)" may count the one that is worked into
        span = Span(said.start(), said.end())
        yield Finding(
            KIND,
            LOOK,
            f"{seen.name} works into the {where['n']}{_ending(int(where['n']))} chain from the hook, which passes over "
            f"{count(passed, 'chain')}, and says that {number} count",
            span,
            seen.name,
            expected=passed,
            found=number,
            whose="the chain worked into",
            labels=((Span(where.start(), where.end()), f"passes over {count(passed, 'chain')}"),),
            suggestions=(
                Suggestion(f"take {quoted(case.text, span)} out", "likely"),
                Suggestion(
                    f"work into the {number + 1}{_ending(number + 1)} chain from the hook",
                    "your choice",
                    effect=f"{number + 1} - 1 = {number} passed over",
                ),
            ),
        )


def _ending(number: int) -> str:
    return "th" if 10 <= number % 100 <= 20 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
