"""What a number is marked for: all marks within the tolerance, half within a wider limit if one is set."""

from zonelib.exercise.model import CriterionRule

__all__ = ["CRITERIA"]

CRITERIA = (CriterionRule(id="value", marks=4, words="The number is right", check="value"),)
