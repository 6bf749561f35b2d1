"""The head that sizes are found from, as a designer may type it: what is understood, and what is said of what isn't."""

import pytest

import hookwright
from hookwright.ground import NotArithmetic, Value, reckon

BODY = """
## Body

Ch {around + 1}.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. ({around} sc)
Rows 2-{rows}: Ch 1, sc in each st across, turn. ({around} sc)
"""
KEYS = {
    "terms": "US", "sizes": "[S, M, L]", "body": "women", "ease": "4 cm", "swatches": "[{of: sc, stitches: 32, width: 20 cm, rows: 36, height: 20 cm}]",
    "numbers": "{around: {want: bust + ease, count: stitches, even: yes}, rows: {want: 40 cm, count: rows}}",
}
AROUND = "{around: %s, rows: {want: 40 cm, count: rows}}"
MORE = "{around: {want: bust + ease, count: stitches}, rows: {want: 40 cm, count: rows}, %s}"


def checked(**keys: str) -> hookwright.Report:
    head = {**KEYS, **keys}
    return hookwright.check("---\n" + "".join(f"{key}: {value}\n" for key, value in head.items() if value) + "---\n" + BODY)


def told(report) -> list[str]:
    return [f"{finding.grade} {finding.kind}: {finding.message}" for finding in report.findings]


@pytest.mark.parametrize(("keys", "around"), [
    ({"numbers": AROUND % "{want: 90 (100, 110) cm}"}, (144, 160, 176)),
    ({"numbers": AROUND % "{want: bust + 4 (6, 8) cm}"}, (140, 160, 179)),
    ({"numbers": AROUND % "{want: 90 cm, at least: 150 (160, 170)}"}, (150, 160, 170)),
    ({"numbers": AROUND % "{want: [90 cm, 100 cm, 110 cm]}"}, (144, 160, 176)),
    ({"numbers": AROUND % "{want: 90-92 cm, even: yes}"}, (146, 146, 146)),
    ({"numbers": AROUND % "{want: 100 cm, grows: 5 cm}"}, (152, 160, 168)),
    ({"numbers": AROUND % "{want: 100 cm, multiple: 7, within: 2 %}"}, (161, 161, 161)),
    ({"body": "{bust: [80 cm, 90 cm, 100 cm]}"}, (134, 150, 166)),
    ({"body": "[women]"}, (140, 156, 172)),
    ({"body": "Ladies"}, (140, 156, 172)),
    ({"ease": "0"}, (134, 150, 166)),
    ({"ease": "5 % (6 %, 7 %)"}, (140, 160, 178)),
    ({"swatches": "32 sts and 36 rows over 20 cm in sc"}, (140, 156, 172)),
    ({"swatches": "[{of: sc, stitches: 32, rows: 36, over: 20 cm}]"}, (140, 156, 172)),
    ({"swatches": "", "gauge": "[16 sts to 10 cm in sc, {rows: 18, over: 10 cm}]"}, (140, 156, 172)),
])
def test_what_is_understood(keys, around):
    """Lengths and counts one a size in a sum, in the trade's notation or as a list; ranges are their middle; growth as a length; swatches in
    words. By hand at 6.25 mm a stitch: 90 cm are 144 sts; a bust of 81-86 cm and 4 cm are 87.5 cm, 140 sts."""
    report = checked(**keys)
    assert not report.must_mend, told(report)
    assert report.sized.answer.numbers["around"] == around


def test_a_number_may_have_the_name_of_a_measure():
    """In its own sum it is the measure of the body, everywhere else the number."""
    report = checked(numbers=MORE % "waist: {want: waist + ease, count: stitches}, decs: around - waist", finished="{waist: waist * stitch}")
    numbers = report.sized.answer.numbers
    assert numbers["waist"] == (111, 124, 141)  # by hand 69.5, 77.5 and 88 cm at 6.25 mm
    assert report.pattern.head.finished["waist"].mm[0][0] == 111 * 6.25
    assert numbers["decs"] == tuple(a - b for a, b in zip(numbers["around"], numbers["waist"]))


def test_a_number_by_another_name():
    report = checked(numbers=MORE % "length: rows")
    assert report.sized.answer.numbers["length"] == report.sized.answer.numbers["rows"]


