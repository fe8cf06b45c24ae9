"""What cuts in a joist are marked for, unless their exercise says otherwise."""

from zonelib.exercise.model import CriterionRule
from zonelib.rules.words import templates

__all__ = ["CHECKS", "CRITERIA", "RULES", "SIZES"]

CHECKS = ("served", "covering")
RULES = tuple(rule for rule in templates() if rule.startswith("joist-"))
SIZES = frozenset({"joist-hole-size", "joist-notch-depth"})
"""A cut that fails one of these is too large, and counts for nothing else."""

CRITERIA = (
    CriterionRule(id="served", marks=2, words="Every cable has a cut that is large enough", check="served"),
    CriterionRule(
        id="cover", marks=3, words="Enough timber to top and bottom, or a covering that counts",
        rules=("joist-cover",),
    ),
    CriterionRule(id="size", marks=1, words="No cut is too large for the joist", rules=tuple(sorted(SIZES))),
    CriterionRule(
        id="place", marks=2, words="Each cut is where the joist can bear it",
        rules=("joist-hole-position", "joist-hole-centre", "joist-notch-position", "joist-notch-edge"),
    ),
    CriterionRule(
        id="apart", marks=1, words="The cuts are far enough apart",
        rules=("joist-hole-spacing", "joist-notch-gap"),
    ),
    CriterionRule(
        id="covering", marks=1, words="A covering only where one is needed", check="covering",
        needs=("cover",),
    ),
)  # fmt: skip
