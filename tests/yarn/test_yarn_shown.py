"""Where the estimate is shown: the command, and the sheet of a pattern that states no balls."""

import csv
import io
import json

import pytest
from click.testing import CliRunner

import hookwright
from hookwright.desk.main import main

TEXT = """---
terms: US
sizes: [S, M]
yarn: {name: fen wool, weight: 4, metres: 100, grams: 50, price: 5 EUR, colours: {A: "=sand"}}
gauge: [{stitches: 14, rows: 16, over: 10 cm, in: sc}]
speed: {sc: 20}
---
Ch 29 (57).
Row 1: Sc in 2nd ch from hook and in each ch across. (28 (56) sc)
Rows 2-32: Ch 1, turn, sc in each st across. (28 (56) sc)
"""


def run(*words, text: str = TEXT):
    return CliRunner().invoke(main, ["yarn", "-", *words], input=text)


def test_the_table_has_the_band_and_what_it_rests_on():
    """A line a size; below it the band, the tails and the time, called estimates."""
    done = run()
    assert done.exit_code == 0
    lines = done.output.splitlines()
    assert lines[0].split() == ["size", "colour", "metres", "from", "to", "yards", "grams", "balls", "cost"]
    assert [line.split()[0] for line in lines[1:3]] == ["S", "M"]
    assert "nothing was weighed" in done.output and "30% less to 30% more" in done.output
    assert "an estimate without sewing up" in done.output and "ends 0.3 m" in done.output


def test_one_size_alone():
    """By its name in any letters; another name is asked about."""
    assert [line.split()[0] for line in run("--size", "m").output.splitlines()[1:2]] == ["M"]
    done = run("--size", "XL")
    assert done.exit_code == 2 and "there are S, M" in done.output


def test_json_and_csv_hold_the_same():
    """The same metres and balls; no cell that a spreadsheet would compute."""
    values = json.loads(run("--json").output)
    table = list(csv.DictReader(io.StringIO(run("--csv").output)))
    for line in table:
        (need,) = values["sizes"][line["size"]]["needs"]
        assert float(line["metres"]) == need["metres"]["estimate"]
        assert int(line["balls"]) == need["balls"]
        assert line["colour"] == "A =sand"
    assert values["band"]["rests_on"] == "nothing weighed"
    assert values["band"]["low"] == 0.7 and values["band"]["high"] == 1.3
    assert values == hookwright.yarn_for(TEXT).as_dict()


def test_another_yarn():
    """By its label; words that are none are told, with an example."""
    assert json.loads(run("--json", "--yarn", "400 m to 100 g, 2 strands").output) != json.loads(run("--json").output)
    done = run("--yarn", "something soft")
    assert done.exit_code == 2 and "120 m to 50 g" in done.output


def test_too_little_to_go_by_is_told():
    """What the head lacks."""
    done = run(text="Ch 5.\nRow 1: Sc in 2nd ch from hook and in each ch across. (4 sc)\n")
    assert done.exit_code == 2 and "gauge:" in done.output


@pytest.mark.parametrize("to", ["txt", "html", "md"])
def test_the_sheet_gives_the_estimate_where_no_balls_are_stated(to):
    """896 sc of 5.38 cm, 60 chains of 3.64 cm and 0.3 m of tails are 51 m, with what they rest on; nothing of it where the balls are stated."""
    sheet = hookwright.write(TEXT, to).decode("utf-8").replace("\u00a0", " ")
    assert "about 51 (100) m (55 (110) yd), 25 (50) g, 1 (2) balls" in sheet
    assert "none was weighed" in sheet
    stated = hookwright.write(TEXT.replace("price: 5 EUR", "balls: 1 (2)"), to).decode("utf-8").replace("\u00a0", " ")
    assert "1 (2) balls" in stated and "about 5" not in stated and "none was weighed" not in stated


def test_each_colour_has_its_line_on_the_sheet():
    """The letters of the colours, as the rows have them."""
    text = TEXT.replace('colours: {A: "=sand"}', "colours: {A: sand, B: sea}").replace("Ch 29", "With A, ch 29").replace("Rows 2-32: Ch 1, turn,", "Rows 2-32: Turn; with B, ch 1,")
    sheet = hookwright.write(text, "txt").decode("utf-8").replace("\u00a0", " ")
    assert "A: about" in sheet and "B: about" in sheet


def test_what_is_optional_is_told_apart():
    """A line for it below the table and on the sheet, in the metres and balls of each size; nothing of it in the amounts."""
    text = TEXT.replace("speed:", "extras: {pompoms: {across: 8 cm, wraps: 100, optional: yes}}\nspeed:")
    done = run(text=text)
    assert "With pompoms: S 17 m more, 1 ball in all; M 17 m more, 2 balls in all." in done.output
    assert json.loads(run("--json", text=text).output)["sizes"]["S"]["needs"][0]["optional"] == {"pompoms": {"metres": 16.6, "balls": 1}}
    sheet = hookwright.write(text, "txt").decode("utf-8").replace("\u00a0", " ")
    assert "about 51 (100) m" in sheet
    assert "with pompoms, if you want: about 17 m (18 yd) more, 1 (2) balls in all" in sheet
    assert "pompoms 17 m" in run("--with", "pompoms", text=text).output
    assert run("--with", "tassels", text=text).exit_code == 2
