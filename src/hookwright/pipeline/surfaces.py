"""Surfaces of a report: of which piece and size."""


def surface(report, piece: str | None = None, size: str | None = None, *, shown: str | None = None, progress=None, cancelled=None):
    """The shape.Surface of a piece (the first where not said) in a size (the first). ValueError where there is no such piece or size."""
    from hookwright.shape import form

    return form(_fabric(report, size), piece, pattern=report.pattern, shown=shown, progress=progress, cancelled=cancelled)


def garment_in(report, size: str | None = None):
    """The shape.Garment that the flat pieces are sewn to, None where they are none."""
    from hookwright.shape import garment_of

    return garment_of(_fabric(report, size), report.pattern)


def sewn(report, garment, size: str | None = None, *, progress=None, cancelled=None):
    """The shape.Surface of a garment (see garment_in), all its pieces together on a plain form."""
    from hookwright.shape import garment_surface

    return garment_surface(_fabric(report, size), garment, pattern=report.pattern, progress=progress, cancelled=cancelled)


def piece_names(report, size: str | None = None) -> list[str]:
    """Names of the pieces that have a surface of their own, in the order in which they are begun."""
    from hookwright.shape import parts_of

    return [part.names[0] for part in parts_of(_fabric(report, size))]


def _fabric(report, size):
    if report.work.too_much is not None or not report.fabrics:
        raise ValueError("there are no worked rows to give a shape to")
    if size is None:
        return report.fabrics[0]
    for fabric in report.fabrics:
        if fabric.size.lower() == size.strip().lower():
            return fabric
    raise ValueError(f"there is no size {size!r}: there are {', '.join(report.sizes)}")
