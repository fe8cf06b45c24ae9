"""What docs/exercises.md tells of marks is what the kinds do."""

import re
import tomllib
from pathlib import Path

import pytest

from zonelib.exercise.kinds import NAMES, kind_named
from zonelib.exercise.model import CriterionRule, Exercise

GUIDE = (Path(__file__).resolve().parents[2] / "docs" / "exercises.md").read_text(encoding="utf-8")
TABLED = ["route", "zones", "fixings", "joist", "inspect"]


def section(kind: str) -> str:
    found = re.search(rf"^## {kind.capitalize()}: .*?(?=^## |\Z)", GUIDE, re.DOTALL | re.MULTILINE)
    assert found, kind
    return found[0]


@pytest.mark.parametrize("kind", TABLED)
def test_its_default_criteria_are_told_with_their_marks(kind: str) -> None:
    rows = re.findall(r"^\| `([\w-]+)` \| (\d+) \| (.+) \|$", section(kind), re.MULTILINE)
    criteria = kind_named(kind).criteria
    assert [(name, float(marks)) for name, marks, _ in rows] == [(one.id, one.marks) for one in criteria]
    for one, (_, _, how) in zip(criteria, rows, strict=True):
        assert [name for name in one.needs if f"needs `{name}`" not in how] == []


def test_every_kind_is_told() -> None:
    assert [
        kind for kind in NAMES if not re.search(rf"^## .*\b{kind}\b", GUIDE, re.IGNORECASE | re.MULTILINE)
    ] == []


def test_its_sample_of_a_criterion_is_one() -> None:
    (sample,) = re.findall(r"```toml\n(.*?)```", GUIDE, re.DOTALL)
    (one,) = tomllib.loads(sample)["criteria"]
    assert CriterionRule.model_validate(one).needs == ("zone",)


def test_the_keys_of_a_file_are_told() -> None:
    table = GUIDE.split("## What every exercise file holds")[1].split("## ")[0]
    keys = {field.alias or name for name, field in Exercise.model_fields.items()}
    assert {key for key in keys if not re.search(rf"[`\[]{key}\b", table)} <= {"show"}


@pytest.mark.parametrize("kind", TABLED)
def test_the_checks_of_a_kind_are_told(kind: str) -> None:
    assert [check for check in kind_named(kind).checks if f"`{check}`" not in section(kind)] == []
