"""The estimate: for each size and colour metres, grams, whole balls and what they cost, with the band and what it rests on."""

import math
from collections import Counter
from dataclasses import replace

from hookwright.ground import at
from hookwright.notation import Extra, Yarn
from hookwright.stitches import dialect, stitch

from .amounts import amount_of, legs_of
from .calibration import Calibration, by_pieces, by_swatch
from .extras import extras_cm, mean_ratio
from .gauge import geometry_of, metres_per_g

ALL = "all"  # where the rows don't tell which colour is worked when
# The values are plain classes: making dataclasses would be most of the time that a first look at stated balls takes.
_MUCH = 1.2  # times as thick: about from one category of yarn weight to the next
_SPARE = 1e-6  # of a ball: no ball more for the last digit of a sum


class Need:
    """What one colour of one size takes: metres as (estimate, low, high), extras in metres by name, both of single yarn, all strands counted.

    grams likewise, None where the weight of the yarn is not known. balls: whole balls at the upper end of the band. cost: of these balls.
    yarn: index among the yarns of the head. colour: its letter, "" where there is one only, ALL where they can't be told apart.
    optional: extra left to the maker -> (metres more, whole balls in all with it); none of it is in the other values.
    """

    __slots__ = ("balls", "coin", "colour", "colour_name", "cost", "extras", "grams", "metres", "name", "optional", "size", "yarn")

    def __init__(self, size: str, yarn: int, name: str, colour: str, colour_name: str, metres, grams=None, balls: int | None = None, cost: float | None = None,
                 coin: str = "", extras: dict | None = None, optional: dict | None = None):
        self.size, self.yarn, self.name, self.colour, self.colour_name = size, yarn, name, colour, colour_name
        self.metres, self.grams, self.balls, self.cost, self.coin, self.extras = metres, grams, balls, cost, coin, extras or {}
        self.optional = optional or {}

    def as_dict(self) -> dict:
        rounded = {"estimate": round(self.metres[0], 1), "low": round(self.metres[1], 1), "high": round(self.metres[2], 1)}
        weight = None if self.grams is None else dict(zip(("estimate", "low", "high"), (round(one, 1) for one in self.grams), strict=True))
        return {"yarn": self.name, "colour": self.colour, "colour_name": self.colour_name, "metres": rounded, "grams": weight, "balls": self.balls,
                "cost": None if self.cost is None else round(self.cost, 2), "coin": self.coin, "extras_metres": {name: round(one, 1) for name, one in self.extras.items()},
                "optional": {name: {"metres": round(metres, 1), "balls": balls} for name, (metres, balls) in self.optional.items()}}


class Estimate:
    """All needs, size by size. calibration: the hand; gauge: "gauge" or "yarn" (usual for yarn and hook); minutes by size, {} where no speed is said."""

    __slots__ = ("calibration", "gauge", "minutes", "needs", "sizes", "told")

    def __init__(self, sizes: tuple[str, ...], needs: tuple[Need, ...], calibration: Calibration, gauge: str, minutes: dict, told: tuple[str, ...]):
        self.sizes, self.needs, self.calibration, self.gauge, self.minutes, self.told = sizes, needs, calibration, gauge, minutes, told

    def of(self, size: str) -> list[Need]:
        """The needs of one size."""
        return [need for need in self.needs if need.size == size]

    @property
    def rests_on(self) -> str:
        """What the numbers rest on, in words."""
        usual = "; no gauge is given, so the one usual for this yarn and hook was taken" if self.gauge == "yarn" else ""
        return self.calibration.words + usual

    def as_dict(self) -> dict:
        """As plain values for JSON."""
        band = self.calibration
        return {
            "sizes": {size: {"needs": [need.as_dict() for need in self.of(size)], "minutes": None if size not in self.minutes else round(self.minutes[size])} for size in self.sizes},
            "band": {"low": round(band.low, 3), "high": round(band.high, 3), "rests_on": band.rests_on, "words": self.rests_on},
            "told": list(self.told),
        }


