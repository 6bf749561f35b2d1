"""Puts a Pattern together: head, terms and sizes first, then notes and her own stitches, then the rows, then their order."""

from hookwright.ground import MUST_MEND, NOTE, Finding, Span

from . import tree
from .blocks import read_lines
from .draft import Draft
from .drafts import Sorter
from .label import MOST_LABELS
from .manuscript import plain_text, working_text
from .named_numbers import with_numbers
from .notes import read_notes
from .own_stitches import read_definitions
from .row_order import put_in_order
from .row_read import RowReader
from .sizes import chains_by_size, count_sizes, dashes_as_lists, size_names_in
from .terms_guess import guess_terms
from .toy_letters import letter_stitches
from .words import Lexicon


def read_pattern(text: str, plain: str, findings: list[Finding], terms, sizes, in_round: bool, find_numbers=None, before=None, all_rows: bool = False) -> tree.Pattern:
    """See manuscript.read."""
    head, body_start = _head(plain, findings)
    if head and find_numbers is not None:
        head.numbers = {**head.numbers, **find_numbers(head, findings)}
    shifts = None
    if head and (head.numbers or head.lengths):
        text, shifts = with_numbers(text, body_start, {**head.lengths, **head.numbers}, len(sizes or head.sizes), findings)
        plain = plain_text(text) if shifts else plain
    work = chains_by_size(working_text(plain), body_start)
    size_names = tuple(str(size) for size in sizes) if sizes else (head.size_names if head else ())
    if not size_names:
        number = count_sizes(work, body_start, len(work))
        size_names = size_names_in(work, body_start, number)
        size_names = size_names or tuple(str(size + 1) for size in range(number))
    work = dashes_as_lists(work, body_start, len(size_names))
    sorter = Sorter(work, len(size_names), size_names, all_rows)
    drafts = sorter.sort(read_lines(plain, body_start))
    work = _edited(work, sorter.edits)
    if sorter.too_many or sorter.budget.labels <= 0:
        findings.append(
            Finding("too-much-text", MUST_MEND, f"the manuscript has more than {MOST_LABELS:,} rows; what comes after them is not worked. Put it into a manuscript of its own", Span(body_start, body_start))
        )
    said = (head.terms if head else "") or (terms or "").upper()
    pattern = tree.Pattern(text, said or "US", head, sizes=size_names, terms_said=bool(said), shifts=shifts)
    if not said:
        _guess(pattern, work[body_start:], findings)
    lexicon = Lexicon(
        pattern.terms, sizes=max(1, len(size_names)), colours=head.colour_names() if head else frozenset()
    )
    lexicon = _settle(pattern, drafts, work, lexicon, head, findings)
    reader = RowReader(work, pattern, findings, in_round, lexicon, before)
    reader.all_rows = all_rows
    _pieces(pattern, drafts, reader, text)
    if head is None:
        from .front_lines import read_front

        read_front(pattern, len(text) - len(text.lstrip("\ufeff \t\n")))
    for piece in pattern.pieces:
        put_in_order(piece, reader.every)
    pattern.pieces = [piece for piece in pattern.pieces if piece.items or piece.name] or [tree.Piece()]
    return pattern


def _head(plain: str, findings: list[Finding]):
    """The head and where the body starts; (None, 0) for a text without one."""
    first = plain[:200].lstrip("\ufeff \n")
    if not first.startswith("---"):
        return None, 0
    from .head_read import read_head  # only manuscripts with a head need the YAML reader

    return read_head(plain, findings)


def _edited(work: str, edits: list[tuple[int, str]]) -> str:
    if not edits:
        return work
    characters = list(work)
    for at, char in edits:
        characters[at] = char
    return "".join(characters)


def _guess(pattern: tree.Pattern, body: str, findings: list[Finding]) -> None:
    guess = guess_terms(body)
    pattern.terms = guess.terms
    if not body.strip():
        return
    there = body.lower()
    says = [f"says `{word}`" if word in there else f"has {word}" for word in guess.words[:3]]  # a habit is told by more than one word of hers
    reason = f", since it {' and '.join(says)}" if says else ", since no word tells; most published patterns are in US terms"
    other = "UK" if guess.terms == "US" else "US"
    findings.append(
        Finding(
            "terms-guessed", NOTE,
            f"read in {guess.terms} terms{reason}. `terms: {guess.terms}` in the head or `--terms {guess.terms.lower()}` settles it; "
            f"`{other}` if it is in the other",
            Span(0, 0), found=guess.terms,
        )
    )


