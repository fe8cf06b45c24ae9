"""A measured room as an exercise: the shortest run is its model answer, or it is said that there is none."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from zonelib.cli.exercise import command
from zonelib.exercise.bundle import freeze
from zonelib.exercise.load import read_exercise
from zonelib.exercise.trial import trials
from zonelib.sheet.survey.work import Survey


@pytest.fixture
def survey(tmp_path: Path) -> Survey:
    made = Survey(tmp_path)
    made.open("bed")
    made.change("room", 0, height=2400, thickness=100, build="timber-stud")
    for length in (3000, 4000, 3000, 4000):
        made.change("walls", made.add_wall(), length=length)
    for wall, x in ((1, 800), (2, 3300)):
        made.change("accessories", made.add("accessories", wall, "socket"), x=x, y=450, width=146, height=86)
    return made


def test_it_is_in_order_and_its_answers_earn_what_it_says(survey: Survey) -> None:
    told = survey.make("ceiling.3", "S1")
    assert told.startswith("Written: rooms/bed-ceiling-3-s1.toml.")
    assert "Look at this before" not in told
    path = survey.store.path("bed-ceiling-3-s1", ".toml")
    checked = CliRunner().invoke(command, ["check", str(path)])
    assert checked.exit_code == 0, checked.output
    exercise = read_exercise(path)
    model, empty, *wrong = trials(exercise, freeze(exercise))
    assert model.result.score == model.result.points
    assert empty.result.score == 0
    assert len(wrong) >= 2
    assert all(one.result.score < one.result.points for one in wrong)


def test_the_run_is_drawn_from_middle_to_middle(survey: Survey) -> None:
    """By hand: level from S1, whose x is 800, to S2, at 3000 + 3300."""
    survey.make("S1", "S2")
    exercise = read_exercise(survey.store.path("bed-s1-s2", ".toml"))
    assert exercise.model["points"] == [[800, 450], [6300, 450]]


def test_the_way_back_is_the_same_cable(survey: Survey) -> None:
    survey.make("S1", "ceiling.3")
    assert survey.store.path("bed-ceiling-3-s1", ".toml").exists()


def test_no_run_is_said_and_nothing_written(survey: Survey) -> None:
    """S1 lies between two doors, under a hatch: its strips end at all three."""
    for kind, x, y, width, height in (
        ("door", 200, 0, 500, 2000), ("door", 900, 0, 800, 2000), ("hatch", 701, 800, 198, 500),
    ):  # fmt: skip
        at = survey.add("openings", 1, kind)
        survey.change("openings", at, x=x, y=y, width=width, height=height)
    survey.change("accessories", 0, width=86)
    assert not survey.state.told
    assert survey.make("ceiling.3", "S1").startswith("There is no run in the zones from there to S1.")
    assert sorted(path.name for path in survey.store.folder.iterdir()) == ["bed.notes.json", "bed.toml"]


@pytest.mark.parametrize(
    ("start", "end", "told"),
    [
        ("S1", "S1", "Choose two different ends."),
        ("ceiling.1", "ceiling.2", "Choose two different ends."),
        ("S9", "S1", "Measure the room and two accessories first."),
    ],
)
def test_ends_that_make_no_cable_are_told(survey: Survey, start: str, end: str, told: str) -> None:
    assert told in survey.make(start, end)
