"""Giving out a homework: what is released, what stays with the tutor, and what each trainee gets."""

import csv
import json
import stat
import zipfile
from pathlib import Path

import pytest

from tests.cli.files import run
from zonelib.desk.classlist import ClassList
from zonelib.desk.demo import demo_class
from zonelib.desk.handout import Wanted, hand_out
from zonelib.desk.released import GIVEN, VARIANTS
from zonelib.desk.rooms import KEY
from zonelib.desk.run import mark_folder
from zonelib.exercise.bundle import Bundle
from zonelib.sheet.candidate import remembered
from zonelib.site.faults import FileFault

NAMES = ("bedroom-drop", "landing-which-screws")
CLASS = ClassList({"C-001": "Ann Other", "C-002": "Bo Other", "con": "", "C.3": ""})


def given_out(home: Path, **wanted: object) -> Path:
    """Give out without nbgrader, and return the course's folder."""
    asked = {"names": NAMES, "assignment": "hw", "title": "A homework", "classlist": CLASS} | wanted
    hand_out(Wanted(**asked), home, nbgrader=False)  # type: ignore[arg-type]
    return home


def texts(home: Path) -> dict[str, str]:
    """Return every text given out, by place: files, and those within zips."""
    found = {path.name: path.read_text("utf-8") for path in (home / "exercises").rglob("*") if path.is_file()}
    for path in (home / "handouts").rglob("*.zip"):
        with zipfile.ZipFile(path) as archive:
            found |= {f"{path.name}/{name}": archive.read(name).decode() for name in archive.namelist()}
    return found


def test_what_is_released_holds_no_solution_and_no_name(tmp_path: Path) -> None:
    given = texts(given_out(tmp_path, zips=True))
    assert len(given) == 3 + 4 * 4
    for name, text in given.items():
        assert "SOLUTION" not in text, name
        assert "Other" not in text, name
        assert "1250, 450]]" not in text, name
    notebook = json.loads(given["hw.ipynb"])
    assert "# There is nothing to type here." in json.dumps(notebook)
    assert json.dumps(notebook) == json.dumps(json.loads(given["C-001.zip/hw/hw.ipynb"]))


def test_each_zip_opens_with_the_candidate_number_set(tmp_path: Path) -> None:
    given_out(tmp_path, zips=True)
    names = sorted(path.name for path in (tmp_path / "handouts" / "hw").iterdir())
    assert names[:2] == ["C-001.zip", "C-002.zip"]
    assert len({name.lower() for name in names}) == 4
    assert "con.zip" not in names
    with zipfile.ZipFile(tmp_path / "handouts" / "hw" / "C-002.zip") as archive:
        archive.extractall(tmp_path / "there")
    assert remembered(tmp_path / "there" / "hw") == "C-002"


def test_the_same_handout_gives_the_same_bytes(tmp_path: Path) -> None:
    one, two = (given_out(tmp_path / name, zips=True) for name in ("a", "b"))
    files = [path.relative_to(one) for path in one.rglob("*") if path.is_file()]
    assert len(files) == 3 + 3 + 4 + 1
    for path in files:
        if path.name != "nbgrader_config.py":  # it names the course after its folder
            assert (one / path).read_bytes() == (two / path).read_bytes()


