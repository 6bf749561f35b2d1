"""Brings the places of a finding back into her text, where the numbers of the head stand by name."""

from hookwright.ground import Finding


def in_her_text(finding: Finding, shifts) -> Finding:
    """The finding with every span in her text; as it is where no number was written out."""
    if not shifts:
        return finding
    suggestions = tuple(_suggestion(suggestion, shifts) for suggestion in finding.suggestions)
    return finding.but(span=shifts.back(finding.span), labels=tuple((shifts.back(span), words) for span, words in finding.labels), suggestions=suggestions)


def _suggestion(suggestion, shifts):
    from dataclasses import replace

    return replace(suggestion, span=shifts.back(suggestion.span)) if suggestion.span is not None else suggestion
