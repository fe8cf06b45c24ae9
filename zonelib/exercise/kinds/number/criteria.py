"""What a number is marked for: all marks within the tolerance, half within the wider limit, if there is one."""

from zonelib.exercise.model import CriterionRule

__all__ = ["CRITERIA"]

CRITERIA = (CriterionRule(id="value", marks=4, words="The number is right", check="value"),)
