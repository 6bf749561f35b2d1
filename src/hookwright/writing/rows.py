"""Written rows: label, the words of the row spelled from the tree, and the count it ends with."""

from hookwright.ground import PerSize
from hookwright.notation.tree import Chain, Row
from hookwright.stitches import Dialect, plural, stitch

from .document import RowText
from .facts import RowFact
from .size_lists import only_one, size_list
from .strings import Strings


class RowWriter:
    """Writes the rows of one pattern in one dialect."""

    def __init__(self, dialect: Dialect, strings: Strings, sizes: tuple[str, ...], own: dict):
        self.dialect, self.strings, self.sizes, self.own = dialect, strings, sizes, own
        self._before = None

    def begin_piece(self) -> None:
        """A new piece begins: its first count is always said."""
        self._before = None

    def row(self, row: Row, fact: RowFact | None) -> RowText:
        """The row as it is printed."""
        return RowText(self.label(row), self.body(row), self.count(row, fact), self._only(row))

    # ------------------------------------------------------------ label

    def label(self, row: Row) -> str:
        """ "Row 2 (RS)", "Rnds 3–8", "Next row"."""
        if not row.numbers and not row.name and not row.word:
            return ""
        name = row.label().replace("Rounds", "Rnds").replace("Round", "Rnd")
        if row.count_of_rows is not None and not row.numbers and row.name:
            word = {"Row": "row", "Round": "rnd"}.get(row.word, "row") + ("" if only_one(row.count_of_rows) else "s")
            name = f"{row.name} {size_list(row.count_of_rows)} {word}"
        if row.last_number is not None and row.numbers:
            word = "Rnds" if row.word == "Round" else "Rows"
            name = f"{word} {row.numbers[0]}–{size_list(row.last_number)}"
        elif len(row.numbers) > 1:
            name = name.replace("-", "–")
        return f"{name} ({row.side})" if row.side else name

    def _only(self, row: Row) -> str:
        if not row.only:
            return ""
        key = "piece.only" if len(row.only) == 1 else "piece.only_many"
        names = ", ".join(row.only[:-1]) + (self.strings("piece.and") if len(row.only) > 1 else "") + row.only[-1]
        return self.strings(key, sizes=names)

    # ------------------------------------------------------------ body

    def body(self, row: Row) -> str:
        """What is done in the row, from the tree."""
        text = row.text
        if row.label_span.end > row.label_span.start:
            text = text[row.label_span.end - row.span.start:]
        return text.strip()

    # ------------------------------------------------------------ count

    def count(self, row: Row, fact: RowFact | None) -> str:
        """The count at the end: as it is stated, with the worked numbers; the total where the count changes and none is stated."""
        told = [self._stated(stated, fact) for stated in row.stated]
        told = [words for words in told if words]
        stitches = fact.stitches if fact else None
        if told:
            self._before = stitches
            return ", ".join(told)
        if fact is None or stitches is None or stitches == self._before or _only_chains(row.steps):
            return ""
        self._before = stitches
        if fact.each:
            return self._plural("counts.st", fact.each[-1], "/".join(size_list(number) for number in fact.each))
        return self._plural("counts.st", stitches)

    def _stated(self, stated, fact: RowFact | None) -> str:
        if stated.series:
            items = [(item[0], item[1], item[2] if len(item) > 2 else None) for item in stated.items]
            return ", ".join(self._series(*item) for item in items)
        parts = []
        for item in stated.items:
            number, of, chains = item[0], item[1], item[2] if len(item) > 2 else None
            if not stated.per:
                number = _worked(fact, of, chains, number)
            parts.append(self._counted(number, of, chains))
        if stated.per == "group" and len(parts) > 1:
            return self.strings("counts.group_of", groups=parts[0], counts=", ".join(parts[1:]))
        words = ", ".join(parts)
        return self.strings(f"counts.{stated.per}", counts=words) if self.strings.has(f"counts.{stated.per}") and stated.per else words

    def _series(self, numbers, of, chains) -> str:
        numbers = numbers if isinstance(numbers, tuple) and not isinstance(numbers, PerSize) else (numbers,)
        return self._counted(numbers[-1], of, chains, "/".join(size_list(number) for number in numbers))

    def _counted(self, number, of: str, chains, shown: str | None = None) -> str:
        if of in ("st", "row", "group") or of == "sp" and chains is None:
            return self._plural(f"counts.{of}", number, shown)
        if of == "sp":
            return self._plural("counts.ch_sp", number, shown, chains=size_list(chains))
        name = of.removeprefix("group:")
        short = self.dialect.abbr(name)
        fact = stitch(name)
        if fact is not None and fact.kind != "group" and short == short.lower().replace(" ", "") and name != short + "s" and len(short) <= 6:
            return f"{shown or size_list(number)} {short}"
        return self._plural("counts.named", number, shown, one=short, many=short if " st" in short else plural(short))

    def _plural(self, key: str, number, shown: str | None = None, **values) -> str:
        return self.strings(key, n=1 if only_one(number) else 2, list=shown or size_list(number), **values)


def _only_chains(steps) -> bool:
    return all(isinstance(step, Chain) for step in steps)


def _worked(fact: RowFact | None, of: str, chains, stated):
    """The worked number for what was stated, or the stated one where it was not worked."""
    if fact is None:
        return stated
    if of == "st":
        return fact.stitches if fact.stitches is not None else stated
    if of == "sp" and isinstance(chains, int):
        return fact.spaces.get(chains, stated)
    return fact.by_kind.get(of, stated)
