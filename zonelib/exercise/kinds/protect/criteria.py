"""What the choices for a given route are marked for, unless an exercise says otherwise."""

from zonelib.exercise.model import CriterionRule

__all__ = ["CRITERIA"]

CRITERIA = (
    CriterionRule(
        id="place", marks=4, words="Each part lies in a zone, deep enough, or in a covering that counts",
        rules=("wall-zone",),
    ),
    CriterionRule(id="rcd", marks=3, words="The RCD is one that counts", rules=("wall-rcd", "metal-wall")),
    CriterionRule(
        id="chase", marks=2, words="No chase is deeper than the leaf allows",
        rules=("chase-depth", "chase-line"), needs=("place",),
    ),
    CriterionRule(
        id="covering", marks=1, words="A covering only where a leg needs one", check="covering",
        needs=("place",),
    ),
)  # fmt: skip
"""A bare, shallow cable cuts no deep chase and wastes no covering: so these two wait for the first."""
