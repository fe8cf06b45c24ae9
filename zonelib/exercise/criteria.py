"""Criteria: what marks are given for, each with marks, what was gained, and why."""

from dataclasses import dataclass

from zonelib.exercise.model import CriterionRule

__all__ = ["ROUTE_CRITERIA", "Criterion"]


@dataclass(frozen=True)
class Criterion:
    """One criterion of a marked answer.

    Attributes
    ----------
    id, words : str
        Its name, and what it asks.
    marks, gained : float
        Marks it carries, and marks earned; they are equal exactly when it is met.
    met : bool
        Whether it is met.
    reason : str
        Why.
    """

    id: str
    words: str
    marks: float
    gained: float
    met: bool
    reason: str


ROUTE_CRITERIA = (
    CriterionRule(id="reach", marks=2, words="The route goes from its start to all it joins", check="reach"),
    CriterionRule(
        id="zone", marks=4, words="All of the cable lies where it is expected", rules=("wall-zone",),
    ),
    CriterionRule(
        id="protection", marks=2, words="RCD, metal parts and chases are right",
        rules=("wall-rcd", "metal-wall", "chase-depth", "chase-line"),
    ),
    CriterionRule(id="length", marks=1, words="The run is not much longer than it has to be", check="length"),
    CriterionRule(id="covering", marks=1, words="No covering where none is needed", check="covering"),
)  # fmt: skip
"""What a route is marked for unless its exercise says otherwise."""
