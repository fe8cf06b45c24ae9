"""The picture to draw on tells whose zones serve this cable, where it shows zones at all."""

from tests.exercise.answers import bundle
from zonelib.draw.shapes import Text
from zonelib.sheet.kinds.route import blank_scene


def test_a_zone_that_does_not_serve_the_cable_is_told_apart() -> None:
    words = blank_scene(bundle("landing-first-run"), "front").description
    assert "straight above and below S1" in words
    assert "straight above and below L1" not in words
    assert "L1's zone is not for this cable" in words
    assert "Route" not in words


def test_where_no_zones_are_shown_none_are_told_and_no_depth_is_suggested() -> None:
    scene = blank_scene(bundle("kitchen-hatch"), "front")
    assert "Zone" not in scene.description
    written = [shape.text for shape in scene.shapes if isinstance(shape, Text)]
    assert len(written) > 10
    assert [text for text in written if "below the front" in text] == []
