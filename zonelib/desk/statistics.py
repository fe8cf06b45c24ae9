"""Statistics of a test: facility, discrimination, reliability and the standard error of a mark.

Formulas, sources and the worked example they are held against: docs/statistics.md.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pandas as pd

__all__ = [
    "FEW",
    "SMALL",
    "Item",
    "Reliability",
    "Spread",
    "cronbach_alpha",
    "how_sure",
    "items_of",
    "kuder_richardson_21",
    "reliability",
    "spread_of",
]

FEW = 10
"""Below so many people only facility is shown [people]."""

SMALL = 30
"""Below so many people the rest is indicative [people]."""

UPPER_SHARE = 0.27
"""The share of the class that makes the upper and the lower group."""

FLAT = 1e-12
"""A variance below this is none: all have the same mark."""


@dataclass(frozen=True)
class Item:
    """One exercise as the class answered it.

    Attributes
    ----------
    name : str
        The exercise.
    people : int
        How many answered the whole set [people].
    facility : float
        Mean share of the marks, 0 to 1.
    discrimination : float or None
        Correlation with the total of the other exercises; None where it is not defined.
    uncorrected : float or None
        Correlation with the whole total, this exercise in it.
    upper_lower : float or None
        Facility among the upper 27 % less that among the lower 27 %.
    without : float or None
        Reliability of the set without this exercise.
    """

    name: str
    people: int
    facility: float
    discrimination: float | None
    uncorrected: float | None
    upper_lower: float | None
    without: float | None


@dataclass(frozen=True)
class Reliability:
    """How far a second set like this one would put people in the same order.

    Attributes
    ----------
    name : str
        ``KR-20`` where every exercise is all or nothing, else ``alpha``.
    value, error : float or None
        The coefficient, and the standard error of a total [exercises]; None where not defined.
    people, exercises : int
        What it rests on.
    """

    name: str
    value: float | None
    error: float | None
    people: int
    exercises: int


@dataclass(frozen=True)
class Spread:
    """How marks are spread: mean, standard deviation (population), quartiles and range [same unit]."""

    people: int
    mean: float
    deviation: float
    least: float
    lower: float
    median: float
    upper: float
    greatest: float


def spread_of(marks: pd.Series) -> Spread | None:
    """Return the spread of marks; None where nobody has one."""
    if marks.empty:
        return None
    low, first, middle, third, high = marks.quantile([0, 0.25, 0.5, 0.75, 1.0])
    return Spread(len(marks), float(marks.mean()), float(marks.std(ddof=0)), low, first, middle, third, high)


def cronbach_alpha(shares: pd.DataFrame) -> float | None:
    """Return Cronbach's alpha, with population variances throughout; KR-20 where all is 0 or 1.

    Parameters
    ----------
    shares : DataFrame
        A row for each person, a column for each exercise: share of the marks, 0 to 1.

    Returns
    -------
    float or None
        None where it is not defined: one exercise, or everybody has the same total.
    """
    count = shares.shape[1]
    total = shares.sum(axis=1).var(ddof=0)
    if count < 2 or not total > FLAT:  # noqa: PLR2004 - one item has nothing to agree with
        return None
    return float(count / (count - 1) * (1 - shares.var(ddof=0).sum() / total))


def kuder_richardson_21(shares: pd.DataFrame) -> float | None:
    """Return KR-21, which takes all exercises for equally hard; None where it is not defined."""
    count, totals = shares.shape[1], shares.sum(axis=1)
    mean, variance = totals.mean(), totals.var(ddof=0)
    if count < 2 or not variance > FLAT:  # noqa: PLR2004 - as above
        return None
    return float(count / (count - 1) * (1 - mean * (count - mean) / (count * variance)))


def reliability(shares: pd.DataFrame) -> Reliability:
    """Return the reliability of a set, under the name that fits its marks."""
    value = cronbach_alpha(shares)
    name = "KR-20" if shares.isin([0, 1]).all(axis=None) else "alpha"
    deviation = float(shares.sum(axis=1).std(ddof=0)) if len(shares) else math.nan
    error = None if value is None else deviation * math.sqrt(max(1 - value, 0.0))
    return Reliability(name, value, error, *shares.shape)


def items_of(shares: pd.DataFrame) -> tuple[Item, ...]:
    """Return the statistics of each exercise of a set."""
    return tuple(_item(shares, str(name)) for name in shares.columns)


def _item(shares: pd.DataFrame, name: str) -> Item:
    own, total = shares[name], shares.sum(axis=1)
    rest = shares.drop(columns=name)
    return Item(
        name, len(own), float(own.mean()), _correlation(own, rest.sum(axis=1)), _correlation(own, total),
        _upper_lower(own, total), cronbach_alpha(rest),
    )  # fmt: skip


def _correlation(one: pd.Series, other: pd.Series) -> float | None:
    from scipy.stats import pearsonr

    if len(one) < 2 or min(one.var(ddof=0), other.var(ddof=0)) <= FLAT:  # noqa: PLR2004 - a line needs two points
        return None
    return float(pearsonr(one, other).statistic)


def _upper_lower(own: pd.Series, total: pd.Series) -> float | None:
    """Return how much better the upper group does; those who tie at a group's edge count in part."""
    size = UPPER_SHARE * len(total)
    if size < 1 or total.var(ddof=0) <= FLAT:
        return None
    upper, lower = (_leading(own, total * sign, size) for sign in (1, -1))
    return upper - lower


def _leading(own: pd.Series, rank: pd.Series, size: float) -> float:
    """Return the mean of the `size` people who rank highest, those who tie weighed alike."""
    left, gained = size, 0.0
    for _, group in own.groupby(-rank):
        taken = min(left, len(group))
        gained += taken * float(group.mean())
        left -= taken
    return gained / size


def how_sure(people: int) -> str:
    """Return what may be said of statistics that rest on so many people.

    >>> how_sure(12)
    'Indicative only: 12 people. Another class of this size could give quite other figures.'
    """
    if people < FEW:
        return f"{people} people are too few for more than the facility. From {FEW} people on there is more."
    if people < SMALL:
        return f"Indicative only: {people} people. Another class of this size could give quite other figures."
    return f"From {people} people."
