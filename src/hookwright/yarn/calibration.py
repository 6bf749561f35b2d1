"""Her hand and yarn against the typical ones: a factor from a weighed swatch or from weighed pieces, and the band that goes with it."""

import math
from collections import Counter

from hookwright.stitches import stitch

from .gauge import metres_per_g, plain_kind
from .lengths import facts


class Calibration:
    """factor: her length over the rule's. low, high: shares of the estimate between which the yarn should lie (0.7 and 1.3).

    rests_on: "nothing weighed", "swatch", "swatch in other stitches" or "pieces"; words say it with its weights.
    """

    __slots__ = ("factor", "high", "low", "rests_on", "told", "words")

    def __init__(self, factor: float, low: float, high: float, rests_on: str, words: str, told: tuple[str, ...] = ()):
        self.factor, self.low, self.high, self.rests_on, self.words, self.told = factor, low, high, rests_on, words, told


def uncalibrated(told: tuple[str, ...] = ()) -> Calibration:
    """The typical hand, with the wide band."""
    band = facts()["band"]["uncalibrated"]
    return Calibration(facts()["stitch"]["typical"], 1 - band, 1 + band, "nothing weighed", "the stitches, the gauge and the thickness of the yarn; nothing was weighed", told)


def by_swatch(head, terms: str, yarn, geometry, kinds: Counter) -> Calibration:
    """From the weighed swatch that has most of the fabric's stitches; uncalibrated where none was weighed.

    kinds: the stitches of the fabric. A swatch of a stitch pattern is taken to be of the fabric as it is on average.
    """
    rule, length = facts()["band"], metres_per_g(yarn)
    weighed = [one for one in head.swatches if one.weight_g and one.stitches and one.rows and _same_yarn(one, yarn, head)]
    if not weighed or length is None:
        lacks = next((one for one in head.swatches if one.weight_g and _same_yarn(one, yarn, head)), None)
        return uncalibrated((f"the weight of the swatch of {lacks.of or 'your stitch'} can be gone by once its stitches and rows are both counted",) if lacks and length else ())
    share, at, swatch, kind = max(((_share(kind, kinds, geometry), -at, one, kind) for at, one in enumerate(weighed) for kind in [plain_kind(one.of, terms)]), key=lambda each: each[:2])
    rule_cm = _pattern_cm(swatch, kinds, geometry) if not kind else _plain_cm(swatch, kind, geometry)
    factor = swatch.weight_g * length * 100 / yarn.strands / rule_cm
    if not rule["believed"][0] <= factor / facts()["stitch"]["typical"] <= rule["believed"][1]:
        usual = rule_cm * facts()["stitch"]["typical"] * yarn.strands / 100 / length
        return uncalibrated((f"the swatch of {swatch.of or 'your stitch'} is said to weigh {_g(swatch.weight_g)}, and about {_g(usual)} would be usual for its stitches, so it was not gone by: "
                             "weigh it again, and look at the metres and grams of the ball",))
    same = share >= rule["same_stitches"]
    half = math.hypot(rule["swatch" if same else "other_stitches"], rule["four_in_five"] * rule["scales_g"] / swatch.weight_g)
    words = f"your swatch of {swatch.of or 'the fabric'}, {_g(swatch.weight_g)}" + ("" if same else f"; only {share:.0%} of the yarn goes into its stitches")
    return Calibration(factor, 1 - half, 1 + half, "swatch" if same else "swatch in other stitches", words)


def by_pieces(pairs: list[tuple[float, float]], names: list[str]) -> Calibration | None:
    """From finished pieces: pairs of (length as weighed, length by the rule) in cm, without what is no stitch. None where none is to be gone by."""
    rule = facts()["band"]
    typical, (least, most) = facts()["stitch"]["typical"], rule["believed"]
    kept = [math.log(weighed / reckoned) for weighed, reckoned in pairs if weighed > 0 and reckoned > 0 and least <= weighed / reckoned / typical <= most]
    told = () if len(kept) == len(pairs) else ("a weighed piece weighs less than half or more than twice what is usual, so it was not gone by: look at its weight, its size and the ball",)
    if not kept:
        return uncalibrated(told) if pairs else None
    mean = sum(kept) / len(kept)
    half = rule["pieces"]
    if len(kept) > 1:
        spread = math.sqrt(sum((one - mean) ** 2 for one in kept) / (len(kept) - 1))
        t = rule["t_four_in_five"][min(len(kept) - 2, len(rule["t_four_in_five"]) - 1)]
        half = min(max(t * spread * math.sqrt(1 + 1 / len(kept)), rule["pieces_least"]), rule["uncalibrated"])
    return Calibration(math.exp(mean), 1 - half, 1 + half, "pieces", f"{len(kept)} finished piece{'s' if len(kept) > 1 else ''} that {'were' if len(kept) > 1 else 'was'} weighed ({', '.join(names)})", told)


def _same_yarn(swatch, yarn, head) -> bool:
    if not swatch.yarn:
        return yarn is head.yarn[0] if head.yarn else True
    return not yarn.name or swatch.yarn.casefold() in yarn.name.casefold() or yarn.name.casefold() in swatch.yarn.casefold()


def _share(kind: str, kinds: Counter, geometry) -> float:
    """Share of the fabric's yarn that goes into the stitches of the swatch; 1 for a swatch of a stitch pattern."""
    if not kind:
        return 1.0
    total = sum(number * geometry.of(each) for each, number in kinds.items())
    same = sum(number * geometry.of(each) for each, number in kinds.items() if (fact := stitch(each)) and kind in (each, fact.base) and fact.kind not in ("group", "foundation"))
    return same / total if total else 0.0


def _plain_cm(swatch, kind: str, geometry) -> float:
    """Length by the rule of a swatch in one stitch: its chain, its rows and the turning chains between them."""
    turning = stitch(kind).tch or 1
    if stitch(kind).tch_counts == "yes":  # the chain is one of the stitches
        stitches, chains = (swatch.stitches - 1) * swatch.rows, swatch.stitches - 1 + turning * swatch.rows
    else:
        stitches, chains = swatch.stitches * swatch.rows, swatch.stitches + turning * swatch.rows
    return stitches * geometry.of(kind) + chains * geometry.of("ch")


def _pattern_cm(swatch, kinds: Counter, geometry) -> float:
    """Length by the rule of a swatch that is like the fabric on average: what lies between its stitches goes with them."""
    counted = sum(number for each, number in kinds.items() if (fact := stitch(each)) is None or fact.counts and each != "slst")
    total = sum(number * geometry.of(each) for each, number in kinds.items())
    return swatch.stitches * swatch.rows * total / max(counted, 1)


def _g(grams: float) -> str:
    return f"{grams:.3g} g"
