"""Every rule is held against the world, and the page that says how is no older than what it says."""

import re
from dataclasses import replace

import pytest

from tests.house.clauses import PAGE, page, rules_of, unchecked
from tests.rules.outside import GRADES, Check, checks
from zonelib import load_pack
from zonelib.rules.pack import pack_names
from zonelib.rules.words import templates

CHECKS = tuple(checks())


def rules_everywhere() -> set[str]:
    return {rule for name in pack_names() for rule in rules_of(name)}


@pytest.mark.parametrize("name", pack_names())
def test_every_rule_of_a_pack_has_a_check_from_outside(name: str) -> None:
    assert unchecked(name, CHECKS) == set()


@pytest.mark.parametrize("name", pack_names())
def test_every_clause_of_a_pack_is_what_some_rule_rests_on(name: str) -> None:
    cited = {clause for clauses in rules_of(name).values() for clause in clauses}
    assert set(load_pack(name).citations) == cited


def test_the_specimens_bring_about_every_rule_there_are_words_for() -> None:
    assert rules_everywhere() == set(templates())


def test_the_page_is_not_older_than_packs_rules_and_checks() -> None:
    told = "docs/clauses.md is older than what it is made from; run: python -m tests.house.clauses"
    assert PAGE.read_text(encoding="utf-8") == page(), told


def test_every_mark_names_known_rules_a_source_a_grade_and_a_pack() -> None:
    amiss = [
        one
        for one in CHECKS
        if not set(one.rules) <= rules_everywhere()
        or one.grade not in GRADES
        or one.pack not in pack_names()
        or not re.search(r"\w{3}", one.source)
    ]
    assert amiss == []


def test_a_rule_without_a_check_is_known_when_seen() -> None:
    fewer = [replace(one, rules=tuple(set(one.rules) - {"wall-rcd"})) for one in CHECKS]
    assert unchecked("uk", fewer) == {"wall-rcd"}


def test_another_pack_does_not_hold_a_rule_that_rests_on_a_clause() -> None:
    elsewhere = [replace(one, pack="uk") for one in CHECKS]
    assert "wall-line" in unchecked("de", elsewhere)
    assert "route-joins" not in unchecked("de", elsewhere)


def test_a_row_of_a_table_is_a_check_of_its_own() -> None:
    rows = [one for one in CHECKS if one.test == "test_published.py::test_a_published_fact"]
    assert len(rows) > 40
    assert Check(("wall-zone",), "BS 7671 522.6.202", "Q", "uk", rows[0].test) in rows
