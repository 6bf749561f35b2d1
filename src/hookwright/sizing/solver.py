"""Finds the numbers of all sizes at once: whole numbers that meet every condition and lie nearest to the lengths wanted.

A mixed-integer linear programme, solved exactly by HiGHS:

    least   sum over numbers n and sizes s of |unit[n, s] * x[n, s] - want[n, s]|   (mm)
    so that every condition holds, x whole and 0 <= x <= MOST

An absolute value is two parts, over - under = unit * x - want, both at least 0. Of answers equally near, sizes that share a number take the
one that is best for the size it suits least, and else the larger one is taken (a garment a stitch too wide is worn, one too narrow isn't).
"""

from math import gcd, isclose

from .wishes import MOST, Answer, Bound, Clash, Follows, Grows, Multiple, OneOf, Problem, Same, Within

TIE = 1e-6  # how much dearer a mm too little is than a mm too much
SHARED = 4e-6  # how dear a mm is by which the worst of the sizes that share a number is off: it decides between answers that are equally near
HUGE = 1e9  # larger numbers are no numbers to the solver
MOST_WAYS = 3
MOST_PAIRS = 60  # pairs of conditions tried as ways out
SECONDS = 20.0  # the longest one solve may take


def solve(problem: Problem) -> Answer | Clash:
    """The numbers, or which conditions clash and the nearest ways out (each the answer when one condition is given up)."""
    answer = nearest(problem)
    return answer if answer is not None else _clash(problem)


def nearest(problem: Problem) -> Answer | None:
    """The nearest numbers that meet all conditions; None where there are none."""
    rows = _Rows()
    sizes = range(len(problem.sizes))
    for wish in problem.wishes:
        for s in sizes:
            rows.variable((wish.name, s), 0, MOST, whole=True)
    for wish in problem.wishes:
        for s in sizes:
            if wish.want[s] is not None:
                _near(rows, wish, s)
    for condition in problem.conditions:
        _hold(rows, problem, condition)
    found = rows.solved()
    if found is None:
        return None
    numbers = {wish.name: tuple(round(found[wish.name, s]) for s in sizes) for wish in problem.wishes}
    return Answer(numbers, {wish.name: tuple(_off(wish, numbers, s) for s in sizes) for wish in problem.wishes if any(w is not None for w in wish.want)})


def _off(wish, numbers, s) -> float | None:
    want = wish.want[s]
    if want is None:
        return None
    return wish.unit_mm[s] * numbers[wish.name][s] - want.constant - sum(k * numbers[name][s] for name, k in want.terms)


def _near(rows, wish, s) -> None:
    want = wish.want[s]
    over = rows.variable(("over", wish.name, s), 0, None, cost=1.0)
    under = rows.variable(("under", wish.name, s), 0, None, cost=1.0 + TIE)
    terms = {rows.at[wish.name, s]: wish.unit_mm[s], over: -1.0, under: 1.0}
    for name, k in want.terms:
        column = rows.at[name, s]
        terms[column] = terms.get(column, 0.0) - k
    rows.add(terms, want.constant, want.constant)


def _hold(rows, problem, condition) -> None:
    """Adds the rows of one condition."""
    sizes = range(len(problem.sizes))
    name = condition.number
    if isinstance(condition, Multiple):
        for s in sizes:
            times = rows.variable(("times", id(condition), s), 0, MOST, whole=True)
            rows.add({rows.at[name, s]: 1.0, times: -float(condition.of)}, condition.plus, condition.plus)
    elif isinstance(condition, OneOf):
        for s in sizes:
            chosen = {rows.variable(("one", id(condition), s, count), 0, 1, whole=True): float(count - condition.offset) for count in condition.counts}
            rows.add(dict.fromkeys(chosen, 1.0), 1, 1)
            rows.add({rows.at[name, s]: 1.0, **{column: -count for column, count in chosen.items()}}, 0, 0)
    elif isinstance(condition, Follows):
        for s in sizes:
            value = condition.values[s]
            terms, constant = _whole(value)
            scale = terms.pop("")
            rows.add(_merged(rows, {name: float(scale)}, {other: -k for other, k in terms.items()}, s), constant, constant)
    elif isinstance(condition, Bound):
        for s in sizes:
            value = condition.values[s]
            terms = _merged(rows, {name: 1.0}, {other: -k for other, k in value.terms}, s)
            rows.add(terms, value.constant if condition.side > 0 else None, value.constant if condition.side < 0 else None)
    elif isinstance(condition, Same):
        for a, b in zip(condition.sizes, condition.sizes[1:]):
            rows.add({rows.at[name, a]: 1.0, rows.at[name, b]: -1.0}, 0, 0)
        worst = rows.variable(("worst", id(condition)), 0, None, cost=SHARED)
        for s in condition.sizes:
            for part in ("over", "under"):
                if (part, name, s) in rows.at:
                    rows.add({worst: 1.0, rows.at[part, name, s]: -1.0}, 0, None)
    elif isinstance(condition, Grows):
        for s in list(sizes)[1:]:
            rows.add({rows.at[name, s]: 1.0, rows.at[name, s - 1]: -1.0}, condition.by, None)
    elif isinstance(condition, Within):
        for s in sizes:
            for part in ("over", "under"):
                column = rows.at.get((part, name, s))
                if column is not None:
                    rows.add({column: 1.0}, None, condition.mm[s])


