"""A made-up class that has handed in a homework, for trying the desk out: no person stands behind it."""

import json
import random
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from zonelib.desk.classlist import ClassList
from zonelib.desk.handout import Wanted, hand_out
from zonelib.desk.parcel import write_parcel
from zonelib.exercise.answer import MIME, AnswerRecord
from zonelib.exercise.bundle import Bundle, read_bundle
from zonelib.exercise.handin import HandIn, receipt_of
from zonelib.exercise.load import bank_path, read_exercise
from zonelib.exercise.model import Exercise

__all__ = ["ASSIGNMENT", "DUE", "EXERCISES", "DemoClass", "demo_class"]

ASSIGNMENT = "demo"
TITLE = "Larch Row: ten exercises"
DUE = datetime(2026, 11, 27, 17, tzinfo=UTC)
EXERCISES = (
    "bedroom-drop", "bedroom-zones", "kitchen-hatch", "bedroom-over-the-ceiling", "store-given-run",
    "dining-inspection", "hall-pictures", "landing-joist", "landing-which-screws", "utility-deepest-chase",
)  # fmt: skip
"""One of each kind at least."""

ABSENT, LATE, BROKEN, COPIED, COPY = 29, 7, 12, 4, 18
"""Trainees with something to tell: nothing handed in, late, a damaged file, one who copies another's."""

BLANK = 0.06
"""Part of the answers that are not given."""

SPREAD = 0.25
HARDEST = 5


@dataclass(frozen=True)
class DemoClass:
    """Where a made-up class lies.

    Attributes
    ----------
    home, submitted, class_file : Path
        The course's folder, what was handed in, and the class list.
    assignment : str
        Name of the assignment.
    due : datetime
        When it was due.
    """

    home: Path
    submitted: Path
    class_file: Path
    assignment: str
    due: datetime


def demo_class(
    home: Path, *, trainees: int = 30, seed: int = 1, exercises: tuple[str, ...] = EXERCISES
) -> DemoClass:
    """Give out a homework to a made-up class, and hand in for each trainee; the same seed gives the same.

    Answers are drawn from the exercises' model answers and typical mistakes. Trainees differ in how often
    they are right, exercises in how hard they are; each answer comes in one of the ways that answers come in.

    Parameters
    ----------
    home : Path
        Folder for the course.
    trainees, seed : int
        How many, and which class of many.
    exercises : tuple of str
        Names of the bank.
    """
    numbers = [f"C-{number:03}" for number in range(1, trainees + 1)]
    home.mkdir(parents=True, exist_ok=True)
    class_file = home / "class.csv"
    lines = ["candidate,name", *(f"{one},Trainee {one[2:]}" for one in numbers)]
    class_file.write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")
    wanted = Wanted(exercises, ASSIGNMENT, TITLE, ClassList(dict.fromkeys(numbers, "")))
    hand_out(wanted, home, nbgrader=False)
    paper = Paper.read(home, exercises)
    for place, number in enumerate(numbers):
        # By number: a class of three begins as one of thirty does.
        draw = random.Random(f"{seed}:{number}")  # noqa: S311 - made up, and the same each time
        if place != ABSENT:
            _hand_in(paper, place, _records(paper, number, place, draw))
    _copy(paper, numbers)
    return DemoClass(home, home / "submitted", class_file, ASSIGNMENT, DUE)


@dataclass(frozen=True)
class Paper:
    """The homework as it was given out."""

    home: Path
    exercises: tuple[tuple[Exercise, Bundle], ...]
    notebook: str

    @classmethod
    def read(cls, home: Path, names: tuple[str, ...]) -> "Paper":
        """Read it from the course."""
        released = home / "exercises" / ASSIGNMENT
        bundles = [read_bundle(released / f"{name}.bundle.json") for name in names]
        read = tuple(zip((read_exercise(bank_path(name)) for name in names), bundles, strict=True))
        return cls(home, read, (released / f"{ASSIGNMENT}.ipynb").read_text(encoding="utf-8"))


def _records(paper: Paper, number: str, place: int, draw: random.Random) -> list[dict[str, Any]]:
    able = min(max(draw.gauss(0.6, SPREAD), 0.05), 0.98)
    when = DUE + timedelta(days=2) if place == LATE else DUE - timedelta(minutes=draw.randrange(60, 5000))
    answers = [(one, _answer(one[0], able, draw)) for one in paper.exercises]
    stated = [(one, answer) for one, answer in answers if answer is not None]
    return [_record(number, when, bundle, answer, draw) for (_, bundle), answer in stated]


