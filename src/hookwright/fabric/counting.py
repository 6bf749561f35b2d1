"""Stated counts against what was worked."""

from itertools import pairwise

from hookwright.ground import PerSize, at

from . import kinds
from .kinds import CHAINS
from .next_places import same_name
from .worked import FLAG_COUNTS, FLAG_TURNING, Trouble

HIGHEST_TURN = 7  # chains of the tallest turning chain in use, for a quadruple treble: common practice, no source
SHAPES = frozenset({"petal", "scallop", "motif", "square", "spoke", "leaf", "point", "peak"})  # parts of a motif that its rounds go on over
GROUPED = frozenset({"vst", "shell", "fan", "picot"})  # counted as groups, not stitch by stitch


def compare(row, stated, size: int, settings, hand, below=None, nth: int = 0, series: int = 1):
    """Troubles of kind "count" for every stated item that the worked row does not bear out.

    nth of series: which row of a range this is, for counts that give one number a row.
    """
    troubles = []
    chains = hand.memory.get("foundation") if hand is not None and not row.kind else None
    for said in stated:
        items = [(_number(item[0], size, nth, said.series, series), item[1], item[2] if len(item) > 2 else None)
                 for item in said.items]
        if any(number is None for number, _, _ in items) and not said.series:
            items = [item for item in items if item[0] is not None]
        if said.series and nth >= len(said.items) and len(said.items) > 1:
            continue
        if said.series and len(said.items) > 1:
            items = [items[nth]]
        if chains and not said.per:
            troubles.extend(_of_foundation(said, items, chains))
            continue
        troubles.extend(_said(row, said, items, settings, hand, below))
    return troubles


def _of_foundation(said, items, chains: int):
    """The chain a piece begins with, where nothing is worked on it yet: it is counted in chains."""
    return [_trouble(said, "ch", number, chains) for number, of, _ in items if of in ("st", "", "ch", None) and number != chains]


def _number(number, size, nth, is_series, series):
    if isinstance(number, PerSize):
        return at(number, size)
    if isinstance(number, tuple):
        return number[nth] if nth < len(number) else None
    return number


def _said(row, said, items, settings, hand, below):
    if said.per == "group" and len(items) >= 2:
        at = next((i for i, item in enumerate(items[:-1]) if item[1] == "group"), 0)
        groups, each = items[at][0], items[at + 1][0]
        found = _of(row, items[at + 1][1], None)
        rest = [*items[:at], *items[at + 2:]]  # "6 shells, 6 groups of 9 dc"
        out = [_trouble(said, of, number, _found(row, of, chains, settings), chains=chains) for number, of, chains in rest if not _holds(row, number, of, chains, rest, settings, hand)]
        if groups * each in (found, row.stitches) or any(_is_group(item[1]) for item in rest) and groups * each == _outside_groups(row, items[at + 1][1]):
            return out
        return [*out, _trouble(said, items[at + 1][1], groups * each, found)]
    if said.per in ("more", "fewer") and _is_group(items[0][1]):
        return []  # "every row grows by one block"
    if said.per == "fewer":
        lost = (below.stitches if below is not None else hand.memory.get("there", 0) if hand is not None else 0) - row.stitches
        return [] if items[0][0] in (lost, row.stitches) else [_trouble(said, items[0][1], items[0][0], lost, "fewer")]
    if said.per == "more":
        made = row.stitches - (below.stitches if below is not None else hand.memory.get("there", 0) if hand is not None else 0)
        return [] if items[0][0] in (made, row.stitches) else [_trouble(said, items[0][1], items[0][0], made, "more")]
    if said.per == "left":
        return [] if items[0][0] in (row.stitches, row.unworked) else [_trouble(said, items[0][1], items[0][0], row.unworked, "left")]
    if said.per == "unworked":
        number = items[0][0]
        return [] if number == row.unworked or not isinstance(number, int) else [Trouble("left-differs", said.span, {"said": number, "left": row.unworked})]
    if said.per in ("repeat", "side"):
        return _shared_out(row, said, items, hand)
    if said.per not in ("", "group", "total"):
        return []
    out = []
    beside = _beside_chain(row, items)
    if beside is not None:
        return [] if beside == row.stitches else [_trouble(said, "st", beside, row.stitches)]
    items = [item for item in items if item[1] != "tch"]
    total = items[0][0] if len(items) > 2 and items[0][1] in ("st", "") and all(isinstance(item[0], int) for item in items) else None
    for number, of, chains in items:
        if of == "row" or total is not None and total == sum(item[0] for item in items[1:]) == number:
            total = None
            continue  # "21 sts: 11 sc, 10 ch-1 sps": what the others come to
        if not _holds(row, number, of, chains, items, settings, hand):
            out.append(_trouble(said, of, number, _found(row, of, chains, settings), chains=chains))
    return out


