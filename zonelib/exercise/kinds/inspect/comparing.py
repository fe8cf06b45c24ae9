"""How marked stretches compare with those that fail."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from zonelib.exercise.kinds.inspect.answer import InspectAnswer, Stretch
from zonelib.exercise.kinds.inspect.spans import Span, length, less, shared, union, widened
from zonelib.exercise.kinds.inspect.targets import Target

__all__ = ["HALF", "Compared", "Entry", "entries"]

HALF = 0.5
"""A marked stretch answers a failing one where each covers at least this share of the other."""

SHORTEST = 1.0
"""A shorter stretch is none [mm]."""


@dataclass(frozen=True)
class Entry:
    """What is marked once: pieces with the same choices that touch are one."""

    route: str
    span: Span | None
    clause: str | None
    remedy: str | None
    why: str | None


def entries(answer: InspectAnswer, lengths: dict[str, float], slack: float) -> tuple[Entry, ...]:
    """Return what is marked, however it was put together."""
    groups: dict[tuple[str, str | None, str | None, str | None], list[Stretch]] = {}
    for one in answer.stretches:
        groups.setdefault((one.route, one.clause, one.remedy, one.why), []).append(one)
    found = [
        Entry(key[0], span, *key[1:])
        for key, ones in groups.items()
        for span in _spans(ones, lengths[key[0]], slack)
    ]
    return tuple(sorted(found, key=str))


def _spans(ones: list[Stretch], whole: float, slack: float) -> Iterator[Span | None]:
    if any(one.start is None and one.to is None for one in ones):
        yield None
    marks = [_marks(one, whole) for one in ones if one.start is not None or one.to is not None]
    yield from (span for span in union(marks, gap=slack) if span[1] - span[0] >= SHORTEST)


def _marks(one: Stretch, whole: float) -> Span:
    """Return the marks of a stretch on the cable; one that is left out is the cable's end."""
    start = 0.0 if one.start is None else one.start
    end = whole if one.to is None else one.to
    return max(min(start, end), 0.0), min(max(start, end), whole)


@dataclass(frozen=True)
class Compared:
    """Marked stretches beside those that fail.

    Attributes
    ----------
    targets, entries : tuple
        What fails, and what is marked.
    lengths : dict of str to float
        Of each inspected cable [mm].
    slack : float
        How far an end may be out [mm].
    """

    targets: tuple[Target, ...]
    entries: tuple[Entry, ...]
    lengths: dict[str, float]
    slack: float

    def found(self, target: Target) -> float:
        """Return the share of a failing stretch that is marked, its ends within the slack left out."""
        if target.span is None:
            return float(any(one.route == target.route and one.span is None for one in self.entries))
        core = widened(target.span, -min(self.slack, (target.span[1] - target.span[0]) / 4))
        return shared([core], self._marked(target.route)) / length([core])

    def _marked(self, route: str) -> list[Span]:
        return union(one.span for one in self.entries if one.span and one.route == route)

    def passing(self, route: str) -> list[Span]:
        """Return the stretches of a cable that pass, farther than the slack from what fails [mm]."""
        failing = [widened(one.span, self.slack) for one in self.targets if one.span and one.route == route]
        return less([(0.0, self.lengths[route])], union(failing))

    def strayed(self, route: str) -> list[Span]:
        """Return what is marked of a cable though it passes [mm]."""
        marked = self._marked(route)
        kept = (
            (max(a, c), min(b, d)) for a, b in marked for c, d in self.passing(route) if min(b, d) > max(a, c)
        )
        return [span for span in kept if span[1] - span[0] >= SHORTEST]

    @cached_property
    def beyond(self) -> float:
        """What is marked though it passes, counted in failing stretches.

        In lengths of the mean one, but as many as there are where all that passes is marked.
        """
        strayed = sum(length(self.strayed(route)) for route in self.lengths)
        spans = [one.span for one in self.targets if one.span]
        passing = sum(length(self.passing(route)) for route in self.lengths)
        mean = length(spans) / len(spans) if spans else passing
        share = max(strayed / mean, len(self.targets) * strayed / passing) if strayed else 0.0
        return share + len(self.needless_wholes)

    @property
    def needless_wholes(self) -> list[Entry]:
        """What is marked of a cable as a whole, more often than it fails as a whole."""
        wholes = [one for one in self.entries if one.span is None]
        failing = [one.route for one in self.targets if one.span is None]
        return [
            one for at, one in enumerate(wholes)
            if [other.route for other in wholes[: at + 1]].count(one.route) > failing.count(one.route)
        ]  # fmt: skip

    @property
    def share(self) -> float:
        """What the marked stretches earn: the mean share found, less what is marked though it passes.

        Where nothing fails, as somebody may see it who takes the rules otherwise, it is all or nothing.
        """
        if not self.targets:
            return float(not self.beyond)
        found = sum(self.found(one) for one in self.targets)
        return max(0.0, (found - self.beyond) / len(self.targets))

    @cached_property
    def pairs(self) -> list[tuple[Target, Entry | None]]:
        """Each failing stretch with the marked one that answers it; by the clause first, then by place."""
        left, pairs = list(self.entries), dict[int, Entry]()
        for strict in (True, False):
            for at, target in enumerate(self.targets):
                fits = (
                    one
                    for one in left
                    if _answers(one, target) and (one.clause in target.clauses or not strict)
                )
                if at not in pairs and (entry := next(fits, None)) is not None:
                    left.remove(entry)
                    pairs[at] = entry
        return [(target, pairs.get(at)) for at, target in enumerate(self.targets)]

    @property
    def extra(self) -> int:
        """How many marked stretches answer no failing one."""
        return len(self.entries) - sum(entry is not None for _, entry in self.pairs)


def _answers(entry: Entry, target: Target) -> bool:
    if entry.route != target.route or (entry.span is None) != (target.span is None):
        return False
    if entry.span is None or target.span is None:
        return True
    both = shared([entry.span], [target.span])
    return both >= HALF * length([entry.span]) and both >= HALF * length([target.span])
