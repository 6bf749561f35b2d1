"""What is sewn or drawn together: seam rows, and what the prose around the rows tells of seams, gathers and filling."""

import re
import tomllib
from functools import cache
from pathlib import Path

import numpy as np

from .strands import edge_of


@cache
def words() -> dict:
    """tables/uses.toml as plain values."""
    return tomllib.loads((Path(__file__).parent / "tables" / "uses.toml").read_text("utf-8"))


def for_size(said: str, size: str, sizes) -> str:
    """The sentences that hold for this size: without those that name other sizes only."""
    others = [name.lower() for name in sizes if name.lower() != size.lower()]
    kept = [one for one in re.split(r"(?<=[.!?;])\s", said) if size.lower() in one or not any(re.search(rf"\bfor (?:the )?{re.escape(name)}\b", one) for name in others)]
    return " ".join(kept)


def seams_of(nodes, said: str) -> list:
    """[(index of the row after which it is sewn, (s, 2) pairs of nodes)]: seam rows, and the ends of a strip that prose says are sewn together."""
    made = []
    for index in nodes.seam_rows:
        last = nodes.below[index]
        while last in nodes.seam_rows:
            last = nodes.below[last]
        pairs = _last_to_first(nodes, last)
        if len(pairs):
            made.append((index, pairs))
    flat = [at for at, row in enumerate(nodes.rows) if nodes.last[at] > nodes.first[at] and not row.in_round]
    if not made and flat and len(flat) == len([at for at in range(len(nodes.rows)) if nodes.last[at] > nodes.first[at]]) and ends_sewn(said):
        worked = [at for at in flat if at not in nodes.onto]
        pairs = _last_to_first(nodes, worked[-1]) if len(worked) > 3 and not nodes.onto else np.empty((0, 2), np.int64)
        if len(pairs):
            made.append((worked[-1], pairs))
    if not made:
        for index, onto in nodes.onto.items():  # a round along the row ends of a strip: its ends were joined, whether or not it says so
            at = nodes.below[index]
            if onto == "row ends" and nodes.rows[index].in_round and at >= 0 and not nodes.rows[at].in_round:
                pairs = _last_to_first(nodes, at)
                if len(pairs):
                    made.append((at, pairs))
    return made


def _last_to_first(nodes, last) -> np.ndarray:
    """Pairs of the nodes of a row and of the first row far below it, end for end as they lie when the work is folded."""
    at, same = last, True
    while nodes.below[at] >= 0 and not nodes.rows[at].in_round:
        same = same != bool(nodes.rows[at].turned)
        at = nodes.below[at]
        if nodes.first[at] == nodes.last[at]:
            return np.empty((0, 2), np.int64)
    if at == last or nodes.rows[at].in_round:
        return np.empty((0, 2), np.int64)
    top, bottom = np.arange(nodes.first[last], nodes.last[last]), np.arange(nodes.first[at], nodes.last[at])
    if not same:
        bottom = bottom[::-1]
    count = max(len(top), len(bottom))
    which = np.arange(count)
    return np.stack((top[which * len(top) // count], bottom[which * len(bottom) // count]), 1)


def drawn_of(nodes, strands, seams, said: str) -> list:
    """Groups of nodes that are drawn together: the last round of what closes, the crown edge of a hat worked sideways."""
    made = []
    closed = _any(said, words()["joins"]["drawn"])
    told = closed and not any(row.in_round for row in nodes.rows)
    most = words()["joins"]["told_drawn" if closed else "most_drawn"]
    for index in nodes.seam_rows:
        if told:
            made.append(edge_of(nodes, index))
    if seams and not nodes.seam_rows and told:
        made.append(edge_of(nodes, seams[-1][0], of_row=True))
    for rows in strands.rows:
        last = rows[-1]
        if not nodes.rows[last].in_round or last in nodes.rings or last in nodes.onto:
            continue
        if any(below == last and nodes.first[at] < nodes.last[at] for at, below in enumerate(nodes.below)):
            continue
        mine = np.arange(nodes.first[last], nodes.last[last])
        widest = max(int(nodes.last[at] - nodes.first[at]) for at in range(last + 1) if nodes.rows[at].in_round)
        if 3 <= len(mine) <= most and len(mine) < 0.6 * widest:
            made.append(mine)
    return made


def ends_sewn(said: str) -> bool:
    """Whether a sentence says that a strip's ends, or its first and last rows, are sewn together."""
    join, ends = words()["joins"]["sewn"], words()["joins"]["ends"]
    for sentence in re.split(r"[.!?;]\s", said):
        if _any(sentence, join) and (_any(sentence, ends[0]) or (_any(sentence, ends[1]) and _any(sentence, ends[2]))):
            return True
    return False


def use_of(pattern, part, said: str) -> str:
    """What the part is for: "hat", "hand", "foot", "vessel", "body", "toy", "" where nothing says so. Headings before the title."""
    head = (pattern.head or pattern.front) if pattern is not None else None
    title = (getattr(head, "title", "") or "") if head is not None else ""
    for text in (" ".join(part.names), title):
        found = set(re.findall(r"[a-z]+", text.lower()))
        for use, known in words()["worn"].items():
            if isinstance(known, list) and use != "source" and found & set(known):
                return use
    worn_by = getattr(head, "for_", None) or getattr(head, "audience", None) or ()
    return "toy" if "toy" in worn_by or _any(said, words()["joins"]["stuffed"]) else ""


def unstuffed(said: str) -> bool:
    """Whether it is said that no filling goes in."""
    return _any(said, words()["joins"]["unstuffed"])


def _any(text: str, known) -> bool:
    return any(word in text for word in known)
