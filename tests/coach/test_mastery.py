"""Mastery: what a check shows of each rule, what is mastered, and when it is due."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from fsrs import Rating
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.exercise.answers import NAMES, bundle, exercise, marked
from zonelib.coach.mastery.policy import policy, read_policy
from zonelib.coach.mastery.record import MOST_CHECKS, Check, Record, merged, read_record
from zonelib.coach.mastery.shares import aims_of, shares_of
from zonelib.coach.mastery.standing import Sitting, sittings, standings
from zonelib.coach.mastery.timing import due_dates, intervals, rating_of
from zonelib.rules.words import templates
from zonelib.site.faults import FileFault

START = datetime(2026, 11, 25, 10, tzinfo=UTC)
ZONE, CHASE = "wall-zone", "chase-depth"


def check(
    exercise_name: str, *, after: float = 0.0, hints: int = 0, variant: str = "", **rules: float
) -> Check:
    """Return a check so many days after the start; rules are named with a line below for a dash."""
    shares = {name.replace("_", "-"): share for name, share in rules.items()}
    at = (START + timedelta(days=after)).isoformat()
    return Check(at=at, exercise=exercise_name, variant=variant, hints=hints, rules=shares)


def state(*checks: Check, rule: str = ZONE) -> str:
    return standings(Record(checks=checks), [rule], policy=policy())[rule].state


def test_days_between_revisions_are_as_published() -> None:
    """Py-fsrs, tests/test_basic.py, for the version that constraints.txt names; grade T."""
    good, again = Rating.Good, Rating.Again
    ratings = [good] * 6 + [again] * 2 + [good] * 5
    assert intervals(ratings, start=START) == [0, 2, 11, 46, 163, 498, 0, 0, 2, 4, 7, 12, 21]


def test_a_rule_is_mastered_when_met_in_two_different_exercises_in_a_row() -> None:
    assert state() == "new"
    assert state(check("a", wall_zone=1.0)) == "not yet"
    assert state(check("a", wall_zone=1.0), check("b", wall_zone=1.0)) == "mastered"
    assert state(check("a", wall_zone=1.0), check("a", variant="1", wall_zone=1.0)) == "mastered"


def test_the_same_exercise_twice_is_not_two() -> None:
    same = [check("a", wall_zone=1.0), check("x", fixing=1.0), check("a", wall_zone=1.0)]
    assert state(*same) == "not yet"
    assert state(*same, check("b", wall_zone=1.0)) == "mastered"


def test_a_miss_breaks_the_row() -> None:
    met = [check("a", wall_zone=1.0), check("b", wall_zone=1.0)]
    assert state(*met, check("c", wall_zone=0.0)) == "not yet"
    assert state(*met, check("c", wall_zone=0.0), check("c", wall_zone=1.0)) == "mastered", (
        "mended in the same"
    )


def test_a_critical_rule_needs_all_its_marks_and_others_most_of_them() -> None:
    assert state(check("a", wall_zone=0.9), check("b", wall_zone=1.0)) == "not yet"
    some = check("a", chase_depth=0.8), check("b", chase_depth=0.9)
    assert state(*some, rule=CHASE) == "mastered"


def test_where_a_critical_rule_is_missed_nothing_else_counts() -> None:
    both = check("a", chase_depth=1.0, wall_zone=1.0), check("b", chase_depth=1.0, wall_zone=0.5)
    assert state(*both, rule=CHASE) == "not yet"


def test_with_the_worked_step_open_nothing_is_mastered() -> None:
    assert state(check("a", wall_zone=1.0, hints=3), check("b", wall_zone=1.0)) == "not yet"
    assert state(check("a", wall_zone=1.0, hints=2), check("b", wall_zone=1.0)) == "mastered"


@pytest.mark.parametrize(
    ("checks", "rating"),
    [
        ([check("a", wall_zone=1.0)], Rating.Easy),
        ([check("a", wall_zone=1.0, hints=1)], Rating.Good),
        ([check("a", wall_zone=0.0), check("a", wall_zone=1.0)], Rating.Good),
        ([check("a", wall_zone=0.5)], Rating.Hard),
        ([check("a", wall_zone=1.0, wall_line=0.2)], Rating.Hard),
        ([check("a", wall_zone=0.4)], Rating.Again),
    ],
)
def test_marks_make_the_rating(checks: list[Check], rating: Rating) -> None:
    assert rating_of(Sitting(tuple(checks)), "zones", policy=policy()) == rating


def test_each_family_has_its_own_date_and_what_goes_well_comes_back_later() -> None:
    record = Record(checks=(check("a", wall_zone=1.0, wall_rcd=0.0), check("b", fixing=0.6)))
    due = {one.family: one.at for one in due_dates(record, policy=policy())}
    assert set(due) == {"zones", "rcd", "fixings"}
    assert due["rcd"] <= due["fixings"] < due["zones"]
    assert due["zones"] - START > timedelta(days=1)


@pytest.mark.parametrize("name", NAMES)
def test_the_model_answer_meets_every_rule_its_exercise_is_about(name: str) -> None:
    shares = shares_of(bundle(name), marked(name, exercise(name).model))
    assert shares
    assert set(shares) <= set(aims_of(bundle(name)))
    assert set(shares.values()) == {1.0}


@pytest.mark.parametrize("name", NAMES)
def test_a_typical_answer_misses_one_or_loses_its_marks_elsewhere(name: str) -> None:
    found = [shares_of(bundle(name), marked(name, one["answer"])) for one in exercise(name).wrong]
    assert any(min(shares.values(), default=0.0) < 1.0 for shares in found)
    assert shares_of(bundle(name), marked(name, {})) == {}


def test_a_rule_that_is_met_beside_one_that_fails_is_told_apart() -> None:
    """Kitchen hatch, too deep a chase: zone and RCD are met all the same."""
    answer = {**exercise("kitchen-hatch").model, "depth": [15, 15, 15, 40]}
    shares = shares_of(bundle("kitchen-hatch"), marked("kitchen-hatch", answer))
    assert shares["chase-depth"] < 1.0
    assert shares["wall-zone"] == shares["wall-rcd"] == 1.0


def test_the_policy_names_rules_that_there_are() -> None:
    named = [rule for one in policy().families.values() for rule in one.rules]
    assert set(named) | set(policy().critical) <= set(templates())
    assert len(named) == len(set(named))
    assert all(policy().words(policy().family(aim)) for name in NAMES for aim in exercise(name).aim)


def test_a_tutors_file_replaces_what_it_names(tmp_path: Path) -> None:
    path = tmp_path / "mastery.toml"
    path.write_text('schema = 1\nin_a_row = 3\ncritical = ["fixing"]\n', encoding="utf-8")
    found = read_policy(path)
    assert (found.in_a_row, found.critical, found.enough) == (3, ("fixing",), 0.8)
    path.write_text("schema = 1\nin_row = 3\n", encoding="utf-8")
    with pytest.raises(FileFault, match="in_row"):
        read_policy(path)


def test_a_record_is_read_as_it_was_written() -> None:
    record = Record().plus(check("a", wall_zone=1.0)).plus(check("b", hints=1, fixing=0.25))
    assert read_record(record.as_text()) == record
    assert read_record(Record().as_text()) == Record()


def test_of_too_many_checks_the_oldest_are_forgotten() -> None:
    record = Record(checks=(check("first"),) * MOST_CHECKS).plus(check("last"))
    assert len(record.checks) == MOST_CHECKS
    assert record.checks[-1].exercise == "last"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "not JSON"),
        ("[1, 2]", "the file"),
        ('{"schema": 2, "checks": []}', "schema"),
        ('{"schema": 1, "checks": [{"at": "yesterday", "exercise": "a"}]}', "a time with its zone"),
        ('{"schema": 1, "checks": [{"at": "2026-11-25T10:00:00", "exercise": "a"}]}', "a time with its zone"),
        (
            '{"schema": 1, "checks": [{"at": "0001-01-01T00:00:00Z", "exercise": "a"}]}',
            "a time with its zone",
        ),
        (
            '{"schema": 1, "checks": [{"at": "2026-11-25T10:00:00Z", "exercise": "a", "rules": {"z": 2}}]}',
            "at most 1",
        ),
        (
            '{"schema": 1, "checks": [{"at": "2026-11-25T10:00:00Z", "exercise": "a", "rules": {"z": NaN}}]}',
            "finite",
        ),
        ("[" * 100_000, "the file"),
        ('{"schema": 1, "checks": "' + "x" * 5_000_000 + '"}', "the file"),
    ],
)
def test_what_is_no_record_is_refused_in_plain_words(text: str, told: str) -> None:
    with pytest.raises(FileFault, match=told):
        read_record(text)


def test_records_of_several_folders_make_one_in_the_order_of_time() -> None:
    one, two = check("a", after=2, wall_zone=1.0), check("b", after=1, wall_zone=1.0)
    whole = merged([Record(checks=(one,)), Record(checks=(two, one))])
    assert [each.exercise for each in whole.checks] == ["b", "a"]


checks = st.builds(
    check, st.sampled_from("abc"), after=st.floats(0, 400), hints=st.integers(0, 3),
    variant=st.sampled_from(["", "1"]), wall_zone=st.floats(0, 1), chase_depth=st.floats(0, 1),
)  # fmt: skip


@settings(max_examples=60)
@given(st.lists(checks, max_size=12))
def test_whatever_the_record_it_gives_standing_and_dates(those: list[Check]) -> None:
    record = merged([Record(checks=tuple(those))])
    found = standings(record, [ZONE, CHASE], policy=policy())
    for one in found.values():
        assert (one.state == "mastered") == (one.in_a_row >= policy().in_a_row)
        assert 0 <= one.strength <= 1
        assert one.sittings <= len(sittings(record))
    assert all(due.at >= START for due in due_dates(record, policy=policy()))
