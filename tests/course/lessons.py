"""The lessons as their tests see them."""

import json
import re
import tomllib
from pathlib import Path
from typing import Any

from tests.house.files import ROOT

PATHS = sorted(ROOT.glob("lessons/[0-9][0-9]-*.ipynb"))
Lesson = dict[str, Any]


def read(path: Path) -> Lesson:
    read: Lesson = json.loads(path.read_text("utf-8"))
    return read


def parts_of(path: Path) -> dict[str, Any]:
    """Return what the lesson's own file holds."""
    return tomllib.loads((ROOT / "lessons" / "parts" / f"{path.stem}.toml").read_text("utf-8"))


def source(cell: dict[str, Any]) -> str:
    return "".join(cell["source"])


def prose(lesson: Lesson) -> str:
    return "\n\n".join(source(cell) for cell in lesson["cells"] if cell["cell_type"] == "markdown")


def code(lesson: Lesson) -> list[dict[str, Any]]:
    return [cell for cell in lesson["cells"] if cell["cell_type"] == "code"]


def asked(parts: dict[str, Any]) -> list[str]:
    """Return the words of a lesson's questions and of what can be changed in its pictures."""
    told = [knob["words"] for live in parts.get("live", {}).values() for knob in live["knobs"]]
    for question in parts.get("questions", {}).values():
        told += [question["ask"], *(one[key] for one in question["choices"] for key in ("words", "why"))]
    return told


def called(lesson: Lesson, method: str) -> list[str]:
    """Return what stands between the brackets of each call of a method of the lesson."""
    found = (re.search(rf"\blesson\.{method}\((.*)\)", source(cell)) for cell in code(lesson))
    return [match.group(1) for match in found if match]


def shown(cell: dict[str, Any], kind: str) -> list[str]:
    return ["".join(one["data"][kind]) for one in cell["outputs"] if kind in one.get("data", {})]
