"""What an inspection is marked for, unless its exercise says otherwise."""

from zonelib.exercise.model import CriterionRule

__all__ = ["CHECKS", "CRITERIA"]

CHECKS = ("stretches", "clause", "remedy", "why", "new-work")

CRITERIA = (
    CriterionRule(
        id="stretches", marks=4, words="Every stretch that fails is marked, and none that passes",
        check="stretches",
    ),
    CriterionRule(id="clause", marks=2, words="The clause of each is named", check="clause"),
    CriterionRule(id="remedy", marks=2, words="The remedy chosen for each mends it", check="remedy"),
    CriterionRule(id="why", marks=1, words="It is said why each matters", check="why"),
    CriterionRule(
        id="new-work", marks=1, words="It is said of each cable whether it would pass as new work",
        check="new-work",
    ),
)  # fmt: skip
