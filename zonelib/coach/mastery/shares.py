"""What a marked answer shows of each rule that its exercise is about."""

from collections.abc import Iterator

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.criteria import Criterion
from zonelib.exercise.marking import Result

__all__ = ["aims_of", "shares_of"]


def aims_of(bundle: Bundle) -> tuple[str, ...]:
    """Return the rules that an exercise is about: its aim, or else those it gives marks for."""
    by_marks = (rule for one in bundle.criteria for rule in one.rules)
    return bundle.exercise.aim or tuple(dict.fromkeys(by_marks))


def shares_of(bundle: Bundle, result: Result) -> dict[str, float]:
    """Return for each rule an exercise is about the share of its marks that an answer earned.

    Parameters
    ----------
    bundle : Bundle
        The exercise.
    result : Result
        Of marking the answer.

    Returns
    -------
    dict of str to float
        From 0 to 1. A rule that nothing was found out about is left out: it does not apply, or its
        criterion waits for another one to be met.
    """
    if result.status != "marked":
        return {}
    return dict(_shares(bundle, result))


def _shares(bundle: Bundle, result: Result) -> Iterator[tuple[str, float]]:
    by_rules = any(rule.rules for rule in bundle.criteria)
    for rule in aims_of(bundle):
        share = _judged(bundle, result, rule) if by_rules else _share(result.criteria)
        if share is not None:
            yield rule, round(share, 4)


def _judged(bundle: Bundle, result: Result, rule: str) -> float | None:
    """Return what the engine found on a rule, with the marks of its criterion where it fails in part."""
    found = {one.status for one in result.verdict.findings if one.rule == rule} if result.verdict else set()
    ours = [one for one, stated in zip(result.criteria, bundle.criteria, strict=True) if rule in stated.rules]
    if ours and all(one.waits for one in ours):
        return None
    if "fail" in found:
        # Another rule of the same criterion may be the one that is met: the share is never full here.
        return min(_share(ours) if ours else 0.0, 0.99)
    return 1.0 if "pass" in found else None


def _share(criteria: tuple[Criterion, ...] | list[Criterion]) -> float:
    whole = sum(one.marks for one in criteria)
    return sum(one.gained for one in criteria) / whole if whole else 0.0
