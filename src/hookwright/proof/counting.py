"""Words and ways out for a stated count that is not the worked one."""

import re

from hookwright.ground import Suggestion, at, listing
from hookwright.notation.tree import Repeat
from hookwright.stitches import stitch

from .case import Case
from .size_lists import foundation_chain
from .sums import is_foundation, places_of
from .troubles import Off, stated_total
from .wording import counted, size_list, stitch_word

_PER = {
    "repeat": "in each repeat",
    "side": "on each side",
    "more": "more than the row before",
    "fewer": "fewer than the row before",
    "left": "left unworked",
    "group": "in each group",
}


def said_and_made(case: Case, off: Off, name: str) -> str:
    """ "Row 3 states 45 stitches, and 44 are worked", with both numbers of each size where these differ."""
    facts = off.facts()
    of, chains = facts.get("of") or "st", facts.get("chains")
    per = facts.get("per") or ""
    tail = " " + _PER.get(per, f"({per})") if per else ""
    expected, found = off.each("expected"), off.each("found")
    made = "are there" if of == "row" else "are chained" if _of_foundation(off) else "are worked"
    if len(set(zip(expected.values(), found.values(), strict=False))) == 1:
        wanted, worked = facts.get("expected"), facts.get("found")
        said = counted(wanted, of, case.terms, chains) if isinstance(wanted, int) else f"{wanted}"
        total = off.first[1].stitches
        if not _of_foundation(off) and stitch(of) is not None and not per and total != worked and total != wanted:
            return f"{name} states {said}, and {counted(worked, of, case.terms)} {made} ({total} stitches in all)"
        return f"{name} states {said}{tail}, and {worked} {'is' + made[3:] if worked == 1 else made}"
    said = set(expected.values())
    noun = counted(said.pop() if len(said) == 1 else 2, of, case.terms, chains).partition(" ")[2]
    made = made if set(found.values()) != {1} else "is" + made[3:]
    return f"{name} states {_numbers(expected)} {noun}{tail}, and {_numbers(found)} {made}"


def _of_foundation(off: Off) -> bool:
    """Whether the count is that of the chain a piece begins with."""
    return off.facts().get("of") == "ch" and is_foundation(off.first[1])


def _numbers(values: dict) -> str:
    return size_list([int(value) if isinstance(value, float) and value.is_integer() else value for value in values.values()])


def made_of(case: Case, worked) -> str:
    """What a worked row is made of: "40 sc + 4 bobble"."""
    parts = [f"{number} {stitch_word(kind, case.terms)}" for kind, number in worked.by_kind.items() if number]
    return " + ".join(parts)


def count_suggestions(case: Case, off: Off):
    """The count as worked, in the place of the stated one; and what would explain the difference, where something does."""
    expected, found = off.each("expected"), off.each("found")
    _, worked, _ = off.first
    whole = stated_total(off.first[2], off.row) is not None
    if whole:
        yield from _explanations(case, off, worked)
        found = {size: worked.stitches for size, (_, worked, _) in off.at.items()}
    new = _replaced(case, off, expected, found)
    if _of_foundation(off):
        yield Suggestion(f"chain {_numbers(expected)}, or state {_numbers(found)}", "your choice")
        return
    said = [found.get(size) for size in range(len(case.sizes))]
    words = size_list(said) if None not in said else listing(found.values())
    made = made_of(case, worked)
    yield Suggestion(
        f"state {words}, as the instructions make",
        "likely" if not off.echoes else "your choice",
        text=new,
        span=off.span if new is not None else None,
        effect=made if len(off.at) == 1 and whole else "the count agrees with the instructions",
    )


def _replaced(case: Case, off: Off, expected: dict, found: dict) -> str | None:
    """Her statement with the wrong numbers exchanged; None where they don't stand there plainly."""
    words = case.text[off.span.start : off.span.end]
    numbers = list(re.finditer(r"\d+", words))
    if not numbers or len(words) > 120:
        return None
    sizes = len(case.sizes)
    spots: dict[int, int] = {}  # index of the number in her words -> what it should be
    for size, wanted in expected.items():
        alike = [index for index, number in enumerate(numbers) if int(number[0]) == wanted]
        if sizes > 1 and len(numbers) >= sizes and size < len(numbers) and int(numbers[size][0]) == wanted:
            spot = size
        elif len(alike) == 1:
            spot = alike[0]
        elif alike and alike[0] not in spots:
            spot = alike[0]
        else:
            return None
        if spots.setdefault(spot, found[size]) != found[size]:
            return None
    out, done = [], 0
    for index, number in enumerate(numbers):
        out.append(words[done : number.start()])
        out.append(str(spots.get(index, number[0])))
        done = number.end()
    out.append(words[done:])
    return "".join(out)


def _explanations(case: Case, off: Off, worked):
    """Readings of the count under which it would hold."""
    gaps = {
        trouble.facts["expected"] - trouble.facts["found"]
        for _, _, trouble in off.at.values()
        if isinstance(trouble.facts.get("expected"), int) and isinstance(trouble.facts.get("found"), int)
    }
    if len(gaps) != 1:
        return
    gap = gaps.pop()
    yield from _other_foundation(case, off, gap)
    chains = sum(worked.spaces)
    if gap > 0 and gap == chains:
        yield Suggestion(
            "the stated count holds where chains count as stitches: say so in the notes",
            "your choice",
            effect=f"{worked.stitches} stitches + {chains} chains = {worked.stitches + chains}",
        )
    elif gap > 0 and gap == len(worked.spaces):
        yield Suggestion(
            "the stated count holds where each chain space counts as one: say so in the notes",
            "your choice",
            effect=f"{worked.stitches} stitches + {gap} spaces = {worked.stitches + gap}",
        )


def _other_foundation(case: Case, off: Off, gap: int):
    """A longer or shorter chain, where the row goes once along a foundation and each chain more makes one stitch more."""
    size, (index, worked, _) = min(off.at.items())
    below = case.same_row(size, index)[size][1]
    if not is_foundation(below) or any(type(step) is Repeat for step in off.row.steps) or worked.spaces:
        return
    made, there = worked.stitches, places_of(below)
    seen = next((seen for seen in case.seen if seen.row is below.row or seen.row is off.row), None)
    chain = foundation_chain(seen.row) if seen is not None else None
    wanted = [at(chain.n, other) for other in range(len(case.sizes))] if chain is not None else [there]
    mended = [number + gap if number is not None and (other in off.at or len(wanted) == 1) else number for other, number in enumerate(wanted)]
    yield Suggestion(
        f"start with {size_list(mended)} chains",
        "likely",
        effect=f"{there + gap} - {there - made} = {made + gap}",
    )
