"""What drawn zones are marked for, unless their exercise says otherwise."""

from zonelib.exercise.model import CriterionRule

__all__ = ["ALL", "CHECKS", "CRITERIA"]

ALL = "zones"
CHECKS = (ALL, "top", "floor", "corner", "beside", "vertical", "horizontal")
"""All zones together, or those of one form."""

CRITERIA = (
    CriterionRule(
        id="zones", marks=10, words="Every zone is drawn, and nothing but the zones", check=ALL
    ),
)  # fmt: skip
