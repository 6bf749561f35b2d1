"""Places along a line: near to where they are wanted, in order, and each with its room.

The places are the ones nearest to the wanted ones, by the sum of squares, that keep the order and leave each stitch its room (isotonic
regression by pooling of neighbours: a textbook method).
"""

LIGHT = 0.05  # weight of a place that nothing asks for


def spread(targets, gaps, weights=None) -> list[float]:
    """Places nearest to `targets` that are in order, with at least gaps[i] between i and i + 1.

    >>> spread([0, 0, 0], [10, 10])
    [-10.0, 0.0, 10.0]
    """
    ahead, at = [], 0.0
    for index in range(len(targets)):
        ahead.append(at)
        if index < len(gaps):
            at += gaps[index]
    pools = []  # (sum of weighted targets, weight, how many)
    for index, target in enumerate(targets):
        weight = weights[index] if weights else 1.0
        total, heavy, many = (target - ahead[index]) * weight, weight, 1
        while pools and pools[-1][0] * heavy >= total * pools[-1][1]:
            before = pools.pop()
            total, heavy, many = total + before[0], heavy + before[1], many + before[2]
        pools.append((total, heavy, many))
    out = []
    for total, heavy, many in pools:
        out += [total / heavy] * many
    return [place + ahead[index] for index, place in enumerate(out)]


def gaps_of(items) -> list[float]:
    """How far the middles of neighbours are apart."""
    return [(one.wide + other.wide) / 2 for one, other in zip(items, items[1:], strict=False)]


def filled(targets) -> list[float]:
    """Targets with those that are None put between their neighbours."""
    known = [index for index, target in enumerate(targets) if target is not None]
    if not known:
        return [10.0 * index for index in range(len(targets))]
    out = list(targets)
    for index in range(known[0]):
        out[index] = targets[known[0]]
    for index in range(known[-1] + 1, len(out)):
        out[index] = targets[known[-1]]
    for first, last in zip(known, known[1:], strict=False):
        for index in range(first + 1, last):
            out[index] = targets[first] + (targets[last] - targets[first]) * (index - first) / (last - first)
    return out


def over_feet(lines, line) -> list:
    """For each item the middle of the places it stands on, None where it stands on none."""
    out = []
    for item in line.items:
        known = [lines[below].items[foot].u for below, foot in item.feet if 0 <= foot < len(lines[below].items)]
        out.append(sum(known) / len(known) if known else None)
    return out
