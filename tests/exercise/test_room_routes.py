"""Routes round a room: their true length, voids, the start wherever a round begins, and what is not open."""

from math import hypot
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.exercise.answers import Answer, bundle, check_promises, exercise, marked, model, scores
from tests.exercise.making import cable, case, made, stated
from zonelib.exercise.kinds.route.fitting import RouteFacts
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.report import marked_scenes, result_text

ROOM = "bedroom-over-the-ceiling"
few = settings(max_examples=60)
x = st.floats(-40_000, 40_000) | st.sampled_from([13200, 9650, 0, 15900, -15900, 3400, 1e7, -1e7])
y = st.floats(-100, 2500) | st.sampled_from([1200, 2400, 1700, 0])
ways = st.lists(st.sampled_from(["wall", "ceiling-void", "floor-void", "attic"]), max_size=5)
ROUND = 2 * (4200 + 3400) + 2 * 350  # the chimney breast stands out by 350 mm
LOST = "The route does not start at the given point (13,200, 1,200)."


@few
@given(st.lists(st.tuples(x, y), max_size=6), ways)
def test_no_way_whatever_makes_marking_stumble(points: list[Any], via: list[str]) -> None:
    result = marked(ROOM, {"points": points, "via": via})
    check_promises(result)
    fitting = marked(ROOM, {"points": points, "via": (via * 6)[: max(len(points) - 1, 0)]})
    check_promises(fitting)
    assert result_text(bundle(ROOM), fitting)


@few
@given(st.integers(0, 3), x, y, ways)
def test_a_model_answer_bent_out_of_shape_keeps_within_the_marks(
    at: int, px: float, py: float, via: list[str]
) -> None:
    answer = model(ROOM)
    answer["points"][at] = [px, py]
    result = marked(ROOM, {**answer, "via": (via + answer["via"])[:3]})
    check_promises(result)
    for scene in marked_scenes(bundle(ROOM), result):
        assert scene.description


def test_a_void_counts_by_its_length_across_the_plan() -> None:
    # From (2700, 0) on the near wall to (3850, 1700) on the breast, as the crow flies.
    whole = 1200 + hypot(3850 - 2700, 1700) + 700
    told = {one.id: one.reason for one in marked(ROOM, model(ROOM)).criteria}["length"]
    assert f"It is {whole:,.0f} mm long" in told
    assert bundle(ROOM).facts_as(RouteFacts).shortest <= whole


@pytest.mark.parametrize("turns", [-2, -1, 1])
def test_a_row_of_walls_goes_round_so_any_turn_is_the_same_route(turns: int) -> None:
    answer = model(ROOM)
    moved = {**answer, "points": [[x + turns * ROUND, y] for x, y in answer["points"]]}
    assert scores(marked(ROOM, moved)) == scores(marked(ROOM, answer))


def test_the_same_way_from_the_other_end() -> None:
    answer = model(ROOM)
    turned = {**answer, "points": answer["points"][::-1], "via": answer["via"][::-1]}
    assert marked(ROOM, turned).score == 11


@pytest.mark.parametrize(
    ("changed", "reason"),
    [
        ({"points": [[13200, 1300], *model(ROOM)["points"][1:]]}, LOST),
        (
            {"points": [[13200, 1200], [13200, 2000], [9650, 2000], [9650, 1700]]},
            "On leg 2 (b to c) the cable goes through the ceiling void",
        ),
        ({"via": ["wall"] * 2}, "via: found 2; allowed: one for all, or one per leg (3)"),
        (
            {"via": ["wall", "attic", "wall"]},
            "found \"attic\"; allowed: 'wall', 'ceiling-void' or 'floor-void'",
        ),
    ],
)
def test_what_makes_no_route_earns_nothing_and_says_why(changed: Answer, reason: str) -> None:
    result = marked(ROOM, {**model(ROOM), **changed})
    assert result.score == 0
    assert reason in result.criteria[0].reason or reason in result.note


def test_a_way_through_a_void_that_is_not_open_runs_in_the_wall() -> None:
    name = "bedroom-drop"
    assert "via" not in exercise(name).task_as(RouteTask).open
    through = {**model(name), "via": ["ceiling-void"] * 3}
    assert scores(marked(name, through)) == scores(marked(name, model(name)))


def test_the_whole_room_is_drawn_with_the_answer_in_it() -> None:
    (scene,) = marked_scenes(bundle(ROOM), marked(ROOM, model(ROOM)))
    assert scene.length == ROUND
    assert {"cable", "zone"} <= {one.css for one in scene.shapes}


@pytest.mark.parametrize(
    ("task", "fault"),
    [
        ({}, "route: found neither wall nor room; allowed: one of wall and room"),
        ({"wall": "W1", "room": "bed"}, "route: found both wall and room"),
        ({"room": "bed"}, 'route.room: found "bed"; allowed: nothing here'),
        (
            {"wall": "W1", "open": ["via"]},
            'route.open: found "via" for a single wall; allowed: depth, protection, rcd',
        ),
    ],
)
def test_a_task_that_does_not_fit_is_refused_in_words(tmp_path: Any, task: Any, fault: str) -> None:
    given = {key: value for key, value in cable().items() if key not in ("id", "points", "wall")}
    points = [[1200, 450], [1200, 2400]]
    with pytest.raises(ValueError, match="found") as caught:
        made(tmp_path, stated("route", {**given, **task}, case=case(), model={"points": points}))
    assert fault in str(caught.value)


def test_a_model_answer_that_is_no_route_is_named(tmp_path: Any) -> None:
    given = {key: value for key, value in cable().items() if key not in ("id", "points")}
    bad = {"points": [[1200, 450], [1200, 2400]], "depth": [20, 20]}
    with pytest.raises(
        ValueError, match=r"model\.depth: found 2; allowed: one for all, or one per leg \(1\)"
    ):
        made(tmp_path, stated("route", {**given, "open": ["depth"]}, model=bad))
