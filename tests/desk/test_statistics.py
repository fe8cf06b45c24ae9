"""Statistics of a test, held against a published data set and against figures worked beside it."""

import doctest

import numpy as np
import pandas as pd
import pytest
from scipy.stats import pointbiserialr

from zonelib.desk import statistics
from zonelib.desk.statistics import (
    cronbach_alpha,
    how_sure,
    items_of,
    kuder_richardson_21,
    reliability,
    spread_of,
)

# Ten people, ten items; data, p, pq and variance are published: core.ecu.edu/wuenschk/StatHelp/KR20.txt.
# The reliabilities and correlations below were computed from it once, apart from this code (grade D).
ROWS = (
    "1111110110 1011011101 1111011001 0010001000 0000010010 "
    "1110111111 1101110111 1111111101 0101111101 1101101110"
)
P = [0.7, 0.7, 0.6, 0.7, 0.6, 0.8, 0.7, 0.7, 0.5, 0.6]
WITH = [0.7946, 0.7946, 0.2027, 0.6140, 0.7095, 0.4345, 0.1625, 0.7946, 0.0828, 0.6251]
CORRECTED = [0.7059, 0.7059, 0.0000, 0.4736, 0.5839, 0.2861, -0.0274, 0.7059, -0.1236, 0.4759]
WITHOUT = [0.6084, 0.6084, 0.7353, 0.6525, 0.6290, 0.6846, 0.7355, 0.6084, 0.7564, 0.6505]


@pytest.fixture
def published() -> pd.DataFrame:
    return pd.DataFrame([[int(one) for one in row] for row in ROWS.split()]).add_prefix("i")


def test_the_published_set_gives_its_published_facilities_and_variance(published: pd.DataFrame) -> None:
    assert [one.facility for one in items_of(published)] == pytest.approx(P)
    assert sum(p * (1 - p) for p in P) == pytest.approx(2.18)
    totals = spread_of(published.sum(axis=1))
    assert totals is not None
    assert (totals.mean, totals.deviation**2) == pytest.approx((6.6, 5.84))


def test_the_published_set_gives_its_reliability_and_error(published: pd.DataFrame) -> None:
    found = reliability(published)
    assert (found.name, found.people, found.exercises) == ("KR-20", 10, 10)
    assert found.value == pytest.approx(0.696347, abs=5e-7)
    assert found.error == pytest.approx(1.3317, abs=5e-5)
    assert kuder_richardson_21(published) == pytest.approx(0.684170, abs=5e-7)


def test_variances_are_never_mixed(published: pd.DataFrame) -> None:
    """A guide that sets pq against the sample's variance gets 0.7378 from this set."""
    mixed = 10 / 9 * (1 - 2.18 / published.sum(axis=1).var(ddof=1))
    assert mixed == pytest.approx(0.7378, abs=5e-5)
    assert cronbach_alpha(published) != pytest.approx(0.7378, abs=0.03)


def test_alpha_is_the_same_by_either_variance_used_throughout(published: pd.DataFrame) -> None:
    sample = 10 / 9 * (1 - published.var(ddof=1).sum() / published.sum(axis=1).var(ddof=1))
    assert cronbach_alpha(published) == pytest.approx(sample)


def test_the_published_set_gives_its_correlations(published: pd.DataFrame) -> None:
    found = items_of(published)
    assert [one.uncorrected for one in found] == pytest.approx(WITH, abs=5e-5)
    assert [one.discrimination for one in found] == pytest.approx(CORRECTED, abs=5e-5)
    assert [one.without for one in found] == pytest.approx(WITHOUT, abs=5e-5)


def test_a_correlation_with_all_or_nothing_is_the_point_biserial() -> None:
    """Its documentation gives 0.8660254 for these (scipy; grade M, recalled)."""
    given = np.array([0, 0, 0, 1, 1, 1, 1], dtype=bool)
    assert pointbiserialr(given, np.arange(7)).statistic == pytest.approx(0.8660254)
    shares = pd.DataFrame({"a": given * 1.0, "b": np.arange(7.0)})
    assert items_of(shares)[0].discrimination == pytest.approx(0.8660254)


def test_upper_less_lower_counts_those_who_tie_in_part() -> None:
    """By hand: 27 % of 10 people are 2.7. Upper: 10, 9 and 0.7 of 8; lower: 1, 2 and 0.7 of 3."""
    shares = pd.DataFrame({"a": [0, 0, 0, 0, 0, 0, 0, 1, 1, 1], "b": range(1, 11)})
    assert items_of(shares)[1].upper_lower == pytest.approx((10 + 9 + 0.7 * 8 - 1 - 2 - 0.7 * 3) / 2.7)
    tied = pd.DataFrame({"a": [1, 0, 1, 0], "b": [1, 1, 0, 0]})
    # Totals 2, 1, 1, 0, and 1.08 people: the best one and 0.08 of the middle two, likewise below.
    assert items_of(tied)[0].upper_lower == pytest.approx((1 + 0.08 * 0.5 - 0.08 * 0.5) / 1.08)


def test_part_marks_give_alpha_and_all_or_nothing_gives_kr_20() -> None:
    assert reliability(pd.DataFrame({"a": [0, 0.5, 1], "b": [0, 1, 1]})).name == "alpha"
    assert reliability(pd.DataFrame({"a": [0.0, 1.0], "b": [0.0, 1.0]})).name == "KR-20"


def test_two_exercises_that_agree_wholly_give_one_and_no_error() -> None:
    found = reliability(pd.DataFrame({"a": [0, 0.5, 1], "b": [0, 0.5, 1]}))
    assert (found.value, found.error) == pytest.approx((1.0, 0.0))


@pytest.mark.parametrize(
    "shares",
    [{"a": [0.5, 0.5], "b": [1, 1]}, {"a": [0, 1]}, {"a": [0.2], "b": [0.9]}, {"a": [0, 1], "b": [1, 0]}],
)
def test_where_nothing_varies_it_is_not_defined(shares: dict[str, list[float]]) -> None:
    found = reliability(pd.DataFrame(shares))
    assert (found.value, found.error) == (None, None)


def test_an_exercise_that_all_get_right_has_no_discrimination() -> None:
    right, other = items_of(pd.DataFrame({"a": [1, 1, 1], "b": [0, 0.5, 1]}))
    assert (right.facility, right.discrimination) == (1.0, None)
    assert other.discrimination is None, "the rest of the set does not vary"


def test_spread_by_hand() -> None:
    found = spread_of(pd.Series([2.0, 4.0, 4.0, 4.0, 5.0, 5.0, 7.0, 9.0]))
    assert found is not None
    assert (found.mean, found.deviation, found.median) == (5.0, 2.0, 4.5)
    assert (found.least, found.lower, found.upper, found.greatest) == (2.0, 4.0, 5.5, 9.0)
    assert spread_of(pd.Series([], dtype=float)) is None


@pytest.mark.parametrize(
    ("people", "words"),
    [(9, "too few"), (10, "Indicative only: 10"), (29, "Indicative only: 29"), (30, "From 30 people.")],
)
def test_small_classes_are_told_what_figures_are_worth(people: int, words: str) -> None:
    assert words in how_sure(people)


def test_examples_in_the_documentation_hold() -> None:
    assert doctest.testmod(statistics).failed == 0
