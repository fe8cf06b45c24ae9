"""What hung things are marked for, unless their exercise says otherwise."""

from zonelib.exercise.model import CriterionRule

__all__ = ["CHECKS", "CRITERIA"]

CHECKS = ("hung", "clear")

CRITERIA = (
    CriterionRule(id="hung", marks=3, words="Each thing hangs on the wall, free of all others", check="hung"),
    CriterionRule(id="clear", marks=7, words="No fixing lies where a cable may run", check="clear"),
)
