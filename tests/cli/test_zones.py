"""What `zonelib zones` promises: GeoJSON areas per wall, face and set of joined accessories."""

from pathlib import Path
from typing import Any

import pytest
import shapely

from tests.cli.files import UP, lines, run, written
from tests.rules.cases import accessory, one_route, opening, route
from tests.rules.rooms import BEHIND, BESIDE, case_of, room

# DESIGN 4, the contract
PROPERTIES = {"wall", "face", "source", "clause", "reason"}
SLOPE = [(0, 2400), (1000, 600), (1800, 1500), (3600, 300)]
WALLS: dict[str, dict[str, Any]] = {
    "plain": {},
    "thin": {"thickness": 100, "accessories": [accessory("S1", 1200, 450, locatable_from_reverse=True)]},
    "slope": {"top": SLOPE, "front": {"internal_corners": [0, 1000, 3600]}},
    "cut": {"openings": [opening("O1", 1150, 900, 60, 600), opening("D1", 2000, 0, 800, 2000, kind="door")]},
    "low": {"height": 500},
    "touching": {"top": [(0, 493), (1200, 2400), (3600, 493)]},
    "along an edge": {"top": [(0, 2400), (1500, 407), (1800, 407), (3600, 2400)], "accessories": [
        accessory("S1", 500, 450)
    ]},
}  # fmt: skip
READINGS = [{}, {"sloping_top": "perpendicular", "openings_cut_strips": "no", "borrow_zones": "yes"}]


def features(tmp_path: Path, data: dict[str, Any]) -> list[dict[str, Any]]:
    result = run("zones", "--json", written(tmp_path, "case.json", data))
    assert result.exit_code == 0
    (line,) = lines(result)
    assert line["type"] == "FeatureCollection"
    assert (line["file"], line["pack"]) == (str(tmp_path / "case.json"), "uk")
    assert "not checked against A4:2026" in line["edition"]
    found: list[dict[str, Any]] = line["features"]
    return found


@pytest.mark.parametrize("readings", READINGS)
@pytest.mark.parametrize("wall", WALLS)
def test_every_feature_is_an_area_with_closed_rings(
    tmp_path: Path, wall: str, readings: dict[str, str]
) -> None:
    for feature in features(tmp_path, one_route(UP, **WALLS[wall], readings=readings)):
        assert set(feature) == {"type", "geometry", "properties"}
        assert feature["type"] == "Feature"
        geometry = feature["geometry"]
        polygons = [geometry["coordinates"]] if geometry["type"] == "Polygon" else geometry["coordinates"]
        assert geometry["type"] in {"Polygon", "MultiPolygon"}
        for rings in polygons:
            assert all(ring[0] == ring[-1] and len(ring) >= 4 for ring in rings)
            assert shapely.LinearRing(rings[0]).is_ccw
            assert not any(shapely.LinearRing(hole).is_ccw for hole in rings[1:])
        shape = shapely.geometry.shape(geometry)
        assert shape.is_valid
        assert shape.area > 1


def test_the_properties_of_a_feature(tmp_path: Path) -> None:
    data = one_route(UP, front={"internal_corners": [0]})
    for feature in features(tmp_path, data):
        properties = feature["properties"]
        assert set(properties) >= PROPERTIES
        assert properties["wall"] == "W1"
        assert properties["face"] in {"front", "rear"}
        assert properties["source"] in {"top", "corner", "S1"}
        assert properties["clause"] == "522.6.202(i)"
        assert properties["reason"]


def test_each_route_s_joins_and_all_accessories_are_told_apart(tmp_path: Path) -> None:
    data = one_route(UP, accessories=[accessory("S1", 1200, 450), accessory("S2", 3000, 450)])
    data["routes"].append(route([(3000, 450), (3000, 2400)], id="R2", joins=["S2"]))
    sources: dict[str, set[str]] = {}
    for feature in features(tmp_path, data):
        if feature["properties"]["face"] == "front":
            sources.setdefault(feature["properties"]["joined"], set()).add(feature["properties"]["source"])
    assert sources == {"R1": {"top", "S1"}, "R2": {"top", "S2"}, "all": {"top", "S1", "S2"}}


