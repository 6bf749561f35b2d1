"""Heads as populations: children by age after the WHO standard, adults as surveyed; which share of them a size fits.

The WHO standard gives a median M and a coefficient of variation S for each sex and month; the skewness L is 1 for heads at every
age, so the general formula X = M * (1 + L*S*z) ** (1/L) becomes X = M * (1 + S*z) (WHO Child Growth Standards, head
circumference-for-age). Between two months of the table M and S are taken in a straight line.
"""

from bisect import bisect_right
from dataclasses import dataclass
from statistics import NormalDist

from .tables_read import CM, table

SEXES = ("boys", "girls")
STEPS = 12  # ages looked at in a span of ages


@dataclass(frozen=True, slots=True)
class Population:
    """People of one measure as an even mixture of normal parts: `parts` holds (mean_mm, sd_mm); `name` is said to the reader."""

    name: str
    parts: tuple[tuple[float, float], ...]
    source: str = ""

    @property
    def mean_mm(self) -> float:
        return sum(mean for mean, _ in self.parts) / len(self.parts)

    def share(self, low_mm: float, high_mm: float) -> float:
        """The share of these people whose measure lies from low_mm to high_mm, 0 to 1."""
        if high_mm <= low_mm:
            return 0.0
        return sum(NormalDist(mean, sd).cdf(high_mm) - NormalDist(mean, sd).cdf(low_mm) for mean, sd in self.parts) / len(self.parts)

    def density(self, at_mm: float) -> float:
        """How many of them there are at a measure, per mm (for a plot)."""
        return sum(NormalDist(mean, sd).pdf(at_mm) for mean, sd in self.parts) / len(self.parts)

    def span_mm(self) -> tuple[float, float]:
        """The measures between which all but about one in a thousand lie."""
        return min(mean - 3.1 * sd for mean, sd in self.parts), max(mean + 3.1 * sd for mean, sd in self.parts)


def head_mm(months: float, sex: str, z: float = 0.0) -> float:
    """Head circumference in mm of a child of this age (0 to 60 months), z standard deviations from the median.

    >>> round(head_mm(12, "boys"), 1), round(head_mm(12, "girls", -2), 1)
    (460.7, 421.8)
    """
    mean, sd = _head(months, sex)
    return mean + z * sd


def _head(months: float, sex: str) -> tuple[float, float]:
    """(mean_mm, sd_mm); raises ValueError outside 0 to 60 months."""
    rows = table("heads")["children"][sex]
    ages = [row["months"] for row in rows]
    if not ages[0] <= months <= ages[-1]:
        raise ValueError(f"the WHO standard gives heads from {ages[0]} to {ages[-1]} months")
    after = min(bisect_right(ages, months), len(ages) - 1)
    before = after - 1
    share = (months - ages[before]) / (ages[after] - ages[before])
    median = rows[before]["M"] + share * (rows[after]["M"] - rows[before]["M"])
    variation = rows[before]["S"] + share * (rows[after]["S"] - rows[before]["S"])
    return median * CM, median * variation * CM


def older_head(months: float) -> tuple[float, float]:
    """(mean_mm, sd_mm) between 5 and 17 years, where only averages at 8 and 12 years were found: in straight lines from the WHO standard at
    5 years over these to surveyed adults at 17, with the spread of adults. An estimate, and to be called one.

    >>> round(older_head(96)[0], 1)
    515.0
    """
    facts = table("heads")["older_children"]
    adults = adult_heads()
    ages = [60.0, *(12.0 * years for years in facts["years"]), 204.0]
    means = [sum(_head(60, sex)[0] for sex in SEXES) / 2, *(mean * CM for mean in facts["mean_cm"]), adults.mean_mm]
    if not ages[0] <= months <= ages[-1]:
        raise ValueError("this estimate is for 5 to 17 years")
    after = min(bisect_right(ages, months), len(ages) - 1)
    share = (months - ages[after - 1]) / (ages[after] - ages[after - 1])
    spread = sum(sd for _, sd in adults.parts) / len(adults.parts)
    return means[after - 1] + share * (means[after] - means[after - 1]), spread


def children_heads(from_months: float, to_months: float) -> Population:
    """Heads of boys and girls evenly spread over these ages, 0 months to 17 years (from 5 years on an estimate, and called so)."""
    parts = []
    for step in range(STEPS + 1):
        months = from_months + (to_months - from_months) * step / STEPS
        parts += [_head(months, sex) for sex in SEXES] if months <= 60 else [older_head(months)]
    said = f"children of {_age(from_months)} to {_age(to_months)}" if to_months > from_months else f"children of {_age(from_months)}"
    source = "WHO Child Growth Standards, head circumference-for-age"
    return Population(said, tuple(parts), source if to_months <= 60 else source + "; from 5 years on estimated between published averages")


def _age(months: float) -> str:
    if months and months % 12 == 0 and months >= 24:
        return f"{months / 12:g} years"
    return f"{months:g} months"


def adult_heads(who: str = "adults") -> Population:
    """Heads of surveyed "women", "men" or "adults" (both, evenly)."""
    adults = table("heads")["adults"]
    named = ("women", "men") if who == "adults" else (who,)
    return Population(who, tuple((adults[name]["mean_cm"] * CM, adults[name]["sd_cm"] * CM) for name in named),
                      "ANSUR II, measured 2010 to 2012 on soldiers; not a general population")


def surveyed(who: str, measure: str) -> Population:
    """Another surveyed measure of "women" or "men": "hand_circumference", "ball_of_foot", "chest" and so on. KeyError where there is none."""
    fact = table("hands_and_feet")["surveyed"][who][measure]
    return Population(who, ((fact["mean_cm"] * CM, fact["sd_cm"] * CM),), "ANSUR II, measured 2010 to 2012 on soldiers; not a general population")