def estimate(pattern, fabrics, yarns=None, *, beside=(), without=()) -> Estimate | None:
    """The yarn of a worked pattern; None where the head gives neither a gauge nor a yarn, or nothing was worked.

    yarns: other yarns (notation.Yarn) to take in place of the head's, in their order; her hand is still found from the head's.
    beside: extras in words that are reckoned too, and `without` left out (see extra_words); ValueError where they name none.
    """
    head = pattern.head or pattern.front
    if head is None or not fabrics or not any(fabric.rows for fabric in fabrics):
        return None
    return _Reckoning(pattern, head, fabrics, _chosen(head, beside, without)).all(yarns)


def _chosen(head, beside, without) -> tuple:
    """The extras of the head with those asked for, which are not optional any more, and less those left out."""
    if not beside and not without:
        return head.extras
    from .extra_words import extra_from_words, kind_from_words

    said = {extra.kind: extra for extra in head.extras}
    for words in without:
        kind = kind_from_words(words)
        said.pop(kind, None)
        if kind == "ends":
            said[kind] = Extra(kind, 0)
    for words in beside:
        extra = extra_from_words(words, head.extras)
        said[extra.kind] = replace(extra, optional=False)
    return tuple(said.values())


def stated_balls(estimated: Estimate, pattern) -> list["BallsStated"]:
    """Stated balls beside the estimate, one entry a size and yarn or colour; colours that can't be told apart together."""
    head, out = pattern.head, []
    if head is None:
        return out
    for need in estimated.needs:
        index = estimated.sizes.index(need.size)
        yarns = head.yarn if need.colour == ALL else [head.yarn[need.yarn]] if need.yarn < len(head.yarn) else []
        if not yarns or any(not yarn.metres or yarn.balls is None or at(yarn.balls, index) is None for yarn in yarns):
            continue
        sharing = [other for other in estimated.of(need.size) if other.yarn == need.yarn]
        if sharing[0] is not need:
            continue  # one yarn with several colours: counted with its first
        metres = tuple(sum(other.metres[part] for other in sharing) for part in range(3))
        out.append(BallsStated(index, need.yarn, sum(at(yarn.balls, index) for yarn in yarns), sum(at(yarn.balls, index) * yarn.metres for yarn in yarns), metres, sum(yarn.metres for yarn in yarns), len(yarns)))
    return out


class BallsStated:
    """Of the size with index `size`: `balls` stated, the `metres` they hold, and what is `needed` as (estimate, low, high).

    one_each: metres of one ball of each of the `yarns` that were taken together.
    """

    __slots__ = ("balls", "metres", "needed", "one_each", "size", "yarn", "yarns")

    def __init__(self, size: int, yarn: int, balls: int, metres: float, needed: tuple[float, float, float], one_each: float, yarns: int):
        self.size, self.yarn, self.balls, self.metres, self.needed, self.one_each, self.yarns = size, yarn, balls, metres, needed, one_each, yarns


