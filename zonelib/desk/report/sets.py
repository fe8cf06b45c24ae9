"""An assignment as a test: who answered it, its marks, and the statistics of its exercises."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from zonelib.desk.report.reading import ClassMarks, Row
from zonelib.desk.statistics import FEW, Item, Reliability, Spread, items_of, reliability, spread_of

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["PaperSet", "paper_sets"]


@dataclass(frozen=True)
class PaperSet:
    """One assignment.

    Attributes
    ----------
    name : str
        The assignment.
    rows : tuple of Row
        Its marks.
    absent : tuple of str
        Trainees who handed in nothing at all for it; no figure counts them.
    totals : dict
        For each of the others the share of all marks, 0 to 1.
    spread : Spread or None
        Of those shares.
    items : tuple of Item
        Its exercises, in the order in which they are asked.
    reliability : Reliability or None
        None where there are too few people to speak of it.
    """

    name: str
    rows: tuple[Row, ...]
    absent: tuple[str, ...]
    totals: dict[str, float]
    spread: Spread | None
    items: tuple[Item, ...]
    reliability: Reliability | None

    @property
    def people(self) -> int:
        """How many handed something in."""
        return len(self.totals)


def paper_sets(marks: ClassMarks) -> tuple[PaperSet, ...]:
    """Return each assignment with its statistics; each exercise counts as a share of its own marks."""
    return tuple(_paper_set(name, rows) for name, rows in sorted(marks.assignments.items()))


def _paper_set(name: str, rows: Sequence[Row]) -> PaperSet:
    here = {row.trainee for row in rows if row.handed_in}
    absent = tuple(sorted({row.trainee for row in rows} - here))
    shares, totals = _shares(rows, here), _totals(rows, here)
    worth = reliability(shares) if len(shares) >= FEW else None
    return PaperSet(name, tuple(rows), absent, dict(totals), spread_of(totals), items_of(shares), worth)


def _shares(rows: Sequence[Row], here: set[str]) -> pd.DataFrame:
    """Return a row for each trainee and a column for each exercise; what was not answered earns nothing."""
    import pandas as pd

    cells = [(row.trainee, row.exercise, row.share) for row in rows if row.trainee in here]
    table = pd.DataFrame(cells, columns=["trainee", "exercise", "share"])
    wide = table.pivot_table(index="trainee", columns="exercise", values="share").fillna(0.0)
    return wide[list(dict.fromkeys(row.exercise for row in rows))] if len(wide) else wide


def _totals(rows: Sequence[Row], here: set[str]) -> pd.Series:
    import pandas as pd

    cells = [(row.trainee, row.score, row.points) for row in rows if row.trainee in here]
    summed = pd.DataFrame(cells, columns=["trainee", "score", "points"]).groupby("trainee").sum()
    return summed["score"] / summed["points"]
