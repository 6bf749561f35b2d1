"""The whole way of one manuscript: read it, work it in every size, prove it, write it out."""

from dataclasses import dataclass, field, replace
from functools import cached_property, partial

from hookwright import sizing
from hookwright.fabric import LIMIT, Work, derive_multiples, resolved, step_spans, work_pattern
from hookwright.ground import MUST_MEND, NOTE, NOWHERE, Lines, Span
from hookwright.notation import Pattern, gauge_of_prose, read_below
from hookwright.proof import Case, prove

from .asked import known_terms, size_names
from .memory import Memory as Memory
from .placing_back import in_her_text
from .said import (
    assumed_in_words,
    begins_anew,
    begins_with_space,
    below_not_used,
    counts_of,
    json_finding,
    no_row,
    proved_in_words,
    standing_counts,
    too_much,
    works_something,
)
from .sized import Sized, fitting, gauges_in_words, numbers_as_values, read_sized

MOST_OF_A_FRAGMENT = 4000  # letters of a text that is read once more where no row is found in it


@dataclass
class Report:
    """What is known of a manuscript after it was worked and proved.

    text, pattern (the tree), work (fabrics, conventions), findings (ground.Finding, in order of place).
    """

    text: str
    pattern: Pattern
    work: Work
    findings: list = field(default_factory=list)
    case: Case | None = None
    sized: Sized = field(default_factory=Sized)

    @property
    def fabrics(self):
        """One worked Fabric per size, in the order of the sizes."""
        return self.work.fabrics

    @property
    def sizes(self) -> tuple[str, ...]:
        return tuple(fabric.size for fabric in self.work.fabrics)

    @property
    def must_mend(self) -> int:
        """How many findings must be mended."""
        return sum(finding.grade == MUST_MEND for finding in self.findings)

    @property
    def multiples(self) -> list:
        """(of what, the multiple in words) of each foundation, derived when asked for by working the rows over many counts."""
        return self.case.multiples if self.case is not None else []

    @property
    def numbers(self) -> tuple:
        """The numbers that were found for the sizes (sizing.Found), () where none was asked for."""
        return sizing.found_numbers(self.sized.asked, self.sized.answer)

    @cached_property
    def step_spans(self) -> dict:
        """{id of a worked row: [Span of the step that made each of its stitches]} in the text of `pattern`: the pattern is worked once more for it."""
        case = self.case
        if case is None or self.work.too_much is not None:
            return {}
        return step_spans(self.pattern, self.work, below=case.below, in_round=case.in_round, row_height_mm=case.row_height_mm)

    @cached_property
    def lines(self) -> Lines:
        return Lines(self.text)

    def as_dict(self, *, multiples: bool = True) -> dict:
        """The report as plain values for JSON; the shape is fixed (see README, "The report as JSON"). multiples=False leaves their list
        empty, where an answer is wanted while she types."""
        return {
            "terms": self.pattern.terms,
            "sizes": list(self.sizes),
            "rows": self._rows(),
            "numbers": numbers_as_values(self.numbers),
            "multiples": [{"of": of, "words": words} for of, words in (self.multiples if multiples else ())],
            "findings": [json_finding(finding, self.lines) for finding in self.findings],
            "assumed": [*gauges_in_words(self), *assumed_in_words(self)],
            "silenced": [{**json_finding(in_her_text(finding, self.pattern.shifts), self.lines), "because": because} for finding, because in (self.case.silenced if self.case else ())],
            "proved": proved_in_words(self),
        }

    def _rows(self) -> list[dict]:
        """One entry a worked row, in working order, with its counts per size."""
        entries, at = [], {}
        for fabric in self.work.fabrics:
            seen = {}
            for row in fabric.rows:
                if row.row is None:
                    continue
                which = id(row.row)
                time = seen.get(which, 0)
                seen[which] = time + 1
                entry = at.get((which, time))
                if entry is None:
                    entry = at[which, time] = {"label": row.label, "piece": row.piece, "line": self.lines.place(self._hers(row.row.span.start))[0], "sizes": {}}
                    entries.append((self._order(row.row), time, entry))
                entry["sizes"][fabric.size] = counts_of(row)
        self._rejoin(entries, at)
        entries.sort(key=lambda item: (item[0], item[1]))
        return [entry for _, _, entry in entries]

    def _rejoin(self, entries, at):
        """Sizes that have fewer rows of a range than others stand with their last row in the range's last entry too."""
        last = {}
        for (which, time) in at:
            last[which] = max(time, last.get(which, -1))
        for which, time in last.items():
            sizes = at[which, time]["sizes"]
            for earlier in range(time - 1, -1, -1):
                for size, counts in at[which, earlier]["sizes"].items():
                    sizes.setdefault(size, counts)
            for index, lay in self.work.standing.get(which, {}).items():
                sizes.setdefault(self.sizes[index], standing_counts(lay))
            at[which, time]["sizes"] = {size: sizes[size] for size in self.sizes if size in sizes}

    def _hers(self, offset: int) -> int:
        """An offset into the text with numbers as one into hers."""
        return self.pattern.shifts.back(Span(offset, offset + 1)).start if self.pattern.shifts else offset

    @cached_property
    def _place_of(self) -> dict:
        return {id(row): index for index, (_, row) in enumerate(self.pattern.rows())}

    def _order(self, row) -> int:
        return self._place_of.get(id(row), 0)


