"""The panels beside the manuscript: the sheet as it will print, a piece in symbols, the yarn it takes."""

import hookwright

from .reports import report_of
from .strings import t
from .told import Told


def sheet(text: str, terms: str | None, size: str | None) -> str:
    """The sheet as a page of HTML. size: of that size alone, "" or None for all."""
    report = report_of(text)
    try:
        return hookwright.write(in_one_size(report, size) if size else report, "html", terms).decode("utf-8")
    except ValueError as slip:
        raise Told(400, "not-asked-well", str(slip)) from None


def in_one_size(report, size: str):
    """The report with its pattern cut down to one size; the same where it has only one, or none of that name."""
    from hookwright.pipeline import only_size

    return only_size(report, size)


def chart(text: str, piece: str | None, size: str | None, terms: str | None) -> dict:
    """{"svg", "title", "words"} of a piece in symbols."""
    try:
        made = hookwright.chart(report_of(text), piece or None, size or None, terms)
    except ValueError as slip:
        raise Told(404, "nothing-to-draw", t("nothing-to-draw", reason=_sentence(slip))) from None
    return {"svg": made.picture.svg("chart"), "title": made.picture.title, "words": made.picture.words}


def yarn(text: str, other: str | None) -> dict:
    """The estimate as `yarn --json` gives it, with its words. other: another yarn in words."""
    from hookwright.desk import yarn_table

    report = report_of(text)
    try:
        estimate = hookwright.yarn_for(report, yarn=other or None)
    except ValueError as slip:
        raise Told(400, "yarn-not-read", _sentence(slip) + ".") from None
    if estimate is None:
        return {"sizes": [], "rows": [], "words": [t("too-little-for-yarn", reason=_sentence(yarn_table.too_little(report)))]}
    values = estimate.as_dict()
    rows = [{"size": size, "colour": yarn_table.colour_said(need), **need} for size, one in values["sizes"].items() for need in one["needs"]]
    return {"sizes": list(values["sizes"]), "colours": list(dict.fromkeys(row["colour"] for row in rows)), "rows": rows,
            "minutes": {size: one["minutes"] for size, one in values["sizes"].items()}, "band": values["band"], "words": yarn_table.in_words(values)}


def _sentence(words) -> str:
    words = str(words)
    return words[:1].upper() + words[1:]