def _beside_chain(row, items):
    """The stitches in all where the turning chain is named beside those counted ("19 dc and tch"); None where the count names none."""
    counted = [item for item in items if item[1] != "tch"]
    if len(counted) != 1 or len(counted) == len(items) or not isinstance(counted[0][0], int):
        return None
    return counted[0][0] + bool(row.kind and row.flags[0] & FLAG_TURNING and row.flags[0] & FLAG_COUNTS)


def _trouble(said, of, expected, found, per="", chains=None):
    return Trouble("count", said.span, {"of": of, "expected": expected, "found": found, "chains": chains, "per": per})


def _shared_out(row, said, items, hand):
    """So many a side or a repeat: the count must be a whole number of them, for the sides there are."""
    sides = _corners(row) or (hand.memory.get("corners", 0) if hand is not None else 0) or 1
    for number, of, chains in items:
        if of in ("sp", "ch", "row"):
            continue
        found = _of(row, of, chains)
        if not number or found == number * sides or row.stitches == number * sides:
            continue
        if said.per == "repeat" and found and found % number == 0:
            continue
        return [_trouble(said, of, number, found / sides, said.per)]
    return []


def _corners(row) -> int:
    return sum(1 for flag in row.flags if flag & 16)


def _of(row, of, chains):
    if of in ("st", "", None):
        return row.stitches
    if of == "sp":
        return len([n for n in row.spaces if chains is None or n == chains])
    if of == "ch":
        return sum(row.spaces)
    exact = row.by_kind.get(of, 0)
    return exact


def _found(row, of, chains, settings):
    found = _of(row, of, chains)
    if isinstance(of, str) and of in GROUPED and of not in row.by_kind:
        return _groups(row, of)[0]
    if isinstance(of, str) and of.startswith("group"):
        return _groups(row, of[6:])[0]
    if of == "st" and settings.chains_count():
        return row.stitches + sum(row.spaces)
    return found


