"""Find the misconceptions that best explain a trainee's answers; a mark is never changed by it."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations
from typing import Any

from zonelib.coach.diagnosis.lens import NOTHING, Held, Lens
from zonelib.coach.diagnosis.misconception import Misconception, library

__all__ = ["Diagnosis", "Sample", "diagnose"]

SLIP = 0.1
"""How often somebody answers by mistake."""

LUCK = 0.15
"""How often somebody is right where a misconception leads astray."""

IN_SPITE = 0.05
"""How often somebody answers right what is not right to those who take the rules so."""

SPREAD = 8
"""At least so many mistakes are possible in an exercise."""

RARE = 5
"""The simpler explanation first: per answer of the set, a misconception must explain so many times more."""

NEAR = math.log(3.0)
"""Explanations whose likelihoods differ by less than this factor explain equally."""

PAIRED = 6
"""The best so many misconceptions are tried in pairs."""

LEADING = 2
"""The best so many misconceptions are tried with every other."""

Answer = dict[str, Any]


@dataclass(frozen=True)
class Sample:
    """One answer, with what is typically answered to the same exercise.

    Attributes
    ----------
    lens : Lens
        The exercise.
    answer : dict
        The trainee's answer.
    typical : tuple of dict
        Other answers that lose marks: how many of them a misconception makes right tells how much it
        explains.
    """

    lens: Lens
    answer: Answer
    typical: tuple[Answer, ...] = field(default=(), repr=False)


@dataclass(frozen=True)
class Diagnosis:
    """What a trainee seems to have misunderstood.

    Attributes
    ----------
    found : tuple of Misconception
        Empty where the answers are right, where slips explain them as well, or where two explain equally.
    explained : tuple of int
        Which answers, counted from 0, would be right under them.
    undecided : tuple of Misconception
        Those of which some explain equally well, so that none of them is said.
    """

    found: tuple[Misconception, ...]
    explained: tuple[int, ...]
    undecided: tuple[Misconception, ...]


def diagnose(samples: Sequence[Sample], *, pairs: bool = True) -> Diagnosis:
    """Return the misconceptions under which a trainee's answers that lose marks would be right.

    Parameters
    ----------
    samples : sequence of Sample
        The answers of one trainee, one or more.
    pairs : bool
        Whether two at a time are tried too; it costs five times as much.

    Returns
    -------
    Diagnosis
        A misconception is said where it belongs to every explanation that is about as likely as the
        best one. Nobody's mark changes by it.
    """
    scores = _scores(samples, pairs=pairs)
    best = max(scores.values())
    near = [held for held, score in scores.items() if score > best - NEAR]
    said: Held = frozenset.intersection(*near)
    open_ = frozenset.union(*near) - said
    explained = tuple(
        at for at, one in enumerate(samples)
        if said and not one.lens.right(NOTHING, one.answer) and one.lens.right(said, one.answer)
    )  # fmt: skip
    return Diagnosis(_named(said), explained, _named(open_))


def _named(held: Held) -> tuple[Misconception, ...]:
    return tuple(one for name, one in library().items() if name in held)


def _scores(samples: Sequence[Sample], *, pairs: bool) -> dict[Held, float]:
    """Return the log-likelihood of each explanation: none, each one alone, and the best in pairs."""
    prior = math.log(RARE * max(len(samples), 1))
    scores = {NOTHING: _fit(NOTHING, samples)}
    wrong = [one for one in samples if not one.lens.right(NOTHING, one.answer)]
    useful = [name for name in library() if _adds(NOTHING, name, wrong)]
    scores |= {frozenset({name}): _fit(frozenset({name}), samples) - prior for name in useful}
    ranked = sorted((held for held in scores if held and pairs), key=lambda held: -scores[held])
    for pair in dict.fromkeys(_pairs(ranked, samples)):
        scores[pair] = _fit(pair, samples) - 2 * prior
    return scores


def _pairs(ranked: Sequence[Held], samples: Sequence[Sample]) -> Iterator[Held]:
    """Yield the best ones in pairs, and the very best with each that explains more beside it.

    Where two always show together, the second explains no answer alone.
    """
    yield from (one | other for one, other in combinations(ranked[:PAIRED], 2))
    for best in ranked[:LEADING]:
        rest = [one for one in samples if not one.lens.right(best, one.answer)]
        yield from (best | {name} for name in library() if name not in best and _adds(best, name, rest))


def _adds(best: Held, name: str, rest: Sequence[Sample]) -> bool:
    """Tell whether a misconception beside others makes any answer right that is not."""
    return any(one.lens.right(best | {name}, one.answer) for one in rest)


def _fit(held: Held, samples: Sequence[Sample]) -> float:
    return sum(math.log(_likelihood(held, one)) for one in samples)


def _likelihood(held: Held, one: Sample) -> float:
    """Return how likely an answer is from somebody who takes the rules so."""
    wrong = [typical for typical in one.typical if not one.lens.right(NOTHING, typical)]
    led = sum(one.lens.right(held, typical) for typical in wrong) if held else 0
    right, seems = one.lens.right(NOTHING, one.answer), one.lens.right(held, one.answer)
    if not seems:
        mistake = _by_mistake(held, one, len(wrong))
        return max(mistake, IN_SPITE) if right else mistake
    if right:
        return LUCK if led else 1 - SLIP
    return (1 - SLIP - LUCK) / max(led + (one.answer not in one.typical), 1)


def _by_mistake(held: Held, one: Sample, others: int) -> float:
    """Return how likely an answer is that is not right even so: one tick too many is a small slip."""
    ticks = one.lens.ticks(held, one.answer)
    if ticks is None:
        return SLIP / max(others, SPREAD)
    slips = math.pow(SLIP / ticks.of, ticks.off)
    return max(slips, SLIP * math.pow(0.5, ticks.of))
