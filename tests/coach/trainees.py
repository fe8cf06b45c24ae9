"""Simulated trainees, who hold misconceptions and slip: run `python -m tests.coach.trainees [SEED]`."""

import random
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from itertools import combinations
from typing import Any

from tests.coach.probes import probes
from zonelib.coach.diagnosis.diagnose import Sample, diagnose
from zonelib.coach.diagnosis.lens import NOTHING, Held, Lens
from zonelib.coach.diagnosis.misconception import library
from zonelib.coach.diagnosis.telling import told_apart

Data = dict[str, Any]
SLIPS = 0.1


@cache
def shown() -> dict[str, int]:
    """Return how many of the twelve exercises show each misconception."""
    return dict(Counter(name for lens, typical, _ in probes() for name in told_apart(lens, typical)))


def answered(held: Held, draw: random.Random, *, slips: float = SLIPS) -> list[Sample]:
    """Return what somebody answers to the twelve exercises."""
    return [
        Sample(lens, _slipped(lens, typical, meant, draw) if draw.random() < slips else meant, typical)
        for lens, typical, model in probes()
        for meant in [_meant(held, lens, typical, model, draw)]
    ]


def _meant(held: Held, lens: Lens, typical: tuple[Data, ...], model: Data, draw: random.Random) -> Data:
    """Return what somebody takes for right."""
    if lens.bundle.exercise.kind == "choose":
        return {"chosen": list(lens.key(lens.part(held)))}
    led = [one for one in typical if not lens.right(NOTHING, one) and lens.right(held, one)]
    return draw.choice(led) if led else model


def _slipped(lens: Lens, typical: tuple[Data, ...], meant: Data, draw: random.Random) -> Data:
    """Return another answer: one tick too many or too few, or another hole."""
    if lens.bundle.exercise.kind != "choose":
        return draw.choice([one for one in typical if one != meant])
    names = [one["id"] for one in lens.bundle.exercise.case["routes"]]
    return {"chosen": sorted(set(meant["chosen"]) ^ {draw.choice(names)})}


@dataclass
class Score:
    """How often each misconception was held, said, and said of one who held it."""

    held: Counter[str] = field(default_factory=Counter)
    said: Counter[str] = field(default_factory=Counter)
    right: Counter[str] = field(default_factory=Counter)
    free: int = 0
    alarms: int = 0

    def add(self, held: Held, said: Held) -> None:
        self.free += not held
        self.alarms += bool(said and not held)
        self.held.update(held)
        self.said.update(said)
        self.right.update(held & said)

    def table(self) -> str:
        """Return precision and recall of each misconception."""
        rows = [f"{'misconception':<20} {'held':>5} {'said':>5} {'precision':>10} {'recall':>7}"]
        for name in sorted(self.held):
            held, said, right = self.held[name], self.said[name], self.right[name]
            precision = f"{right / said:.2f}" if said else "-"
            rows.append(f"{name:<20} {held:>5} {said:>5} {precision:>10} {right / held:>7.2f}")
        held, said, right = (sum(one.values()) for one in (self.held, self.said, self.right))
        rows.append(f"{'all':<20} {held:>5} {said:>5} {right / max(said, 1):>10.2f} {right / held:>7.2f}")
        rows.append(f"of {self.free} who hold none and slip, {self.alarms} are told one all the same")
        return "\n".join(rows)


def simulated(*, singly: int, pairs: int, right: int, seed: int = 1) -> Score:
    """Return how well misconceptions are found in trainees who hold one, two or none."""
    draw, score = random.Random(seed), Score()
    for held in _class(draw, singly=singly, pairs=pairs, right=right):
        said = frozenset(one.id for one in diagnose(answered(held, draw)).found)
        score.add(held, said)
    return score


def _class(draw: random.Random, *, singly: int, pairs: int, right: int) -> Iterator[Held]:
    names = [name for name in library() if name in shown()]
    for name in names:
        yield from [frozenset({name})] * singly
    every = [frozenset(pair) for pair in combinations(names, 2)]
    yield from draw.sample(every, pairs)
    yield from [NOTHING] * right


if __name__ == "__main__":
    chosen = int(sys.argv[1]) if sys.argv[1:] else 1
    print(simulated(singly=20, pairs=150, right=200, seed=chosen).table())  # noqa: T201 it is run for this
