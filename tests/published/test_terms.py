"""US and UK terms against published lists; the source stands beside each fact in stitch_facts.toml."""

import tomllib
from pathlib import Path

import pytest

from hookwright.stitches import CATALOGUE, dialect, stitch, translate_prose

FACTS = tomllib.loads(Path(__file__).with_name("stitch_facts.toml").read_text("utf-8"))
US, UK = dialect("US"), dialect("UK")
PAIRS = [(us, uk, table["source"][0]) for table in FACTS["pair"] for us, uk in table["us_uk"]]
NAMES = [(us, uk) for table in FACTS["name"] for us, uk in table["names"]]
SPELLINGS = [tuple(row) for table in FACTS["spelling"] for row in table["read"]]
PROSE = [tuple(row) for table in FACTS["prose"] for row in table["us_uk"]]


def test_every_fact_names_its_source():
    """Each table of the data file gives title and address, or says that there is none."""
    for value in FACTS.values():
        for table in value if isinstance(value, list) else [value]:
            title, address = table["source"]
            assert address.startswith("http") or title in ("common practice, no source", "from memory")


@pytest.mark.parametrize("us, uk, source", PAIRS)
def test_pairs(us, uk, source):
    """The stitch with this US abbreviation is written with that one in UK terms, and back."""
    id = US.find(us)
    assert id is not None and id == UK.find(uk), source
    assert UK.abbr(id) == uk and US.abbr(id) == us


@pytest.mark.parametrize("us, uk", NAMES)
def test_names(us, uk):
    """Full names pair up like the abbreviations, and are written as they are read."""
    id = US.find(us)
    assert id == UK.find(uk)
    assert US.name_of(id) == us and UK.name_of(id) == uk


@pytest.mark.parametrize("terms, spelling, meant", SPELLINGS)
def test_other_spellings(terms, spelling, meant):
    """Old, long and home-made spellings mean the stitch with this abbreviation."""
    words = dialect(terms)
    assert words.find(spelling) is not None
    assert words.find(spelling) == words.find(meant)


@pytest.mark.parametrize("letters", FACTS["collisions"]["abbreviations"])
def test_same_letters_other_stitch(letters):
    """These abbreviations mean one stitch in US terms and another in UK terms."""
    assert US.find(letters) and UK.find(letters)
    assert US.find(letters) != UK.find(letters)


def test_tell_tale_words():
    """sc is known only to US terms and htr only to UK terms, and each is still understood as foreign."""
    for word in FACTS["tell_tale"]["us_only"]:
        assert US.find(word) and not UK.find(word)
    for word in FACTS["tell_tale"]["uk_only"]:
        assert UK.find(word) and not US.find(word)
    assert UK.foreign["sc"] == "sc" and US.foreign["htr"] == "hdc"


@pytest.mark.parametrize("us, uk", PROSE)
def test_prose_words(us, uk):
    """Words of prose turn into the other dialect's and back."""
    assert translate_prose(f"then {us} twice", "US", "UK")[0] == f"then {uk} twice"
    assert translate_prose(f"then {uk} twice", "UK", "US")[0] == f"then {us} twice"


def test_prose_changes_every_name_once():
    """dc becomes tr and tr becomes dtr in one pass; the changes are listed with their places."""
    text = "Work dc, tr and dc3tog; Front post double crochet ribs are 3 double crochets wide."
    got, changes = translate_prose(text, "US", "UK")
    assert got == "Work tr, dtr and tr3tog; Front post treble crochet ribs are 3 treble crochets wide."
    assert [(change.was, change.now) for change in changes][:3] == [("dc", "tr"), ("tr", "dtr"), ("dc3tog", "tr3tog")]
    assert all(text[change.at:].startswith(change.was) for change in changes)
    assert translate_prose(got, "UK", "US")[0] == text


def test_prose_leaves_everyday_words_alone():
    """Numbers may stand close by; words that only look like a stitch stay."""
    assert translate_prose("a 5-dc shell, 3dc, dc3, the plain triple of it", "US", "UK")[0] == "a 5-tr shell, 3tr, tr3, the plain triple of it"
    assert translate_prose("2 plain rows, a 3-tr group", "UK", "US")[0] == "2 plain rows, a 3-dc group"
    assert translate_prose("Escape the trap, dcdc", "US", "UK") == ("Escape the trap, dcdc", ())


def test_each_stitch_has_a_word_in_each_dialect_and_each_spelling_a_stitch():
    """The tables are complete both ways, and what is written is read back as the same stitch."""
    for id in [*CATALOGUE, "sc2tog", "dc5tog", "fpdc2tog", "trtr3tog", "esc2tog"]:
        for words in (US, UK):
            assert words.find(words.abbr(id)) == id
            assert words.find(words.name_of(id)) == id
    for words in (US, UK):
        assert all(stitch(id) for id in words.words.values())
