"""Whom each size fits: the body and the finished measure that go together, the ease between them, for which bodies to choose a size, and
which share of the people measured it goes round.

The head is taken as plain values (see notation.Head). Lengths are mm. A size goes round every body from its finished measure to that
measure with the fabric's stretch; where it is meant to be worn loosely, from the body it is to fit. Which part of the body it is follows
from the table of bodies, the names of the measures, and else the words for what it is (tables/fit.toml).
"""

import re
from dataclasses import dataclass
from functools import cache

from .bodies import table_name
from .growth import Population, adult_heads, children_heads, surveyed
from .tables_read import table

STEP = 5.0  # bodies are chosen by half centimetres


@dataclass(frozen=True, slots=True)
class People:
    """Some people of whom a measure is known: who is "children" (of these months), "women" or "men"."""

    who: str
    months: tuple[float, float] | None
    population: Population


@dataclass(frozen=True, slots=True)
class SizeFit:
    """One size. body_mm: whom it is to fit. finished_mm: its measure there. reach_mm: the bodies the fabric goes round, None where the
    stretch isn't said. choose_mm: for which bodies it is the one to take. shares: the share, 0 to 1, of each of the people it fits."""

    name: str
    body_mm: tuple[float, float] | None = None
    finished_mm: float | None = None
    reach_mm: tuple[float, float] | None = None
    choose_mm: tuple[float, float] | None = None
    shares: tuple[float, ...] = ()

    @property
    def ease_mm(self) -> tuple[float, float] | None:
        """Finished less body, for the largest and the smallest body it is to fit."""
        if self.finished_mm is None or self.body_mm is None:
            return None
        return self.finished_mm - self.body_mm[1], self.finished_mm - self.body_mm[0]

    @property
    def fits_mm(self) -> tuple[float, float] | None:
        """The bodies it fits: those it reaches round, or where that isn't known those it is chosen for."""
        return self.reach_mm or self.choose_mm or self.body_mm


@dataclass(frozen=True, slots=True)
class Fitting:
    """All sizes of a piece. part: "head", "hand", "foot", "chest" or "" where it isn't known; finished: the name of the finished measure
    taken, "" for none; stretch: a share, None where it isn't said; gaps: bodies between two sizes that neither fits."""

    part: str
    finished: str
    sizes: tuple[SizeFit, ...]
    people: tuple[People, ...] = ()
    stretch: float | None = None
    gaps: tuple[tuple[float, float], ...] = ()

    @property
    def sources(self) -> tuple[str, ...]:
        """Where the people's measures are from, each once, of those whom some size fits."""
        told = [one.population.source for at, one in enumerate(self.people) if any(size.shares[at] >= SOME for size in self.sizes)]
        return tuple(dict.fromkeys(told))


SOME = 0.05  # a smaller share is not worth a word


def fitting_of(head, bodies: list, words: str, *, with_people: bool = True) -> Fitting | None:
    """The Fitting of a head with sizes, None where neither a body nor what it is tells anything.

    bodies: per size, measure -> (low, high) (see bodies_of). words: title and names of pieces. with_people: whether shares are wanted.
    """
    part = _part(head, bodies, words)
    names = [size.name for size in head.sizes] or ["1"]
    around = [_body(part, one, head, index) for index, one in enumerate(bodies[: len(names)])]
    around += [None] * (len(names) - len(around))
    if not any(around):
        return None
    finished = _finished(part, head.finished, around, words)
    made = [_middle(head.finished[finished].at(index)) if finished else None for index in range(len(names))]
    stretch = stretch_of(head)
    sizes = [SizeFit(name, body, mm, _reach(body, mm, stretch)) for name, body, mm in zip(names, around, made)]
    chosen, gaps = _chosen(sizes)
    people = _people(part) if part and with_people else ()
    return Fitting(part["name"] if part else "", finished, tuple(_with(size, choose, people) for size, choose in zip(sizes, chosen)), people, stretch, gaps)


