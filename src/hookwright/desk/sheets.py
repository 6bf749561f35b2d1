"""Writes sheets of one manuscript and keeps them where they were asked for."""

from pathlib import Path

import click

from hookwright.desk.keep_file import keep_file
from hookwright.desk.show import one_line, safe


def places(file: str, out: str | None, dialects, kinds) -> list[tuple[str, str, Path]]:
    """(dialect, kind, path) of every sheet asked for: beside the manuscript, or as `out` says (a file or a folder)."""
    name = "pattern" if file == "-" else Path(file).stem
    asked = [(dialect, kind) for dialect in dict.fromkeys(dialects) for kind in dict.fromkeys(kinds)]
    folder = Path(".") if file == "-" else Path(file).parent
    if out is not None:
        if not (out.endswith(("/", "\\")) or Path(out).is_dir()):
            if len(asked) > 1:
                raise click.UsageError(f"--out names one file, but {len(asked)} sheets are asked for; name a folder (ending in /)")
            return [(*asked[0], Path(out))]
        folder = Path(out)
    return [(dialect, kind, folder / f"{name}.{dialect}.{kind}") for dialect, kind in asked]


def keep_sheets(report, wanted, *, paper: str, replace: bool, manuscript: str, say, tell, look_over=None,
                pictures: str = "none", large_print: bool = False, progress=None) -> bool:
    """Writes each sheet and says where; True where every one of them was kept.

    say, tell, look_over: where a line goes about what was written, about what was not, and about what is to be looked over. pictures: "all", "first" or "none"
    of the pieces in their yarn.
    """
    from hookwright.pipeline import pictures_for_sheet, sheet
    from hookwright.writing import written

    never, all_kept, documents = () if manuscript == "-" else (Path(manuscript),), True, {}
    drawn: dict = {}
    pictures = pictures if any(kind in ("html", "pdf") for _, kind, _ in wanted) else "none"
    for dialect, kind, path in wanted:
        if dialect not in documents:
            photos = pictures_for_sheet(report, dialect.upper(), which=pictures, drawn=drawn, progress=progress) if pictures != "none" else None
            documents[dialect] = sheet(report, dialect.upper(), photos=photos)
        data, findings = written(documents[dialect], kind, paper=paper, large_print=large_print)
        for finding in findings:
            tell(one_line(finding, None, path.name))
        if not data:
            all_kept = False
            continue
        kept = keep_file(path, data, replace=replace, never=never)
        if kept.done:
            say(f"{kept.done} {safe(str(path))} ({dialect.upper()} terms, {size(len(data))})")
        else:
            tell(safe(kept.why_not))
            all_kept = False
    for dialect, document in documents.items() if look_over else ():
        for line in changes(document, dialect.upper()):
            look_over(line)
    return all_kept


def changes(document, terms: str) -> list[str]:
    """Words of her prose that were put into the other terms, for her to look over."""
    if not document.changes:
        return []
    out = [f"words of your prose that became others in {terms} terms; look them over:"]
    for change in document.changes:
        times = f" ({change.times} times)" if change.times > 1 else ""
        part = f"  {safe(change.part)}: " if change.part else "  "
        out.append(f"{part}`{safe(change.was)}` became `{safe(change.now)}`{times}")
    return out


def size(count_bytes: int) -> str:
    """A length in kB as a person says it.

    >>> size(400), size(41_300)
    ('1 kB', '41 kB')
    """
    return f"{max(1, round(count_bytes / 1000)):,} kB"
