"""A folder with an answer to every exercise of the bank is marked as each answer by itself is."""

import csv
import subprocess
import sys
from pathlib import Path

from tests.exercise.answers import NAMES, bundle, exercise, marked, written


def test_the_folder_marker_gives_the_same_marks_for_every_kind(tmp_path: Path) -> None:
    released, saved = tmp_path / "exercises" / "hw", tmp_path / "in" / "T1" / "hw" / "answers"
    released.mkdir(parents=True)
    saved.mkdir(parents=True)
    alone = {}
    for at, name in enumerate(NAMES):
        bundle(name).write(released)
        answer = [exercise(name).model, *(one["answer"] for one in exercise(name).wrong)][at % 3]
        (saved / f"{name}.json").write_text(written(name, answer), encoding="utf-8")
        alone[name] = repr(marked(name, answer).score)
    words = ["mark", "in", "--bundles", "exercises", "--out", "out"]
    subprocess.run([sys.executable, "-m", "zonelib", *words], cwd=tmp_path, check=True, capture_output=True)
    with (tmp_path / "out" / "marks.csv").open(encoding="utf-8", newline="") as file:
        assert {row["exercise"]: row["score"] for row in csv.DictReader(file)} == alone
