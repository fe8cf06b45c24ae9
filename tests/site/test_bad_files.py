"""One file per mistake: what was found, what is allowed, where, and no traceback."""

import re
import tomllib
from pathlib import Path

import pytest

from zonelib.rules.load import read_case
from zonelib.site.faults import FileFault

BAD = Path(__file__).parent / "bad"
DATA = tomllib.loads((Path(__file__).parent / "mistakes.toml").read_text(encoding="utf-8"))
ENDS: dict[str, str] = DATA.pop("ends")
MISTAKES: dict[str, list[str]] = DATA


def faults(name: str) -> list[str]:
    with pytest.raises(FileFault, match=re.escape(name)) as caught:
        read_case(BAD / name)
    return [str(fault) for fault in caught.value.faults]


@pytest.mark.parametrize(("name", "expected"), MISTAKES.items(), ids=MISTAKES)
def test_a_mistake_is_told_with_what_is_allowed(name: str, expected: list[str]) -> None:
    lines = faults(name)
    assert len(lines) == len(expected), lines
    for line, start in zip(lines, expected, strict=True):
        assert line.startswith(start)


@pytest.mark.parametrize(("name", "end"), ENDS.items(), ids=ENDS)
def test_the_nearest_known_name_is_offered(name: str, end: str) -> None:
    assert any(line.endswith(end) for line in faults(name))


def test_every_bad_file_is_tried() -> None:
    assert {path.name for path in BAD.iterdir()} == set(MISTAKES)


def test_no_message_blames_or_speaks_of_the_machinery() -> None:
    text = "\n".join(line for name in MISTAKES for line in faults(name)).lower()
    assert (
        re.findall(r"pydantic|traceback|valueerror|\binvalid|\billegal|\bwrong|please|oops|factory", text)
        == []
    )
