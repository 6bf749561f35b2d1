"""Words for findings: numbers with their nouns, sizes, stitches in her terms, her own text in backticks."""

from hookwright.ground import Span
from hookwright.stitches import dialect, stitch

_PLURALS = {"stitch": "stitches", "of": "of", "space of chains": "spaces of chains", "inch": "inches"}


def count(number: int, noun: str) -> str:
    """A number and what it counts.

    >>> count(1, "stitch"), count(2, "stitch"), count(2, "row")
    ('1 stitch', '2 stitches', '2 rows')
    """
    if number == 1:
        return f"1 {noun}"
    return f"{number:,} {_PLURALS.get(noun, noun + 's')}"


def counts(numbers, noun: str) -> str:
    """Several numbers of one thing.

    >>> counts([1], "stitch"), counts([9, 12, 15], "stitch")
    ('1 stitch', '9, 12 or 15 stitches')
    """
    numbers = list(numbers)
    *before, last = numbers
    words = count(last, noun)
    return f"{', '.join(f'{number:,}' for number in before)} or {words}" if before else words


def size_list(values) -> str:
    """Values in the trade's size-list notation, one number where all are equal.

    >>> size_list([24, 28, 32]), size_list([7, 7]), size_list([None, 4])
    ('24 (28, 32)', '7', '- (4)')
    """
    values = ["-" if value is None else str(value) for value in values]
    if len(set(values)) == 1:
        return values[0]
    return f"{values[0]} ({', '.join(values[1:])})"


def stitch_word(kind: str, terms: str) -> str:
    """The abbreviation of a stitch in her terms ("dc" is `tr` in UK terms); a kind of her own stands as it is."""
    if stitch(kind) is None:
        return kind
    return dialect(terms).abbr(kind)


def counted(number: int, of: str, terms: str, chains: int | None = None) -> str:
    """A count with its noun in her terms: "24 stitches", "4 tr", "3 ch-2 spaces"."""
    if of in ("st", ""):
        return count(number, "stitch")
    if of == "sp":
        return count(number, f"ch-{chains} space" if chains else "chain space")
    if of == "ch":
        return count(number, "chain")
    if of == "row":
        return count(number, "row")
    if of.startswith("group"):
        return count(number, of.partition(":")[2] or "group")
    return f"{number:,} {stitch_word(of, terms)}"


def quoted(text: str, span: Span, longest: int = 60) -> str:
    """Her words at the span in backticks, on one line and shortened where they are long."""
    words = " ".join(text[span.start : span.end].split()).replace("`", "'")
    if len(words) > longest:
        words = words[: longest - 3].rstrip() + "..."
    return f"`{words}`" if words else ""


def sentence(*parts: str) -> str:
    """The parts that are there, one space apart."""
    return " ".join(part for part in parts if part)


_SAID_AS_WORDS = ("sp", "st", "sl", "sk", "rnd")  # space, stitch, slip, skip, round
_LETTERS_LIKE_VOWELS = "aefhilmnorsx"  # spelt out, their names begin with a vowel


def with_article(noun: str) -> str:
    """A noun with "a" or "an" as it is spoken: abbreviations letter by letter, but for those said as words.

    >>> with_article("sc"), with_article("ch-2 space"), with_article("hdc"), with_article("sp"), with_article("increase")
    ('an sc', 'a ch-2 space', 'an hdc', 'a sp', 'an increase')
    """
    first = noun.split(" ")[0].split("-")[0].rstrip("0123456789tog") or noun
    spelt = first.isalpha() and not any(letter in "aeiouy" for letter in first.lower()) and not first.lower().startswith(_SAID_AS_WORDS)
    vowel = noun[:1].lower() in (_LETTERS_LIKE_VOWELS if spelt else "aeiou")
    return f"{'an' if vowel else 'a'} {noun}"


def number_text(value: float) -> str:
    """A measure without needless noughts.

    >>> number_text(30.0), number_text(30.48)
    ('30', '30.5')
    """
    return f"{value:.1f}".rstrip("0").rstrip(".") if abs(value) < 1000 else f"{value:,.0f}"
