"""A class that hands in answers of the bank: right ones, typical ones, and two that are oddly alike."""

import random
from pathlib import Path
from typing import Any

from zonelib.coach.diagnosis.lens import Held, Lens
from zonelib.exercise.answer import AnswerRecord
from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.handin import HandIn, receipt_of
from zonelib.exercise.load import bank_path, read_exercise
from zonelib.exercise.model import Exercise

SET = ("bedroom-drop", "landing-joist", "utility-deepest-chase")
WHEN = "2026-11-25T11:00:00Z"
ODD: dict[str, Any] = {
    "points": [[700, 2400], [700, 1735], [935, 1735], [935, 615], [1250, 615], [1250, 450]]
}
"""A run by way of three heights that nothing in the room suggests."""

HELD = ("rcd-alone", "", "slanting", "holes-close", "rcd-alone", "")
"""What the trainees take for granted, in turn."""

Paper = list[tuple[Exercise, Bundle]]


def paper(names: tuple[str, ...] = SET) -> Paper:
    """Return exercises of the bank, frozen."""
    read = [read_exercise(bank_path(name)) for name in names]
    return [(one, freeze(one)) for one in read]


def lay_bundles(asked: Paper, folder: Path) -> Path:
    """Write the bundles as an assignment's."""
    folder.mkdir(parents=True, exist_ok=True)
    for _, bundle in asked:
        bundle.write(folder)
    return folder


def hand_in(folder: Path, candidate: str, answers: dict[str, Any], asked: Paper) -> Path:
    """Write one trainee's hand-in file."""
    hashes = {exercise.id: bundle.hash for exercise, bundle in asked}
    records = [
        {
            "schema": 1, "exercise": name, "bundle": hashes[name], "variant": None, "candidate": candidate,
            "revision": 1, "saved_at": WHEN, "answer": answer,
        }
        for name, answer in answers.items()
    ]  # fmt: skip
    read = tuple(AnswerRecord.model_validate(one) for one in records)
    head = {"schema": 1, "kind": "hand-in", "candidate": candidate, "handed_in_at": WHEN}
    whole = HandIn.model_validate({**head, "receipt": receipt_of(candidate, read), "answers": records})
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{candidate}.json"
    path.write_text(whole.as_text(), encoding="utf-8")
    return path


def hand_in_class(home: Path, *, trainees: int = 12, names: tuple[str, ...] = SET, seed: int = 5) -> Path:
    """Write bundles and hand-in files of a class below a folder, and return where the files lie."""
    asked, draw = paper(names), random.Random(seed)
    lay_bundles(asked, home / "exercises" / "hw")
    lenses = {one.id: Lens(bundle) for one, bundle in asked}
    for number in range(1, trainees + 1):
        skill, held = draw.random(), frozenset({HELD[number % len(HELD)]} - {""})
        answers = {
            one.id: _answer(one, lenses[one.id], skill, held, draw)
            for one, _ in asked
            if draw.random() < 0.95
        }
        if number <= 2 and "bedroom-drop" in names:
            answers["bedroom-drop"] = ODD
        hand_in(home / "submitted", f"C-{number:03}", answers, asked)
    return home / "submitted"


def _answer(exercise: Exercise, lens: Lens, skill: float, held: Held, draw: random.Random) -> dict[str, Any]:
    """Return what somebody answers who may hold a misconception, and slips the more the less skilled."""
    led = [one["answer"] for one in exercise.wrong if held and lens.right(held, one["answer"])]
    if led and draw.random() < 0.9:
        return dict(draw.choice(led))
    right = draw.random() < 0.45 + 0.5 * skill
    return dict(exercise.model if right else draw.choice(exercise.wrong)["answer"])
