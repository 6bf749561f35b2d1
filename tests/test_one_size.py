"""One size of a pattern of many: the same stitches as that size has in the whole."""

from pathlib import Path

import pytest

from hookwright.fabric import work_pattern
from hookwright.notation import one_size
from hookwright.notation.one_size import in_one
from hookwright.pipeline.sized import read_sized

EXAMPLES = sorted(path for path in (Path(__file__).parent.parent / "examples").glob("*.md") if path.name != "README.md")


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_one_size_has_the_stitches_it_has_among_the_others(path):
    """Each size cut out of its pattern is worked to the same counts, row by row, as it has in the whole."""
    pattern, _, _ = read_sized(path.read_text("utf-8"))
    whole = work_pattern(pattern, sizes=tuple(pattern.sizes) or ("1",), row_height_mm=6.0)
    for index in {0, len(pattern.sizes) - 1} if pattern.sizes else ():
        one = one_size(pattern, index)
        alone = work_pattern(one, sizes=one.sizes, row_height_mm=6.0)
        assert [row.stitches for row in alone.fabrics[0].rows] == [row.stitches for row in whole.fabrics[index].rows]
        assert one.head.size_names == (pattern.sizes[index],)


def test_lists_in_words_become_one_value():
    """Only lists of all the sizes are shortened."""
    assert in_one("18 (20, 22) row ends, 3 (4) times, 5 (-, 7) cm", 1, 3) == "20 row ends, 3 (4) times, - cm"
