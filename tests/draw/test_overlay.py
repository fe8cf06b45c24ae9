"""Marks laid over a drawing: under what is there or over it, numbered off the words, with a key below."""

import pytest
import shapely
from shapely.geometry.base import BaseGeometry

from tests.draw.walls import case_of, scene_of, wall
from zonelib.draw import svg
from zonelib.draw.overlay import Mark, overlaid
from zonelib.draw.scene import Scene
from zonelib.draw.shapes import Area, Box, Disc, Line
from zonelib.site.model import Side

BAND = shapely.box(0, 2250, 1000, 2400)
FACES: tuple[Side, Side] = ("front", "rear")
KEY = {"zone": "a zone", "strayed": "drawn beyond", "missed": "not drawn"}


def drawn(*marks: Mark, face: Side = "front") -> Scene:
    scene = scene_of(case_of({"walls": [wall()]}), face)
    return overlaid(scene, marks, key=KEY)


def spread_of(shape: Area) -> Box:
    return Box(*shapely.MultiPoint(shape.rings[0]).bounds)


def test_a_zone_lies_under_the_outline_and_a_stroke_over_it() -> None:
    order = [
        shape.css
        for shape in drawn(
            Mark(css="zone", shape=BAND, alt="A zone."), Mark(css="missed", shape=BAND, alt="Not drawn.", n=1)
        ).shapes
    ]
    assert order.index("face") < order.index("zone") < order.index("outline") < order.index("missed")


def test_the_key_tells_what_is_used_and_nothing_else() -> None:
    plain = drawn()
    assert plain == drawn()
    keyed = drawn(Mark(css="missed", shape=BAND, alt="Not drawn."))
    assert [text.text for text in keyed.texts if text.text in KEY.values()] == ["not drawn"]
    assert keyed.view.bottom < plain.view.bottom
    assert all(keyed.view.holds(text.box) for text in keyed.texts)
    (paper,) = keyed.of("paper")
    assert isinstance(paper, Area)
    assert spread_of(paper) == keyed.view


def test_a_mark_tells_in_words_what_it_shows() -> None:
    scene = drawn(Mark(css="strayed", shape=BAND, alt="Number 1: no zone.", n=1))
    assert scene.description.endswith("Number 1: no zone.")
    (area,) = [shape for shape in scene.of("strayed") if shape.part == "findings"]
    assert (area.alt, area.n) == ("Number 1: no zone.", 1)
    assert 'data-n="1"' in svg(scene)


def test_hatching_stays_within_its_area() -> None:
    hatch = [
        one
        for one in drawn(Mark(css="strayed", shape=BAND, alt="")).of("strayed-hatch")
        if one.part == "findings"
    ]
    assert len(hatch) > 5
    for line in hatch:
        assert isinstance(line, Line)
        assert BAND.buffer(0.01).covers(shapely.LineString(line.points))


def test_the_rear_is_mirrored() -> None:
    front, rear = (drawn(Mark(css="missed", shape=BAND, alt=""), face=face) for face in FACES)
    (there,), (here,) = (
        [one for one in scene.of("missed") if one.part == "findings"] for scene in (front, rear)
    )
    assert isinstance(there, Area)
    assert isinstance(here, Area)
    assert spread_of(there).left == 0
    assert spread_of(here).right == front.length


@pytest.mark.parametrize("shape", [BAND, shapely.MultiPoint([(1200, 450), (1200, 300), (1400, 700)])])
def test_a_number_keeps_off_words_and_accessories(shape: BaseGeometry) -> None:
    scene = drawn(Mark(css="missed", shape=shape, alt="", n=7))
    (disc,) = (one for one in scene.of("number") if isinstance(one, Disc))
    words = [text.box for text in scene.texts if text.text != "7"]
    things = [spread_of(one) for one in scene.shapes if isinstance(one, Area) and one.part == "accessories"]
    assert not any(disc.box.meets(box) for box in [*words, *things])
