"""The guide for tutors is followed to the letter, in a folder that holds nothing else."""

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import ROOT

GUIDE = (ROOT / "docs" / "writing-exercises.md").read_text(encoding="utf-8")
FILE = Path("my-exercises/study-drop.toml")
STEPS = re.split(r"^## \d\. ", GUIDE, flags=re.MULTILINE)[1:]
BLOCK = re.compile(r"^```sh\n(.+?)^```", re.DOTALL | re.MULTILINE)
ROW = re.compile(r"^\| `(.+?)` \| `(.+?)` \|$", re.MULTILINE)


def commands(text: str) -> list[list[str]]:
    return [shlex.split(line) for block in BLOCK.findall(text) for line in block.splitlines()]


def run(folder: Path, words: list[str]) -> subprocess.CompletedProcess[str]:
    """Run a line of the guide; nbgrader's own work is shown by the tests of the homework."""
    if words[0] == "zonelib":
        words = [sys.executable, "-m", *words]
    return subprocess.run(words, cwd=folder, capture_output=True, text=True, check=False, env=os.environ)


def changed(folder: Path, step: str) -> None:
    """Make the changes that a step's tables tell, each of which must be there to be made."""
    path = folder / FILE
    for found, write in ROW.findall(step):
        text = path.read_text(encoding="utf-8")
        times = 1 if found.startswith("marks") else text.count(found)
        assert found in text, found
        path.write_text(re.sub(rf"{re.escape(found)}(?!\.\d)", write, text, count=times), encoding="utf-8")


def test_the_guide_leads_from_a_copy_to_what_is_given_out(tmp_path: Path) -> None:
    copy, wall, answers, give = STEPS[:4]
    for words in commands(copy):
        assert run(tmp_path, words).returncode == 0, words
    changed(tmp_path, wall)
    told = run(tmp_path, ["zonelib", "exercise", "check", str(FILE)])
    assert told.returncode == 1
    assert "Model answer earns 0 of 10 marks" in " ".join(told.stdout.split())
    changed(tmp_path, answers)
    for words in [*commands(answers), *(one for one in commands(give) if one[0] == "zonelib")]:
        assert run(tmp_path, words).returncode == 0, words
    assert (tmp_path / "study-drop.png").stat().st_size > 5000
    written = {path.name for path in (tmp_path / "solutions" / "hw9").iterdir()}
    assert written == {"hw9.ipynb", "study-drop.bundle.json", "landing-first-run.bundle.json"}


def test_the_marks_to_be_written_are_those_that_the_preview_tells(tmp_path: Path) -> None:
    for words in commands(STEPS[0]):
        run(tmp_path, words)
    changed(tmp_path, STEPS[1])
    changed(tmp_path, "\n".join(line for line in STEPS[2].splitlines() if "marks" not in line))
    told = run(tmp_path, commands(STEPS[2])[0])
    found = re.findall(r"write marks = (\d+(?:\.\d)?)", " ".join(told.stdout.split()))
    stated = [float(write.split("=")[1]) for _, write in ROW.findall(STEPS[2]) if "marks" in write]
    assert [float(one) for one in found] == stated


@pytest.mark.parametrize("name", ["writing-exercises.md", "exercises.md"])
def test_every_link_of_the_pages_for_tutors_leads_somewhere(name: str) -> None:
    text = (ROOT / "docs" / name).read_text(encoding="utf-8")
    links = [link for link in re.findall(r"\]\(([^)#]+)", text) if "://" not in link]
    assert links
    assert [link for link in links if not (ROOT / "docs" / link).exists()] == []


def test_a_copy_is_not_made_over_a_file_or_under_a_name_that_cannot_be_an_id(tmp_path: Path) -> None:
    there = tmp_path / "mine.toml"
    there.write_text("mine")
    for name, said in (
        ("mine.toml", "is there already"),
        ("my wall.toml", "letters, digits"),
        ("a.txt", "then .toml"),
    ):
        told = run(tmp_path, ["zonelib", "exercise", "copy", "bedroom-drop", name])
        assert told.returncode == 2
        assert said in " ".join(told.stderr.split())
    assert there.read_text() == "mine"


def test_a_file_with_the_answers_is_not_taken_from_where_everything_is_given_out(tmp_path: Path) -> None:
    (tmp_path / "hw").mkdir()
    run(tmp_path, ["zonelib", "exercise", "copy", "bedroom-drop", "hw/mine.toml"])
    told = run(tmp_path, ["zonelib", "exercise", "notebook", "hw/mine.toml", "--out", "hw"])
    assert told.returncode == 2
    assert "it holds the model answer" in " ".join(told.stderr.split())
