"""A pasted pattern made into a manuscript: what was read goes into a head and into rows, all else stays in its own words, and she confirms it."""

from .live_report import live_report


def tidy(text: str) -> dict:
    """{"text", "title", "report", "notes"}."""
    return {"text": text, "title": "", "notes": [], "report": live_report(text)}
