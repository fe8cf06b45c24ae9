"""An exercise file that does not fit together is refused, with everything amiss in it at once."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.exercise.answers import EASY, HARD, bundle
from zonelib.exercise import bank_path, read_exercise
from zonelib.exercise.notebook import write_homework
from zonelib.site.faults import FileFault
from zonelib.site.load import read_data


def faults_of(tmp_path: Path, data: dict[str, Any]) -> list[str]:
    path = tmp_path / "x.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(FileFault, match=r"x\.json: ") as caught:
        read_exercise(path)
    return [str(one) for one in caught.value.faults]


def data_of(name: str) -> dict[str, Any]:
    copy: dict[str, Any] = json.loads(json.dumps(read_data(bank_path(name))))
    return copy


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            {"check": "reech"},
            'criteria.reach.check: found "reech"; allowed: reach, length, covering (did you mean reach?)',
        ),
        (
            {"check": None, "rules": ["wall-zon"]},
            'criteria.reach.rules: found "wall-zon"; allowed: wall-zone, ',
        ),
        (
            {"check": None, "rules": ["joist-cover"]},
            'criteria.reach.rules: found "joist-cover"; allowed: wall-zone, ',
        ),
        ({"rules": ["wall-zone"]}, "criteria.reach: found both a check and rules; allowed: one of the two"),
        ({"check": None}, "criteria.reach: found neither a check nor rules; allowed: one of the two"),
        ({"needs": ["zone"]}, 'criteria.reach.needs: found "zone"; allowed: nothing here'),
        ({"id": "zone"}, "criteria.zone: found this id twice; allowed: each id once"),
        ({"marks": 0}, "criteria.reach.marks: found 0; allowed: above 0"),
    ],
)
def test_a_mistake_in_a_criterion_is_told_with_the_names_there_are(
    tmp_path: Path, change: dict[str, Any], said: str
) -> None:
    data = data_of(HARD)
    data["criteria"][0] = {
        key: value for key, value in {**data["criteria"][0], **change}.items() if value is not None
    }
    assert any(one.startswith(said) for one in faults_of(tmp_path, data))


def test_every_mistake_is_told_at_once(tmp_path: Path) -> None:
    data = data_of(HARD)
    data["criteria"][1]["rules"] = ["wall-zon"]
    data["criteria"][2]["needs"] = ["last"]
    data["aim"] = ["zones"]
    data["model"]["pints"] = 3
    data["route"]["joins"] = ["S9"]
    data["route"]["wall"] = "W9"
    said = " ".join(faults_of(tmp_path, data))
    for part in (
        "criteria.zone.rules",
        "criteria.rcd.needs",
        "aim",
        "model.pints",
        "joins",
        'wall: found "W9"',
    ):
        assert part in said


@pytest.mark.parametrize(
    ("kind", "said"),
    [
        ("rout", r'kind: found "rout"; allowed: route, '),
        (7, "kind: found 7; allowed: text in quotes"),
        (None, "kind: found nothing; allowed: this key is required"),
        ("__class__", 'kind: found "__class__"; allowed: route, '),
        ("../route", 'kind: found "../route"; allowed: route, '),
    ],
)
def test_a_kind_that_there_is_not_is_told_and_its_table_is_not_read(
    tmp_path: Path, kind: Any, said: str
) -> None:
    data = {key: value for key, value in {**data_of(EASY), "kind": kind}.items() if value is not None}
    assert [one for one in faults_of(tmp_path, data) if one.startswith(said)]
    assert not any(one.startswith("route") for one in faults_of(tmp_path, data))


def test_the_table_of_another_kind_is_told(tmp_path: Path) -> None:
    data = {**data_of(EASY), "zones": {"wall": "W1"}}
    assert any(
        one.startswith("zones: found a key that is not known here") for one in faults_of(tmp_path, data)
    )


def test_the_task_is_read_with_its_own_keys(tmp_path: Path) -> None:
    data = data_of(EASY)
    data["route"]["colour"] = "red"
    assert any(
        one.startswith("route.colour: found a key") and "joins" in one for one in faults_of(tmp_path, data)
    )


ZONES, JOIST, FIXINGS, INSPECT = "bedroom-zones", "landing-joist", "kitchen-cupboard", "dining-inspection"


def no_zone(data: dict[str, Any]) -> None:
    data["case"] = {"pack": "anz", "walls": [{**data["case"]["walls"][0], "accessories": []}]}


def no_fixing_rule(data: dict[str, Any]) -> None:
    data["case"] |= {"pack": "anz", "walls": [{**data["case"]["walls"][0], "accessories": []}], "routes": []}


def too_wide(data: dict[str, Any]) -> None:
    data["fixings"]["items"][0] |= {"width": 1800, "fixings": [[60, 650], [1740, 650]]}


def all_pass(data: dict[str, Any]) -> None:
    data["inspect"]["routes"] = ["R1"]


def all_fail(data: dict[str, Any]) -> None:
    data["inspect"]["routes"] = ["R2"]
    data["case"]["routes"][1] |= {"points": [[800, 450], [2600, 450]], "joins": []}


def no_reach(data: dict[str, Any]) -> None:
    data["case"]["routes"][0]["points"] = [[800, 2400], [800, 2300]]


@pytest.mark.parametrize(
    ("name", "change", "said"),
    [
        (ZONES, no_zone, "zones: found a face that has no zone; allowed: a face with a zone on it"),
        (
            ZONES,
            lambda data: data["criteria"][0].update(check="floor"),
            'criteria.top.check: found "floor", of which this',
        ),
        (ZONES, lambda data: data["zones"].update(joins=["S9"]), 'zones.joins: found "S9"; allowed: L1, S1'),
        (JOIST, lambda data: data["joist"].update(joist="J9"), 'joist.joist: found "J9"; allowed: J1'),
        (JOIST, lambda data: data["joist"].update(holes=[]), "joist: found neither holes nor notches"),
        (
            JOIST,
            lambda data: data["joist"].update(protections=["tape"]),
            'joist.protections: found "tape"; allowed: none',
        ),
        (
            JOIST,
            lambda data: data["case"]["joists"][0].update(kind="i-joist"),
            'case.joists.J1.kind: found "i-joist"',
        ),
        (JOIST, lambda data: data["case"]["joists"][0].update(depth=300), "case.joists.J1.depth: found 300"),
        (
            JOIST,
            lambda data: data["case"]["joists"][0].update(
                holes=[{"id": "A1", "x": 1400, "y": 100, "diameter": 9}]
            ),
            "case.joists.J1.holes.A1: found a name that the cuts of an answer have",
        ),
        (FIXINGS, lambda data: data["fixings"].update(wall="W9"), 'fixings.wall: found "W9"; allowed: W2'),
        (
            FIXINGS,
            lambda data: data["fixings"]["items"][1].update(id="C1"),
            "fixings.items.C1: found this id twice",
        ),
        (FIXINGS, too_wide, "fixings.items.C1: found a thing that can hang nowhere"),
        (
            FIXINGS,
            lambda data: data["fixings"]["items"][0].update(fixings=[[700, 10]]),
            "fixings.items.C1.fixings.#1: found 700, 10; allowed: a point within 0 to 600 and 0 to 700",
        ),
        (
            JOIST,
            lambda data: data["case"].update(pack="de"),
            'case.pack: found "de", which has no limits for',
        ),
        (FIXINGS, no_fixing_rule, 'case.pack: found "anz", which has no rule for fixings'),
        (ZONES, lambda data: data.update(variant="abc"), 'variant: found "abc"; allowed: nothing'),
        (
            "store-given-run",
            lambda data: data["model"].update(depth=[20, 20, 20]),
            "model.depth: found 3; allowed: one for all, or one per leg (2)",
        ),
        (INSPECT, all_pass, "case.routes: found cables that all pass; allowed: a stretch or more that fails"),
        (INSPECT, no_reach, "case.routes.R1: found a cable that fails route-joins"),
        (
            INSPECT,
            lambda data: data["inspect"].update(clauses=["522.6.201", "415.1.1"]),
            "inspect.clauses: found no 522.6.202, which fails here",
        ),
        (
            INSPECT,
            lambda data: data["inspect"].update(clauses=["1.2", "522.6.202"]),
            'inspect.clauses: found "1.2"',
        ),
        (
            INSPECT,
            lambda data: data["inspect"].update(also={"wall-rcd": ["2C30"]}),
            'inspect.also: found "2C30"',
        ),
        (INSPECT, lambda data: data["inspect"]["whys"][0].update(rule="x"), 'inspect.whys.rule: found "x"'),
    ],
)
def test_an_exercise_that_asks_what_cannot_be_answered_is_refused(
    tmp_path: Path, name: str, change: Any, said: str
) -> None:
    data = data_of(name)
    change(data)
    assert any(one.startswith(said) for one in faults_of(tmp_path, data)), faults_of(tmp_path, data)


def test_an_installation_that_fails_all_along_leaves_nothing_to_tell_apart(tmp_path: Path) -> None:
    data = data_of("study-inspection")
    data["inspect"]["routes"] = ["R2"]
    assert "case.routes: found cables that fail all along" in " ".join(faults_of(tmp_path, data))


def test_a_bundle_names_its_kind() -> None:
    assert bundle(ZONES).kind.name == bundle(ZONES).exercise.kind == "zones"
    with pytest.raises(TypeError, match="exercise bedroom-zones is of kind zones and has no RouteTask"):
        bundle(ZONES).exercise.task_as(bundle(EASY).kind.task)


def test_a_case_may_lie_in_a_file_of_its_own_and_its_faults_are_told_by_its_keys(tmp_path: Path) -> None:
    data = data_of(EASY)
    own = tmp_path / "wall.json"
    own.write_text(json.dumps(data["case"]), encoding="utf-8")
    path = tmp_path / "x.json"
    path.write_text(json.dumps({**data, "case": own.name}), encoding="utf-8")
    assert read_exercise(path).case == read_exercise(bank_path(EASY)).case
    data["case"]["walls"][0]["length"] = -1
    own.write_text(json.dumps(data["case"]), encoding="utf-8")
    assert any(
        one.startswith("case.walls.") and "length" in one
        for one in faults_of(tmp_path, {**data, "case": own.name})
    )


def test_a_file_that_lies_where_all_is_given_out_is_refused(tmp_path: Path) -> None:
    """It holds the model answer."""
    path = tmp_path / "mine.toml"
    path.write_bytes(bank_path(EASY).read_bytes())
    with pytest.raises(FileFault, match=r"the homework's own folder.* holds the model answer"):
        write_homework([str(path)], tmp_path, title="One")


def test_an_inspection_of_several_walls_is_refused_where_a_pad_shows_one(tmp_path: Path) -> None:
    data = data_of(INSPECT)
    wall, run = data["case"]["walls"][0], data["case"]["routes"][0]
    data["case"]["walls"].append({**wall, "id": "W99", "accessories": []})
    data["case"]["routes"].append({**run, "id": "R99", "wall": "W99", "joins": []})
    data["inspect"].pop("routes", None)
    path = tmp_path / "rooms" / "many.json"
    path.parent.mkdir()
    path.write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(FileFault, match='"inspect" on several walls, which a notebook has no pad for yet'):
        write_homework([str(path)], tmp_path / "hw", title="One")
