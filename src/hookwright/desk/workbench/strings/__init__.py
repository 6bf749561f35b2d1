"""The words of the workbench, from Fluent catalogues (`*.ftl` beside this file), behind one function: `t`."""

from functools import cache
from pathlib import Path

_HERE = Path(__file__).parent
LANGUAGE = "en"


def t(id: str, **args) -> str:
    """The message of that id with its arguments; the id itself where there is none, so that a lack is seen and stops nothing."""
    bundle = _bundle()
    if not bundle.has_message(id):
        return id
    words, _ = bundle.format_pattern(bundle.get_message(id).value, args)
    return words


def known(id: str) -> bool:
    """Whether there is a message of that id."""
    return _bundle().has_message(id)


@cache
def _bundle():
    from fluent.runtime import FluentBundle, FluentResource

    bundle = FluentBundle([LANGUAGE], use_isolating=False)
    for text in _catalogues():
        bundle.add_resource(FluentResource(text))
    return bundle


def _catalogues() -> list[str]:
    return [path.read_text("utf-8") for path in sorted(_HERE.glob(f"{LANGUAGE}*.ftl"))]


@cache
def for_page() -> dict:
    """Every message for the page's own script: id -> text with `{name}` where an argument goes, or, where it turns on a number,
    {"by": name, "one": text, ..., "other": text}."""
    from fluent.syntax import FluentParser, ast

    out = {}
    for text in _catalogues():
        for entry in FluentParser(with_spans=False).parse(text).body:
            if isinstance(entry, ast.Message) and entry.value is not None:
                out[entry.id.name] = _plain(entry.value, ast)
    return out


def _plain(pattern, ast):
    """One pattern as plain values. A choice within a sentence gives the whole sentence once for each way."""
    choice = next((part.expression for part in pattern.elements if isinstance(part, ast.Placeable) and isinstance(part.expression, ast.SelectExpression)), None)
    if choice is None:
        return _text(pattern, ast, None)
    ways = {"by": choice.selector.id.name}
    for variant in choice.variants:
        key = getattr(variant.key, "name", None) or variant.key.value
        ways[key] = _text(pattern, ast, variant.value)
        if variant.default:
            ways["other"] = ways[key]
    return ways


def _text(pattern, ast, chosen) -> str:
    out = []
    for part in pattern.elements:
        if isinstance(part, ast.TextElement):
            out.append(part.value)
        elif isinstance(part.expression, ast.SelectExpression):
            out.append(_text(chosen, ast, None))
        elif isinstance(part.expression, ast.VariableReference):
            out.append("{" + part.expression.id.name + "}")
        elif isinstance(part.expression, (ast.StringLiteral, ast.NumberLiteral)):
            out.append(part.expression.value)
    return "".join(out)
