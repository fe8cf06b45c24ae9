"""A room unfolded: its walls side by side, a cable round its corners and through voids."""

import subprocess
from collections.abc import Callable
from itertools import combinations
from pathlib import Path
from typing import Any

from tests.draw.walls import UK, socket
from tests.rules.rooms import BEHIND, case_of, own, room, round_room
from zonelib.draw import Scene, room_scene
from zonelib.draw.shapes import Line
from zonelib.rules.engine import judge
from zonelib.site.load import case_from_data

Run = Callable[..., subprocess.CompletedProcess[str]]
LOW = round_room([(3600, 450), (2400, 450)], joins=["S1"])
OVER = round_room(
    [(1500, 1200), (1500, 2400), (8500, 2400), (8500, 1200)], via=["wall", "ceiling-void", "wall"]
)


def scene_of(*routes: dict[str, Any], rooms: Any = (), **options: Any) -> Scene:
    here = rooms or (room(walls=[own(2, socket("S1", 600, 450))]),)
    case = case_from_data(case_of(*here, routes=list(routes)), UK.vocabulary)
    return room_scene(case, "A", UK, findings=judge(case, UK).findings, **options)


def lines(scene: Scene, css: str) -> list[Line]:
    return [shape for shape in scene.of(css) if isinstance(shape, Line) and shape.part != "legend"]


def test_every_wall_is_named_and_every_joint_drawn() -> None:
    scene = scene_of()
    assert {"A.1", "A.2", "A.3", "A.4"} <= {text.text for text in scene.texts}
    assert sorted(line.points[0][0] for line in lines(scene, "corner")) == [3000, 7000, 10000]
    assert scene.title == "Room A, unfolded"
    assert scene.length == 14000


def test_the_failing_stretch_lies_where_its_wall_lies_in_the_row() -> None:
    """The finding is on wall A.1, 745 to 1200 mm along the route: in the row from x 2855 to 2400."""
    (line,) = lines(scene_of(LOW), "cable-fails")
    assert sorted(round(x, 1) for x, _ in line.points) == [2400, 2855]
    assert line.n == 1


def test_a_void_is_drawn_above_the_ceiling_with_its_word() -> None:
    scene = scene_of(OVER)
    (line,) = lines(scene, "cable-void")
    assert (line.points[0], line.points[-1]) == ((1500, 2400), (8500, 2400))
    assert max(y for _, y in line.points) > 2400
    assert "through the ceiling void" in {text.text for text in scene.texts}


def test_a_route_past_the_end_goes_on_at_the_start_of_the_row() -> None:
    scene = scene_of(round_room([(13000, 2300), (15000, 2300)]))
    spans = sorted(tuple(sorted(x for x, _ in line.points)) for line in lines(scene, "cable"))
    assert spans == [(0, 1000), (13000, 14000)]


def test_a_route_on_one_wall_of_the_room_is_drawn_in_the_row() -> None:
    upright = {**round_room([(600, 450), (600, 2330)], joins=["S1"]), "wall": "A.2"}
    del upright["room"]
    (line,) = lines(scene_of(upright), "cable")
    assert {x for x, _ in line.points} == {3600}


def test_steps_of_the_ceiling_are_drawn_as_they_are() -> None:
    low = room(walls=[own(2, socket("S1", 600, 450), height=2000), own(3, top=[[0, 2000], [3000, 2400]])])
    assert "Wall A.2: from 3,000 to 7,000, 2,000 mm high." in scene_of(rooms=(low,)).description


def test_no_two_labels_collide() -> None:
    behind = room("B", BEHIND, walls=[own(4, socket("S2", 1000, 450, locatable_from_reverse=True))])
    rooms = room(walls=[own(2, socket("S1", 600, 450))]), behind
    for routes in ((), (LOW,), (LOW, {**OVER, "id": "R2"})):
        scene = scene_of(*routes, rooms=rooms)
        boxes = [text.box.grown(-0.1) for text in scene.texts if text.part != "dimensions"]
        assert [(one, two) for one, two in combinations(boxes, 2) if one.meets(two)] == []


def test_a_room_is_drawn_by_the_command(zonelib: Run, root: Path, tmp_path: Path) -> None:
    case = root / "docs" / "examples" / "landing-and-bedroom.toml"
    made = zonelib("picture", case, "--room", "landing", "--out", "room.svg")
    assert made.returncode == 0, made.stderr
    assert "Room landing, unfolded" in (tmp_path / "room.svg").read_text()
    refused = zonelib("picture", case, "--room", "hall", "--out", "room.svg")
    assert refused.returncode == 2
    assert '--room: found "hall"; allowed: bed, landing.' in refused.stderr


def test_without_options_a_room_with_routes_is_drawn_unfolded(zonelib: Run, root: Path) -> None:
    case = root / "docs" / "examples" / "landing-and-bedroom.toml"
    made = zonelib("picture", case, "--out", "room.png")
    assert made.stdout.startswith("Wrote room.png\n"), made.stderr