def _whole(value) -> tuple[dict, float]:
    """Coefficients of a sum made whole: (n - 1) / 3 becomes 1 n - 1 against a scale of 3 (under ""), so that no rounding decides."""
    from fractions import Fraction

    parts = {name: Fraction(k).limit_denominator(1000) for name, k in value.terms}
    constant = Fraction(value.constant).limit_denominator(1000)
    scale = 1
    for part in (*parts.values(), constant):
        scale = scale * part.denominator // gcd(scale, part.denominator)
    return {"": scale, **{name: float(part * scale) for name, part in parts.items()}}, float(constant * scale)


def _merged(rows, first: dict, rest: dict, s: int) -> dict:
    out: dict = {}
    for terms in (first, rest):
        for name, k in terms.items():
            column = rows.at[name, s]
            out[column] = out.get(column, 0.0) + k
    return out


def _clash(problem: Problem) -> Clash:
    """A smallest set of conditions that can't hold together, found by leaving out one after the other; and the ways out."""
    kept = list(problem.conditions)
    for condition in list(kept):
        fewer = [other for other in kept if other is not condition]
        if nearest(Problem(problem.sizes, problem.wishes, fewer)) is None:
            kept = fewer
    ways = _ways(problem, [(condition,) for condition in kept])
    if len(ways) < MOST_WAYS:  # one alone is not enough: two together
        given_up = {way[0][0] for way in ways}
        pairs = [(one, other) for one in kept if one not in given_up for other in problem.conditions if other not in given_up and other is not one]
        ways += _ways(problem, pairs[:MOST_PAIRS])
    return Clash(tuple(kept), tuple(sorted(ways, key=lambda way: (len(way[0]), way[1].total_off_mm))[:MOST_WAYS]))


def _ways(problem: Problem, sets) -> list:
    """(conditions given up, the answer then) for each of these sets that leaves an answer, nearest first and each pair once."""
    out, seen = [], set()
    for dropped in sets:
        key = frozenset(map(id, dropped))
        if key in seen:
            continue
        seen.add(key)
        answer = nearest(Problem(problem.sizes, problem.wishes, [one for one in problem.conditions if id(one) not in key]))
        if answer is not None:
            out.append((dropped, answer))
    return sorted(out, key=lambda way: way[1].total_off_mm)


class _Rows:
    """Columns and rows of the programme, and the call of HiGHS."""

    def __init__(self):
        self.at: dict = {}
        self.cost, self.low, self.high, self.whole = [], [], [], []
        self.rows: list[tuple[dict, float | None, float | None]] = []

    def variable(self, key, low, high, *, cost=0.0, whole=False) -> int:
        column = self.at[key] = len(self.cost)
        self.cost.append(cost)
        self.low.append(float(low))
        self.high.append(float("inf") if high is None else float(high))
        self.whole.append(whole)
        return column

    def add(self, terms: dict, low: float | None, high: float | None) -> None:
        """A row low <= sum of terms <= high. What is beyond any piece is brought to HUGE, which no numbers up to MOST can meet either."""
        clipped = {column: max(-HUGE, min(HUGE, k)) for column, k in terms.items()}
        self.rows.append((clipped, *(None if bound is None else max(-HUGE, min(HUGE, float(bound))) for bound in (low, high))))

    def solved(self) -> dict | None:
        """Values by key; None where nothing meets all rows. Raises RuntimeError where HiGHS gives up (time)."""
        import highspy  # 0.1 s, only where numbers are found
        import numpy as np

        if not self.cost:
            return {}
        inf = highspy.kHighsInf
        lp = highspy.HighsLp()
        lp.num_col_, lp.num_row_ = len(self.cost), len(self.rows)
        lp.col_cost_ = np.array(self.cost)
        lp.col_lower_, lp.col_upper_ = np.array(self.low), np.array([min(high, inf) for high in self.high])
        lp.row_lower_ = np.array([-inf if low is None else float(low) for _, low, _ in self.rows])
        lp.row_upper_ = np.array([inf if high is None else float(high) for _, _, high in self.rows])
        starts, index, value = [0], [], []
        for terms, _, _ in self.rows:
            for column, k in terms.items():
                if k and not isclose(k, 0.0):
                    index.append(column)
                    value.append(k)
            starts.append(len(index))
        lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        lp.a_matrix_.start_, lp.a_matrix_.index_, lp.a_matrix_.value_ = np.array(starts), np.array(index, dtype=np.int32), np.array(value)
        lp.integrality_ = [highspy.HighsVarType.kInteger if whole else highspy.HighsVarType.kContinuous for whole in self.whole]
        solver = highspy._core._Highs()  # the class beneath: the outer one prints a line of its own to the terminal
        solver.setOptionValue("output_flag", False)
        solver.setOptionValue("threads", 1)
        solver.setOptionValue("time_limit", SECONDS)
        solver.setOptionValue("mip_rel_gap", 0.0)
        solver.setOptionValue("mip_abs_gap", 1e-7)
        solver.passModel(lp)
        for presolve in ("choose", "off"):  # now and then (1 in 1000) what the presolve leaves is refused for a rounding in its last digit
            solver.setOptionValue("presolve", presolve)
            solver.clearSolver()
            solver.run()
            status = solver.getModelStatus()
            if status == highspy.HighsModelStatus.kOptimal:
                values = solver.getSolution().col_value
                return {key: values[column] for key, column in self.at.items()}
            if status in (highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kUnboundedOrInfeasible):
                return None
        raise RuntimeError(f"the solver stopped: {solver.modelStatusToString(status)}")
