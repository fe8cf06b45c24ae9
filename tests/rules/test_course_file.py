"""The course file: readings chosen once, and a sign-off that counts only for what was signed."""

import json
import re
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import jsonschema  # type: ignore[import-untyped]
import pytest
from click.testing import CliRunner

from tests.rules.cases import UK, one_route
from zonelib import FileFault, judge
from zonelib.cli.schema import command
from zonelib.rules.course import course_for, read_course
from zonelib.rules.load import case_and_pack
from zonelib.rules.pack import Pack, load_pack

SIGNED = {"edition": UK.edition, "by": "the course leader", "on": "2026-11-20"}
WORDS = "BS 7671:2018+A2:2022, checked against the book by the course leader on 20 November 2026"
UNCHECKED = "BS 7671:2018+A2:2022, 522.6 not checked against A4:2026"
TODAY = datetime.now().astimezone().date()


def course(*packs: dict[str, Any], **others: Any) -> dict[str, Any]:
    return {"schema": 1, "packs": list(packs), **others}


def written(folder: Path, name: str, data: dict[str, Any]) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / name
    path.write_text(json.dumps(data), encoding="utf-8")
    return path


def toml(folder: Path, text: str) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / "course.toml"
    path.write_text(text, encoding="utf-8")
    return path


def case(folder: Path, **changes: Any) -> Path:
    """Write a case that a reading decides: a cable straight over a socket it does not join."""
    return written(folder, "case.json", one_route([(1200, 450), (1200, 2400)], joins=[], **changes))


ENTRY = """schema = 1
[[packs]]
pack = "uk"
readings = { borrow_zones = "yes" }
checked = { edition = "BS 7671:2018+A2:2022", by = "the course leader", on = 2026-11-20 }
"""


def verdict_of(path: Path, **others: Any) -> tuple[bool, str]:
    verdict = judge(*case_and_pack(path, **others))
    return verdict.passed, verdict.edition


def test_without_a_course_file_a_verdict_says_what_was_not_checked(tmp_path: Path) -> None:
    assert verdict_of(case(tmp_path)) == (False, UNCHECKED)


@pytest.mark.parametrize("place", [".", "walls", "walls/upstairs"])
def test_the_nearest_course_file_above_a_case_counts(tmp_path: Path, place: str) -> None:
    toml(tmp_path, ENTRY)
    assert verdict_of(case(tmp_path / place)) == (True, WORDS)


def test_a_nearer_course_file_hides_one_farther_up(tmp_path: Path) -> None:
    toml(tmp_path, ENTRY)
    toml(tmp_path / "evening", 'schema = 1\npacks = [{ pack = "uk" }]')
    assert verdict_of(case(tmp_path / "evening")) == (False, UNCHECKED)


def test_one_beside_or_below_does_not_count(tmp_path: Path) -> None:
    toml(tmp_path / "other", ENTRY)
    toml(tmp_path / "class" / "deeper", ENTRY)
    assert course_for(tmp_path / "class") is None


def test_a_stated_course_file_hides_the_one_in_the_folder(tmp_path: Path) -> None:
    toml(tmp_path, ENTRY)
    other = read_course(written(tmp_path / "other", "mine.json", course({"pack": "uk"})))
    assert verdict_of(case(tmp_path), course=other) == (False, UNCHECKED)


def test_a_reading_of_the_case_overrides_the_course(tmp_path: Path) -> None:
    toml(tmp_path, ENTRY)
    assert verdict_of(case(tmp_path, readings={"borrow_zones": "no"})) == (False, WORDS)
    assert verdict_of(case(tmp_path, readings={"blank_plates": "no"})) == (True, WORDS)


def test_a_pack_that_the_course_does_not_name_is_left_as_it_is(tmp_path: Path) -> None:
    path = written(tmp_path, "course.json", course({"pack": "de", "readings": {"external_corners": "yes"}}))
    found = read_course(path)
    assert found.signed(UK) is UK
    assert found.chosen(UK, {"pack": "uk"}) == {"pack": "uk"}


