"""The guide to the case file: each file in it is judged, and it names every table and key there is."""

import re
import tomllib
from pathlib import Path

import pytest
from pydantic import BaseModel

from zonelib import load_pack
from zonelib.rules.engine import judge
from zonelib.site.load import case_from_data
from zonelib.site.model import Case, Fixing, Route
from zonelib.site.room import OwnWall, Room
from zonelib.site.timber import Joist, Run, Stud
from zonelib.site.wall import Accessory, Opening, Wall

GUIDE = (Path(__file__).resolve().parents[2] / "docs" / "case-file.md").read_text(encoding="utf-8")
FILES = re.findall(r"```toml\n(.*?)```", GUIDE, flags=re.DOTALL)
LEFT_OUT = {"leaf", "finish", "worktop", "rear", "lock_side", "supply", "outer", "depth_from", "start", "end"}
"""Keys that few files need: the schema tells them."""


@pytest.mark.parametrize("text", FILES, ids=range(len(FILES)))
def test_each_file_of_the_guide_is_judged(text: str) -> None:
    uk = load_pack("uk")
    verdict = judge(case_from_data(tomllib.loads(text), uk.vocabulary), uk)
    assert verdict.findings or "readings" in text
    assert [(one.rule, one.subject) for one in verdict.failures] == []


@pytest.mark.parametrize(
    "model", [Case, Wall, Opening, Accessory, Room, OwnWall, Route, Joist, Run, Stud, Fixing]
)
def test_the_guide_names_every_key(model: type[BaseModel]) -> None:
    keys = {field.alias or name for name, field in model.model_fields.items()} - LEFT_OUT
    assert {key for key in keys if not re.search(rf"\b{key}\b", GUIDE)} == set()