def _settle(pattern: tree.Pattern, drafts: list[Draft], work: str, lexicon: Lexicon, head, findings: list[Finding]) -> Lexicon:
    """Conventions and her own stitches, from the head and from all notes and prose, before any row is read."""
    find = lexicon.dialect.find
    own: dict[str, tree.OwnStitch] = {}
    if head and head.stitches:
        from .head_read import own_of_head

        for stitch in own_of_head(head, work, lexicon, findings):
            own[stitch.name] = stitch
            lexicon = lexicon.but(own=own)
    heading = None
    for draft in drafts:
        if draft.kind == "piece":
            heading = draft
            continue
        if draft.kind == "row":
            continue
        start = draft.body_start or draft.start
        pattern.conventions.extend(read_notes(work, start, draft.end, find))
        if draft.kind != "note" or draft.section not in ("special stitches", "abbreviations", "notes"):
            continue
        name = ""
        if heading is not None and heading.section == "special stitches" and heading.level and heading.name.lower() not in _section_words():
            name = heading.name
        for stitch in read_definitions(work, start, draft.end, lexicon, draft.section, findings, name):
            own.setdefault(stitch.name, stitch)
        if len(own) != len(lexicon.own):
            lexicon = lexicon.but(own=own)
    lettered = letter_stitches(work, own)
    if lettered:
        own.update(lettered)
        lexicon = lexicon.but(own=own)
    pattern.own = own
    blocks = tuple(dict.fromkeys(said.word for said in pattern.conventions if said.word))
    return lexicon.but(blocks=blocks) if blocks else lexicon


def _section_words():
    from .manuscript_words import SECTION_OF

    return SECTION_OF


def _pieces(pattern: tree.Pattern, drafts: list[Draft], reader: RowReader, text: str) -> None:
    """Fills the pieces with rows and prose in order."""
    piece = tree.Piece()
    pattern.pieces.append(piece)

    def begin(**facts) -> tree.Piece:
        nonlocal piece
        if piece.items or piece.name or piece.section:
            piece = tree.Piece()
            pattern.pieces.append(piece)
        for key, value in facts.items():
            setattr(piece, key, value)
        return piece

    for index, draft in enumerate(drafts):
        if draft.kind == "piece":
            begin(name=draft.name, level=draft.level, section=draft.section, make=draft.make, span=Span(draft.start, draft.end))
        elif draft.kind == "note":
            other = piece.section and draft.section != piece.section
            if draft.section and (other or (not piece.section and not piece.items and not piece.name)):
                begin(name=draft.name if other else "", section=draft.section, span=Span(draft.start, draft.end))
            piece.items.append(tree.Prose(text[draft.start : draft.end], Span(draft.start, draft.end)))
        elif draft.kind == "prose" and draft.name == "only" and index + 1 < len(drafts) and drafts[index + 1].kind == "row" and drafts[index + 1].only == draft.only:
            continue  # "Size M only:" on its own line: each row under it says so
        elif draft.kind == "prose":
            if piece.section and not piece.name:
                begin()
            piece.items.append(tree.Prose(text[draft.start : draft.end], Span(draft.start, draft.end)))
        else:
            if piece.section not in ("", "finishing"):
                begin()
            if draft.name and any(isinstance(item, tree.Row) for item in piece.items):
                begin(name=draft.name, span=Span(draft.start, draft.body_start))
            rows = reader.items(draft)
            if _restarts(piece, rows):
                carried = [piece.items.pop()] if _is_foundation(piece.items[-1]) else []
                begin()
                piece.items.extend(carried)
            piece.items.extend(rows)


def _restarts(piece: tree.Piece, rows: list) -> bool:
    """True where a Row 1 with a chain or ring of its own begins after other rows: another piece without a heading."""
    row = rows[0]
    if not isinstance(row, tree.Row) or row.numbers[:1] != (1,):
        return False
    if not any(isinstance(item, tree.Row) and item.numbers for item in piece.items):
        return False
    begins = row.steps and isinstance(row.steps[0], (tree.Chain, tree.Ring)) and _makes_start(row)
    return bool(begins) or _is_foundation(piece.items[-1])


def _makes_start(row: tree.Row) -> bool:
    first = row.steps[0]
    if isinstance(first, tree.Ring):
        return True
    number = first.n if isinstance(first.n, int) else max((n for n in first.n if n), default=0)
    return number > 6 or any(isinstance(step, tree.Ring) for step in row.steps[:4]) or any(
        getattr(getattr(step, "place", None), "which", "") == "from hook" for step in row.steps[1:4]
    )


def _is_foundation(item) -> bool:
    return isinstance(item, tree.Row) and not item.numbers and item.name == "Foundation" and not item.word
