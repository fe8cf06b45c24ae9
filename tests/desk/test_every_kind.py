"""A folder with an answer of every kind is marked as the one marking function marks it, to the last digit."""

import csv
from pathlib import Path
from typing import Any

from tests.cli.files import run
from tests.exercise.answers import NAMES, bundle, exercise, marked, written


def one_of(name: str, at: int) -> dict[str, Any]:
    """Return a model answer, or one of the typical ones, by turns."""
    found: list[dict[str, Any]] = [exercise(name).model, *(one["answer"] for one in exercise(name).wrong)]
    return found[at % 3]


def test_every_kind_s_answers_come_through_a_folder_unchanged(tmp_path: Path) -> None:
    bundles, answers = tmp_path / "course", tmp_path / "in" / "amy" / "answers"
    for folder in (bundles, answers):
        folder.mkdir(parents=True)
    given = {name: one_of(name, at) for at, name in enumerate(NAMES)}
    for name in NAMES:
        bundle(name).write(bundles)
        text = written(name, given[name], candidate="C-1", variant=None)
        (answers / f"{name}.json").write_text(text, encoding="utf-8")
    out = tmp_path / "out"
    result = run("mark", str(tmp_path / "in"), "--bundles", str(bundles), "--out", str(out))
    assert result.exit_code == 0
    rows = list(csv.DictReader((out / "marks.csv").read_text(encoding="utf-8").splitlines()))
    assert {row["exercise"]: float(row["score"]) for row in rows} == {
        name: marked(name, given[name]).score for name in NAMES
    }
    assert len(rows) == len(NAMES)