def _holds(row, number, of, chains, items, settings, hand) -> bool:
    if of in ("st", "", None):
        return _total_holds(row, number, items, settings, hand)
    if of == "sp":
        found = _of(row, of, chains)
        if number == found:
            return True
        if chains is None and number in (len(row.spaces), sum(row.spaces)):
            return True
        if number == 1 and found == 0 and row.kind and row.kind[0] == CHAINS and row.flags[0] & FLAG_TURNING and row.chains[0] == chains:
            return True  # "1 ch-3 sp": the chain it was turned with
        return chains is None and number == _runs(row) and False
    if of == "ch":
        return number in (sum(row.spaces), len(row.spaces)) or chains is not None and number == _of(row, "sp", chains)
    if of == "corner":  # those of three stitches in one leave no mark
        return _corners(row) in (0, number) or number == len(row.spaces)  # each chain between two groups is a corner
    if of.startswith("group"):
        return number in _groups(row, of[6:]) or of[6:] in SHAPES and not row.groups and not row.spaces  # petals of plain stitches: nothing parts them
    if of == "cdc" and of not in row.by_kind:  # crossed stitches told by how they are worked: pairs, or the stitches of pairs
        feet = [foot for foot in row.foot if foot >= 0]
        onward = feet[-1] > feet[0] if feet else True
        pairs = sum(1 for foot, after in pairwise(feet) if foot != after and (foot < after) != onward)
        return number in (pairs, 2 * pairs)
    if of == "spike" and of not in row.by_kind:  # "12 spikes": points that stand out, as often as not chains worked back on
        return number in (row.stitches, len(row.groups))
    if of == "picot":
        return number in (sum(1 for kind in row.kind if kinds.NAMES[kind] == "picot"), *_groups(row, of))
    if of in GROUPED and of not in row.by_kind:
        return number in _groups(row, of)
    exact = row.by_kind.get(of, 0)
    if number == exact:
        return True
    built = sum(n for kind, n in row.by_kind.items() if kinds.plain_of(kind) == of or kind == of)
    if number == built:
        return True
    if any(_is_group(item[1]) for item in items) and number in (_outside_groups(row, of), *(_beside_alike(row, of, item[0]) for item in items if _is_group(item[1]))):
        return True
    if len([item for item in items if item[1] != "sp" and item[1] != "ch"]) == 1 and _is_loose(row, of):
        return number == row.stitches or _turning_holds(row, number, hand)
    if of == "cl" and not any(kind in kinds.GATHERED for kind in row.by_kind):
        return number in _groups(row, "")  # 3 dc in a space are a cluster to many
    if of in kinds.GATHERED:
        return number == sum(n for kind, n in row.by_kind.items() if kind in kinds.GATHERED)
    return False


def _is_group(of) -> bool:
    return of in GROUPED or isinstance(of, str) and of.startswith("group")


def _outside_groups(row, of) -> int:
    """Stitches of a kind that stand in no group: "6 V-sts, 2 dc" counts the dc at the edges."""
    grouped = set()
    named = any(name for _, name in row.groups.values())
    outer = sorted((start, start + length, name) for start, (length, name) in row.groups.items())
    like = next((group for group in outer if group[2]), None)
    first = next((i for i, flag in enumerate(row.flags) if flag & FLAG_TURNING and flag & FLAG_COUNTS), None)
    if like is not None and first is not None and row.foot[first] >= 0 and _as_many_as(row, like):
        grouped.update(i for i, foot in enumerate(row.foot) if foot == row.foot[first])  # the group begun with the chain
    for start, (length, name) in row.groups.items():
        if named and not name:
            continue  # "2 dc in last st" beside V-sts
        grouped.update(range(start, start + length))
    return sum(1 for i, (kind, flag) in enumerate(zip(row.kind, row.flags))
               if flag & FLAG_COUNTS and i not in grouped and kinds.plain_of(kinds.NAMES[kind]) == of)


def _beside_alike(row, of, many) -> int:
    """Stitches of a kind beside `many` groups that are alike and have no name: "6 shells, 42 dc" where 6 sets of 7 dc lie between; -1 where there are no such groups."""
    alike: dict = {}
    for start, (length, name) in row.groups.items():
        if not name:
            alike.setdefault(tuple(row.kind[start:start + length]), []).append((start, start + length))
    for shape, spans in alike.items():
        first = next((i for i, flag in enumerate(row.flags) if flag & FLAG_TURNING and flag & FLAG_COUNTS), None)
        begun = CHAINS in shape and first is not None and row.foot[first] >= 0 and not any(start == first for start, _ in spans) and _as_many_as(row, spans[0])
        if len(spans) + begun == many and CHAINS in shape:
            inside = {i for start, end in spans for i in range(start, end)}
            inside.update(i for i, foot in enumerate(row.foot) if begun and foot == row.foot[first])
            return sum(1 for i, (kind, flag) in enumerate(zip(row.kind, row.flags)) if flag & FLAG_COUNTS and i not in inside and kinds.plain_of(kinds.NAMES[kind]) == of)
    return -1


