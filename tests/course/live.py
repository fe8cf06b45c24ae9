"""A lesson's live picture without a page: move its knobs, read what it tells."""

from pathlib import Path
from typing import Any

from tests.house.files import ROOT
from zonelib.sheet.lesson.data import LessonFile, read_lesson
from zonelib.sheet.lesson.live import LiveBox

LESSONS = ROOT / "lessons"


def file_of(path: Path) -> LessonFile:
    return read_lesson(LESSONS / "parts" / f"{path.stem}.toml")


def live_box(file: LessonFile, name: str) -> LiveBox:
    live = file.live[name]
    return LiveBox(live, LESSONS / (live.case or file.case), name="x")


def knob_of(box: LiveBox, words: str) -> Any:
    """Return the knob whose label has these words."""
    (knob,) = [one for one in box.knobs if words.lower() in one.description.lower()]
    return knob


def move(box: LiveBox, values: dict[str, Any]) -> str:
    """Set knobs by words of their label; lists by the words of a choice. Return what is told."""
    for words, value in values.items():
        knob = knob_of(box, words)
        options = dict(getattr(knob, "options", ()))
        knob.value = options.get(value, value) if isinstance(value, str) else value
    told: str = box.page.value
    return told


def ends(knob: Any) -> list[Any]:
    """Return both ends of a slider, both states of a tick, or every choice of a list."""
    if hasattr(knob, "options"):
        return [value for _, value in knob.options]
    return [knob.min, knob.max] if hasattr(knob, "min") else [True, False]
