"""How many failures have a remedy: `python -m tests.coach.share`, with a number for random answers too."""

import random
import sys
from collections.abc import Iterator
from dataclasses import dataclass

from tests.course.test_bank import jittered
from tests.exercise.answers import NAMES, bundle, exercise, marked, names_of
from zonelib import Case, Finding, Pack, judge
from zonelib.coach.remedies.offer import remedies
from zonelib.coach.remedies.remedy import Advice, Remedy


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
        existing = exercise(name).kind == "inspect"
        for one in exercise(name).wrong:
            result = marked(name, one["answer"])
            case, pack = result.case, bundle(name).pack
            for finding in result.verdict.failures if result.verdict and case else ():
                assert case is not None
                yield Failure(name, case, pack, finding, remedies(case, pack, finding, existing=existing))


def random_failures(count: int) -> Iterator[Failure]:
    """Yield a failed finding of each of so many random answers, every remedy judged again."""
    draw, names = random.Random(11), names_of("route")
    found = 0
    while found < count:
        name = draw.choice(names)
        result, pack = marked(name, jittered(exercise(name).model, draw)), bundle(name).pack
        if result.verdict and result.case and result.verdict.failures:
            finding = draw.choice(result.verdict.failures)
            one = Failure(name, result.case, pack, finding, remedies(result.case, pack, finding))
            assert all(len(judge(r.case, pack).failures) < len(result.verdict.failures) for r in one.mended)
            assert all(r.case.walls == result.case.walls for r in one.mended)
            found += 1
            yield one


def table(found: list[Failure]) -> str:
    """Return a line for each rule: how many failures, and how many with a remedy."""
    rows = ["rule                   failures  with a remedy"]
    for rule in sorted({one.finding.rule for one in found}):
        here = [one for one in found if one.finding.rule == rule]
        rows.append(f"{rule:<22} {len(here):>8}  {sum(bool(one.mended) for one in here):>13}")
    share = sum(bool(one.mended) for one in found) / len(found)
    return "\n".join([*rows, f"share with at least one remedy: {share:.0%}"])


if __name__ == "__main__":
    wanted = int(sys.argv[1]) if len(sys.argv) > 1 else 0
    print(table(list(random_failures(wanted) if wanted else failures())))  # noqa: T201 it is run for this
