"""Each kind with a pad has both its sides: a module here, and a tool of the same name in the page script."""

import pytest

from zonelib.exercise.kinds import NAMES, kind_named
from zonelib.sheet.code import pad_code, pad_style
from zonelib.sheet.kinds import pad_kind
from zonelib.sheet.words import entries

WITH_PAD = [name for name in NAMES if kind_named(name).pad]


@pytest.mark.parametrize("name", WITH_PAD)
def test_a_kind_with_a_pad_has_its_tool(name: str) -> None:
    pad = pad_kind(name)
    assert pad.name == name
    assert pad.intro in entries()
    assert f"\nTOOLS.{name} = " in pad_code()


def test_a_kind_that_is_not_there_is_refused() -> None:
    with pytest.raises(KeyError, match="tent"):
        pad_kind("tent")


def test_the_page_script_is_one_module_without_imports() -> None:
    code = pad_code()
    assert "\nimport " not in code
    assert code.count("export default") == 1
    assert code.rstrip().endswith("export default { initialize() {}, render };")
    assert ".zl-pad {" in pad_style()


@pytest.mark.parametrize(
    "value", [3, None, "x", [], {"areas": 1}, {"depth": "x" * 9999}, {"rcd": {"ma": []}}]
)
@pytest.mark.parametrize("name", WITH_PAD)
def test_rubbish_is_no_answer_and_is_not_repeated_at_length(name: str, value: object) -> None:
    troubles = pad_kind(name).troubles(value, {})
    assert 1 <= len(troubles) <= 5
    assert all(len(one) < 300 for one in troubles)
