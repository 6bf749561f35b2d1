"""What a program asks for, brought into one form; a programmer's slip is told at once and by name."""

DIALECTS = ("US", "UK")


def known_terms(terms) -> str | None:
    """ "US" or "UK" in capitals, None where nothing was said; TypeError or ValueError otherwise.

    >>> known_terms("uk"), known_terms(None)
    ('UK', None)
    """
    if terms is None or terms == "":
        return None
    if not isinstance(terms, str):
        raise TypeError(f"terms is a str, 'US' or 'UK', not {type(terms).__name__}")
    if terms.strip().upper() not in DIALECTS:
        raise ValueError(f"terms are 'US' or 'UK', not {terms!r}")
    return terms.strip().upper()


def size_names(sizes) -> tuple[str, ...] | None:
    """Names of sizes from a list of them or from one str with commas; None where there are none.

    >>> size_names("S, M"), size_names(["S", 38])
    (('S', 'M'), ('S', '38'))
    """
    if sizes is None:
        return None
    if isinstance(sizes, str):
        sizes = [name for name in sizes.split(",") if name.strip()]
    elif isinstance(sizes, bytes) or not hasattr(sizes, "__iter__"):
        raise TypeError(f"sizes is a list of names, or one str with commas, not {type(sizes).__name__}")
    names = []
    for name in sizes:
        if not isinstance(name, (str, int, float)) or isinstance(name, bool):
            raise TypeError(f"a size is named by a str, not {name!r}")
        names.append(str(name).strip())
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        raise ValueError(f"the size {twice!r} is named twice")
    if "" in names:
        raise ValueError("a size has no name")
    return tuple(names) or None
