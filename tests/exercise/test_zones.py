"""Drawn zones: marks hang on the area drawn, and drawing more than the zones never pays."""

import json
import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.exercise.answers import Answer, bundle, check_promises, exercise, marked, model, names_of, scores
from zonelib.exercise import freeze, mark, read_record
from zonelib.exercise.kinds.zones.answer import ZonesAnswer, canonical
from zonelib.exercise.report import marked_scenes, result_html, result_text

NAMES = names_of("zones")
few = settings(max_examples=25, deadline=None)
number = st.floats(-500, 5000) | st.sampled_from([0.0, 150.0, 2250.0, 2400.0, 1e7, -1e7, 1e-300, 0.004])
rings = st.lists(st.tuples(number, number), max_size=6)


@few
@given(st.sampled_from(NAMES), st.lists(rings, max_size=5))
def test_no_drawing_whatever_makes_marking_stumble(name: str, areas: list[Any]) -> None:
    result = marked(name, {"areas": areas})
    check_promises(result)
    assert result_text(bundle(name), result)


@few
@given(st.sampled_from(NAMES), st.lists(rings, min_size=1, max_size=3))
def test_zones_with_anything_beside_them_keep_within_the_marks(name: str, areas: list[Any]) -> None:
    check_promises(marked(name, {"areas": [*model(name)["areas"][:3], *areas]}))


@few
@given(st.recursive(st.none() | st.booleans() | st.floats() | st.text(max_size=4), st.lists, max_leaves=8))
def test_what_is_no_drawing_earns_nothing_with_a_reason(areas: Any) -> None:
    text = json.dumps({"areas": areas})
    if "NaN" not in text and "Infinity" not in text:
        check_promises(marked(NAMES[0], json.loads(text)))


def corners(area: list[list[float]]) -> list[list[float]]:
    """Return a rectangle of two corners as a polygon of four; a polygon as it is."""
    if len(area) > 2:
        return area
    (x0, y0), (x1, y1) = area
    return [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]


def halved(area: list[list[float]]) -> list[list[list[float]]]:
    if len(area) > 2:
        return [area]
    (x0, y0), (x1, y1) = area
    return [[[x0, y0], [(x0 + x1) / 2, y1]], [[(x0 + x1) / 2, y0], [x1, y1]]]


def with_points_between(area: list[list[float]]) -> list[list[float]]:
    ring = corners(area)
    ends = zip(ring, [*ring[1:], ring[0]], strict=True)
    return [point for (x0, y0), (x1, y1) in ends for point in ([x0, y0], [(x0 + x1) / 2, (y0 + y1) / 2])]


STYLES: dict[str, Any] = {
    "the other way round": lambda areas: areas[::-1],
    "each twice": lambda areas: [*areas, *areas],
    "other corners first": lambda areas: [area[::-1] for area in areas],
    "as polygons": lambda areas: [corners(area) for area in areas],
    "from another corner": lambda areas: [corners(area)[2:] + corners(area)[:2] for area in areas],
    "closed": lambda areas: [[*corners(area), corners(area)[0]] for area in areas],
    "points between": lambda areas: [with_points_between(area) for area in areas],
    "in halves": lambda areas: [half for area in areas for half in halved(area)],
    "points twice": lambda areas: [[point for point in area for _ in (0, 1)] for area in areas],
}


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("name", NAMES)
def test_the_way_of_drawing_changes_no_mark(name: str, style: str) -> None:
    for areas in (
        model(name)["areas"],
        model(name)["areas"][1:],
        [*model(name)["areas"], [[300, 300], [900, 380]]],
    ):
        plain, styled = {"areas": areas}, {"areas": STYLES[style](areas)}
        assert scores(marked(name, styled)) == pytest.approx(scores(marked(name, plain)), abs=0.001)
        forms = [canonical(ZonesAnswer.model_validate(one)) for one in (plain, styled)]
        assert forms[0] == forms[1]


def whole(name: str) -> list[list[float]]:
    wall = bundle(name).case.walls[0]
    return [[0, 0], [wall.length, max(y for _, y in wall.profile)]]


@pytest.mark.parametrize("name", NAMES)
def test_the_whole_wall_earns_nothing(name: str) -> None:
    for areas in ([whole(name)], [whole(name), *model(name)["areas"]]):
        assert marked(name, {"areas": areas}).score == 0.0


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("share", [0.25, 0.5, 0.9])
def test_a_part_of_the_wall_without_thought_earns_next_to_nothing(name: str, share: float) -> None:
    (x0, y0), (x1, y1) = whole(name)
    for area in ([[x0, y0], [x1 * share, y1]], [[x0, y0], [x1, y1 * share]]):
        assert marked(name, {"areas": [area]}).score <= 0.1 * marked(name, {"areas": [area]}).points


@pytest.mark.parametrize("name", NAMES)
def test_each_zone_that_is_drawn_earns_its_part_alone(name: str) -> None:
    """Half of the zones earn about half of the marks: nothing is lost for what is still missing elsewhere."""
    every = model(name)["areas"]
    total = sum(marked(name, {"areas": [area]}).score for area in every)
    assert total == pytest.approx(marked(name, {"areas": every}).points, abs=0.05)


