"""A face that is asked about may be that of a room's wall."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.exercise.answers import exercise
from zonelib.exercise import freeze, mark, read_exercise, read_record
from zonelib.exercise.report import result_html

WALL = "bed.8"  # 4200 mm long; door from 300 to 1126, switch SW1 at 1500, 1200
ZONES = [
    [[0, 2250], [4200, 2400]], [[0, 0], [150, 2400]], [[4050, 0], [4200, 2400]],
    [[1457, 0], [1543, 2400]], [[1126, 1157], [4200, 1243]],
]  # fmt: skip
PICTURE = {"id": "P", "words": "picture", "width": 300, "height": 300, "fixings": [[150, 280]]}
HANG = {"wall": WALL, "penetration": 30, "diameter": 5, "items": [PICTURE]}


@pytest.mark.parametrize(
    ("kind", "task", "model"),
    [
        ("zones", {"wall": WALL}, {"areas": ZONES}),
        ("fixings", HANG, {"places": {"P": [2500, 1500]}}),
    ],
)
def test_a_wall_of_a_room_can_be_asked_about(tmp_path: Path, kind: str, task: Any, model: Any) -> None:
    path = tmp_path / "asked.json"
    stated = {"schema": 1, "id": "asked", "kind": kind, "title": "A wall of a room", "question": "Where?"}
    case = exercise("bedroom-over-the-ceiling").case
    path.write_text(json.dumps({**stated, kind: task, "case": case, "model": model}), encoding="utf-8")
    bundle = freeze(read_exercise(path))
    asked = {"schema": 1, "exercise": "asked", "bundle": bundle.hash, "revision": 1, "saved_at": "now"}
    result = mark(bundle, read_record(json.dumps({**asked, "answer": model})))
    assert [one.reason for one in result.criteria if not one.met] == []
    assert result.score == result.points == 10
    assert f"Wall {WALL}" in result_html(bundle, result)