def test_rooms_differ_by_trainee_and_are_marked_as_given(tmp_path: Path) -> None:
    home = given_out(tmp_path, names=("landing-which-screws", "porch-what-to-say"), variants=True)
    assert not (home / "exercises").exists()
    with (home / VARIANTS / "hw" / GIVEN).open(newline="") as file:
        given = {row["candidate"]: row for row in csv.DictReader(file)}
    assert {row["exercise"] for row in given.values()} == {"landing-which-screws"}
    assert len({row["bundle"] for row in given.values()}) == 4
    for number, other in (("C-001", "C-001"), ("C-002", "C-001")):
        head = {"schema": 1, "exercise": "landing-which-screws", "bundle": given[other]["bundle"]}
        bundle = bundle_in(home, other)
        record = head | {
            "variant": bundle.variant,
            "revision": 1,
            "saved_at": "",
            "answer": {"chosen": ["F1"]},
        }
        path = home / "submitted" / number / "hw" / "answers" / "x.json"
        path.parent.mkdir(parents=True)
        path.write_text(json.dumps(record), encoding="utf-8")
    rows = {(row.trainee, row.exercise): row for row in mark_folder(home, home / "out").rows()}
    assert rows["C-001", "landing-which-screws"].status == "marked"
    assert rows["C-001", "landing-which-screws"].bundle == given["C-001"]["bundle"]
    swapped = rows["C-002", "landing-which-screws"]
    assert (swapped.status, swapped.score) == ("other-bundle", 0.0)
    assert swapped.note.endswith("It answers the variant that was given to C-001.")


def bundle_in(home: Path, number: str) -> Bundle:
    """Return what a trainee's zip holds for the exercise that varies."""
    with zipfile.ZipFile(home / "handouts" / "hw" / f"{number}.zip") as archive:
        bundle = Bundle(json.loads(archive.read("hw/landing-which-screws.bundle.json")))
        assert bundle.exercise.question.strip().splitlines()[0] in json.dumps(
            json.loads(archive.read("hw/hw.ipynb")), ensure_ascii=False
        )
    return bundle


def test_the_key_stays_in_the_course_and_is_the_owners_alone(tmp_path: Path) -> None:
    home = given_out(tmp_path, names=("landing-which-screws",), variants=True)
    path = home / VARIANTS / KEY
    key = path.read_text().strip()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert not [name for name, text in texts(home).items() if key in text]
    before = (home / VARIANTS / "hw" / GIVEN).read_bytes()
    given_out(tmp_path, names=("landing-which-screws",), variants=True)
    assert (home / VARIANTS / "hw" / GIVEN).read_bytes() == before
    path.write_text("lost")
    with pytest.raises(FileFault, match="the key that zonelib handout wrote"):
        given_out(tmp_path, names=("landing-which-screws",), variants=True)


@pytest.mark.parametrize(
    ("wanted", "words"),
    [
        ({"assignment": "a/b"}, "letters, digits, dashes and underscores"),
        ({"zips": True, "classlist": ClassList()}, "--zip: found no class list; allowed: --class"),
        ({"variants": True, "classlist": ClassList()}, "--variants: found no class list"),
        ({"variants": True, "names": ("porch-what-to-say",)}, "at least one exercise with a table"),
        ({"names": ("no-such-thing",)}, "no-such-thing"),
    ],
)
def test_what_does_not_go_together_is_told(tmp_path: Path, wanted: dict[str, object], words: str) -> None:
    with pytest.raises(FileFault, match=words):
        given_out(tmp_path, **wanted)


def test_the_command_names_every_bad_row_of_the_class_list(tmp_path: Path) -> None:
    (tmp_path / "class.csv").write_text("candidate\nC 1\nC-2\nc-2\n")
    ran = run("handout", *NAMES, "--class", str(tmp_path / "class.csv"), "--out", str(tmp_path))
    assert isinstance(ran.exception, FileFault)  # which the command line prints, and ends with status 2
    assert "line 2: found" in str(ran.exception)
    assert "line 4: found c-2, which line 3 has as well" in str(ran.exception)


def test_a_made_up_class_is_the_same_each_time_and_begins_the_same(tmp_path: Path) -> None:
    exercises = ("bedroom-drop", "landing-which-screws")
    for name, trainees in (("a", 7), ("b", 7), ("c", 3)):
        demo_class(tmp_path / name, trainees=trainees, exercises=exercises)
    one, two, three = (
        {path.relative_to(tmp_path / name): path.read_bytes() for path in files_of(tmp_path / name)}
        for name in "abc"
    )
    assert one == two
    assert len(three) > 9
    assert three.items() <= one.items()


def files_of(home: Path) -> list[Path]:
    return [path for path in (home / "submitted").rglob("*") if path.is_file()]
