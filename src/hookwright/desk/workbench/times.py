"""Times as they travel: ISO 8601 in UTC."""

from datetime import UTC, datetime


def when(seconds: float) -> str:
    """
    >>> when(0.5)
    '1970-01-01T00:00:00.500+00:00'
    """
    return datetime.fromtimestamp(seconds, UTC).isoformat(timespec="milliseconds")
