"""What the commands take: words chosen from a few, and lists of sizes."""

import click

from hookwright.desk.main import did_you_mean, plain


class Word(click.ParamType):
    """One of a few words, in any letter case; a near miss is asked about."""

    name = "word"

    def __init__(self, *words: str):
        self.words = words

    def get_metavar(self, param, ctx=None):
        return "|".join(self.words)

    def convert(self, value, param, ctx):
        word = str(value).strip().lower()
        if word in self.words:
            return word
        choices = " or ".join([", ".join(self.words[:-1]), self.words[-1]]) if len(self.words) > 1 else self.words[0]
        self.fail(f"`{plain(value)}` is not one it knows. It takes {choices}.{did_you_mean(word, self.words)}", param, ctx)


class Sizes(click.ParamType):
    """Names of sizes between commas: "S, M, L"."""

    name = "sizes"

    def get_metavar(self, param, ctx=None):
        return '"S, M, L"'

    def convert(self, value, param, ctx):
        if isinstance(value, tuple):
            return value
        names = tuple(name.strip() for name in value.split(",") if name.strip())
        if not names:
            self.fail('no size is named. Write the names between commas, like "S, M, L".', param, ctx)
        if len(set(names)) < len(names):
            twice = next(name for name in names if names.count(name) > 1)
            self.fail(f"`{plain(twice)}` is named twice.", param, ctx)
        return names


class Whole(click.ParamType):
    """A whole number between two others."""

    name = "number"

    def __init__(self, least: int, most: int):
        self.least, self.most = least, most

    def get_metavar(self, param, ctx=None):
        return None if param.param_type_name == "argument" else "N"

    def convert(self, value, param, ctx):
        words = str(value).strip().replace(",", "")
        if not words.lstrip("+-").isdigit() or not self.least <= int(words) <= self.most:
            self.fail(f"a whole number from {self.least:,} to {self.most:,} is needed, not `{plain(value)}`.", param, ctx)
        return int(words)


class Columns(click.ParamType):
    """A width in columns from 40 to 1000."""

    name = "columns"

    def convert(self, value, param, ctx):
        try:
            number = int(value)
        except ValueError:
            number = 0
        if not 40 <= number <= 1000:
            self.fail(f"`{plain(value)}` does not do. It takes a number of columns from 40 to 1000.", param, ctx)
        return number


COLUMNS = Columns()
TERMS = Word("us", "uk")
SIZES = Sizes()
