"""Files of other versions: an older one is read with a note, step by step; a newer one is refused."""

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from zonelib.coach.mastery.record import read_record as read_progress
from zonelib.exercise.answer import read_record
from zonelib.exercise.bundle import freeze, read_bundle
from zonelib.exercise.handin import read_hand_in
from zonelib.exercise.load import exercise_path, read_exercise
from zonelib.rules.course import read_course
from zonelib.rules.load import read_case
from zonelib.rules.pack import load_pack
from zonelib.site import upgrades
from zonelib.site.faults import FileFault
from zonelib.site.upgrades import NEWEST, OlderFile, Step, upgraded

CASE = 'pack = "uk"\n'
NEWER = "schema: found version 2, of a newer zonelib"


def test_every_step_up_is_there_for_every_version_that_was_ever_written() -> None:
    for kind, newest in NEWEST.items():
        assert set(range(1, newest)) == {version for name, version in upgrades.STEPS if name == kind}


def test_steps_follow_one_another_each_with_its_note(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(NEWEST, "case", 3)
    heights = Step("heights are in mm", lambda data: {**data, "height": 1000 * data["height"]})
    named = Step("the pack has a name", lambda data: {**data, "pack": "uk"})
    monkeypatch.setattr(upgrades, "STEPS", {("case", 1): heights, ("case", 2): named})
    with pytest.warns(OlderFile) as noted:
        data = upgraded("case", {"height": 2.4}, file="wall.toml")
    assert data == {"schema": 3, "height": 2400, "pack": "uk"}
    assert [str(one.message) for one in noted] == [
        "wall.toml is read as version 2: heights are in mm. The file itself stays as it is.",
        "wall.toml is read as version 3: the pack has a name. The file itself stays as it is.",
    ]


def test_a_file_of_today_is_left_alone() -> None:
    data = {"schema": 1, "pack": "uk"}
    assert upgraded("case", data, file="wall.toml") is data


@pytest.mark.parametrize("version", ["1", 1.5, True, None, [1]])
def test_what_is_no_version_is_left_to_the_model_to_tell(version: Any) -> None:
    data = {"schema": version}
    assert upgraded("case", data, file="wall.toml") is data


READERS: dict[str, tuple[str, Callable[[Path], object]]] = {
    "case": ("wall.toml", read_case),
    "pack": ("own.toml", load_pack),
    "course": ("course.toml", read_course),
    "exercise": ("task.toml", read_exercise),
    "answer": ("answer.json", lambda path: read_record(path.read_text())),
    "hand-in": ("hand-in.json", lambda path: read_hand_in(path.read_text())),
    "record": ("progress.json", lambda path: read_progress(path.read_text())),
}


def test_every_kind_of_file_is_tried_here() -> None:
    assert set(READERS) == set(NEWEST)


@pytest.mark.parametrize("kind", READERS)
def test_a_newer_file_is_refused_in_words(kind: str, tmp_path: Path) -> None:
    name, read = READERS[kind]
    path = tmp_path / name
    path.write_text(json.dumps({"schema": 2}) if name.endswith(".json") else "schema = 2\n" + CASE)
    with pytest.raises(FileFault, match=NEWER) as refused:
        read(path)
    assert "update zonelib" in str(refused.value)


def test_a_case_may_name_its_version(tmp_path: Path) -> None:
    (tmp_path / "wall.toml").write_text("schema = 1\n" + CASE)
    assert read_case(tmp_path / "wall.toml").pack == "uk"


def test_a_bundle_of_a_newer_format_is_refused(tmp_path: Path) -> None:
    path = freeze(read_exercise(exercise_path("bedroom-drop"))).write(tmp_path)
    path.write_text(path.read_text(encoding="utf-8").replace('"format":1', '"format":2'), encoding="utf-8")
    with pytest.raises(FileFault, match="format: found 2; allowed: 1"):
        read_bundle(path)


def test_the_command_line_tells_of_an_older_file_in_one_line(tmp_path: Path) -> None:
    (tmp_path / "wall.toml").write_text(CASE)
    program = (
        "from zonelib.site import upgrades; from zonelib import cli; import sys\n"
        "upgrades.NEWEST['case'] = 2\n"
        "upgrades.STEPS['case', 1] = upgrades.Step('a test', lambda data: data)\n"
        f"sys.argv = ['zonelib', 'check', {str(tmp_path / 'wall.toml')!r}]\n"
        "cli.main()\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.stderr.splitlines()[0] == (
        f"Note: {tmp_path / 'wall.toml'} is read as version 2: a test. The file itself stays as it is."
    )
