"""A room measured step by step: notes come to a case, faults find their field, and all of it is kept."""

import json
from pathlib import Path
from typing import Any

import pytest

from zonelib.rules.engine import judge
from zonelib.rules.load import case_and_pack
from zonelib.sheet import SheetTrouble
from zonelib.sheet.survey import work
from zonelib.sheet.survey.fields import allowed, fields
from zonelib.sheet.survey.form import Form
from zonelib.sheet.survey.notes import as_typed, next_id
from zonelib.sheet.survey.page import drawing_html, status_html
from zonelib.sheet.survey.toml import as_toml
from zonelib.sheet.survey.work import Survey, packs

LOW = "a height not above 0. Allowed: heights above 0"
OFF = "x 2877 to 3023, y 407 to 493, off the wall. Allowed: x 0 to 3000, y 0 to 2400"
SOCKET = {"x": "800", "y": "450", "width": "146", "height": "86"}


@pytest.fixture
def survey(tmp_path: Path) -> Survey:
    """Return a bedroom of 3 by 4 m with a socket in its first wall."""
    made = Survey(tmp_path)
    made.open("bed")
    made.change("room", 0, height="2400", thickness="100", build="timber-stud")
    for length in ("3000", "4000", "3000", "4000"):
        made.change("walls", made.add_wall(), length=length)
    made.change("accessories", made.add("accessories", 1, "socket"), **SOCKET)
    return made


def words(survey: Survey) -> list[tuple[str, int, str, str]]:
    return [(one.group, one.at, one.key, one.words) for one in survey.state.told]


def test_each_change_is_in_a_case_file_that_the_engine_takes(survey: Survey) -> None:
    case, pack = case_and_pack(survey.store.path("bed", ".toml"))
    assert [wall.length for wall in case.walls] == [3000, 4000, 3000, 4000]
    assert list(case.walls[0].front.internal_corners) == [0, 3000]
    assert list(case.walls[0].accessories[0].bounds) == [727, 407, 873, 493]
    assert judge(case, pack).passed
    assert [path.name for path in survey.store.folder.iterdir() if path.suffix == ".part"] == []


def test_it_is_opened_where_it_was(survey: Survey, tmp_path: Path) -> None:
    survey.choose(step=4, spread=True)
    again = Survey(tmp_path)
    assert again.notes == survey.notes
    assert (again.notes.name, again.notes.step) == ("bed", 4)
    assert again.state.case == survey.state.case


def test_a_plan_half_walked_is_kept_though_no_case_can_be(tmp_path: Path) -> None:
    made = Survey(tmp_path)
    made.change("walls", made.add_wall(), length="3000")
    assert "The case file waits until the plan closes" in made.said
    assert Survey(tmp_path).notes.walls == [{"length": 3000, "turn": 90}]
    assert not made.store.path(made.notes.name, ".toml").exists()


# What is typed where, and how the case reader's fault is told at that field.
@pytest.mark.parametrize(
    ("group", "at", "typed", "told"),
    [
        ("room", 0, {"height": "2,4"}, ("room", 0, "height", 'Found "2,4". Allowed: a number.')),
        ("room", 0, {"thickness": "0"}, ("room", 0, "thickness", "Found 0. Allowed: above 0.")),
        ("walls", 1, {"thickness": "thin"}, ("own", 1, "thickness", 'Found "thin". Allowed: a number.')),
        ("walls", 2, {"height_left": "-5"}, ("own", 2, "height_left", f"Found {LOW}.")),
        ("walls", 2, {"finish": "-1"}, ("own", 2, "finish", "Found -1. Allowed: at least 0.")),
        ("accessories", 0, {"width": "nan"}, ("accessories", 0, "width", 'Found "nan". Allowed: a number.')),
        ("accessories", 0, {"x": "2950"}, ("accessories", 0, "", f"Found {OFF}.")),
    ],
)  # fmt: skip
def test_a_fault_is_told_at_its_field(
    survey: Survey, group: str, at: int, typed: dict[str, str], told: tuple[str, int, str, str]
) -> None:
    survey.change(group, at, **typed)
    assert told in words(survey)
    assert told[3] in status_html(survey).replace("&quot;", '"')


