"""Writing homework from the command line: from the bank, from a tutor's own file, and again."""

import json
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from zonelib.exercise import bank_path, read_bundle
from zonelib.exercise.notebook import renew_homework, write_homework
from zonelib.site.faults import FileFault

Zonelib = Callable[..., subprocess.CompletedProcess[str]]


def test_homework_of_the_bank_and_of_a_file_of_ones_own(zonelib: Zonelib, tmp_path: Path) -> None:
    shutil.copy(bank_path("bedroom-drop"), tmp_path / "mine.toml")
    out = tmp_path / "hw9"
    done = zonelib("exercise", "notebook", "landing-first-run", "mine.toml", "--out", out, "--title", "Nine")
    assert done.returncode == 0, done.stderr
    assert done.stdout.count("Written: ") == 3
    assert sorted(path.name for path in out.iterdir()) == [
        "bedroom-drop.bundle.json", "hw9.ipynb", "landing-first-run.bundle.json",
    ]  # fmt: skip
    text = json.loads((out / "hw9.ipynb").read_text(encoding="utf-8"))
    assert "".join(text["cells"][0]["source"]).startswith("# Nine\n")


def test_homework_is_written_again_after_an_exercise_has_changed(zonelib: Zonelib, tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    shutil.copy(bank_path("bedroom-drop"), mine)
    zonelib("exercise", "notebook", "mine.toml", "--out", "hw9", "--title", "Nine")
    before = read_bundle(tmp_path / "hw9" / "bedroom-drop.bundle.json").hash
    mine.write_text(
        mine.read_text(encoding="utf-8").replace("A drop to a socket", "Another drop"), encoding="utf-8"
    )
    done = zonelib("exercise", "renew", "hw9")
    assert done.returncode == 0, done.stderr
    assert read_bundle(tmp_path / "hw9" / "bedroom-drop.bundle.json").hash != before
    assert "## 1. Another drop" in (tmp_path / "hw9" / "hw9.ipynb").read_text(encoding="utf-8")


def test_an_unknown_exercise_is_told_in_words(zonelib: Zonelib, tmp_path: Path) -> None:
    done = zonelib("exercise", "notebook", "no-such", "--out", tmp_path / "hw9")
    assert done.returncode == 2
    assert "no-such" in done.stderr
    assert "bedroom-drop" in done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "hw9").exists()


@pytest.mark.parametrize("text", [None, "{", '{"metadata": {}}', '{"metadata": {"zonelib": {"title": "x"}}}'])
def test_a_folder_without_our_notebook_is_told_in_words(text: str | None, tmp_path: Path) -> None:
    if text is not None:
        (tmp_path / f"{tmp_path.name}.ipynb").write_text(text, encoding="utf-8")
    with pytest.raises(FileFault, match="a notebook written by zonelib exercise notebook"):
        renew_homework(tmp_path)


@pytest.mark.parametrize(
    ("identity", "said"),
    [
        ("bedroom-drop", '"bedroom-drop", that of another one here; allowed: an id of its own'),
        ("hand-in", '"hand-in", a name of the notebook\'s own; allowed: an id of its own'),
    ],
)
def test_an_id_that_is_taken_is_told_before_marks_go_astray(tmp_path: Path, identity: str, said: str) -> None:
    mine = tmp_path / "mine.toml"
    text = bank_path("bedroom-drop").read_text(encoding="utf-8")
    mine.write_text(text.replace('id = "bedroom-drop"', f'id = "{identity}"'), encoding="utf-8")
    with pytest.raises(FileFault, match="an id of its own for each exercise") as caught:
        write_homework(["bedroom-drop", str(mine)], tmp_path / "hw9", title="Nine")
    assert said in str(caught.value)
    assert not (tmp_path / "hw9").exists()


def test_a_homework_of_other_kinds_speaks_of_answers_and_not_of_cables(tmp_path: Path) -> None:
    for names, said in (
        (["bedroom-drop"], "draw the cable"),
        (["porch-what-to-say"], "give your answer below it"),
    ):
        path, *_ = write_homework(names, tmp_path / "hw9", title="Nine")
        cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
        assert said in "".join(cells[0]["source"])
