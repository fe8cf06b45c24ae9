"""What a choice is marked for.

Where one is to be chosen, all marks go to the right one. Where several may be, the share of the marks is
the share of the right ones that are ticked, less the share of the others that are ticked, and never below
nothing. So ticking everything earns nothing, as does ticking nothing, and each tick made by chance is as
likely to cost as to gain.
"""

from zonelib.exercise.model import CriterionRule

__all__ = ["CRITERIA"]

CRITERIA = (
    CriterionRule(
        id="chosen", marks=5, words="All that is right is ticked, and nothing else", check="chosen"
    ),
)