@pytest.mark.parametrize(("keys", "says"), [
    ({"body": "womans"}, "did you mean `women`?"),
    ({"body": "women M"}, "write `body: {from: women, sizes: [...]}`"),
    ({"body": "{from: women, strech: 10 %}"}, "`strech` is no key of `body`; did you mean `stretch`?"),
    ({"body": "{from: women, stretch: much}"}, "`stretch: much` could not be used"),
    ({"body": "{bust: 80 (90) cm}"}, "since `bust` under `body` has no value for size L"),
    ({"ease": "4"}, "since `ease: 4` tells no length and no per cent"),
    ({"ease": "roomy"}, "since `ease: roomy` tells no length and no per cent"),
    ({"numbers": AROUND % "{want: 90 (100) cm}"}, "`90 (100)` has 2 values for 3 sizes"),
    ({"numbers": AROUND % "{want: bust x 2}"}, "a sum is written in signs, `*` for `x`"),
    ({"numbers": AROUND % "bust + ease"}, "write `{want: bust + ease, count: stitches}`"),
    ({"numbers": AROUND % "{want: 10 %}"}, "is a share, and does not say of what"),
    ({"numbers": AROUND % "{want: 4 cm - bust}"}, "nothing can be less than nothing"),
    ({"numbers": AROUND % "{want: 20000 cm}"}, "more than 20,000 stitches in size S"),
    ({"numbers": AROUND % "{count: stitches}"}, "nothing tells what it comes to"),
    ({"numbers": AROUND % "{want: around}"}, "would find it from itself"),
    ({"numbers": AROUND % "{want: bust, even: maybe}"}, "`even: maybe` should be `yes` or `no`"),
    ({"numbers": AROUND % "{want: bust, grows: -2}"}, "`grows: -2` should be"),
    ({"numbers": AROUND % "{want: bust, plus: 3}"}, "needs a `multiple:`"),
    ({"numbers": AROUND % "{want: bust, multiple: 6, plus: four}"}, "should be a whole number"),
    ({"numbers": AROUND % "{want: bust, within: 1}"}, "should be a length such as `1 cm`, or a share"),
    ({"numbers": AROUND % "{want: bust, same in: [S, XL]}"}, "names `XL`, which is no size here"),
    ({"numbers": AROUND % "160.5"}, "`around: 160.5` could not be used"),
    ({"numbers": MORE % "x: {spread: 90, over: rows}"}, "in every size: 90 changes don't fit into 72 rows"),
    ({"numbers": MORE % "x: {spread: around / 3, over: rows}"}, "is no whole number"),
])
def test_what_is_wrong_is_said_once_and_must_be_mended(keys, says):
    """Each slip is named, what can't be found makes the check fail, and nothing else is blamed for it."""
    report = checked(**keys)
    said = told(report)
    assert any(says in one for one in said), said
    assert report.must_mend or "stre" in says
    assert not any("row-runs-out" in one or "row-below-missing" in one for one in said)


def test_lists_in_a_sum():
    """The sign before a list is that of every size; fractions and units may stand in each."""
    head = {"head": Value(560.0, length=True)}
    assert [reckon("head - 1 (-2, 3) cm", head, size, 3).constant for size in range(3)] == [550.0, 540.0, 530.0]
    assert [reckon("9 1/2 (10, 1/2) in", head, size, 3).constant for size in range(3)] == pytest.approx([241.3, 254.0, 12.7])
    assert reckon("4 cm (5 cm, 6 in)", head, 2, 3).constant == pytest.approx(152.4)
    with pytest.raises(NotArithmetic, match="2 values for one size"):
        reckon("9 (10) cm", head)
    with pytest.raises(NotArithmetic, match="a sign is missing"):
        reckon("2 (head + 1 cm)", head)


def test_a_clash_names_its_sizes_and_its_ways_out():
    """Even and within 5 mm at 14 sts to 10 cm: 21.85 cm have 30 sts near enough, 23.75 cm have neither 32 (8.9 mm) nor 34 (5.4 mm)."""
    text = """---
terms: US
sizes: [S, M, L]
body: {foot: 21 (23, 25) cm}
gauge: 14 sts and 16 rows over 10 cm in sc
numbers:
  around: {want: foot - 5 %, count: stitches, even: yes, grows: 2, within: 5 mm}
---
"""
    clash = next(finding for finding in hookwright.check(text).findings if finding.kind == "wishes-clash")
    assert clash.sizes == ("L",) and "in size L" in clash.message and "23.8 cm (9.4 in)" in clash.message
    assert [way.effect for way in clash.suggestions] == ["`around` 28 (31, 33); off by 0.29 cm (0.12 in) at most, in size M", "`around` 28 (30, 34); off by 0.54 cm (0.21 in) at most, in size L"]