def test_a_sign_off_in_json_says_the_same_as_in_toml(tmp_path: Path) -> None:
    found = read_course(written(tmp_path, "course.json", course({"pack": "uk", "checked": SIGNED})))
    assert found.signed(UK).stated_edition == WORDS


def altered(folder: Path, **changes: Any) -> Pack:
    data = UK.model_dump(mode="json", by_alias=True, exclude_defaults=True) | changes
    return load_pack(written(folder, "uk.json", data))


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (
            {"edition": "BS 7671:2018+A4:2026"},
            "A2:2022, not this edition, so that does not count",
        ),
        ({"country": "Elsewhere"}, "A2:2022, not this file of it, so that does not count"),
    ],
)
def test_a_sign_off_of_other_rules_does_not_count_and_says_so(
    tmp_path: Path, changes: dict[str, str], said: str
) -> None:
    toml(tmp_path, ENTRY)
    edition = verdict_of(case(tmp_path), pack=altered(tmp_path, **changes))[1]
    assert edition.endswith(f"522.6 not checked against A4:2026; the course signs off BS 7671:2018+{said}")
    assert "checked against the book" not in edition


def test_a_reading_that_another_file_of_the_pack_lacks_is_left_out(tmp_path: Path) -> None:
    found = read_course(
        toml(tmp_path, ENTRY.replace("borrow_zones", 'sloping_top = "vertical", borrow_zones'))
    )
    fewer = UK.model_copy(update={"readings": {"sloping_top": UK.readings["sloping_top"]}})
    assert found.chosen(fewer, {}) == {"readings": {"sloping_top": "vertical"}}


def test_readings_that_are_no_table_are_left_for_the_case_to_refuse(tmp_path: Path) -> None:
    toml(tmp_path, ENTRY)
    with pytest.raises(FileFault, match='readings: found "all"; allowed: a table'):
        case_and_pack(case(tmp_path, readings="all"))


def test_a_pack_by_its_path_is_signed_off_as_well(tmp_path: Path) -> None:
    changes = {"id": "ours", "edition": "BS 7671:2018+A4:2026"}
    altered(tmp_path, **changes)
    entry = {"pack": "uk.json", "checked": SIGNED | {"edition": changes["edition"]}}
    written(tmp_path, "course.json", course(entry))
    stated = read_course(tmp_path / "course.json")
    path = case(tmp_path / "walls", pack="../uk.json")
    edition = verdict_of(path, course=stated)[1]
    assert edition == WORDS.replace("A2:2022", "A4:2026")


def test_a_pack_cannot_sign_itself_off(tmp_path: Path) -> None:
    with pytest.raises(FileFault, match="checked: found a sign-off in the pack itself; allowed"):
        altered(tmp_path, checked=SIGNED)


ONE_FAULT = [
    ({"pack": "fr"}, 'packs.#1.pack: found "fr"; allowed: anz, de, uk, '),
    ({"pack": "none.toml"}, "packs.#1.pack, none.toml, the file: found No such file or directory"),
    ({"pack": "uk", "readings": {"borow_zones": "yes"}}, "#1.readings.borow_zones: found a reading that"),
    ({"pack": "uk", "readings": {"borrow_zones": "maybe"}}, 'borrow_zones: found "maybe"; allowed: no, yes'),
    ({"pack": "uk", "readings": {"borrow_zones": True}}, "borrow_zones: found true; allowed: text in quotes"),
    ({"pack": "uk", "checked": SIGNED | {"edition": "BS 7671:2018"}},
     '"BS 7671:2018+A2:2022", as the pack states it; a sign-off of another edition does not count'),
    ({"pack": "uk", "checked": SIGNED | {"on": "last week"}},
     'packs.#1.checked.on: found "last week"; allowed: a day, such as 2026-09-14'),
    ({"pack": "uk", "checked": SIGNED | {"on": 20261120}}, "found 20261120; allowed: a day, such as"),
    ({"pack": "uk", "checked": SIGNED | {"on": str(TODAY + timedelta(days=2))}},  # it may strike midnight
     "a day to come; allowed: a day up to today, 20"),
    ({"pack": "uk", "checked": SIGNED | {"by": " "}}, 'checked.by: found " "; allowed: a role or a name'),
    ({"pack": "uk", "checked": SIGNED | {"by": "a\nb"}}, "allowed: a role or a name, in one line"),
    ({"pack": "uk", "checked": {"edition": UK.edition, "by": "me"}}, "checked.on: found nothing; allowed"),
    ({"pack": "uk", "signed": {}}, "#1.signed: found a key that is not known here; allowed: pack, read"),
]  # fmt: skip