def check(text: str, *, terms: str | None = None, below: str | None = None, in_round: bool = False, sizes=None,
          limit: int = LIMIT, memory=None) -> Report:
    """Reads, works and proves a manuscript, a few rows, or one row, with or without a head.

    terms: "US" or "UK" where the text does not say. below: the row below a fragment, in plain written notation, in the order in
    which it was worked ("ch 3 (counts as dc), 19 dc", "ring", "65 ch", "22 row ends"). in_round: the fragment is worked in the
    round. sizes: names of the sizes where there is no head, in their order. limit: stitches a size may have before the work is refused.
    sizes may also be one str with commas ("S, M, L"). memory: a `Memory`, given with each new text of one manuscript while it is being written;
    a report made with it is good until the next check with it.
    Raises nothing for what she wrote: all that is wrong with it is a finding. TypeError and ValueError are for the arguments themselves.
    """
    for name, value in (("text", text), ("below", below or "")):
        if not isinstance(value, str):
            raise TypeError(f"{name} is a str, not {type(value).__name__}")
    if in_round not in (True, False, None):
        raise TypeError(f"in_round is True or False, not {in_round!r}")
    if isinstance(limit, bool) or not isinstance(limit, int) or limit < 1:
        raise (ValueError if isinstance(limit, int) else TypeError)(f"limit is a whole number of stitches from 1, not {limit!r}")
    terms, sizes = known_terms(terms), size_names(sizes)
    pattern, findings, sized = read_sized(text, terms=terms, sizes=sizes, in_round=bool(in_round), before=memory.rows if memory is not None else None)
    stated = None
    if below:
        stated, more = read_below(below, pattern)
        findings = [*findings, *(finding.but(span=NOWHERE) for finding in more)]
        if not stated or begins_anew(pattern):
            findings += [below_not_used()] if stated else []
            stated = None
    if stated and next(iter(pattern.rows()), None) is None and len(text) < MOST_OF_A_FRAGMENT:
        again = read_sized(text, terms=terms, sizes=sizes, in_round=bool(in_round), all_rows=True)
        if any(works_something(row) or row.stated for _, row in again[0].rows()):  # "Sc even for 5 rnds.": a row, since something lies below it
            pattern, findings, sized = again
    if next(iter(pattern.rows()), None) is None:
        findings = [*findings, no_row(below=stated is not None)]
    return proved(text, pattern, findings, sized, below=stated, in_round=in_round, limit=limit, memory=memory)


def proved(text, pattern, findings, sized, *, below=None, in_round=False, limit=LIMIT, memory=None) -> Report:
    """The Report of a pattern that was read: worked in every size and proved. below: the steps of the row below a fragment."""
    names = tuple(pattern.sizes) or ("1",)
    if sized.unworked:
        return Report(text, pattern, work_pattern(replace(pattern, pieces=[]), sizes=names, limit=limit), findings, sized=sized)
    row_height = row_height_mm(pattern)
    work = work_pattern(pattern, below=below, in_round=in_round, sizes=names, limit=limit, row_height_mm=row_height)
    if work.too_much is not None:
        findings = [*findings, too_much(work, limit)]
    derive = partial(derive_multiples, pattern, work, below=below, in_round=in_round) if work.too_much is None else None
    case = Case(pattern=pattern, fabrics=work.fabrics, reading=findings, derive=derive, work=work, sized=sized, below=below,
                in_round=in_round, row_height_mm=row_height, told_alike=memory.told_alike if memory is not None else None)
    return Report(text, pattern, work, [in_her_text(finding, pattern.shifts) for finding in prove(case)], case, sized)


def made_to_measure(text: str, *, measures=None, gauge: str | None = None, size: str | None = None, yarn: str | None = None, terms: str | None = None,
                    limit: int = LIMIT) -> Report:
    """The pattern for one maker: measures {"head": "57 cm"}, gauge "15 sts and 11 rows to 10 cm"; see pipeline.to_measure."""
    from .to_measure import make

    return make(text, measures=measures, gauge=gauge, size=size, yarn=yarn, terms=terms, limit=limit)