def _is_loose(row, of) -> bool:
    """A single count may name the row's main stitch for all of them."""
    return of in row.by_kind or not row.by_kind or any(kinds.plain_of(kind) == of for kind in row.by_kind)


def _total_holds(row, number, items, settings, hand) -> bool:
    if number == row.stitches:
        return True
    chains = sum(row.spaces)
    says = settings.chains_count()
    if chains and not any(item[1] in ("sp", "ch") for item in items) and number in (row.stitches + chains, row.stitches + len(row.spaces)):
        if says:
            return True
        each_once = number != row.stitches + chains and max(row.spaces) > 2  # a long loop is one stitch in nobody's count who does not say so
        if says is None and hand is not None and not each_once:
            return bool(hand.choose(("counted", "chains"), 2, 2, "chains count as stitches in the counts"))
    return _turning_holds(row, number, hand)


def _turning_holds(row, number, hand) -> bool:
    """Whether the count is that of the stitches with the turning chain counted in, or left out, by a convention of the whole pattern."""
    turning = [i for i, flag in enumerate(row.flags) if flag & FLAG_TURNING]
    if turning and hand is not None and not hand.memory.get("bridged"):
        counted = [i for i in turning if row.flags[i] & FLAG_COUNTS]
        if not counted and number == row.stitches + 1:
            if not 2 <= row.chains[turning[0]] <= HIGHEST_TURN:
                return False  # ch 1 is only height, a long chain is one that is worked into
            said = hand.settings.turning(row.chains[turning[0]], None)
            if said is not None and not said.counts:
                return False
            return bool(hand.choose(("counted", "turning chain"), 2, 1, "the turning chain is counted though nothing is worked into it"))
        if counted and number == row.stitches - len(counted):
            return bool(hand.choose(("counted", "without turning chain"), 2, 1, "the turning chain is left out of the counts"))
    return False


def _runs(row) -> int:
    """Runs of stitches between chain spaces."""
    runs, inside = 0, False
    for kind, flag in zip(row.kind, row.flags):
        if kind == CHAINS and not flag & FLAG_TURNING:
            inside = False
        elif flag & FLAG_COUNTS and not inside:
            runs, inside = runs + 1, True
    return runs


def _begun_with_chain(row, outer) -> bool:
    """Whether the round's first group is begun with its chain: stitches beside the chain, or at the end, in the chain's own place."""
    first = next((i for i, flag in enumerate(row.flags) if flag & FLAG_TURNING and flag & FLAG_COUNTS), None)
    if first is None or row.foot[first] < 0 or any(start <= first < end for start, end, _ in outer):
        return False
    counted = [i for i, flag in enumerate(row.flags) if flag & FLAG_COUNTS and i != first]
    return bool(counted) and row.foot[first] in (row.foot[counted[0]], row.foot[counted[-1]])


def _as_many_as(row, group) -> bool:
    """Whether the stitches and chains that share the first chain's place are as many as those of a group: they are one, begun with the chain."""
    first = next(i for i, flag in enumerate(row.flags) if flag & FLAG_TURNING and flag & FLAG_COUNTS)
    here = row.foot[first]
    beside = [i for i, foot in enumerate(row.foot) if foot == here and row.flags[i] & FLAG_COUNTS]
    inside = sum(1 for i in range(group[0], group[1]) if row.flags[i] & FLAG_COUNTS)
    spaces = sum(1 for i in range(group[0], group[1]) if row.kind[i] == CHAINS)
    return len(beside) >= inside and (not spaces or any(row.kind[i] == CHAINS and i - 1 in beside and i + 1 in beside for i in range(1, len(row.kind))) or row.chains[first] > 3)