def test_what_is_at_fault_is_left_out_and_said_to_be(survey: Survey) -> None:
    survey.change("accessories", survey.add("accessories", 2, "socket"), **{**SOCKET, "x": "9000"})
    survey.add("openings", 3, "door")
    assert survey.state.left_out == ("D1", "S2")
    assert survey.state.case is not None
    assert [one.id for wall in survey.state.case.walls for one in wall.accessories] == ["S1"]
    assert "Left out of the drawing: D1, S2. Expect a cable there all the same." in drawing_html(survey)


def test_openings_that_cross_are_told_and_left_out(survey: Survey) -> None:
    for x in ("100", "500"):
        at = survey.add("openings", 1, "window")
        survey.change("openings", at, x=x, y="900", width="600", height="900")
    assert any("an opening that crosses" in one for *_, one in words(survey))
    assert survey.state.left_out


def test_a_wall_of_its_own_kind(survey: Survey) -> None:
    survey.change("walls", 1, height_left="2400", height_right="1500", knee_x="1000", knee_y="2400")
    survey.change("walls", 2, thickness="75", build="metal-stud", finish="15")
    assert not survey.state.told
    assert survey.state.case is not None
    _, second, third, _ = survey.state.case.walls
    assert list(second.profile) == [(0, 2400), (1000, 2400), (4000, 1500)]
    assert (third.thickness, third.build, third.front.finish) == (75, "metal-stud", 15)


def test_the_regions_to_avoid_count_what_is_hidden(survey: Survey) -> None:
    """By hand: 150 mm and half of a 6 mm drill and of a 20 mm cable are 163; a socket of 146 reaches 86."""
    survey.change("accessories", 0, hidden=True)
    shown = survey.avoided()
    assert shown is not None
    assert shown.words["bed.1"] == (
        "From 2,237 to 2,400 mm above the floor (within 150 mm of the top of the wall).",
        "From 0 to 163 mm from the left end (within 150 mm of a corner).",
        "From 2,837 to 3,000 mm from the left end (within 150 mm of a corner).",
        "From 714 to 886 mm from the left end (straight above and below S1).",
        "From 394 to 506 mm above the floor (level with S1, to either side).",
    )
    assert "From 714 to 886 mm" in shown.scene.description
    assert len(shown.scene.of("zone")) >= 4


def test_a_region_that_goes_neither_all_along_nor_all_up_is_told_both_ways(survey: Survey) -> None:
    """By hand, for `de`: bands 150 to 450 mm from the floor, grown by 13; a switch's strip ends at a band."""
    survey.change("accessories", survey.add("accessories", 1, "switch"), x=1500, y=1500, width=86, height=86)
    survey.choose(pack="de")
    shown = survey.avoided()
    assert shown is not None
    assert "From 137 to 463 mm above the floor (150 to 450 mm above the floor)." in shown.words["bed.1"]
    (strip,) = [one for one in shown.words["bed.1"] if "from SW1 to the nearest level zone" in one]
    assert strip.startswith("From 1,444 to 1,556 mm from the left end, ")


def test_a_socket_on_the_other_side_of_a_thin_wall_counts(survey: Survey) -> None:
    survey.change("accessories", 0, face=True)
    shown = survey.avoided()
    assert shown is not None
    assert any("above and below S1" in one for one in shown.words["bed.1"])
    survey.change("walls", 0, thickness="101")
    thicker = survey.avoided()
    assert thicker is not None
    assert not any("above and below S1" in one for one in thicker.words["bed.1"])


def test_the_packs_words_on_drilling_stand_beside_the_drawing(survey: Survey) -> None:
    page = drawing_html(survey)
    for line in (*packs()["uk"].safety.drill, packs()["uk"].safety.aid):
        assert line in page
    assert "Nothing is known of the other side of these walls." in page
    survey.choose(drill="none")
    assert "The drawing comes once" in drawing_html(survey)


