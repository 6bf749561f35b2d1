"""Beginnings: one small manuscript of ours for each way of making a thing, each whole and proved, to be made one's own."""

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from ..strings import t
from ..told import Told

_HERE = Path(__file__).parent
ORDER = ("hat-sideways", "hat-top-down", "mitten", "square", "ripple", "shawl", "toy", "top")


@dataclass(frozen=True, slots=True)
class Construction:
    """id: the name of its file; title and summary as its head has them."""

    id: str
    title: str
    summary: str
    text: str

    def as_dict(self) -> dict:
        return {"id": self.id, "title": t(f"construction-{self.id}"), "summary": self.summary}


@cache
def constructions() -> tuple[Construction, ...]:
    """All of them, in the order in which they are shown."""
    return tuple(_read(id) for id in ORDER if (_HERE / f"{id}.md").is_file())


def construction(id) -> Construction:
    """The one of that id; Told where there is none."""
    found = next((one for one in constructions() if one.id == id), None)
    if found is None:
        raise Told(404, "no-such-template", t("no-such-template"))
    return found


def _read(id: str) -> Construction:
    text = (_HERE / f"{id}.md").read_text("utf-8")
    title, summary = (re.search(rf"^{key}:[ \t]*(.+)$", text, re.M) for key in ("title", "summary"))
    return Construction(id, title[1] if title else id, summary[1] if summary else "", text)
