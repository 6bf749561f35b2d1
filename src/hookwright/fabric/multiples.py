"""For which foundation counts the rows hold."""


def derive_multiples(pattern, work, *, below=None, in_round=False):
    """(of, words) pairs: "any multiple of 6, plus 3 chains"; filled in below."""
    return []
