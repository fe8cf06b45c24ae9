"""Sums over a class: by exercise, never by trainee."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from zonelib.desk.rows import Row

__all__ = ["Totals"]

WORDS = "{}, {}: {} answers, {} not judged, mean {:.2f} of {:g}"


@dataclass
class Total:
    """The sum for one exercise."""

    points: float
    answers: int = 0
    unjudged: int = 0
    score: float = 0.0

    @property
    def mean(self) -> float:
        """The mean mark."""
        return self.score / self.answers


@dataclass
class Totals:
    """The sums of a run, and the editions it was marked by."""

    exercises: dict[tuple[str, str], Total] = field(default_factory=dict)
    editions: dict[str, None] = field(default_factory=dict)
    rows: int = 0

    def add(self, rows: Iterable[Row]) -> None:
        """Add the rows of one trainee."""
        for row in rows:
            total = self.exercises.setdefault((row.assignment, row.exercise), Total(row.max))
            total.answers += 1
            total.unjudged += row.status != "marked"
            total.score += row.score
            self.editions[row.edition] = None
            self.rows += 1

    def as_text(self, trainees: int) -> str:
        """Return the sums as lines of text."""
        return "".join(f"{line}\n" for line in self._lines(trainees))

    def _lines(self, trainees: int) -> Iterator[str]:
        yield f"{trainees} trainees, {self.rows} marks"
        for (assignment, exercise), one in self.exercises.items():
            yield WORDS.format(assignment, exercise, one.answers, one.unjudged, one.mean, one.points)
        for edition in self.editions:
            yield f"Rules: {edition}."