def _spelled_out(row, outer, group) -> bool:
    """Whether the round begins with such a group told by its stitches, "(ch 3, dc, ch 2, 2 dc) in same sp" before shells."""
    first = next((i for i, flag in enumerate(row.flags) if flag & FLAG_TURNING and flag & FLAG_COUNTS), None)
    return any(start == first and not name and row.kind[start:end] == row.kind[group[0]:group[1]] for start, end, name in outer)


def _leads_a_group(row, outer) -> bool:
    """Whether the chain that begins the round stands right before a group in the same place: it is the group's first stitch."""
    first = next((i for i, flag in enumerate(row.flags) if flag & FLAG_TURNING and flag & FLAG_COUNTS), None)
    return first is not None and any(start == first + 1 for start, _, _ in outer)


def _groups(row, name):
    """Numbers that may be meant by a count of groups, the likeliest first."""
    spans = sorted((start, start + length, name_) for start, (length, name_) in row.groups.items())
    outer = [s for s in spans if not any(o[0] <= s[0] and s[1] <= o[1] and o != s for o in spans)]
    names = {"vst": "V-st"}
    named = [s for s in outer if name and s[2] and same_name(s[2], names.get(name, name))]
    chains = sum(1 for flag in row.flags if flag & FLAG_TURNING and flag & FLAG_COUNTS)
    gathered = sum(n for kind, n in row.by_kind.items() if kind in kinds.GATHERED)
    counts = []
    if named:
        extra = _begun_with_chain(row, outer) and _as_many_as(row, named[0]) or _spelled_out(row, outer, named[0])
        return [len(named) + extra, len(outer) + extra] if len(named) < len(outer) else [len(named) + extra]
    if name.lower() in ("block", "square", "tile"):  # corner to corner: a chain and its stitches, the first on a chain of its own
        filled, over = divmod(row.stitches - 1 - len(row.spaces), 3)  # filet: each space ends in one stitch, each block has three
        counts = [chains, len(outer), len(row.spaces)] if row.spaces else [chains, len(outer)]  # open ones are spaces
        return counts if over or filled < 1 else [*counts, filled, filled + len(row.spaces)]
    if _begun_with_chain(row, outer) and not _leads_a_group(row, outer):
        counts.append(len(outer) + 1)
    else:
        counts.append(len(outer))
    counts += [_runs(row), gathered, len(row.spaces)]
    if not name and any(name_ for _, _, name_ in outer):  # "6 shells, 6 groups of 9 dc": those without a name
        begun = _begun_with_chain(row, outer) and not _leads_a_group(row, outer) and _as_many_as(row, next(s for s in outer if s[2]))
        counts.append(sum(1 for _, _, name_ in outer if not name_))
        counts += [counts[-1] - 1] if _leads_a_group(row, outer) and not begun else []
    lengths = [end - start for start, end, _ in outer]
    if len(lengths) > 3 and name and len(set(lengths[1:-1])) == 1 and lengths[1] > max(lengths[0], lengths[-1]):
        counts.append(len(lengths) - 2)  # "19 shells": without the half ones at both ends
    first = row.flags[0] & FLAG_TURNING and row.flags[0] & FLAG_COUNTS if row.kind else False
    if first and lengths and outer[0][0] == 1 and lengths[0] + 1 == lengths[-1] and row.foot[0] == row.foot[1]:
        lengths[0] += 1  # the chain and two dc in the ring are a group of three as the others are
    if not name and lengths and not any(row.kind[cell] == CHAINS for start, end, _ in outer for cell in range(start, end)):
        usual = max(lengths, key=lengths.count)
        whole = lengths[0] + 1 == usual and _leads_a_group(row, outer)  # begun with the chain: a group like the others
        counts.append(lengths.count(usual) + whole)  # "14 clusters": the 2 dc at the edges are none
    if chains > 1:  # blocks by a name of her own
        counts.append(chains)
    runs = _runs(row)
    if runs:
        counts.append(runs + 1 if row.kind and row.kind[0] == CHAINS else runs)
    counts.append(row.by_kind.get(name, -1))
    return [n for n in counts if n] or [0]