def mends(report: "Report | str", finding, memory=None, **asked) -> list:
    """Changes of one number that were tried and mend a finding, as Suggestions with their text and place; see pipeline.mending."""
    from .mending import mends as tried

    return tried(check(report, **asked) if isinstance(report, str) else report, finding, memory, **asked)


def yarn_for(report: "Report | str", *, yarn=None, beside=(), without=()):
    """The yarn it takes, size by size and colour by colour, as a yarn.Estimate (`as_dict()` for JSON); None where there is too little to go by.

    yarn: another yarn in place of the head's, as words ("120 m to 50 g, 2 strands", "dk"), a notation.Yarn, or a list of them, one for each
    yarn of the head. beside, without: extras in words to reckon too ("2 pompoms 8 cm", or "pompoms" where the head has them as optional) or to
    leave out ("fringe"). ValueError for words that name no yarn or nothing beside the rows.
    """
    from hookwright.yarn import estimate, yarn_from_words

    if isinstance(report, str):
        report = check(report)
    taken = []
    for one in ([] if yarn is None else [yarn] if isinstance(yarn, str) or not isinstance(yarn, (list, tuple)) else yarn):
        made = yarn_from_words(one) if isinstance(one, str) else one
        if made is None:
            raise ValueError(f"a yarn is named by the length and weight of a ball, such as '120 m to 50 g, 2 strands', or by its weight, such as 'dk', not {one!r}")
        taken.append(made)
    return estimate(report.pattern, report.fabrics, taken or None, beside=beside, without=without)


def row_height_mm(pattern) -> float | None:
    """Height of a row by the first swatch or gauge of the head that has one, else by the one its prose states; None where there is none."""
    measured = next((gauge.row_mm for gauge in (sizing.gauges_of(pattern.head) if pattern.head is not None else ()) if gauge.row_mm), None)
    if measured:
        return measured
    gauge = gauge_of_prose(pattern)
    return gauge.rows_over_mm / gauge.rows if gauge is not None and gauge.rows else None


def write(report: "Report | str", to: str, terms: str | None = None, *, paper: str = "A4", large_print: bool = False, pictures: str = "none",
          language: str = "en") -> bytes:
    """The pattern sheet as the bytes of a file: to "html", "pdf", "md" or "txt", in US or UK terms (those of the manuscript by default).

    large_print: the PDF in type of 18 points, for those who see little. pictures: "all" or "first" of the main pieces in their yarn (middle size), which take
    about a second each; "none" by default.

    ValueError for another kind of file, terms, paper ("A4", "Letter") or language.
    """
    from hookwright.writing import written

    if language != "en":
        raise ValueError(f"sheets are written in English (language='en') so far, not {language!r}")
    if pictures not in ("all", "first", "none"):
        raise ValueError(f"pictures are 'all', 'first' or 'none', not {pictures!r}")
    report, photos = check(report) if isinstance(report, str) else report, {}
    if pictures != "none" and to in ("html", "pdf"):
        from .pictures import pictures_for_sheet

        photos = pictures_for_sheet(report, known_terms(terms) or report.pattern.terms, which=pictures)
    return written(sheet(report, terms, photos=photos), to, paper=paper, large_print=large_print).data


def chart(report: "Report | str", piece: str | None = None, size: str | None = None, terms: str | None = None, *, whole: bool = False):
    """The chart of a piece in a size as a drawing.Chart, whose picture.svg(id) is the drawing; see pipeline.charts."""
    from .charts import chart as draw

    return draw(check(report) if isinstance(report, str) else report, piece, size, terms, whole=whole)


def write_chart(made, to: str = "svg", *, paper: str = "A4", designer: str = "") -> bytes:
    """A drawing.Chart as the bytes of a file: to "svg" (one picture) or "pdf" (pages of paper, "A4" or "Letter", and the chart in words)."""
    if to == "svg":
        return made.picture.svg("chart", on_paper=True).encode()
    if to != "pdf":
        raise ValueError(f"a chart is written to 'svg' or 'pdf', not {to!r}")
    from hookwright.writing import chart_pdf

    return chart_pdf(made, paper, designer=designer)


def measures(report: "Report | str", piece: str | None = None, size: str | None = None, *, at_mm=(), head_mm: float | None = None, solved: bool = True):
    """Lengths and girths of the pieces by their counts and by the solved shape, a pipeline.measuring.Measures (`as_dict()` for JSON).

    at_mm: heights at which girths are wanted too; head_mm: a head that hats are put on; solved: False leaves the solver out, which is quicker.
    """
    from .measuring import measures as measure

    return measure(check(report) if isinstance(report, str) else report, piece, size, at_mm=at_mm, head_mm=head_mm, solved=solved)