def stretch_of(head) -> float | None:
    """The stretch that the head gives, as a share: "15 %" is 0.15."""
    found = re.search(r"(\d{1,3}(?:[.,]\d+)?)\s*(?:%|per ?cent)", head.body.stretch, re.I) if head.body else None
    return min(float(found[1].replace(",", ".")) / 100, 2.0) if found else None


# ---------------------------------------------------------------- what goes together

def _part(head, bodies, words: str) -> dict | None:
    """The part of the body, by the surest sign first: a table of that part alone, what it is called, the table's own part, a measure, a word."""
    named = table_name(head.body.table) if head.body and head.body.table else None
    measured = {name for body in bodies for name in body}
    finished = {_plain(name) for name in head.finished}
    parts = sorted(table("fit")["part"], key=lambda part: not finished & set(part["finished"]))  # one that a finished measure is of before others
    of_many = len([part for part in parts if measured & set(part["measured"])]) > 1
    for told in (
        lambda part: named in part["tables"] and not of_many,
        lambda part: measured & set(part["measured"]) and _worn(part, words),
        lambda part: measured & set(part["measured"]) and finished & set(part["finished"]),
        lambda part: named in part["tables"],
        lambda part: measured & set(part["measured"]),
        lambda part: _worn(part, words),
        lambda part: finished & set(part["measured"]),
    ):
        for part in parts:
            if told(part) and any(_possible(part, body.get("to fit") or next((body[name] for name in part["measured"] if name in body), None)) for body in bodies):
                return part
    return None


def goes_round(name: str, title: str = "") -> bool:
    """Whether a finished measure of this name goes all the way round what a size is to fit: "bust", "brim circumference"; not "cuff around",
    nor the brim of what is a sun hat by its title."""
    words, names = _letters(name), table("fit")["names"]
    if words & set(names["parts"]) or "brim" in words and _letters(title) & set(names["brimmed"]):
        return False
    return bool(words & set(names["round"])) or bool(words & set(names["main"])) and not words & set(names["flat"])


def _letters(words: str) -> set[str]:
    return set(re.findall(r"[a-z]+", words.lower()))


def worn_on(words: str) -> str:
    """The part of the body that a piece so called is worn on: "head" for "Pebble Hat", "" where the words tell of none."""
    return next((part["name"] for part in table("fit")["part"] if _worn(part, words)), "")


def _worn(part: dict, words: str) -> bool:
    return bool(_worn_words(part["name"]).search(words))


@cache
def _worn_words(name: str):
    part = next(part for part in table("fit")["part"] if part["name"] == name)
    return re.compile(rf"(?<!\w)(?:{'|'.join(part['worn'])})(?!\w)", re.I)


def _possible(part: dict, body) -> bool:
    return body is not None and part["body_mm"][0] <= body[0] and body[1] <= part["body_mm"][1]


def _body(part: dict | None, body: dict, head, index: int) -> tuple[float, float] | None:
    """What it is to fit; her own measure where that lies outside it."""
    fit = body.get("to fit")
    for name in part["measured"] if part else ():
        if name in body:
            own = body[name]
            hers = head.body is not None and name in head.body.measures
            return fit if fit and not (hers and not fit[0] - STEP <= _middle(own) <= fit[1] + STEP) else own
    return fit


def _finished(part: dict | None, finished: dict, around, words: str) -> str:
    """The name of the finished measure that lies round the part, "" where none does."""
    by_name = {_plain(name): name for name in finished}
    found = [by_name[name] for name in (part["finished"] if part else ()) if name in by_name]
    if _letters(words) & set(table("fit")["names"]["brimmed"]):
        found = [name for name in found if "brim" not in _letters(name)]
    found += [name for name in finished if goes_round(name, words) and name not in found]
    for name in found:
        pairs = [(_middle(finished[name].at(index)), _middle(body)) for index, body in enumerate(around) if body and finished[name].at(index)]
        if pairs and all(0.6 < mm / body < 2.2 for mm, body in pairs if mm):  # half a width, or the brim's height, lies round nothing
            return name
    return ""


