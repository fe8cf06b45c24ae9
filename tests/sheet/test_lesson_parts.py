"""What a lesson is made of: its file, its knobs, and how it is stored."""

from base64 import b64encode
from io import BytesIO
from pathlib import Path
from typing import Any

import nbformat
import pytest
from PIL import Image

from zonelib.sheet.lesson import store
from zonelib.sheet.lesson.data import Knob, read_lesson
from zonelib.sheet.lesson.knob import changed, start_of
from zonelib.sheet.trouble import SheetTrouble
from zonelib.site.faults import FileFault

DATA: dict[str, Any] = {
    "walls": [{"id": "W", "thickness": 100, "accessories": [{"id": "S1", "x": 900}]}],
    "routes": [{"id": "A", "points": [[1, 2], [3, 4]], "depth": 20, "rcd": {"ma": 30}}],
}


def knob(*paths: str, **parts: Any) -> Knob:
    return Knob.model_validate({"words": "x", "set": list(paths), **parts})


@pytest.mark.parametrize(
    ("path", "value", "found"),
    [
        ("walls.W.thickness", 75, lambda new: new["walls"][0]["thickness"]),
        ("walls.0.thickness", 75, lambda new: new["walls"][0]["thickness"]),
        ("walls.W.accessories.S1.x", 1, lambda new: new["walls"][0]["accessories"][0]["x"]),
        ("routes.A.points.1.0", 9, lambda new: new["routes"][0]["points"][1][0]),
        ("readings.sloping_top", "vertical", lambda new: new["readings"]["sloping_top"]),
    ],
)
def test_a_value_goes_where_its_path_leads(path: str, value: Any, found: Any) -> None:
    before = str(DATA)
    assert found(changed(DATA, [knob(path)], [value])) == value
    assert str(DATA) == before


def test_one_knob_may_set_several_places() -> None:
    new = changed(DATA, [knob("routes.A.points.0.1", "routes.A.points.1.1")], [7])
    assert new["routes"][0]["points"] == [[1, 7], [3, 7]]


def test_a_dash_takes_the_key_away() -> None:
    assert "rcd" not in changed(DATA, [knob("routes.A.rcd")], ["-"])["routes"][0]


@pytest.mark.parametrize(
    ("made", "start"),
    [
        (knob("walls.W.thickness", low=50, high=150), 100),
        (knob("walls.W.thickness", low=50, high=150, start=120), 120),
        (knob("routes.A.points.1.0", low=0, high=9), 3),
        (knob("routes.A.rcd", choices={"none": "-", "30": {"ma": 30}}), {"ma": 30}),
        (knob("routes.A.protection", choices={"none": "none", "plate": "steel-plate"}), "none"),
    ],
)
def test_a_knob_starts_as_told_or_as_the_case_has_it(made: Knob, start: Any) -> None:
    assert start_of(made, DATA) == start


@pytest.mark.parametrize(
    ("path", "told"),
    [
        ("walls.V.thickness", "The case has no V. It has: W"),
        ("routes.A.depth.0", "routes.A.depth.0 cannot be set: depth is one value there, 20"),
    ],
)
def test_a_path_that_leads_nowhere_is_told(path: str, told: str) -> None:
    with pytest.raises(SheetTrouble, match=told):
        changed(DATA, [knob(path)], [1])


def lesson_file(folder: Path, text: str) -> Path:
    path = folder / "x.toml"
    path.write_text(text, encoding="utf-8")
    return path


QUESTION = """
case = "w.toml"
[questions.q]
ask = "Which?"
choices = [ { words = "a", why = "b", right = %s }, { words = "c", why = "d", right = %s } ]
"""


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (QUESTION % ("true", "true"), "2 choices are right; one has to be"),
        (QUESTION % ("false", "false"), "0 choices are right; one has to be"),
        ('case = "w.toml"\ncolour = "red"', "colour"),
        ('case = "w.toml"\n[live.a]\nknobs = []', "knobs"),
        ("clauses = []", "case"),
    ],
)
def test_the_faults_of_a_lessons_file_are_told(tmp_path: Path, text: str, told: str) -> None:
    with pytest.raises(FileFault, match=told):
        read_lesson(lesson_file(tmp_path, text))


def test_a_question_with_one_right_choice_is_read(tmp_path: Path) -> None:
    read = read_lesson(lesson_file(tmp_path, QUESTION % ("true", "false")))
    assert [choice.right for choice in read.questions["q"].choices] == [True, False]


def picture() -> str:
    made = BytesIO()
    Image.effect_noise((400, 300), 40).convert("RGB").save(made, "PNG")
    return b64encode(made.getvalue()).decode()


def output(**data: Any) -> Any:
    return nbformat.v4.new_output("display_data", data=data)  # type: ignore[no-untyped-call]


def test_a_stored_picture_is_small_and_still_a_picture_of_its_size() -> None:
    full = picture()
    small = store._smaller(full)
    assert len(small) < len(full) / 2
    assert store._smaller(small) == store._smaller(store._smaller(full))


def test_a_widget_is_left_out_and_an_error_stops_the_storing() -> None:
    assert store._is_widget(output(**{store.WIDGET: {"model_id": "m"}}))
    assert not store._is_widget(output(**{"text/plain": "words"}))
    broken = nbformat.v4.new_output("stream", name="stderr", text="a warning")  # type: ignore[no-untyped-call]
    with pytest.raises(RuntimeError, match=r"01\.ipynb: a cell shows stream"):
        store._kept(broken, Path("01.ipynb"))
