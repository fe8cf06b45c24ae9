"""What is stored of people goes when it is asked for, is told before, and takes nobody else's with it."""

import os
import time
from pathlib import Path

import pytest

from tests.cli.files import run
from zonelib.desk.demo import demo_class
from zonelib.desk.people import removals, remove
from zonelib.desk.run import mark_folder
from zonelib.site.faults import FileFault

EXERCISES = ("landing-which-screws", "utility-deepest-chase")


@pytest.fixture
def course(tmp_path: Path) -> Path:
    """Return a course of four who have handed in, each in another way, and were marked."""
    home = tmp_path / "course"
    made = demo_class(home, trainees=4, exercises=EXERCISES)
    mark_folder(home, home / "marked")
    loose = next((home / "submitted" / "C-002").rglob("hand-in-*.json"))
    (home / "inbox").mkdir()
    (home / "inbox" / "download (1).txt").write_bytes(loose.read_bytes())
    (home / "marked" / "by-hand.csv").write_text("trainee,mark\nC-002,3\nC-003,4\n")
    assert made.class_file.is_file()
    return home


def naming(home: Path, candidate: str) -> list[str]:
    """Return the files that name a candidate in their name or their text."""
    files = [path for path in home.rglob("*") if path.is_file()]
    told = [path for path in files if candidate.lower() in path.as_posix().lower() or candidate in text(path)]
    return [path.relative_to(home).as_posix() for path in told]


def text(path: Path) -> str:
    return path.read_bytes().decode("utf-8", "replace")


def test_a_candidate_goes_wherever_the_number_stands_and_nobody_else_does(course: Path) -> None:
    others = {name: naming(course, name) for name in ("C-001", "C-003", "C-004")}
    assert len(naming(course, "C-002")) == 10
    found = removals(course, candidate="C-002")
    assert naming(course, "C-002"), "nothing goes before it is asked for"
    assert remove(found) == len(found) == 8
    assert naming(course, "C-002") == []
    assert {name: naming(course, name) for name in others} == others
    assert removals(course, candidate="C-002") == []
    again = mark_folder(course, course / "marked")
    assert sorted({row.trainee for row in again.rows()}) == ["C-001", "C-003", "C-004"]


def test_what_is_old_goes_and_what_is_new_stays(course: Path) -> None:
    old = time.time() - 400 * 86400
    for path in [*(course / "submitted" / "C-001").rglob("*"), *(course / "marked").rglob("*")]:
        os.utime(path, (old, old))
    told = [one.words for one in removals(course, older_than=365)]
    assert told == ["the folder marked", "the folder submitted/C-001"]
    remove(removals(course, older_than=365))
    assert not (course / "marked").exists()
    assert sorted(path.name for path in (course / "submitted").iterdir()) == ["C-002", "C-003", "C-004"]
    assert removals(course, older_than=365) == []


def test_a_link_is_neither_followed_nor_taken(course: Path, tmp_path: Path) -> None:
    away = tmp_path / "away" / "C-002"
    away.mkdir(parents=True)
    (away / "x.txt").write_text("C-002")
    (course / "submitted" / "link").symlink_to(away)
    remove(removals(course, candidate="C-002"))
    assert (away / "x.txt").is_file()


def test_the_command_tells_first_and_asks_for_yes(course: Path) -> None:
    told = run("people", "erase", "C-002", str(course))
    assert "- the folder submitted/C-002\n" in told.stdout
    assert "- 2 rows of marked/marks.csv\n" in told.stdout
    assert "run the same with --yes" in told.stdout
    assert naming(course, "C-002")
    assert "Removed: 8" in run("people", "erase", "C-002", str(course), "--yes").stdout
    assert "There is nothing to remove" in run("people", "erase", "C-002", str(course)).stdout


@pytest.mark.parametrize(
    ("words", "told"), [(["C-002"], "CANDIDATE FOLDER"), (["x", "nowhere"], "nothing there")]
)
def test_what_cannot_be_is_told(words: list[str], told: str) -> None:
    ran = run("people", "erase", *words)
    assert isinstance(ran.exception, FileFault)
    assert told in str(ran.exception)