def _plain(name: str) -> str:
    return " ".join(name.replace("_", " ").lower().split())


def _middle(pair) -> float | None:
    return sum(pair) / 2 if pair else None


def _reach(body, mm, stretch) -> tuple[float, float] | None:
    if mm is None or stretch is None:
        return None
    low = min(mm, body[0]) if body else mm
    return (low, max(mm * (1 + stretch), low))


# ---------------------------------------------------------------- between two sizes

def _chosen(sizes: list[SizeFit]) -> tuple[list, tuple]:
    """(for each size the bodies to choose it for, None where it isn't known whom it is to fit; the gaps between sizes that none fits).

    Sizes are joined as long as each is for larger bodies than the one before; where they begin anew (children, then women) so does this.
    """
    runs: list[list[int]] = []
    for at, size in enumerate(sizes):
        if size.body_mm is None:
            continue
        if runs and _middle(size.body_mm) > _middle(sizes[runs[-1][-1]].body_mm):
            runs[-1].append(at)
        else:
            runs.append([at])
    if len(runs) * 2 > sum(map(len, runs)):  # in no order at all
        return [None] * len(sizes), ()
    chosen: list = [None] * len(sizes)
    gaps = []
    for run in runs:
        gaps += _join(sizes, run, chosen)
    return chosen, tuple(gaps)


def _join(sizes: list[SizeFit], run: list[int], chosen: list) -> list:
    """Fills in which bodies to choose the sizes of a run for, and gives the gaps in it."""
    lows, highs, gaps = {}, {}, []
    for a, b in zip(run, run[1:]):
        highs[a], lows[b] = _cut(sizes[a], sizes[b])
        if lows[b] > highs[a]:
            gaps.append((_half(highs[a]), _half(lows[b])))
    first, last = sizes[run[0]].body_mm, sizes[run[-1]].body_mm  # one measure alone stands for as many below it as above it
    lows[run[0]] = first[0] if first[0] < first[1] or len(run) == 1 else 2 * first[0] - highs[run[0]]
    highs[run[-1]] = last[1] if last[0] < last[1] or len(run) == 1 else 2 * last[1] - lows[run[-1]]
    for at in run:
        pair = _half(lows[at]), _half(highs[at])
        chosen[at] = pair if pair[0] < pair[1] else None
    return gaps


def _cut(smaller: SizeFit, larger: SizeFit) -> tuple[float, float]:
    """Up to which body the smaller is chosen, and from which the larger: the same, unless bodies between them fit neither."""
    end, begin = smaller.body_mm[1], larger.body_mm[0]
    cut = _half((end + begin) / 2)
    if smaller.reach_mm and larger.reach_mm:
        high, low = smaller.reach_mm[1], larger.reach_mm[0]
        if low > high + STEP / 2:
            return high, low
        cut = _half(min(max(cut, low), high))
        return cut, cut
    single = smaller.body_mm[0] == end and begin == larger.body_mm[1]
    if begin - end > end * table("fit")["joining"]["percent_of_single" if single else "percent"] / 100:
        return end, begin
    return cut, cut


def _half(mm: float) -> float:
    return round(mm / STEP) * STEP


# ---------------------------------------------------------------- people

def _people(part: dict) -> tuple[People, ...]:
    out = []
    for fact in part["people"]:
        months = tuple(fact["months"]) if "months" in fact else None
        population = children_heads(*months) if months else surveyed(fact["who"], fact["measure"]) if "measure" in fact else adult_heads(fact["who"])
        out.append(People(fact["who"], months, population))
    return tuple(out)


def _with(size: SizeFit, choose, people) -> SizeFit:
    made = SizeFit(size.name, size.body_mm, size.finished_mm, size.reach_mm, choose)
    reach = made.fits_mm
    return SizeFit(size.name, size.body_mm, size.finished_mm, size.reach_mm, choose,
                   tuple(one.population.share(*reach) if reach else 0.0 for one in people))
