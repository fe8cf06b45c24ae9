"""What is practised next: the weakest rule, then what is due, then what was not seen."""

from datetime import UTC, datetime, timedelta

from zonelib.coach.mastery.choosing import Offer, Pick, next_exercise
from zonelib.coach.mastery.policy import policy
from zonelib.coach.mastery.record import Check, Record

NOW = datetime(2026, 11, 25, 10, tzinfo=UTC)
OFFERS = [
    Offer("drop", ("wall-zone",), 1, varies=True), Offer("corner", ("wall-zone", "wall-rcd"), 2),
    Offer("hatch", ("wall-rcd", "chase-depth"), 3), Offer("screws", ("fixing",), 2),
]  # fmt: skip


def check(exercise: str, *, days_ago: float = 0.0, variant: str = "", **rules: float) -> Check:
    shares = {name.replace("_", "-"): share for name, share in rules.items()}
    return Check(
        at=(NOW - timedelta(days=days_ago)).isoformat(), exercise=exercise, variant=variant, rules=shares
    )


def picked(*checks: Check, offers: list[Offer] = OFFERS, later: float = 0.0) -> Pick:
    now = NOW + timedelta(days=later)
    return next_exercise(Record(checks=checks), offers, now=now, policy=policy())


def test_who_begins_gets_the_easiest() -> None:
    assert picked() == Pick("drop", 0, "new", "wall-zone")


def test_the_weakest_rule_comes_first_and_not_in_the_same_exercise_again() -> None:
    found = picked(check("drop", wall_zone=1.0), check("hatch", wall_rcd=0.0, chase_depth=0.6))
    assert found == Pick("corner", 0, "weakest", "wall-rcd")


def test_of_two_equally_weak_the_critical_one_comes_first() -> None:
    assert picked(check("hatch", chase_depth=0.0, wall_rcd=0.0)).rule == "wall-rcd"


def test_a_met_rule_is_met_once_more_before_others_are_begun() -> None:
    assert picked(check("drop", wall_zone=1.0)) == Pick("corner", 0, "weakest", "wall-zone")


def test_once_mastered_what_was_never_seen_follows() -> None:
    done = [
        check("drop", wall_zone=1.0),
        check("corner", wall_zone=1.0, wall_rcd=1.0),
        check("hatch", wall_rcd=1.0),
    ]
    assert picked(*done) == Pick("screws", 0, "new", "fixing")


def test_a_due_rule_comes_before_new_ones() -> None:
    done = [
        check("drop", days_ago=200, wall_zone=1.0),
        check("corner", days_ago=199, wall_zone=1.0, wall_rcd=1.0),
        check("hatch", days_ago=198, wall_rcd=1.0),
    ]
    found = picked(*done)
    assert (found.why, found.rule) == ("due", "wall-zone")
    assert found.exercise == "drop"
    assert found.seed == 1, "seen before, so a variant of it"


def test_a_variant_that_was_not_seen_is_the_next_one() -> None:
    only = [OFFERS[0]]
    assert picked(check("drop", wall_zone=0.2), offers=only).seed == 1
    seen = [check("drop", wall_zone=0.2), check("drop", variant="1", wall_zone=0.2)]
    assert picked(*seen, offers=only).seed == 2


def test_where_all_is_mastered_and_nothing_due_the_longest_unseen_comes_again() -> None:
    done = [
        check("drop", wall_zone=1.0), check("corner", wall_zone=1.0, wall_rcd=1.0),
        check("hatch", wall_rcd=1.0, chase_depth=1.0), check("screws", fixing=1.0),
        check("hatch", variant="1", chase_depth=1.0), check("screws", variant="1", fixing=1.0),
    ]  # fmt: skip
    assert picked(*done) == Pick("drop", 1, "again", "")


def test_it_comes_to_an_end_for_who_answers_all_in_full() -> None:
    """Somebody who earns all marks masters every rule within a few exercises."""
    checks: list[Check] = []
    for step in range(20):
        found = picked(*checks)
        if found.why == "again":
            break
        aim = next(one.aim for one in OFFERS if one.name == found.exercise)
        at = (NOW - timedelta(minutes=60 - step)).isoformat()
        name, rules = found.exercise, dict.fromkeys(aim, 1.0)
        checks.append(Check(at=at, exercise=name, variant=str(found.seed or ""), rules=rules))
    assert len(checks) < 10