@pytest.mark.parametrize("out", [0, 5, 14])
def test_edges_within_the_slack_lose_nothing(out: float) -> None:
    grown = [
        [[x0 - out, y0 - out], [x1 + out, y1 + out]] for (x0, y0), (x1, y1) in model("bedroom-zones")["areas"]
    ]
    shrunk = [
        [[x0 + out, y0 + out], [x1 - out, y1 - out]] for (x0, y0), (x1, y1) in model("bedroom-zones")["areas"]
    ]
    for areas in (grown, shrunk):
        assert marked("bedroom-zones", {"areas": areas}).score == 10


@pytest.mark.parametrize(
    "answer",
    [
        {},
        {"areas": []},
        {"areas": [[]]},
        {"areas": [[[1, 1]]]},
        {"areas": [[[0, 5], [9, 5]]]},
        {"areas": [[[1, 1]] * 9]},
    ],
)
def test_nothing_drawn_earns_nothing(answer: Answer) -> None:
    result = marked("bedroom-zones", answer)
    assert (result.status, result.score, result.note) == ("empty", 0.0, "No zone is drawn yet.")


def test_what_lies_off_the_wall_earns_nothing_and_costs_nothing() -> None:
    outside = [[-900, -900], [-100, 3000]]
    assert marked("bedroom-zones", {"areas": [outside]}).score == 0.0
    assert marked("bedroom-zones", {"areas": [*model("bedroom-zones")["areas"], outside]}).score == 10


@pytest.mark.parametrize(
    ("areas", "note"),
    [
        ([[[0, 0], [9, 9]]] * 61, "at most 60 entries"),
        ([[[0, 0]] * 41], "at most 40 entries"),
        ([[[0, "x"]]], "allowed: a number"),
        ([[[0, 1, 2]]], "allowed: "),
    ],
)
def test_too_much_or_the_like_of_it_earns_nothing(areas: Any, note: str) -> None:
    result = marked("bedroom-zones", {"areas": areas})
    assert (result.status, result.score) == ("unreadable", 0.0)
    assert note in result.note


def test_each_zone_is_named_with_what_is_missed_and_what_goes_beyond() -> None:
    areas = [area for area in model("bedroom-zones")["areas"] if area != [[757, 0], [843, 2400]]]
    result = marked("bedroom-zones", {"areas": [*areas, [[0, 0], [3600, 150]], [[2127, 900], [2273, 2400]]]})
    titles = [one.title for one in result.messages]
    assert titles == ["Missed: L1 vertical"] + ["Drawn beyond the zones"] * 4
    texts = " ".join(one.text for one in result.messages)
    for said in (
        "It lies straight above and below L1.",
        "no zone along the floor",
        "S1 vertical ends at the opening",
    ):
        assert said in texts
    assert "S1 vertical (0%)" in next(one.reason for one in result.criteria if one.id == "upright")


def test_strips_that_do_not_serve_the_cable_are_named() -> None:
    result = marked("loft-zones", {"areas": [*model("loft-zones")["areas"], [[827, 0], [973, 2400]]]})
    assert any("S2 gives nothing to this cable" in one.text for one in result.messages)


@pytest.mark.parametrize("name", NAMES)
def test_the_picture_numbers_what_the_messages_tell(name: str) -> None:
    result = marked(name, {"areas": [*model(name)["areas"][1:], [[300, 100], [700, 300]]]})
    (scene,) = marked_scenes(bundle(name), result)
    numbers = {shape.n for shape in scene.shapes if shape.n}
    assert numbers == {one.n for one in result.messages}
    assert not any(math.isnan(value) for value in (scene.view.left, scene.view.bottom))
    assert f"{len(numbers)}</span>" in result_html(bundle(name), result)


def with_task(name: str, answer: Answer, **changes: Any) -> float:
    """Return the mark of an answer where the task asks something else."""
    data = exercise(name).model_dump(mode="json", by_alias=True, exclude_unset=True)
    changed = freeze(type(exercise(name)).model_validate({**data, "zones": {**data["zones"], **changes}}))
    asked = {"schema": 1, "exercise": name, "bundle": changed.hash, "revision": 1, "saved_at": "now"}
    return mark(changed, read_record(json.dumps({**asked, "answer": answer}))).score


def test_one_who_drills_expects_a_cable_past_the_window_as_well() -> None:
    run_on = exercise("bedroom-zones").wrong[0]["answer"]
    assert with_task("bedroom-zones", run_on, widest=True) == 10
    assert with_task("bedroom-zones", run_on) == marked("bedroom-zones", run_on).score < 7
    assert with_task("bedroom-zones", model("bedroom-zones"), widest=True) < 10


def test_a_cable_connected_to_nothing_has_top_and_corners_only() -> None:
    bands = {"areas": model("loft-zones")["areas"][:3]}
    plain = with_task("loft-zones", bands, joins=[])
    assert plain == 6  # of the strips' four marks none can be had, since no strip serves
    assert with_task("loft-zones", model("loft-zones"), joins=[]) < plain