class _Reckoning:
    def __init__(self, pattern, head, fabrics, extras):
        self.pattern, self.head, self.fabrics = pattern, head, fabrics
        self.extras, self.weighed_with = extras, tuple(extra for extra in head.extras if not extra.optional)
        self.terms = pattern.terms or "US"
        self.yarns = list(head.yarn) or [Yarn()]
        self.listed = [(index, letter, name) for index, yarn in enumerate(self.yarns) for letter, name in yarn.colours.items()]
        colours = {}
        for _, letter, name in self.listed:
            colours.setdefault(letter.lower(), letter)
            if name:
                colours.setdefault(str(name).lower(), letter)
        memo = {}
        self.amounts = [amount_of(fabric, pattern, size, colours, memo) for size, fabric in enumerate(fabrics)]
        self.apart = self._apart()
        self.told = []

    def _apart(self) -> bool:
        """Whether the rows tell which colour is worked when: every colour listed is met, and none that is not listed."""
        if len(self.yarns) < 2 and len(self.listed) < 2:
            return True
        met = {colour for amount in self.amounts for colour, kinds in amount.kinds.items() if kinds}
        return met == {letter for _, letter, _ in self.listed} and len(met) == len(self.listed)

    def all(self, yarns) -> Estimate | None:
        legs, ratio = legs_of(self.pattern), mean_ratio(sum((amount.rows for amount in self.amounts), Counter()))
        made = [geometry_of(self.head, self.terms, yarn, ratio, legs) for yarn in self.yarns]
        if any(one is None for one in made):
            return None
        hers = [geometry for geometry, _ in made]
        hands = self._hands(hers)
        used, geometries = self.yarns, hers
        if yarns:
            used = [yarns[min(index, len(yarns) - 1)] for index in range(len(self.yarns))]
            geometries = []
            for geometry, yarn in zip(hers, used, strict=True):
                other = geometry_of(replace(self.head, swatches=(), gauge=()), self.terms, yarn, ratio, legs)
                if other is None:
                    return None
                geometries.append(geometry.of_thickness(other[0].thick))
                self._tell_thickness(other[0].thick / geometry.thick)
        if not self.apart:
            self.told.append("the rows do not tell which colour is worked when, so all colours are taken together, and the balls counted as if each took the same")
        if not any(yarn.metres and yarn.grams for yarn in used):
            self.told.append("write `metres:` and `grams:` of a ball under `yarn:`, and it can be said in whole balls and more surely: the yarn is taken as its weight usually is")
        needs = [need for size in range(len(self.fabrics)) for need in self._needs(size, used, geometries, hands)]
        told = list(dict.fromkeys([*(one for hand in hands for one in hand.told), *self.told]))
        return Estimate(tuple(fabric.size for fabric in self.fabrics), tuple(needs), hands[0], made[0][1], self._minutes(hers[0]), tuple(told))

    def _tell_thickness(self, share: float) -> None:
        """Another yarn is reckoned at the gauge as it stands: said where such a yarn would hardly give it."""
        if not 1 / _MUCH < share < _MUCH:
            self.told.append(f"the other yarn is {abs(share - 1):.0%} {'thicker' if share > 1 else 'thinner'}, and this is for the gauge as it stands: swatch first, since it may give another fabric and size")

    # ------------------------------------------------------------ her hand

    def _hands(self, geometries) -> list[Calibration]:
        pieces = self._by_pieces(geometries)
        if pieces is not None and pieces.rests_on == "pieces":
            return [pieces] * len(self.yarns)
        whole = sum((amount.whole for amount in self.amounts), Counter())
        hands = [by_swatch(self.head, self.terms, yarn, geometry, whole) for yarn, geometry in zip(self.yarns, geometries, strict=True)]
        found = next((hand for hand in hands if hand.rests_on != "nothing weighed"), None)
        if found is not None:  # the same hand with another yarn: what it does, less surely
            hands = [found if hand.rests_on == "nothing weighed" else hand for hand in hands]
        if pieces is not None and pieces.told:
            self.told.extend(pieces.told)
        return hands

    def _by_pieces(self, geometries) -> Calibration | None:
        sizes = {fabric.size.lower(): index for index, fabric in enumerate(self.fabrics)}
        pairs, names = [], []
        for piece in self.head.weighed:
            index = sizes.get(piece.size.lower(), 0 if len(sizes) == 1 else None)
            if index is None:
                continue
            parts = [part for part in self._parts(index) if not piece.colour or piece.colour.lower() in (part[1].lower(), part[2].lower())]
            lengths = [metres_per_g(self.yarns[yarn]) for yarn, *_ in parts]
            if not parts or any(length is None for length in lengths):
                continue
            # in grams, since yarns may differ; what is no stitch is taken off first
            stitches = others = 0.0
            for (yarn, letter, _, kinds, begun), length in zip(parts, lengths, strict=True):
                per_cm = self.yarns[yarn].strands / 100 / length
                worked, beside = self._lengths(index, letter, kinds, begun, geometries[yarn], 1.0, self.weighed_with)
                stitches += (worked + beside.pop("border", 0.0)) * per_cm
                others += sum(beside.values()) * per_cm
            pairs.append((piece.grams - others, stitches))
            names.append(f"{piece.size} {piece.grams:.0f} g" if len(sizes) > 1 else f"{piece.grams:.0f} g")
        return by_pieces(pairs, names)

    # ------------------------------------------------------------ what it takes

    def _parts(self, size: int) -> list[tuple[int, str, str, Counter, int]]:
        """(yarn, letter, name of the colour, its stitches, how often it is begun) of a size."""
        amount = self.amounts[size]
        if not self.apart or not self.listed:
            whole, begun = amount.whole, sum(amount.begun.values())
            return [(0, "" if self.apart else ALL, "", whole, begun)]
        return [(yarn, letter, str(name or ""), amount.kinds.get(letter, Counter()), amount.begun.get(letter, 0)) for yarn, letter, name in self.listed] if len(self.listed) > 1 else [
            (self.listed[0][0], self.listed[0][1], str(self.listed[0][2] or ""), amount.whole, sum(amount.begun.values()))]

    def _lengths(self, size, letter, kinds, begun, geometry, factor, extras) -> tuple[float, dict]:
        """(length of the stitches, lengths of the rest by name), in cm."""
        main = letter if letter in ("", ALL) or not self.listed else self.listed[0][1]
        worked = factor * sum(number * geometry.of(kind) for kind, number in kinds.items())
        if letter == ALL:
            extras = tuple(replace(extra, colour="") for extra in extras)
        return worked, extras_cm(extras, self.terms, size, letter, main, begun, geometry, factor)

    def _needs(self, size: int, yarns, geometries, hands):
        for index, letter, name, kinds, begun in self._parts(size):
            yarn, hand = yarns[index], hands[index]
            worked, beside = self._lengths(size, letter, kinds, begun, geometries[index], hand.factor, self.extras)
            optional = {extra.kind: beside.pop(extra.kind) for extra in self.extras if extra.optional and extra.kind in beside}
            per = yarn.strands / 100
            metres = (worked + sum(beside.values())) * per
            all_three = (metres, metres * hand.low, metres * hand.high)
            length = metres_per_g(yarn)
            taken = [yarn] if letter != ALL else [yarns[each] for each, *_ in self.listed] or yarns
            balls, cost = self._balls(all_three[2], taken)
            more = {each: (cm * per, self._balls(all_three[2] + cm * per * hand.high, taken)[0]) for each, cm in optional.items()}
            yield Need(
                self.fabrics[size].size, index, yarn.name, letter, name, all_three, tuple(one / length for one in all_three) if length else None, balls, cost, yarn.coin, {each: cm * per for each, cm in beside.items()}, more,
            )

    @staticmethod
    def _balls(metres: float, yarns) -> tuple[int | None, float | None]:
        """(whole balls, what they cost) for a length that these yarns take in equal shares."""
        if any(not yarn.metres for yarn in yarns):
            return None, None
        balls = [math.ceil(metres / len(yarns) / yarn.metres - _SPARE) for yarn in yarns]
        return sum(balls), sum(number * yarn.price for number, yarn in zip(balls, yarns, strict=True)) if all(yarn.price is not None for yarn in yarns) else None

    def _minutes(self, geometry) -> dict[str, float]:
        """Size -> minutes of making by her speed; kinds without one take the time of the nearest with one, by the yarn in them."""
        said = {}
        for word, speed in self.head.speed.items():
            kind = dialect(self.terms).find(word) if word else ""
            if kind is None:
                self.told.append(f"`speed: {word[:30]}` is no stitch that is known, so it was left out")
            else:
                said[kind] = 1 / speed
        if not said:
            return {}
        known = {kind: each / geometry.of(kind) for kind, each in said.items() if kind}
        by_length = sum(known.values()) / len(known) if known else None
        out = {}
        for fabric, amount in zip(self.fabrics, self.amounts, strict=True):
            total = 0.0
            for kind, number in amount.whole.items():
                fact = stitch(kind)
                total += number * (said.get(kind) or (said[""] if "" in said and (fact is None or fact.counts) else (by_length or 0.0) * geometry.of(kind)))
            out[fabric.size] = total
        return out
