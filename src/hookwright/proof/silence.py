"""The manuscript's own silences: findings she has looked at and lets stand, with her reason."""

from hookwright.ground import NOTE, Finding, Suggestion, listing

from .case import Case


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
            left += [kept for finding in hits for kept in _echoes_left(case, silence, finding)]
    return left + extra


def _echoes_left(case: Case, silence, finding: Finding) -> list[Finding]:
    """Of a finding that stands for several rows, what is left where the silence names only some of them."""
    if not silence.rows or not finding.echoes:
        return []
    rows = {row.casefold().strip() for row in silence.rows}
    places = {seen.name: seen.row.span for seen in case.seen}
    left = []
    for echo in finding.echoes:
        name = echo.partition(" in ")[0].partition(" (")[0]
        if name.casefold() in rows or name.partition(" of ")[0].casefold() in rows:
            continue
        message = f"{echo} is off for the same reason as {finding.row}, which is silenced; mend it, or name it in the silence too"
        left.append(finding.but(row=name, span=places.get(name, finding.span), message=message, echoes=(), suggestions=(), working=(), labels=()))
    return left


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
    from difflib import get_close_matches  # only where a word was not known

    near = get_close_matches(silence.kind, kinds, 1)
    return Finding(
        "silence-unused",
        NOTE,
        f"{silence.kind} is silenced{where}, and no kind of finding is called that",
        span,
        found=silence.kind,
        suggestions=(Suggestion(f"did you mean {near[0]}?", "likely", text=near[0]),) if near else (),
    )
