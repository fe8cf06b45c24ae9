"""`zonelib check` on timber: studs, and cables along joists, in words and as JSON."""

import json
import tomllib
from pathlib import Path

import jsonschema  # type: ignore[import-untyped]
import pytest

from tests.cli.files import lines, run, written
from tests.rules.timber import stud

EXAMPLES = Path(__file__).resolve().parents[2] / "docs" / "examples"
FLOOR = str(EXAMPLES / "floor-joist.toml")


def words(output: str) -> str:
    """Return what is printed without its line breaks."""
    return " ".join(output.split())


def test_a_run_is_told_with_its_joist_and_stretch() -> None:
    (data,) = lines(run("check", FLOOR, "--json"))
    runs = {one["subject"]: one for one in data["findings"] if one["rule"] == "run-cover"}
    assert {name: one["status"] for name, one in runs.items()} == {
        "C1": "pass",
        "C2": "fail",
        "C3": "caution",
    }
    assert runs["C1"]["where"] == {"joist": "J1", "from_mm": 0.0, "to_mm": 1600.0}
    assert (runs["C2"]["measured"], runs["C2"]["limit"], runs["C2"]["operator"]) == (30.0, 50.0, ">=")


def test_what_to_mend_and_what_to_take_care_of_is_told_in_full() -> None:
    result = run("check", FLOOR)
    assert result.exit_code == 1
    said = words(result.stdout)
    assert (
        "1. run-cover, C2 on J1 Cable C2 is clipped to the side of joist J1, 30 mm from the joist's bottom."
        in said
    )
    assert (
        "Take care run-cover, C3 on J2: Cable C3 runs over joist J2, where no floor is fixed today." in said
    )
    assert "Better clip it to the side of the joist, 50 mm or more from the edges." in said


def test_another_country_judges_the_same_file_by_its_own_numbers() -> None:
    (data,) = lines(run("check", FLOOR, "--json", "--pack", "us"))
    failed = {
        (one["rule"], one["subject"], one["measured"]) for one in data["findings"] if one["status"] == "fail"
    }
    assert failed == {("run-cover", "C2", 30.0)}
    result = run("check", FLOOR, "--pack", "us")
    assert "A device that trips does not replace this. Clause 300.4(D) of NEC." in words(result.stdout)
    assert "from secondary sources, practice only" in words(result.stdout)


def test_a_stud_is_told_by_its_id(tmp_path: Path) -> None:
    file = written(tmp_path, "stud.json", {**stud(holes=[{"x": 30}]), "pack": "us"})
    (data,) = lines(run("check", file, "--json"))
    assert data["findings"][0]["where"] == {"stud": "ST1"}
    assert "stud-cover, H1 on ST1" in run("check", file).stdout
    uk = run("check", file, "--pack", "uk")
    assert uk.exit_code == 0
    assert "stud-cover, ST1 on ST1: a wall: the rules for walls decide" in words(uk.stdout)


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_an_example_meets_the_published_schema_and_can_be_judged(path: Path) -> None:
    schema = json.loads(run("schema", "case").output)
    example = tomllib.loads(path.read_text(encoding="utf-8"))
    faults = jsonschema.Draft202012Validator(schema).iter_errors(example)
    assert [fault.message for fault in faults] == []
    assert run("check", str(path)).exit_code in {0, 1}


@pytest.mark.parametrize("key", ["runs", "studs"])
def test_the_published_schema_refuses_what_a_case_refuses(key: str) -> None:
    schema = json.loads(run("schema", "case").output)
    broken = {"pack": "uk", key: [{"id": "X", "place": "nowhere"}]}
    assert not jsonschema.Draft202012Validator(schema).is_valid(broken)
