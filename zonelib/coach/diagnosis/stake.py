"""What is at stake in an answer: which misconceptions can make a difference to it, without trying them."""

from collections.abc import Iterable
from dataclasses import dataclass

from zonelib.coach.diagnosis.misconception import Misconception
from zonelib.coach.diagnosis.occasions import OCCASIONS
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result
from zonelib.site.model import Case

__all__ = ["Stake", "stake_of"]

OF_ZONES = frozenset({"wall-zone"})
"""What an exercise is about that asks for the zones themselves."""


@dataclass(frozen=True)
class Stake:
    """What an answer hangs on.

    Attributes
    ----------
    by_rules : bool
        Whether the exercise gives marks where rules are met, and not for saying what they say.
    right : bool
        Whether the answer is right by the rules as they are.
    failed : frozenset of str
        Rules for which it loses marks.
    judged : frozenset of str or None
        Rules that had anything to say on it; None where that is not known.
    silent : frozenset of str
        Rules that were asked and did not apply.
    case : Case
        The case, with the answer in it where it makes one.
    """

    by_rules: bool
    right: bool
    failed: frozenset[str]
    judged: frozenset[str] | None
    silent: frozenset[str]
    case: Case

    def told(self, those: Iterable[Misconception]) -> bool | None:
        """Tell whether the answer is right to somebody who holds these; None where it has to be tried."""
        held = [one for one in those if not one.occasion or OCCASIONS[one.occasion](self.case)]
        touched = frozenset(rule for one in held for rule in one.rules)
        bars = any(one.bars for one in held)
        if not held:
            return self.right
        if self.judged is not None and not touched & (self.judged | self.silent if bars else self.judged):
            return self.right
        if self.by_rules and self.failed - touched:
            return False
        return True if self.by_rules and self.right and not bars else None


def stake_of(bundle: Bundle, result: Result, *, right: bool) -> Stake:
    """Return what an answer hangs on, from its mark by the rules as they are."""
    asked = dict(zip((one.id for one in bundle.criteria), bundle.criteria, strict=True))
    found = result.verdict.findings if result.verdict else ()
    fails = {one.rule for one in found if one.status == "fail"}
    unmet = {rule for one in result.criteria if not one.met and not one.waits for rule in asked[one.id].rules}
    judged = frozenset(one.rule for one in found if one.status != "not-applicable")
    return Stake(
        by_rules=any(one.rules for one in bundle.criteria),
        right=right,
        failed=frozenset(fails & unmet),
        judged=judged if result.verdict else OF_ZONES if bundle.exercise.kind == "zones" else None,
        silent=frozenset(one.rule for one in found) - judged,
        case=result.case or bundle.case,
    )
