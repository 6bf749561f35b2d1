"""Running the checks: all of them, each on its own, so that one that fails takes no other with it."""

from hookwright.ground import GRADES, Finding

from . import silence
from .case import Case


def prove_with(checks: dict, case: Case) -> list[Finding]:
    """Findings of the reader and of these checks, without those that are silenced, in the order of their places.

    A check with `retells(case, finding)` says such findings of the reader itself, with what it knows of them from the worked rows.
    """
    retelling = [module.retells for module in checks.values() if hasattr(module, "retells")]
    findings = [finding for finding in case.reading if not any(retells(case, finding) for retells in retelling)]
    for module in checks.values():
        findings.extend(module.find(case))
    findings = [_by_label(case, finding) for finding in silence.apply(case, once(findings), checks)]
    grade = {name: index for index, name in enumerate(GRADES)}
    findings.sort(key=lambda finding: (finding.span.start, grade.get(finding.grade, len(GRADES)), finding.span.end, finding.kind))
    return findings


def _by_label(case: Case, finding: Finding) -> Finding:
    """The finding with the row's label alone in `row`, as the rows of a report have it; the message keeps the piece."""
    if not finding.row or " of " not in finding.row:
        return finding
    for piece in case.pattern.pieces:
        if piece.name and finding.row.endswith(f" of {piece.name}"):
            return finding.but(row=finding.row[: -len(piece.name) - 4])
    return finding


def once(findings: list[Finding]) -> list[Finding]:
    """Each finding once: the same kind at the same place with the same words is said for all its sizes already."""
    seen = set()
    out = []
    for finding in findings:
        key = (finding.kind, finding.span, finding.message)
        if key not in seen:
            seen.add(key)
            out.append(finding)
    return out
