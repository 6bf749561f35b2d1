"""Any words at all: read, worked and proved without a slip, and in bounded work."""

import random
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

import hookwright

HERE = Path(__file__).resolve().parent
LINES = [line for path in sorted((HERE.parents[1] / "examples").glob("*.md")) for line in path.read_text("utf-8").splitlines()
         if len(line) > 12 and any(c.isdigit() for c in line)]
BELOW = [None, "24 sc", "ring", "40 ch", "ch 3 (counts as dc), 19 dc", "[3 dc, ch 2] x 8", "[sc, (5 dc) in one st] x 6, sc", "30 row ends", "20 (24, 28) dc"]
ODD = ["0", "-3", "999999999999", "(", ")", "*", "**", "[", "]", "{rib}", "\u202e", "x", "rep from *", "to last", "around", ":", "½", "Row 7:", "of each"]


def wrenched(seed: int) -> str:
    """A line of an example with some of its words taken out, moved, doubled or made odd."""
    chance = random.Random(seed)
    words = chance.choice(LINES).split()
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(len(words) + 1)
        what = chance.random()
        if what < 0.3 and words:
            del words[min(at, len(words) - 1)]
        elif what < 0.6:
            words.insert(at, chance.choice(ODD))
        elif what < 0.8:
            words.insert(at, chance.choice(chance.choice(LINES).split()))
        elif words:
            other = chance.randrange(len(words))
            words[other], words[min(at, len(words) - 1)] = words[min(at, len(words) - 1)], words[other]
    return " ".join(words)


@settings(max_examples=150)
@given(st.integers(0, 10**9), st.sampled_from(BELOW), st.booleans(), st.sampled_from(["US", "UK", None]))
def test_wrenched_rows_are_worked_or_refused_in_words(seed, below, in_round, terms):
    """A row with words lost, moved or made odd gives a report, whatever lies below."""
    report = hookwright.check(wrenched(seed), terms=terms, below=below, in_round=in_round, limit=20_000)
    values = report.as_dict()
    for row in values["rows"]:
        for counts in row["sizes"].values():
            assert counts["stitches"] == sum(counts["by_kind"].values()) >= 0 and counts["unworked"] >= 0
            assert all(chains > 0 for chains in counts["spaces"])
    assert all(finding["message"].strip() for finding in values["findings"])


@settings(max_examples=100)
@given(st.text(max_size=300), st.sampled_from(BELOW))
def test_any_text_is_answered(text, below):
    """Any text gives a report with terms and findings."""
    values = hookwright.check(text, below=below, limit=20_000).as_dict()
    assert values["terms"] in ("US", "UK") and isinstance(values["findings"], list)
