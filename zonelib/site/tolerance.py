"""The one tolerance of the product: what counts as equal passes."""

__all__ = ["TOLERANCE", "above", "below", "same"]

TOLERANCE = 0.001
"""Values within this distance are equal [mm]; 0.07 x 2500 is not 175 in floating point."""

_ROUNDING = 1e-9


def above(value: float, limit: float) -> bool:
    """Tell whether a value exceeds a limit by more than the tolerance.

    >>> above(50.0009, 50.0), above(50.1, 50.0)
    (False, True)
    """
    return value > limit + TOLERANCE + _ROUNDING


def below(value: float, limit: float) -> bool:
    """Tell whether a value falls short of a limit by more than the tolerance.

    >>> below(49.9995, 50.0), below(49.9, 50.0)
    (False, True)
    """
    return value < limit - TOLERANCE - _ROUNDING


def same(value: float, other: float) -> bool:
    """Tell whether two values are equal within the tolerance."""
    return not above(value, other) and not below(value, other)