def test_the_extent_of_each_zone(tmp_path: Path) -> None:
    # FACTS 1: 150 from the top and from a corner (Q), the accessory's own width (C).
    data = one_route(UP, front={"internal_corners": [1000]})
    boxes = [
        (feature["properties"]["source"], shapely.geometry.shape(feature["geometry"]).bounds)
        for feature in features(tmp_path, data)
        if (feature["properties"]["face"], feature["properties"]["joined"]) == ("front", "R1")
    ]
    assert sorted(boxes) == [
        ("S1", (0, 407, 3600, 493)),
        ("S1", (1127, 0, 1273, 2400)),
        ("corner", (850, 0, 1150, 2400)),
        ("top", (0, 2250, 3600, 2400)),
    ]


def test_a_wall_with_openings_keeps_no_zone_behind_them(tmp_path: Path) -> None:
    # DESIGN 5.3: seen along the strip from the accessory's centre line.
    door = [opening("D1", 2000, 0, 800, 2000, kind="door")]
    level = [
        shapely.geometry.shape(feature["geometry"]).bounds
        for feature in features(tmp_path, one_route(UP, openings=door))
        if "level" in feature["properties"]["reason"] and feature["properties"]["joined"] == "R1"
    ]
    assert level == [(0, 407, 2000, 493)]


def test_a_file_that_cannot_be_read(tmp_path: Path) -> None:
    path = written(tmp_path, "case.toml", 'pack = "uk"\nwall = 1\n')
    result = run("zones", "--json", path)
    assert result.exit_code == 2
    assert lines(result)[0]["error"].startswith(
        "wall: found a key that is not known here; allowed: schema, pack, "
    )
    plain = run("zones", path)
    assert (plain.exit_code, plain.stdout) == (2, "")
    assert "cannot be used" in plain.stderr


def test_the_report_gives_extent_reason_and_safety_words(tmp_path: Path) -> None:
    text = run("zones", written(tmp_path, "case.json", one_route(UP))).stdout
    assert "  W1 front, for route R1\n" in text
    assert "  W1 front, for all accessories\n" in text
    assert "x 1,127 to 1,273, y 0 to 2,400 mm: straight above and below S1 (522.6.202(i))" in text
    assert "Teaching aid. Local codes and a licensed electrician decide." in text


def test_a_drill_is_kept_out_of_every_zone_and_half_drill_and_cable_more(tmp_path: Path) -> None:
    """DESIGN 5, two-way caution: half the drill and half a 20 mm cable beside each zone (grade C)."""
    path = written(tmp_path, "case.json", one_route(UP, joins=[]))
    (line,) = lines(run("zones", "--json", "--drill", "6", path))
    assert (line["drill"], len(line["advice"]) >= 4) == (6, True)
    spans = {
        (one["properties"]["source"], shapely.geometry.shape(one["geometry"]).bounds)
        for one in line["features"]
        if one["properties"]["face"] == "front"
    }
    assert ("S1", (1200 - 73 - 13, 0, 1200 + 73 + 13, 2400)) in spans
    assert ("S1", (0, 450 - 43 - 13, 3600, 450 + 43 + 13)) in spans
    assert ("top", (0, 2400 - 150 - 13, 3600, 2400)) in spans


def test_where_not_to_drill_is_told_with_how_to_make_sure(tmp_path: Path) -> None:
    result = run("zones", "--drill", "5.5", written(tmp_path, "case.json", one_route(UP)))
    assert result.exit_code == 0
    assert "W1 front, keep a 5.5 mm drill out of" in result.output
    assert "Elsewhere the rules expect no cable. That is no promise" in result.output
    assert "prove dead" in result.output


@pytest.mark.parametrize("drill", ["0", "-1", "nan", "wide"])
def test_a_drill_of_no_width_is_refused(tmp_path: Path, drill: str) -> None:
    result = run("zones", "--drill", drill, written(tmp_path, "case.json", one_route(UP)))
    assert result.exit_code == 2
    assert "--drill" in result.output


def test_of_a_rear_without_a_room_nothing_is_said_but_that(tmp_path: Path) -> None:
    """What is unsure is never told as free: a rear is known where a room lies behind it."""
    data = case_of(room(), room("B", BEHIND), room("C", BESIDE))
    (line,) = lines(run("zones", "--json", "--drill", "6", written(tmp_path, "case.json", data)))
    faces = {(one["properties"]["wall"], one["properties"]["face"]) for one in line["features"]}
    assert ("A.2", "rear") in faces
    assert ("A.1", "rear") not in faces
    assert line["advice"][0].startswith("Nothing is known of what is behind A.1, A.3, A.4, B.1")
