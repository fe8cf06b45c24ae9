"""Packs from outside are read like those that come with the library, every fault at once."""

import json
import tomllib
from pathlib import Path
from typing import Any

import jsonschema  # type: ignore[import-untyped]
import pytest
from click.testing import CliRunner

from zonelib import FileFault, judge, load_pack, read_case
from zonelib.cli.schema import command
from zonelib.rules import pack as pack_module

ROOT = Path(__file__).parents[2]
SHIPPED = Path(pack_module.__file__).parent / "packs"


def shipped(name: str) -> dict[str, Any]:
    return tomllib.loads((SHIPPED / f"{name}.toml").read_text(encoding="utf-8"))


def written(folder: Path, data: dict[str, Any]) -> Path:
    path = folder / "pack.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    return path


@pytest.mark.parametrize("name", pack_module.pack_names())
def test_a_shipped_pack_meets_the_published_schema(name: str) -> None:
    schema = json.loads(CliRunner().invoke(command, ["pack"]).output)
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(shipped(name), schema)


def test_a_case_meets_the_published_schema_with_one_depth_or_one_per_leg() -> None:
    schema = json.loads(CliRunner().invoke(command, ["case"]).output)
    jsonschema.Draft202012Validator.check_schema(schema)
    example = tomllib.loads((ROOT / "docs/examples/bedroom-wall.toml").read_text(encoding="utf-8"))
    jsonschema.validate(example, schema)
    example["routes"][0]["depth"] = "deep"
    with pytest.raises(jsonschema.ValidationError, match="deep"):
        jsonschema.validate(example, schema)


def test_a_pack_by_path_judges_by_its_own_numbers(tmp_path: Path) -> None:
    data = shipped("uk")
    data["walls"]["trigger_depth"] = 19
    case = tmp_path / "case.json"
    wall = {"id": "W", "length": 3000, "height": 2400, "thickness": 140, "build": "timber-stud"}
    route = {"id": "R", "wall": "W", "points": [[100, 100], [2900, 2000]], "depth": 20,
             "cable": {"width": 10, "thickness": 6}}  # fmt: skip
    stated = {"pack": written(tmp_path, data).name, "walls": [wall], "routes": [route]}
    case.write_text(json.dumps(stated), encoding="utf-8")
    assert judge(read_case(case), load_pack(tmp_path / "pack.json")).passed
    assert not judge(read_case(case, load_pack("uk")), load_pack("uk")).passed


def test_every_fault_of_a_pack_is_told_at_once(tmp_path: Path) -> None:
    data = shipped("uk")
    data["walls"]["clause"] = "9.9.9"
    data["readings"]["sloping_top"]["narrow"] = "steep"
    data["accessories"]["blank-plate"]["reading"] = "blank_plate"
    data["chases"]["horizontal"] = 0
    data["surprise"] = 1
    with pytest.raises(FileFault, match="surprise") as caught:
        load_pack(written(tmp_path, data))
    paths = {fault.path for fault in caught.value.faults}
    assert paths == {
        "walls.clause", "readings.sloping_top.narrow", "accessories.blank-plate.reading",
        "chases.horizontal", "surprise",
    }  # fmt: skip
    assert "did you mean blank_plates?" in str(caught.value)


def test_a_part_of_a_cited_clause_needs_no_citation_of_its_own(tmp_path: Path) -> None:
    data = shipped("uk")
    data["zones"][0]["clause"] = "522.6.202(iii)"
    assert load_pack(written(tmp_path, data)).zones[0].clause == "522.6.202(iii)"
