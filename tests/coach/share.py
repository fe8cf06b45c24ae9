"""How many failures have a remedy: `python -m tests.coach.share`, with a number for random answers too."""

import random
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from tests.course.test_bank import jittered
from tests.exercise.answers import NAMES, bundle, exercise, marked, names_of
from zonelib import Case, Finding, Pack, judge
from zonelib.coach.remedies.offer import remedies
from zonelib.coach.remedies.remedy import Advice, Remedy
from zonelib.exercise import Result

HOUSE = ("walls", "rooms", "fixings", "readings", "pack")
"""What no remedy for a cable or a joist may touch: walls hold the accessories."""


@dataclass(frozen=True)
class Failure:
    """A failed finding of a typical answer, and what is offered for it."""

    exercise: str
    case: Case
    pack: Pack
    finding: Finding
    advice: tuple[Advice, ...]

    @property
    def mended(self) -> tuple[Remedy, ...]:
        return tuple(one for one in self.advice if isinstance(one, Remedy))


def failures() -> Iterator[Failure]:
    """Yield every failed finding of every typical answer in the bank."""
    for name in NAMES:
        for one in exercise(name).wrong:
            yield from _advised(name, marked(name, one["answer"]))


def random_failures(count: int) -> Iterator[Failure]:
    """Yield every failed finding of so many random answers that fail, each remedy judged again."""
    draw = random.Random(11)
    names = [*names_of("route") * 3, *names_of("protect"), *names_of("joist")]
    found = 0
    while found < count:
        name = draw.choice(names)
        advised = list(_advised(name, marked(name, random_answer(name, draw))))
        for one in advised:
            check(one)
        found += bool(advised)
        yield from advised


def _advised(name: str, result: Result) -> Iterator[Failure]:
    case, pack, existing = result.case, bundle(name).pack, exercise(name).kind == "inspect"
    for finding in result.verdict.failures if result.verdict and case else ():
        assert case is not None
        yield Failure(name, case, pack, finding, remedies(case, pack, finding, existing=existing))


def random_answer(name: str, draw: random.Random) -> dict[str, Any]:
    model = exercise(name).model
    if exercise(name).kind == "joist":
        return {part: [_moved(cut, draw) for cut in cuts] for part, cuts in model.items()}
    if exercise(name).kind == "protect":
        ends = jittered({"points": [[0, 0], [0, 0]], **model}, draw)
        return {part: ends[part] for part in model}
    return jittered(model, draw)


def _moved(cut: dict[str, Any], draw: random.Random) -> dict[str, Any]:
    """Return a hole or a notch with some of its numbers changed, and maybe its covering left off."""
    spread = {"x": 300, "y": 25, "diameter": 15, "length": 40, "depth": 20}
    new = {
        k: max(v + draw.choice([0, draw.gauss(0, spread[k])]), 1) if k in spread else v
        for k, v in cut.items()
    }
    return {**new, "protection": draw.choice(["none", cut.get("protection", "none")])}


def check(one: Failure) -> None:
    """Hold what every remedy promises: judged again it passes, and it leaves the house as it is."""
    before = Counter(f.rule for f in judge(one.case, one.pack).failures)
    for remedy in one.mended:
        after = Counter(f.rule for f in judge(remedy.case, one.pack).failures)
        assert after[one.finding.rule] < before[one.finding.rule], (one.exercise, remedy)
        assert not after - before, (one.exercise, remedy, "off the wall, into a deep chase, or worse")
        assert all(getattr(remedy.case, part) == getattr(one.case, part) for part in HOUSE)
        old, new = one.case.routes, remedy.case.routes
        assert [(r.joins, r.cable, r.supply) for r in old] == [(r.joins, r.cable, r.supply) for r in new]


def table(found: list[Failure]) -> str:
    """Return a line for each rule: how many failures, and how many with a remedy."""
    rows = ["rule                   failures  with a remedy"]
    for rule in sorted({one.finding.rule for one in found}):
        here = [one for one in found if one.finding.rule == rule]
        rows.append(f"{rule:<22} {len(here):>8}  {sum(bool(one.mended) for one in here):>13}")
    share = sum(bool(one.mended) for one in found) / len(found)
    shown = sum(len(one.mended) for one in found)
    return "\n".join(
        [*rows, f"share with at least one remedy: {share:.1%}; {shown} remedies, every one judged again"]
    )


if __name__ == "__main__":
    wanted = int(sys.argv[1]) if len(sys.argv) > 1 else 0
    print(table(list(random_failures(wanted) if wanted else failures())))  # noqa: T201 it is run for this
