"""What really mends a finding: changes that were tried, to be applied by a click."""

import hookwright

from .live_report import suggestion
from .utf16 import Utf16


def mends(text: str, kind: str, start: int) -> dict:
    """{"suggestions"} for the finding of this kind at this place (a browser's offset); none where it is not there any more."""
    there = Utf16(text)
    memory = hookwright.Memory()
    report = hookwright.check(text)
    at = there.here(start)
    found = next((one for one in report.findings if one.kind == kind and one.span.start == at), None)
    if found is None:
        return {"suggestions": []}
    return {"suggestions": [suggestion(one, there.there) for one in hookwright.mends(report, found, memory)]}
