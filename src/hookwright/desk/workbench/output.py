"""Everything that goes out, made one after the other: sheets, charts, pictures, tables; in one archive with a list of what is in it."""

import hashlib
import json
import zipfile
from functools import partial

import hookwright

from .reports import report_of
from .strings import t
from .told import Told

_SHEETS = {"html": ("html", "html"), "txt": ("txt", "txt"), "md": ("md", "md")}
TERMS, PAPERS = ("us", "uk"), ("a4", "letter")


def known() -> list[str]:
    """Every format that can be asked for."""
    pdf = [f"pdf-{paper}-{terms}{large}" for paper in PAPERS for terms in TERMS for large in ("", "-large")]
    sheets = [f"{kind}-{terms}" for kind in _SHEETS for terms in TERMS]
    return [*pdf, *sheets, "chart-svg", "schematic-svg", "picture-png", "surface-glb", "sizes-csv", "counts-csv", "yarn-csv", "manuscript"]


def make(asked: dict, place: str, step) -> str:
    """Makes what is asked for into the file at `place`; words of what was made.

    asked: text, name, formats (of `known()`), size ("" for the first). alone: the one format is the file itself and no archive.
    """
    text, name = asked["text"], asked["name"]
    step(0.0, t("out-making", what=name))
    report = report_of(text)
    parts = []  # (what it is, name of the file, what makes its bytes)
    for format in asked["formats"]:
        parts += _parts(format, report, text, name, asked.get("size") or None, asked.get("pictures") or "first")
    if asked.get("alone"):
        what, _, makes = parts[0]
        step(0.05, t("out-making", what=what))
        with open(place, "wb") as stream:
            stream.write(makes())
        return t("out-done", number=1)
    manifest, done = [], 0
    with zipfile.ZipFile(place, "w", zipfile.ZIP_DEFLATED) as archive:
        names = set()
        for what, file, makes in parts:
            file = _unlike(file, names)
            step(done / (len(parts) + 1), t("out-making", what=what))
            done += 1
            try:
                data = makes()
            except ValueError as slip:
                manifest.append({"name": file, "what": what, "left_out": str(slip)})
                continue
            except Told as told:
                manifest.append({"name": file, "what": what, "left_out": told.words})
                continue
            archive.writestr(_entry(file), data)
            manifest.append({"name": file, "what": what, "bytes": len(data), "sha256": hashlib.sha256(data).hexdigest()})
        said = {"manuscript": name, "text_sha256": hashlib.sha256(text.encode()).hexdigest(), "made_by": f"Hookwright {hookwright.__version__}",
                "must_mend": report.must_mend, "proved": report.as_dict()["proved"]["words"], "files": manifest}
        archive.writestr(_entry("manifest.json"), json.dumps(said, indent=1, ensure_ascii=False) + "\n")
    made = sum("sha256" in one for one in manifest)
    if not made:
        raise Told(422, "out-failed", manifest[0]["left_out"] if manifest else t("out-nothing"))
    return t("out-done", number=made)


def _unlike(file: str, names: set[str]) -> str:
    """The name, with a number where two pieces would have the same."""
    stem, dot, ending = file.rpartition(".")
    number = 2
    while file.casefold() in names:
        file, number = f"{stem}-{number}{dot}{ending}", number + 1
    names.add(file.casefold())
    return file


def _entry(name: str) -> zipfile.ZipInfo:
    """An entry with a fixed date: the same manuscript gives the same archive."""
    entry = zipfile.ZipInfo(name, (2000, 1, 1, 0, 0, 0))
    entry.compress_type, entry.external_attr = zipfile.ZIP_DEFLATED, 0o644 << 16
    return entry


