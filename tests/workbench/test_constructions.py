"""Every beginning is a whole manuscript of its own that proves, fits on a sheet and can be made another size."""

import pytest

import hookwright
from hookwright.desk.workbench.constructions import ORDER, constructions
from hookwright.ground import NOTE
from hookwright.stitches import stitch


@pytest.mark.parametrize("one", constructions(), ids=lambda one: one.id)
def test_a_beginning_proves(one):
    """Nothing to mend and nothing to look at, every count compared, and both dialects read back."""
    report = hookwright.check(one.text)
    assert [finding.message for finding in report.findings if finding.grade != NOTE] == []
    proved = report.as_dict()["proved"]
    assert proved["counts"] >= 5 and not proved["disagree"] and proved["words"].endswith("same fabric")
    assert all(stitch(kind) for fabric in report.fabrics for row in fabric.rows for kind in row.by_kind)


@pytest.mark.parametrize("one", constructions(), ids=lambda one: one.id)
def test_a_beginning_is_complete(one):
    """Title, summary, level, hook, yarn with its lengths, a gauge, finished measures, whom it is for; the sheet says nothing is lacking."""
    head = hookwright.check(one.text).pattern.head
    assert head.title and head.summary and head.level and head.terms == "US" and head.hook and head.finished and head.for_ and head.materials
    assert all(yarn.metres and yarn.grams and yarn.weight for yarn in head.yarn) and (head.gauge or head.swatches)
    assert not head.designer and not head.copyright  # hers to fill in
    for terms in ("US", "UK"):
        assert hookwright.write(one.text, "txt", terms)


def test_there_is_one_of_each_kind():
    assert tuple(one.id for one in constructions()) == ORDER and len(ORDER) == 8
    assert all(one.as_dict()["title"] != f"construction-{one.id}" and one.summary for one in constructions())


@pytest.mark.parametrize("id, measures", [("hat-sideways", {"head": "58 cm"}), ("mitten", {"hand": "20 cm"}), ("top", {"bust": "101 cm"})])
def test_a_beginning_can_be_made_to_measure(id, measures):
    text = next(one.text for one in constructions() if one.id == id)
    report = hookwright.made_to_measure(text, measures=measures)
    assert report.must_mend == 0
