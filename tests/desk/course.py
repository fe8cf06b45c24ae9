"""A temporary course of one homework, and a class that hands in every kind of thing."""

import copy
import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

from zonelib.exercise.answer import MIME, AnswerRecord
from zonelib.exercise.bundle import Bundle, read_bundle
from zonelib.exercise.handin import HandIn, receipt_of
from zonelib.exercise.load import bank_path, read_exercise
from zonelib.exercise.notebook import write_homework

ROOT = Path(__file__).resolve().parents[2]
NAME = "bedroom-drop"
ASSIGNMENT = "hw"
MODEL = dict(read_exercise(bank_path(NAME)).model)
PARTIAL = {"points": [[700, 2400], [700, 450], [1250, 450]]}
"""Straight down and across: it reaches S1, and its drop lies in no zone."""
SHORT = {"points": [[700, 2400], [700, 2330], [1250, 2330]]}
"""All of it in the top zone, but it never comes down to S1."""


def make_course(home: Path) -> Bundle:
    """Write the source tree and the configuration of a course."""
    shutil.copy(ROOT / "nbgrader_config.py", home / "nbgrader_config.py")
    write_homework([NAME], home / "solutions" / ASSIGNMENT, title="A homework")
    return read_bundle(home / "solutions" / ASSIGNMENT / f"{NAME}.bundle.json")


def record(bundle: str, answer: Any, *, revision: int = 3, candidate: str = "C-014") -> dict[str, Any]:
    """Return an answer record as saved."""
    head = {"schema": 1, "exercise": NAME, "bundle": bundle, "variant": None, "candidate": candidate}
    return {**head, "revision": revision, "saved_at": "2026-11-25T10:00:00Z", "answer": answer}


def handed_in(*records: dict[str, Any], candidate: str = "C-014") -> dict[str, Any]:
    """Return a hand-in file's data, with the receipt that fits."""
    answers = tuple(AnswerRecord.model_validate(one) for one in records)
    head = {"schema": 1, "kind": "hand-in", "candidate": candidate, "handed_in_at": "2026-11-25T11:00:00Z"}
    hand_in = HandIn.model_validate({**head, "receipt": receipt_of(candidate, answers), "answers": records})
    return dict(json.loads(hand_in.as_text()))


class Class:
    """Trainees and what they hand in, laid into nbgrader's tree."""

    def __init__(self, home: Path, bundle: Bundle) -> None:
        self.home, self.hash = home, bundle.hash
        released = home / "exercises" / ASSIGNMENT / f"{ASSIGNMENT}.ipynb"
        self.released = json.loads(released.read_text(encoding="utf-8"))

    def folder(self, trainee: str) -> Path:
        """Return where a trainee's submission lies."""
        folder = self.home / "submitted" / trainee / ASSIGNMENT
        folder.mkdir(parents=True, exist_ok=True)
        return folder

    def notebook(self, trainee: str, change: Callable[[list[Any]], None] | None = None) -> None:
        """Hand in the released notebook, after a change to its cells."""
        notebook = copy.deepcopy(self.released)
        if change:
            change(notebook["cells"])
        (self.folder(trainee) / f"{ASSIGNMENT}.ipynb").write_text(json.dumps(notebook), encoding="utf-8")

    def answer(self, trainee: str, answer: Any, **head: Any) -> None:
        """Hand in an answers folder beside the released notebook."""
        if not (self.folder(trainee) / f"{ASSIGNMENT}.ipynb").exists():
            self.notebook(trainee)
        self.write(trainee, f"answers/{NAME}.json", json.dumps(record(self.hash, answer) | head))

    def write(self, trainee: str, name: str, text: str) -> None:
        """Put a file of any text into a submission."""
        path = self.folder(trainee) / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def graded(cells: list[Any]) -> Any:
    """Return the marked cell of a notebook."""
    (cell,) = [one for one in cells if one["metadata"]["nbgrader"]["grade_id"] == NAME]
    return cell


def mirror(answer: Any) -> list[dict[str, Any]]:
    """Return outputs that hold an answer as the sheet mirrors it."""
    return [{"output_type": "display_data", "metadata": {}, "data": {MIME: answer, "text/plain": "saved"}}]