def _parts(format: str, report, text: str, name: str, size: str | None, pictures: str) -> list[tuple]:
    if format not in known():
        raise Told(400, "out-unknown", t("out-unknown", what=format[:40]))
    if format == "manuscript":
        return [(t("out-manuscript"), f"{name}.md", text.encode)]
    kind, _, rest = format.partition("-")
    if kind == "pdf":
        paper, _, rest = rest.partition("-")
        terms, _, large = rest.partition("-")
        file = f"{name}.{terms}.{paper}{'.large-print' if large else ''}.pdf"
        return [(t("out-pdf", terms=terms.upper(), paper=paper), file, partial(hookwright.write, report, "pdf", terms, paper=paper, large_print=bool(large), pictures=pictures))]
    if kind in _SHEETS:
        to, ending = _SHEETS[kind]
        return [(t("out-sheet", kind=kind.upper(), terms=rest.upper()), f"{name}.{rest}.{ending}", partial(hookwright.write, report, to, rest, pictures=pictures))]
    if format == "sizes-csv":
        return [(t("out-sizes"), f"{name}.sizes.csv", partial(_sizes_csv, text))]
    if format == "counts-csv":
        return [(t("out-counts"), f"{name}.counts.csv", partial(_counts_csv, report))]
    if format == "yarn-csv":
        return [(t("out-yarn"), f"{name}.yarn.csv", partial(_yarn_csv, report))]
    return [(t(f"out-{kind}", piece=piece or name), f"{name}.{kind}{'.' + _file_name(piece) if piece else ''}.{rest}", partial(_PICTURES[kind], report, piece, size))
            for piece in _pieces(kind, report, size)]


def _pieces(kind: str, report, size: str | None) -> list[str]:
    """Pieces that have a picture of this kind; [""] for one of all of them."""
    if kind == "schematic":
        return [""]
    if kind in ("picture", "surface"):
        return list(hookwright.shaped_pieces(report, size)) or [""]
    rows = report.fabrics[0].rows if report.fabrics else ()
    return list(dict.fromkeys(row.piece for row in rows if row.row is not None and row.has_height)) or [""]


def _file_name(piece: str) -> str:
    from .names import name_from

    return name_from(piece.partition("(")[0])


def _sizes_csv(text: str) -> bytes:
    """The tables of sizes under each other; no cell that a spreadsheet would compute."""
    import csv
    import io

    from hookwright.desk.counts import cell

    from .sizes_panel import sizes

    panel, out = sizes(text), io.StringIO()
    if not panel["tables"]:
        raise ValueError(t("out-no-sizes"))
    writer = csv.writer(out, lineterminator="\r\n")
    for index, table in enumerate(panel["tables"]):
        if index:
            writer.writerow([])
        writer.writerow([cell(table["caption"])])
        writer.writerow([cell(one) for one in table["head"]])
        writer.writerows([[cell(" ".join(one.split())) for one in row] for row in table["rows"]])
    return b"\xef\xbb\xbf" + out.getvalue().encode()


def _counts_csv(report) -> bytes:
    from hookwright.desk.counts import as_csv

    return b"\xef\xbb\xbf" + (as_csv(report.as_dict()) + "\n").encode()


def _yarn_csv(report) -> bytes:
    from hookwright.desk.yarn_table import as_csv, too_little

    estimate = hookwright.yarn_for(report)
    if estimate is None:
        raise ValueError(too_little(report))
    return b"\xef\xbb\xbf" + (as_csv(estimate.as_dict()) + "\n").encode()


def _chart(report, piece, size) -> bytes:
    return hookwright.chart(report, piece or None, size).picture.svg("chart", on_paper=True).encode()


def _schematic(report, piece, size) -> bytes:
    return hookwright.schematic(report, piece or None, size).svg("schematic").encode()


def _picture(report, piece, size) -> bytes:
    return hookwright.picture(report, piece or None, size, to="png", pixels=1400).data


def _surface(report, piece, size) -> bytes:
    return hookwright.picture(report, piece or None, size, to="glb").data


_PICTURES = {"chart": _chart, "schematic": _schematic, "picture": _picture, "surface": _surface}
