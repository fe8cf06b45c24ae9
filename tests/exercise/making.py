"""Exercises made for a test, read from a file as a tutor's would be."""

import json
from pathlib import Path
from typing import Any

from zonelib.exercise import AnswerRecord, Bundle, Exercise, Result, freeze, mark, read_exercise

Data = dict[str, Any]

WALL: Data = {
    "id": "W1", "length": 3600, "height": 2400, "thickness": 140, "build": "timber-stud",
    "accessories": [
        {"id": "S1", "kind": "socket", "face": "front", "x": 1200, "y": 450, "width": 146, "height": 86}
    ],
}  # fmt: skip


def case(**parts: Any) -> Data:
    return {"pack": "uk", "walls": [WALL], **parts}


def cable(name: str = "R1", **parts: Any) -> Data:
    """Return a route that passes: straight up from S1, 20 mm deep, behind a 30 mA RCD."""
    size = {"width": 10, "thickness": 6}
    way: Data = {"wall": "W1", "joins": ["S1"], "points": [[1200, 450], [1200, 2400]], "depth": 20}
    return {"id": name, "cable": size, "rcd": {"ma": 30}, **way, **parts}


def stated(kind: str, task: Data, **parts: Any) -> Data:
    words = {"schema": 1, "id": "try", "kind": kind, "title": "A try", "question": "What?"}
    return {**words, "case": case(), "model": {}, **parts, kind: task}


def made(folder: Path, data: Data) -> Exercise:
    path = folder / "try.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    return read_exercise(path)


def frozen(folder: Path, data: Data) -> Bundle:
    return freeze(made(folder, data))


def answered(bundle: Bundle, answer: Data) -> Result:
    record = {"schema": 1, "exercise": "try", "bundle": bundle.hash, "revision": 1, "saved_at": "now"}
    return mark(bundle, AnswerRecord.model_validate({**record, "answer": answer}))
