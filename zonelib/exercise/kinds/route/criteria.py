"""What a route is marked for, unless its exercise says otherwise."""

from zonelib.exercise.model import CriterionRule

__all__ = ["CRITERIA"]

CRITERIA = (
    CriterionRule(id="reach", marks=2, words="The route goes from its start to all it joins", check="reach"),
    CriterionRule(
        id="zone", marks=4, words="All of the cable lies where it is expected", rules=("wall-zone",),
    ),
    CriterionRule(
        id="protection", marks=2, words="RCD, metal parts and chases are right",
        rules=("wall-rcd", "metal-wall", "chase-depth", "chase-line"),
    ),
    CriterionRule(
        id="length", marks=1, words="The run is not much longer than it has to be", check="length",
        needs=("zone",),
    ),
    CriterionRule(
        id="covering", marks=1, words="No covering where none is needed", check="covering",
        needs=("zone",),
    ),
)  # fmt: skip
"""A slant is short and bare: without its need of the zone it would earn both of the last two."""