@pytest.mark.parametrize(("entry", "said"), ONE_FAULT)
def test_a_fault_is_told_with_its_place_and_what_is_allowed(
    tmp_path: Path, entry: dict[str, Any], said: str
) -> None:
    with pytest.raises(FileFault, match=r"course\.json: packs\.#1") as caught:
        read_course(written(tmp_path, "course.json", course(entry)))
    assert len(caught.value.faults) == 1
    assert said in str(caught.value)


def test_today_is_no_day_to_come(tmp_path: Path) -> None:
    entry = {"pack": "uk", "checked": SIGNED | {"on": str(TODAY)}}
    found = read_course(written(tmp_path, "course.json", course(entry)))
    assert str(TODAY.year) in found.signed(UK).stated_edition


def test_a_time_of_day_is_no_day(tmp_path: Path) -> None:
    with pytest.raises(FileFault, match="allowed: a day, such as"):
        read_course(toml(tmp_path, ENTRY.replace("2026-11-20", "2026-11-20T10:00:00")))


def test_every_fault_is_told_at_once(tmp_path: Path) -> None:
    checked = SIGNED | {"edition": "A1", "on": "?"}
    first = {"pack": "uk", "readings": {"blank_plates": "some"}, "checked": checked}
    data = course(first, {"pack": "fr"}, {"pack": "uk"}, schema=0, extra=1)
    with pytest.raises(FileFault, match="extra") as caught:
        read_course(written(tmp_path, "course.json", data))
    assert {fault.path for fault in caught.value.faults} == {
        "schema", "extra", "packs.#1.readings.blank_plates", "packs.#1.checked.edition",
        "packs.#1.checked.on", "packs.#2.pack", "packs.#3.pack",
    }  # fmt: skip
    assert 'found "uk" more than once; allowed: one entry for each pack' in str(caught.value)


@pytest.mark.parametrize("packs", ["uk", 5, [5], [{"pack": 5}], [{}]])
def test_what_is_no_list_of_packs_is_told_without_a_traceback(tmp_path: Path, packs: Any) -> None:
    with pytest.raises(FileFault, match="packs"):
        read_course(written(tmp_path, "course.json", {"schema": 1, "packs": packs}))


def test_the_example_of_the_readme_can_be_read(tmp_path: Path) -> None:
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    (example,) = re.findall(r"```toml\n(.+?)```", readme, re.DOTALL)
    found = read_course(toml(tmp_path, example))
    assert found.signed(UK).stated_edition.endswith("by the course leader on 14 September 2026")
    assert found.chosen(UK, {})["readings"] == {"blank_plates": "no"}


def test_the_course_file_meets_the_published_schema() -> None:
    schema = json.loads(CliRunner().invoke(command, ["course"]).output)
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(course({"pack": "uk", "checked": SIGNED}), schema)
    with pytest.raises(jsonschema.ValidationError, match="'by' is a required"):
        jsonschema.validate(course({"pack": "uk", "checked": {"edition": "x", "on": "2026-11-20"}}), schema)


def test_the_schema_of_a_pack_offers_no_sign_off() -> None:
    schema = json.loads(CliRunner().invoke(command, ["pack"]).output)
    assert "checked" not in schema["properties"]