def schematic(report: "Report | str", piece: str | None = None, size: str | None = None, terms: str | None = None, *, progress=None):
    """The outline of a piece, or of all pieces, with measurements in both units and every size, as a drawing.Picture: picture.svg(id).

    Where the counts tell no outline it is that of the solved shape, which takes a second or more: progress(share from 0 to 1) is called meanwhile.
    """
    from .schematics import schematic as draw

    return draw(check(report) if isinstance(report, str) else report, piece, size, terms, progress=progress)


def surface_of(report: "Report | str", piece: str | None = None, size: str | None = None, *, shown: str | None = None, progress=None, cancelled=None):
    """The solved surface (shape.Surface) of a piece in a size: places of all stitches in space; see shape.form and pipeline.surfaces."""
    from .surfaces import surface

    return surface(check(report) if isinstance(report, str) else report, piece, size, shown=shown, progress=progress, cancelled=cancelled)


def shaped_pieces(report: "Report | str", size: str | None = None) -> list[str]:
    """Names of the pieces that `surface_of` gives a surface of, in working order (headings that go on with a piece have none of their own)."""
    from .surfaces import piece_names

    return piece_names(check(report) if isinstance(report, str) else report, size)


def sewn_together(report: "Report | str", size: str | None = None) -> bool:
    """Whether the flat pieces are sewn to a garment, which `picture` shows whole where no piece is said. ValueError where nothing was worked."""
    from .surfaces import garment_in

    return garment_in(check(report) if isinstance(report, str) else report, size) is not None


def picture(report: "Report | str", piece: str | None = None, size: str | None = None, **how):
    """A piece in its yarn, as a still picture (to="png") or a mesh to turn (to="glb"); see pipeline.pictures for what else may be said."""
    from .pictures import picture as draw

    return draw(check(report) if isinstance(report, str) else report, piece, size, **how)


def pictures_for_sheet(report, terms: str, *, which: str = "all", drawn: dict | None = None, progress=None) -> dict:
    """{name of a piece: drawing.Picture} for `sheet`; see pipeline.pictures."""
    from .pictures import pictures_for_sheet as draw

    return draw(report, terms, which=which, drawn=drawn, progress=progress)


def sheet(report: "Report | str", terms: str | None = None, *, photos: dict | None = None):
    """The pattern sheet as a writing.Document, in US or UK terms. photos: of pieces in their yarn, as pipeline.pictures.pictures_for_sheet gives
    them; none by default, since they take a second or two."""
    from hookwright.writing import Facts, compose, row_facts

    from .charts import charts_for_sheet
    from .schematics import schematics_for_sheet

    if isinstance(report, str):
        report = check(report)
    proved = proved_in_words(report)
    unread = any(finding.kind == "cannot-read" and finding.grade != NOTE for finding in report.findings)
    whole = not proved["disagree"] and not unread  # the sheet says that the counts agree only where nothing was left out
    terms = known_terms(terms) or report.pattern.terms
    facts = Facts(rows=row_facts(report.pattern, report.fabrics), multiples=tuple(report.multiples), must_mend=report.must_mend,
                  counts_proved=proved["counts"] if whole else 0, conventions=tuple(held(report)), fitting=fitting(report), found=report.numbers,
                  charts=charts_for_sheet(report, terms) if report.work.too_much is None else {}, yarn=yarn_not_stated(report),
                  schematics=schematics_for_sheet(report, terms) if report.work.too_much is None else (), photos=photos or {})
    return compose(resolved(report.pattern, report.work), facts, terms)


def only_size(report: "Report | str", size: str) -> "Report":
    """The report of one size alone: every list of sizes in the pattern is that size's. ValueError where there is no such size."""
    from .cut_to_size import only_size as cut

    return cut(check(report) if isinstance(report, str) else report, size)


def measures_asked(report) -> list[str]:
    """Names of the body measures that some number of the pattern is found from, () where none is: what made to measure asks for."""
    from .cut_to_size import measures_asked as asked

    return asked(report)


def yarn_not_stated(report):
    """The estimate for yarns whose balls are not stated; None where all are, or where there is too little to go by."""
    head = report.pattern.head or report.pattern.front
    asked = head is not None and any(one.balls is None for one in head.yarn) and report.work.too_much is None
    return yarn_for(report) if asked and not report.must_mend else None


def held(report):
    """Conventions found to hold and not said in the manuscript's notes, as notation Conventions."""
    from hookwright.notation.tree import Convention, Counts

    for convened in report.work.conventions:
        key = convened.key
        if key[0] == "tch" and convened.counts is not None and not begins_with_space(report, key[1]):
            yield Convention("tch", key[1], key[2], Counts(convened.counts, key[2] if convened.counts else None))