def _answer(exercise: Exercise, able: float, draw: random.Random) -> dict[str, Any] | None:
    """Return the model answer, a typical mistake, or None where nothing is answered."""
    if draw.random() < BLANK * (2 - able):
        return None
    hard = exercise.difficulty / HARDEST - 0.5
    if draw.random() < min(max(able - 0.5 * hard, 0.03), 0.97):
        return dict(exercise.model)
    wrong = sorted(exercise.wrong, key=lambda one: float(one["marks"]))
    return dict(wrong[min(int(draw.random() * (able + 0.5) * len(wrong)), len(wrong) - 1)]["answer"])


def _record(number: str, when: datetime, bundle: Bundle, answer: Any, draw: random.Random) -> dict[str, Any]:
    saved = when - timedelta(seconds=draw.randrange(1, 3000))
    head = {"schema": 1, "exercise": bundle.exercise.id, "bundle": bundle.hash, "variant": None}
    head |= {"candidate": number, "revision": draw.randrange(1, 40), "saved_at": _stamp(saved)}
    return {**head, "answer": json.loads(json.dumps(answer))}


def _stamp(when: datetime) -> str:
    return when.strftime("%Y-%m-%dT%H:%M:%SZ")


def _hand_in(paper: Paper, place: int, records: list[dict[str, Any]]) -> None:
    """Lay answers into the tree as nbgrader collects them, in one of the ways they come in."""
    number = records[0]["candidate"] if records else f"C-{place + 1:03}"
    folder = paper.home / "submitted" / number / ASSIGNMENT
    last = max((one["saved_at"] for one in records), default=_stamp(DUE))
    _write(folder / "timestamp.txt", f"{last[:10]} {last[11:19]}.000000 UTC\n")
    _write(folder / f"{ASSIGNMENT}.ipynb", paper.notebook)
    WAYS[place % len(WAYS)](folder, records, paper)
    if place == BROKEN and records:
        _write(folder / "answers" / f"{records[0]['exercise']}.json", '{"schema": 1, "exercise"')


def _answers_folder(folder: Path, records: list[dict[str, Any]], _: Paper) -> None:
    for one in records:
        _write(folder / "answers" / f"{one['exercise']}.json", json.dumps(one, indent=1) + "\n")


def _hand_in_file(folder: Path, records: list[dict[str, Any]], _: Paper) -> None:
    for name, text in _as_hand_in(records).items():
        _write(folder / name, text)


def _zip(folder: Path, records: list[dict[str, Any]], _: Paper) -> None:
    write_parcel(folder / "my work (1).zip", "my work", _as_hand_in(records))


def _mirrored(folder: Path, records: list[dict[str, Any]], paper: Paper) -> None:
    notebook = json.loads(paper.notebook)
    pads = {cell["metadata"].get("nbgrader", {}).get("grade_id"): cell for cell in notebook["cells"]}
    for one in records:
        data = {MIME: one, "text/plain": "Answer saved"}
        pads[f"{one['exercise']}-pad"]["outputs"] = [
            {"output_type": "display_data", "metadata": {}, "data": data}
        ]
    _write(folder / f"{ASSIGNMENT}.ipynb", json.dumps(notebook, indent=1) + "\n")


WAYS = (_answers_folder, _hand_in_file, _answers_folder, _zip, _answers_folder, _mirrored)


def _as_hand_in(records: list[dict[str, Any]]) -> dict[str, str]:
    if not records:
        return {}
    answers = tuple(AnswerRecord.model_validate(one) for one in records)
    candidate, last = records[0]["candidate"], max(one["saved_at"] for one in records)
    receipt = receipt_of(candidate, answers)
    head = {"schema": 1, "kind": "hand-in", "candidate": candidate, "handed_in_at": last, "receipt": receipt}
    text = HandIn.model_validate({**head, "answers": records}).as_text()
    return {f"hand-in-{receipt}.json": text}


def _copy(paper: Paper, numbers: list[str]) -> None:
    """Let one trainee hand in another's files."""
    if len(numbers) <= COPY:
        return
    source, copy = (paper.home / "submitted" / numbers[one] / ASSIGNMENT for one in (COPIED, COPY))
    for path in _files(copy):
        path.unlink()
    for path in _files(source):
        _write(copy / path.relative_to(source), path.read_text(encoding="utf-8"))


def _files(folder: Path) -> Iterator[Path]:
    yield from [path for path in folder.rglob("*") if path.is_file()]


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="\n")
