"""How many failures of the bank's typical answers have a remedy: run `python -m tests.coach.share`."""

from collections.abc import Iterator
from dataclasses import dataclass

from tests.exercise.answers import NAMES, bundle, exercise, marked
from zonelib import Case, Finding, Pack
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


def table(found: list[Failure]) -> str:
    """Return a line for each rule: how many failures, and how many with a remedy."""
    rows = ["rule                   failures  with a remedy"]
    for rule in sorted({one.finding.rule for one in found}):
        here = [one for one in found if one.finding.rule == rule]
        rows.append(f"{rule:<22} {len(here):>8}  {sum(bool(one.mended) for one in here):>13}")
    share = sum(bool(one.mended) for one in found) / len(found)
    return "\n".join([*rows, f"share with at least one remedy: {share:.0%}"])


if __name__ == "__main__":
    print(table(list(failures())))  # noqa: T201 the table is what it is run for
