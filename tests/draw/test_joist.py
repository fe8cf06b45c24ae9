"""A joist from its side: what is cut in it, where cutting is allowed, and every number beside its cut."""

from typing import Any

import pytest
import shapely

from zonelib import load_pack
from zonelib.draw import svg
from zonelib.draw.joist import joist_scene
from zonelib.draw.scene import Scene
from zonelib.draw.shapes import Area
from zonelib.site.timber import Joist

HOLES = [{"id": f"H{n}", "x": 900 + 60 * n, "y": 100, "diameter": 20} for n in range(3)]
NOTCH = {"id": "N1", "x": 500, "length": 40, "depth": 20, "edge": "top", "protection": "steel-plate"}


def joist(**parts: Any) -> Joist:
    given = {"id": "J1", "kind": "solid", "depth": 200, "width": 47, "span": 3600}
    return Joist.model_validate({**given, **parts})


def scene(numbers: dict[str, list[int]] | None = None, *, limits: bool = True, **parts: Any) -> Scene:
    return joist_scene(joist(**parts), load_pack("uk"), numbers=numbers, limits=limits)


def bounds(css: str, drawn: Scene) -> list[tuple[float, ...]]:
    areas = [one for one in drawn.of(css) if isinstance(one, Area)]
    return [tuple(round(value, 6) for value in shapely.MultiPoint(one.rings[0]).bounds) for one in areas]


def test_it_shows_where_the_published_limits_let_holes_and_notches_lie() -> None:
    # LABC table (grade T): 0.25 to 0.4 and 0.07 to 0.25 of the span; cover of 50 mm, an eighth of the depth.
    left = [(252, 175, 900, 200), (900, 50, 1440, 150)]
    right = [(2160, 50, 2700, 150), (2700, 175, 3348, 200)]
    assert sorted(bounds("zone", scene())) == sorted(left + right)
    assert bounds("zone", scene(limits=False)) == []


def test_each_cut_is_drawn_in_its_place_and_told() -> None:
    drawn = scene(holes=HOLES, notches=[NOTCH])
    assert min(bounds("cut", drawn)) == (480, 180, 520, 200)
    assert len(drawn.of("cut")) == 4
    assert "N1, 40 long, 20 deep, a steel plate" in drawn.description
    assert len(drawn.of("covering")) == 1
    assert "<svg" in svg(drawn)


def test_a_cut_that_fails_is_dashed_and_has_its_numbers_beside_its_name() -> None:
    drawn = scene({"H0": [2], "H2": [1, 2]}, holes=HOLES)
    assert [one.name for one in drawn.of("cut-fails")] == ["H0", "H2"]
    assert [one.n for one in drawn.of("cut-fails")] == [2, 1]
    assert sorted(text.text for text in drawn.texts if text.css == "text-number") == ["1", "2", "2"]
    assert "H2, 20 across, at x 1,020; see number 1, 2." in drawn.description


@pytest.mark.parametrize("count", [1, 5, 12, 40])
def test_no_words_collide_however_much_is_cut(count: int) -> None:
    close = [{"id": f"H{n}", "x": 10 + 13 * n, "y": 100, "diameter": 9} for n in range(count)]
    drawn = scene({"H0": [1, 2, 3]}, holes=close, notches=[NOTCH])
    boxes = [(text.text, text.box.grown(-0.1 * drawn.em)) for text in drawn.texts]
    hits = [(a, b) for at, (a, one) in enumerate(boxes) for b, other in boxes[at + 1 :] if one.meets(other)]
    assert hits == []
    assert all(drawn.view.holds(text.box) for text in drawn.texts)


@pytest.mark.parametrize("parts", [{"depth": 90}, {"span": 600}, {"span": 12000}, {"depth": 1, "span": 1}])
def test_any_joist_can_be_drawn(parts: dict[str, Any]) -> None:
    assert "Joist J1" in scene(**parts).description
