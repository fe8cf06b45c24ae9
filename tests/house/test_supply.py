"""What zonelib leans on: licences listed and compatible, versions held at both ends."""

import re
import tomllib

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

from tests.house.docs_licences import COPYLEFT, PAGE, TITLES, WHY, groups, licences, needed
from tests.house.files import ROOT

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def pins(name: str) -> dict[str, str]:
    lines = (ROOT / name).read_text(encoding="utf-8").splitlines()
    return dict(line.split("==") for line in lines if line)


def wanted(extra: str) -> list[Requirement]:
    extras = PROJECT["optional-dependencies"]
    return [Requirement(line) for line in (extras[extra] if extra else PROJECT["dependencies"])]


def listed() -> dict[str, dict[str, str]]:
    """Return what the page lists: under each title, the licence of each package."""
    parts = PAGE.read_text(encoding="utf-8").split("\n## ")[2:]
    rows = re.compile(r"^\| ([a-z][\w-]*) \| ([^|]+) \|$", re.MULTILINE)
    return {part.splitlines()[0]: dict(rows.findall(part)) for part in parts}


@pytest.fixture(scope="module")
def known() -> dict[str, str]:
    return licences()


def test_every_package_that_is_brought_along_is_listed_with_its_licence(known: dict[str, str]) -> None:
    told = {name: licence for part in listed().values() for name, licence in part.items()}
    here = {name for extra in TITLES for name in needed(extra)} & set(known)
    assert here - set(told) == set()
    assert [name for name in here if told[name].strip() in {"", "UNKNOWN"}] == []


def test_a_licence_that_asks_more_than_a_notice_has_its_reason(known: dict[str, str]) -> None:
    parts = groups()
    strict = {name for names in parts.values() for name in names if COPYLEFT.search(known.get(name, ""))}
    assert strict - set(WHY) == set()
    assert not strict & set(parts[""])
    assert {name for name in strict & set(parts["workbook"]) if "GPL" in known[name]} == {"odfpy"}
    assert "Apache" in known["odfpy"]


def test_every_package_named_is_held_to_one_version() -> None:
    held = {canonicalize_name(name) for name in pins("constraints.txt")}
    named = {canonicalize_name(one.name) for extra in TITLES for one in wanted(extra)} - {"zonelib"}
    assert named - held == set()


@pytest.mark.parametrize("extra", ["", "workbook"])
def test_the_oldest_versions_tried_are_the_oldest_allowed(extra: str) -> None:
    oldest = pins("constraints-oldest.txt")
    for one in wanted(extra):
        (least,) = [part.version for part in one.specifier if part.operator == ">="]
        assert Version(oldest[one.name]) == Version(least), one.name


def test_the_newest_versions_tried_are_allowed() -> None:
    newest = {canonicalize_name(name): held for name, held in pins("constraints.txt").items()}
    for extra in TITLES:
        for one in wanted(extra):
            assert one.name == "zonelib" or one.specifier.contains(newest[canonicalize_name(one.name)]), (
                one.name
            )
