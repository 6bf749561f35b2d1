"""What holds for the whole pattern: said in its notes, or inferred from its counts and then held."""

from dataclasses import dataclass, field

from hookwright.notation.tree import Counts

from . import kinds


@dataclass(slots=True)
class Settings:
    """Conventions of one pattern.

    said: notation Conventions from the notes; taken: {key: option} decided by the counts, one for the whole pattern.
    """

    said: list = field(default_factory=list)
    taken: dict = field(default_factory=dict)
    onward: dict = field(default_factory=dict)  # (chains, kind) -> Counts said "here and throughout"
    by_n: dict = field(default_factory=dict)

    @property
    def repeat_sense(self) -> str:
        """What "rep from * n times" means where the notes say it: "more", "total" or ""."""
        for convention in self.said:
            if convention.kind == "repeat":
                return convention.value
        return ""

    def start(self) -> str:
        """Where rounds start, where the notes say it: "corner", "space", "side" ..."""
        for convention in self.said:
            if convention.kind == "start":
                return convention.value
        return ""

    def chains_count(self):
        """True/False where the notes say whether chains count as stitches in the counts, else None."""
        for convention in self.said:
            if convention.kind == "chains":
                return convention.says.counts if convention.says is not None else True
        return None

    def turning(self, chains: int, kind: str) -> Counts | None:
        """What is said of a chain of this length at the start of a row of this kind; None where nothing is."""
        best, score = None, -1
        for convention in self.said:
            if convention.kind == "cluster" and convention.chains in (None, chains):
                continue
            if convention.kind != "tch" or convention.says is None:
                continue
            if convention.chains is not None and convention.chains != chains:
                continue
            if convention.chains is None and chains == 1 and convention.says.counts and any(other.kind == "tch" and other.chains for other in self.said):
                continue  # "turning chain included" where she names the chains that are meant
            if convention.stitch is not None and convention.stitch != kind and kinds.plain_of(convention.stitch) != kind:
                if convention.chains is None:
                    continue
            points = (convention.chains is not None) * 2 + (convention.stitch == kind)
            if points > score:
                best, score = convention.says, points
        if best is not None:
            return best
        return self.onward.get((chains, kind)) or self.by_n.get(chains)

    def spiral(self) -> bool:
        """Whether rounds go on without a join, so that a repeat may run over the beginning of the next."""
        return any(convention.kind == "join" and convention.value == "spiral" for convention in self.said)

    def skipped(self, chains: int) -> Counts | None:
        """What is said of skipped foundation chains."""
        for convention in self.said:
            if convention.kind == "skipped" and convention.says is not None and convention.chains in (None, chains):
                return convention.says
        return None

    def end_chain(self):
        """The convention for a chain made at the end of the row before, where the notes say it."""
        for convention in self.said:
            if convention.kind == "end chain":
                return convention
        return None

    def cluster(self):
        """The convention for the chain and stitches that stand for a first cluster."""
        for convention in self.said:
            if convention.kind == "cluster":
                return convention
        return None
