"""The numbers that were found, with the length each comes to and how far that is from what was wanted."""

from dataclasses import dataclass

from .spread import per_size


@dataclass(frozen=True, slots=True)
class Found:
    """One number in every size. counts: "sts", "rows" or "rnds", "" where it only follows from others; mm, wanted_mm and off_mm hold
    None where no length was wanted of it. off_mm is more than nothing where it comes to more. said: what buyers know it by, "" where it is
    not for them."""

    name: str
    counts: str
    values: tuple[int, ...]
    mm: tuple[float | None, ...]
    wanted_mm: tuple[float | None, ...]
    off_mm: tuple[float | None, ...]
    said: str = ""


def found_numbers(asked, answer) -> tuple[Found, ...]:
    """The numbers of an Answer in the order of the head; () where nothing was to be found. asked: an Asked."""
    if asked is None or answer is None:
        return ()
    out = []
    for wish in asked.problem.wishes:
        values = answer.numbers.get(wish.name)
        if values is None:
            continue
        wanted = [want is not None for want in (*wish.want, *[None] * len(values))[: len(values)]]
        offs = answer.off_mm.get(wish.name) or (None,) * len(values)
        mm = tuple(value * unit if asks else None for value, unit, asks in zip(values, wish.unit_mm, wanted))
        aim = tuple(length - off if length is not None and off is not None else None for length, off in zip(mm, offs))
        out.append(Found(wish.name, wish.counts if any(wanted) else "", tuple(values), mm, aim, tuple(offs), wish.said))
    return tuple(out)


def as_numbers(answer) -> dict:
    """The answer as head numbers: an int where all sizes have the same, else one a size."""
    return {name: per_size(values) for name, values in answer.numbers.items()}
