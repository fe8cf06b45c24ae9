"""The plan of a measured room: does it close, by how much not, and what is made of a gap; all by hand."""

import pytest

from zonelib.sheet.survey.closing import closing
from zonelib.sheet.survey.notes import Notes
from zonelib.sheet.survey.sketch import plan_svg, plan_words
from zonelib.sheet.survey.walk import Walk

RIGHT = (90.0,) * 4


def notes(**parts: bool) -> Notes:
    return Notes(schema=1, name="bed", walls=[{}], **parts)  # type: ignore[arg-type]


def test_four_right_turns_close_and_begin_up_the_page() -> None:
    walk = Walk((3000, 4000, 3000, 4000), RIGHT)
    assert walk.closes
    assert walk.plan() == ((0, 0), (0, 3000), (4000, 3000), (4000, 0))
    assert list(closing(walk, notes())) == ["The plan closes with 4 walls."]


def test_a_chimney_breast_turns_left_twice() -> None:
    lengths, turns = (3000, 1500, 400, 1000, 400, 1500, 3000, 4000), (90, 90, -90, -90, 90, 90, 90, 90)
    walk = Walk(lengths, turns)
    assert walk.closes
    assert walk.plan()[2:6] == ((1500, 3000), (1500, 2600), (2500, 2600), (2500, 3000))


def test_a_room_with_a_slanting_wall_closes() -> None:
    walk = Walk((3000, 2000, 1414.2, 2000, 3000), (90, 45, 45, 90, 90))
    assert walk.closes
    assert walk.plan() == ((0, 0), (0, 3000), (2000, 3000), (3000, 2000), (3000, 0))


def test_a_gap_is_told_with_its_way_and_what_would_close_it() -> None:
    told = list(closing(Walk((3000, 4000, 3000, 3600), RIGHT), notes()))
    assert told == [
        "After 4 walls the plan is 400 mm from where it began: 400 mm to the left and 0 mm down the page.",
        "It would close if wall 2 were 3,600 mm long.",
        "It would close if wall 4 were 4,000 mm long.",
    ]


def test_turns_that_do_not_come_round_are_told() -> None:
    told = list(closing(Walk((3000, 4000, 3000, 4000), (90, 90, 90, 80)), notes()))
    assert told[-1] == "All turns add up to 350 degrees. Once round a room they make 360."


def test_a_small_gap_may_be_spread_and_square_walls_stay_square() -> None:
    walk = Walk((3000, 4000, 3000, 4010), RIGHT)
    assert not walk.closes
    assert walk.may_spread
    assert walk.plan() == ((0, 0), (0, 3000), (4005, 3000), (4005, 0))
    assert list(closing(walk, notes(spread=True))) == ["A gap of 10 mm is spread over the walls."]


# Two in a hundred of 14 m are 280 mm.
@pytest.mark.parametrize(("last", "may"), [(4000 + 282, True), (4000 + 290, False)])
def test_a_large_gap_is_no_slip_of_the_tape(last: float, may: bool) -> None:
    assert Walk((3000, 4000, 3000, last), RIGHT).may_spread is may


def test_the_first_walls_are_told_without_blame() -> None:
    told = list(closing(Walk((3000, 4000), (90, 90)), notes()))
    way = "4,000 mm to the left and 3,000 mm down the page"
    assert told == [f"After 2 walls the plan is 5,000 mm from where it began: {way}."]
    assert next(closing(None, notes())).startswith("A wall has no length or no turn yet.")


def test_the_sketch_is_told_in_words_and_shows_the_gap_dashed() -> None:
    walk = Walk((3000, 4000, 3000, 3600), (90, 90, 0, -90))
    assert "wall 3, 3,000 mm, then straight on; wall 4, 3,600 mm, then 90 degrees to the left" in plan_words(
        walk
    )
    assert "stroke-dasharray" in plan_svg(walk)
    assert "stroke-dasharray" not in plan_svg(Walk((3000, 4000, 3000, 4000), RIGHT))
