"""Another yarn in place of the one named: its label read from words."""

import re

from hookwright.notation import Yarn, weight_from_words

_LENGTH = re.compile(r"(\d+(?:[.,]\d+)?)\s*(m|metres?|meters?|yds?|yards?)\b", re.I)
_WEIGHT = re.compile(r"(\d+(?:[.,]\d+)?)\s*(g|grams?|oz|ounces?)\b", re.I)
_STRANDS = re.compile(r"(\d{1,2})\s*(?:strands?|plies|threads?)\b|\bheld\s+(double|triple)", re.I)
_PRICE = re.compile(r"(?:\bat|@|\bfor)\s*(\d+(?:[.,]\d{1,2})?)(?![\d.,]|\s*(?:g|grams?|oz|m|yds?)\b)\s*([A-Za-z]{2,3}\b|[€£$¥])?")
_YARD, _OUNCE = 0.9144, 28.349523  # international yard in m and avoirdupois ounce in g, 1959 agreement


def other_yarn(metres: float, grams: float, strands: int = 1, *, name: str = "", fibre: str = "", price: float | None = None, coin: str = "") -> Yarn:
    """A yarn by the label of its ball; strands: how many are held together. ValueError for numbers that no ball has."""
    if not (0 < metres < 1e6 and 0 < grams < 1e6 and 1 <= strands <= 20):
        raise ValueError("a yarn has metres and grams of one ball, both above nought, and 1 to 20 strands")
    return Yarn(name=name, fibre=fibre, metres=metres, grams=grams, strands=int(strands), price=price, coin=coin)


def yarn_from_words(words: str) -> Yarn | None:
    """A yarn from "120 m to 50 g, 2 strands, at 6.50 EUR" or a word of the weights ("dk"); None where the words tell neither.

    Fibres that are named count for the thickness: "120 m to 50 g cotton".

    >>> made = yarn_from_words("120 m per 50 g, 2 strands")
    >>> made.metres, made.grams, made.strands
    (120.0, 50.0, 2)
    """
    length, weight, held = _LENGTH.search(words), _WEIGHT.search(words), _STRANDS.search(words)
    strands = (int(held[1]) if held[1] else {"double": 2, "triple": 3}[held[2].lower()]) if held else 1
    if length and weight:
        metres = float(length[1].replace(",", ".")) * (_YARD if length[2].lower().startswith("y") else 1)
        grams = float(weight[1].replace(",", ".")) * (_OUNCE if weight[2].lower().startswith("o") else 1)
        try:
            cost = _PRICE.search(words)
            return other_yarn(metres, grams, strands, fibre=words, price=float(cost[1].replace(",", ".")) if cost else None, coin=(cost[2] or "") if cost else "")
        except ValueError:
            return None
    category = weight_from_words(_STRANDS.sub("", words).strip(" ,"))
    return None if category is None else Yarn(weight=category, strands=strands)