def test_a_wall_taken_out_takes_its_things_and_moves_the_rest(survey: Survey) -> None:
    survey.add("openings", 4, "door")
    survey.remove("walls", 0)
    assert survey.notes.accessories == []
    assert [one["wall"] for one in survey.notes.openings] == [3]


@pytest.mark.parametrize("name", ["", "a b", "../up", "x" * 41])
def test_a_name_that_no_file_should_have_is_refused(survey: Survey, name: str) -> None:
    with pytest.raises(SheetTrouble, match=r"cannot be used\. Allowed: letters, digits, - and _"):
        survey.open(name)
    assert survey.notes.name == "bed"


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        '{"schema": 2, "name": "bed"}',
        '{"schema": 1, "name": "bed", "room": 3}',
        '{"schema": 1, "name": "bed", "openings": [{"id": "D1", "kind": "door"}]}',
    ],
)
def test_notes_that_are_none_are_left_as_they_are(survey: Survey, tmp_path: Path, text: str) -> None:
    path = survey.store.path("bed", ".notes.json")
    path.write_text(text, encoding="utf-8")
    made = Survey(tmp_path)
    assert "holds no notes of a room" in made.said
    assert made.notes.name != "bed"
    assert path.read_text(encoding="utf-8") == text


def test_a_fault_of_the_program_is_told_in_words(survey: Survey, monkeypatch: pytest.MonkeyPatch) -> None:
    def breaks(*_: object, **__: object) -> None:
        raise ZeroDivisionError("by hand")

    monkeypatch.setattr(work, "made_exercise", breaks)
    assert "ZeroDivisionError, by hand" in survey.make("ceiling.3", "S1")
    monkeypatch.setattr(work, "avoided", breaks)
    assert "ZeroDivisionError, by hand" in Form(survey.folder)._drawing.value


def test_the_form_types_shows_and_opens_again(tmp_path: Path) -> None:
    form = Form(tmp_path)
    first = {one.field.key: one for one in form.panes[0]._editor.inputs}  # type: ignore[attr-defined]
    first["height"].widget.value = "24oo"
    assert 'Found "24oo". Allowed: a number.' in first["height"].hint.value.replace("&quot;", '"')
    first["height"].widget.value = "2400"
    assert first["height"].hint.value == "Allowed: more than 0."
    assert "Still to be measured." in first["thickness"].hint.value
    assert Form(tmp_path).survey.notes.room == {"height": 2400}


def test_another_country_brings_its_own_names(survey: Survey, tmp_path: Path) -> None:
    survey.choose(pack="de")
    form = Form(tmp_path)
    assert form.survey.pack.id == "de"
    assert set(packs()) == {"uk", "de"}


@pytest.mark.parametrize(
    ("text", "value"), [("12", 12), (" 12.5 ", 12.5), ("", None), ("3,6", "3,6"), (True, True)]
)
def test_what_is_typed(text: Any, value: Any) -> None:
    assert as_typed(text) == value


def test_names_do_not_meet() -> None:
    assert next_id("fused-connection", [{"id": "FC1"}, {"id": "FC3"}]) == "FC2"
    assert (next_id("switch", []), next_id("socket", [])) == ("SW1", "S1")


def test_ranges_follow_the_wall(survey: Survey) -> None:
    row = survey.notes.accessories[0]
    told = {one.key: allowed(one, row, survey.notes) for one in fields()["accessories"]}
    assert (told["x"], told["y"]) == ("73 to 2927", "43 to 2357")


def test_toml_is_read_back_as_it_was(survey: Survey) -> None:
    import tomllib

    data = {
        "a": 'x "y" \\ ü',
        "b": [[1, 2.5]],
        "c": True,
        "d": {"e": "two\nlines\n"},
        "f": [{"g": 1}, {"h": {"i": 2}}],
    }
    assert tomllib.loads(as_toml(data)) == data
    assert tomllib.loads(as_toml(survey.state.data)) == survey.state.data
    assert json.loads(json.dumps(survey.state.data)) == survey.state.data
