"""What a trainee might try instead of the job earns what it should."""

from typing import Any

import pytest

from tests.exercise.answers import Answer, exercise, marked, names_of
from zonelib.exercise.kinds.route.task import RouteTask

NAMES = names_of("route")
COUNTS = "earthed-steel-conduit"


def model(name: str, **changed: Any) -> Answer:
    return {**exercise(name).model, **changed}


def first_reason(name: str, answer: Answer) -> tuple[float, str]:
    result = marked(name, answer)
    return result.score, result.criteria[0].reason


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("part", [{"supply": "selv"}, {"joins": []}, {"cable": {"width": 1, "thickness": 1}}])
def test_an_answer_cannot_carry_what_belongs_to_the_exercise(name: str, part: Answer) -> None:
    result = marked(name, model(name, **part))
    assert (result.status, result.score) == ("unreadable", 0.0)
    assert next(iter(part)) in result.note


@pytest.mark.parametrize("name", NAMES)
def test_a_stub_in_the_zone_earns_nothing(name: str) -> None:
    points = exercise(name).model["points"]
    legs = [part for part in ("depth", "protection", "via") if part in exercise(name).model]
    one_leg = {part: exercise(name).model[part][:1] for part in legs}
    score, reason = first_reason(name, model(name, points=points[:2], **one_leg))
    assert score == 0.0
    missed = reason.split("does not touch ")[1].split(".")[0]
    assert exercise(name).task_as(RouteTask).joins[-1] in missed


@pytest.mark.parametrize("name", NAMES)
def test_a_route_from_somewhere_else_earns_nothing(name: str) -> None:
    x, y = exercise(name).model["points"][0]
    moved = model(name, points=[[x, y - 2], *exercise(name).model["points"][1:]])
    score, reason = first_reason(name, moved)
    assert score == 0.0
    assert "does not start at the given point" in reason


@pytest.mark.parametrize("name", [name for name in NAMES if exercise(name).task_as(RouteTask).wall])
def test_a_route_off_the_wall_earns_nothing(name: str) -> None:
    (x, y), *rest = exercise(name).model["points"]
    count = len(rest) + 1
    legs = {"depth": [15] * count, "protection": ["none"] * count, "rcd": {"ma": 30}}
    score, reason = first_reason(name, {"points": [[x, y], [x, y + 100], *rest], **legs})
    assert score == 0.0
    assert "leaves the wall" in reason


@pytest.mark.parametrize(
    "name", [name for name in NAMES if "protection" not in exercise(name).task_as(RouteTask).open]
)
def test_a_covering_that_is_not_open_changes_nothing(name: str) -> None:
    points = exercise(name).model["points"]
    slant = {"points": [points[0], points[-1]], "rcd": {"ma": 30}}
    plain = marked(name, slant)
    armoured = marked(name, {**slant, "protection": ["armoured-cable"], "depth": [60]})
    assert armoured.score == plain.score < plain.points


def test_armour_all_the_way_is_not_on_offer() -> None:
    score, reason = first_reason("kitchen-hatch", model("kitchen-hatch", protection=["armoured-cable"] * 4))
    assert score == 0.0
    assert "armoured-cable is not on offer here" in reason


def test_shallow_conduit_all_the_way_loses_the_mark_for_covering_only() -> None:
    result = marked("kitchen-hatch", model("kitchen-hatch", protection=[COUNTS] * 4, depth=[9] * 4))
    assert [one.id for one in result.criteria if not one.met] == ["covering"]
    assert result.score == result.points - 1


@pytest.mark.parametrize("rcd", [{"ma": 100}, {"ma": 30, "at": "outlet"}, {"ma": 30, "delayed": True}, None])
@pytest.mark.parametrize("name", ["living-room-corner", "kitchen-hatch"])
def test_an_rcd_that_does_not_count_loses_its_two_marks(name: str, rcd: Answer | None) -> None:
    result = marked(name, model(name, rcd=rcd))
    assert [one.id for one in result.criteria if not one.met] == ["rcd"]
    assert result.score == result.points - 2


def test_a_depth_that_is_not_on_offer_earns_nothing() -> None:
    score, reason = first_reason("kitchen-hatch", model("kitchen-hatch", depth=[15, 15, 75, 15]))
    assert score == 0.0
    assert reason == "A depth of 75 mm is not on offer here. Choose 0 to 70 mm."


def test_no_route_in_the_zones_is_there_where_none_is_said_to_be() -> None:
    """The hatch wall, bare, along every way that keeps to doors, hatch and ceiling."""
    for x in (1440, 1480, 1565, 1650, 1690, 2720, 2850, 2980):
        way = [[1000, 2400], [1000, 2330], [x, 2330], [x, 950], [2200, 950]]
        bare = {"points": way, "depth": [15] * 4, "protection": ["none"] * 4, "rcd": {"ma": 30}}
        assert "zone" in [one.id for one in marked("kitchen-hatch", bare).criteria if not one.met], x


def test_a_run_kept_out_of_the_zones_so_that_it_needs_conduit_all_the_way_loses_the_covering() -> None:
    points = [[1000, 2400], [1000, 2200], [1565, 2200], [1565, 800], [2200, 800], [2200, 950]]
    conduit = [COUNTS] * 4 + ["none"]
    result = marked("kitchen-hatch", model("kitchen-hatch", points=points, depth=[5] * 5, protection=conduit))
    covering = next(one for one in result.criteria if "covered" in one.reason)
    assert (covering.met, covering.gained) == (False, 0.0)
    # 200 + 565 + 1400 + 635 mm in conduit; the model answer covers 1380 mm, a quarter more is let pass.
    assert covering.reason == "2,800 mm are covered; 1,725 mm are enough, with the rest in the zones."
