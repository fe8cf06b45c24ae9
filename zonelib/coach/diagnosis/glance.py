"""See at a glance that an answer stays as it is under other rules, without marking all of it again."""

from zonelib.coach.diagnosis.excuses import excused
from zonelib.coach.diagnosis.misconception import Misconception
from zonelib.coach.diagnosis.stake import Stake
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.choose.task import ChooseTask
from zonelib.rules.engine import judge_routes

__all__ = ["plays_a_part", "still_fails"]

CABLED = ("route", "protect")
"""Kinds of exercise whose answer is the only cable of the case."""


def plays_a_part(bundle: Bundle, one: Misconception) -> bool:
    """Tell whether a misconception can make a difference to an exercise, whatever is answered."""
    exercise = bundle.exercise
    if one.kinds and exercise.kind not in one.kinds:
        return False
    if exercise.kind == "choose" and exercise.task_as(ChooseTask).ask == "safe-fixings":
        return "fixing" in one.rules
    return True


def still_fails(seen: Bundle, stake: Stake, *, excuses: frozenset[str]) -> bool:
    """Tell whether a rule for which an answer loses marks fails it all the same under other rules.

    These rules alone are asked, up to the first failure; marking asks them all, and weighs each criterion.

    Parameters
    ----------
    seen : Bundle
        The exercise, under the other rules.
    stake : Stake
        What the answer hangs on by the rules as they are.
    excuses : frozenset of str
        Failures that are passed over.
    """
    if not stake.by_rules or seen.exercise.kind not in CABLED:
        return False
    case = seen.case.model_copy(update={"routes": stake.case.routes})
    found = judge_routes(case, seen.pack, rules=stake.failed)
    return any(one.status == "fail" and not excused(excuses, one, case) for one in found)
