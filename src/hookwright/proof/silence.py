"""The manuscript's own silences: findings she has looked at and lets stand, with her reason."""

from difflib import get_close_matches

from hookwright.ground import NOTE, Finding, Suggestion

from .case import Case
from .wording import listing


def apply(case: Case, findings: list[Finding], kinds) -> list[Finding]:
    """The findings that are not silenced, with one for each silence that is unused; the others go to `case.silenced`."""
    silences = case.from_head("silence") or ()
    if not silences:
        return findings
    left = findings
    extra = []
    for silence in silences:
        span = silence.span if silence.span.end else case.span_in_head("silence")
        hits = [finding for finding in left if finding.kind == silence.kind and _for(silence, finding)]
        if not hits:
            extra.append(_unused(silence, span, kinds))
        else:
            case.silenced.extend((finding, silence.because) for finding in hits)
            left = [finding for finding in left if finding not in hits]
    return left + extra


def _for(silence, finding: Finding) -> bool:
    if not silence.rows:
        return True
    rows = {row.casefold().strip() for row in silence.rows}
    name = (finding.row or "").casefold()
    return name in rows or name.partition(" of ")[0] in rows


def _unused(silence, span, kinds) -> Finding:
    where = f" in {listing(silence.rows)}" if silence.rows else ""
    if silence.kind in kinds:
        return Finding(
            "silence-unused",
            NOTE,
            f"{silence.kind} is silenced{where}, and there is no such finding",
            span,
            found=silence.kind,
            suggestions=(Suggestion("take the line out", "likely"),),
        )
    near = get_close_matches(silence.kind, kinds, 1)
    return Finding(
        "silence-unused",
        NOTE,
        f"{silence.kind} is silenced{where}, and no kind of finding is called that",
        span,
        found=silence.kind,
        suggestions=(Suggestion(f"did you mean {near[0]}?", "likely", text=near[0]),) if near else (),
    )
