"""Pictures of the work itself: the schematic with its measures, and the surface of a piece as a picture or to be turned."""

import hookwright
from hookwright.notation import plain_name

from .reports import report_of
from .strings import t
from .told import Told


def _offered(name: str):
    """A public function of the library."""
    try:
        return getattr(hookwright, name)
    except AttributeError:
        raise Told(404, "not-there-yet", t("not-there-yet")) from None


def schematic(text: str, piece: str | None, size: str | None) -> dict:
    """{"svg", "title", "words"}."""
    report = report_of(text)
    try:
        try:
            made = _offered("schematic")(report, piece or None, size or None)
        except ValueError:
            if not piece or plain_name(piece) == piece:
                raise
            made = _offered("schematic")(report, plain_name(piece), size or None)  # "Cuff (make 2)" is drawn as "Cuff"
    except ValueError as slip:
        raise Told(404, "nothing-to-draw", t("nothing-to-draw", reason=str(slip))) from None
    if made is None:
        raise Told(404, "not-there-yet", t("not-there-yet"))
    picture = getattr(made, "picture", made)
    return {"svg": picture.svg("schematic"), "title": picture.title, "words": picture.words}


def together(text: str, size: str | None) -> dict:
    """{"together"}: whether the pieces are sewn to a garment that is pictured whole."""
    from hookwright.pipeline import sewn_together

    try:
        return {"together": sewn_together(report_of(text), size or None)}
    except ValueError:
        return {"together": False}


def picture(text: str, piece: str | None, size: str | None) -> bytes:
    """PNG of a piece in its yarn."""
    return _in_yarn(text, piece, size, "png")


def surface(text: str, piece: str | None, size: str | None) -> bytes:
    """GLB of a piece in its yarn, to be turned."""
    return _in_yarn(text, piece, size, "glb")


def _in_yarn(text: str, piece: str | None, size: str | None, to: str) -> bytes:
    try:
        return hookwright.picture(report_of(text), piece or None, size or None, to=to).data
    except ValueError as slip:
        raise Told(404, "nothing-to-draw", t("nothing-to-draw", reason=str(slip))) from None
