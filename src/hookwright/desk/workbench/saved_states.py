"""Saved states as a list to look through: what was typed in one go stands as its last state, and every one of them can be asked for."""

from dataclasses import dataclass

from .times import when

PAUSE = 90.0  # seconds without typing that end a run
LONGEST = 600.0


@dataclass(frozen=True, slots=True)
class Run:
    """The newest state of a run, and how many states it has."""

    id: int
    at: float
    why: str
    version: str
    states: int

    def as_dict(self) -> dict:
        return {"id": self.id, "at": when(self.at), "why": self.why, "version": self.version, "states": self.states}


def in_runs(states, every: bool = False) -> list[Run]:
    """states: the newest first. every: one entry a state."""
    out, first, before = [], 0.0, None
    for state in states:
        goes_on = before is not None and before.why == state.why == "typing" and before.at - state.at < PAUSE and first - state.at < LONGEST
        if goes_on and not every:
            out[-1] = Run(out[-1].id, out[-1].at, out[-1].why, out[-1].version, out[-1].states + 1)
        else:
            out.append(Run(state.id, state.at, state.why, state.version, 1))
            first = state.at
        before = state
    return out
