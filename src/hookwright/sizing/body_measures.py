"""The measures of the body that a head's sizes are made for: from the tables it names, `to fit`, and her own.

The head is taken as plain values (see notation.Head): sizes, body. Finding kind: body-not-known (a table or a size that there is not).
"""

from difflib import get_close_matches

from hookwright.ground import MUST_MEND, Finding, Suggestion

from .bodies import TABLES, measures, sizes_of, table_name


def bodies_of(head, findings: list) -> list[dict[str, tuple[float, float]]]:
    """For each size its measures by name as (low_mm, high_mm): from the table named, then her own, then `to fit`."""
    names = [size.name for size in head.sizes] or ["1"]
    out: list[dict] = [{} for _ in names]
    body = head.body
    if body and (body.table or body.sizes):
        _from_tables(body, names, out, head, findings)
    for index, size in enumerate(head.sizes):
        if size.to_fit_mm:
            out[index]["to fit"] = size.to_fit_mm
    for measure, lengths in (body.measures if body else {}).items():
        for index in range(len(names)):
            found = lengths.at(index)
            if found:
                out[index][measure] = found
    return out


def _from_tables(body, names, out, head, findings) -> None:
    """Puts the measures of each size's table size into `out`."""
    named, sizes = body.table, body.sizes
    if table_name(named) is None and len(names) == 1 and not sizes and all(_table_and_size(named, "")):
        named, sizes = "", (named,)  # "women M" for a pattern in one size
    name = table_name(named) if named else ""
    if name is None:
        findings.append(_no_table(named, head.spans.get("body.from", body.span)))
        return
    wanted = sizes or tuple(names)
    where = head.spans.get("body.sizes", body.span)
    if len(wanted) != len(names):
        findings.append(Finding("body-not-known", MUST_MEND, f"`sizes` of `body` names {len(wanted)} sizes of the table for {len(names)} of the pattern; give one each", where,
                                expected=len(names), found=len(wanted)))
        return
    missing = []
    for index, words in enumerate(wanted):
        table, size = _table_and_size(words, name)
        found = measures(table, size) if table else None
        if found is None:
            missing.append(words)
        else:
            out[index].update(found)
    if missing:
        there = f"the table of {name} has {', '.join(sizes_of(name))}" if name else f"say the table too, such as `women M`; there are {', '.join(TABLES)}"
        ages = ", and ages such as `6-12 months`, `3 years`, or `women`, `men`, `adults`, each also as S, M or L" if name == "heads" else ""
        none = ", ".join(f"`{one}`" for one in missing)
        say = ". Say which they are by `sizes:` under `body:`" if not sizes else ""
        findings.append(Finding("body-not-known", MUST_MEND, f"there are no body measures of {none}; {there}{ages}{say}", where))


def _no_table(words: str, span) -> Finding:
    first = words.split()[0] if words.split() else ""
    near = table_name(first) or next(iter(get_close_matches(words.lower(), TABLES, 1)), "")
    more = f". For one of its sizes write `body: {{from: {near}, sizes: [...]}}`" if near and table_name(first) and words.strip() != first else ""
    said = f"; did you mean `{near}`?" if near and not more else ""
    return Finding("body-not-known", MUST_MEND, f"`{words}` is no table of body measures{said or more}{'' if said or more else '; there are ' + ', '.join(TABLES)}", span,
                   suggestions=(Suggestion(f"write `{near}`", "likely", near, span),) if said else ())


def _table_and_size(words: str, name: str) -> tuple[str, str]:
    """ "women M" as ("women", "M"), "surveyed men L" as ("surveyed men", "L"); words without a table are a size of the table `name`."""
    parts = words.split()
    for count in (2, 1):
        table, size = table_name(" ".join(parts[:count])), " ".join(parts[count:])
        if table and size and measures(table, size) is not None and (not name or measures(name, words) is None):
            return table, size
    return name, words
