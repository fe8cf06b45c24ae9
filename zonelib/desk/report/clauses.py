"""How each trainee met each clause: satisfied of relevant, over all answers."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from zonelib.desk.report.reading import ClassMarks, Row

if TYPE_CHECKING:
    from zonelib.rules.pack import Citation

__all__ = ["Met", "cited", "clause_table", "laid_out", "met_by_class", "rules_of"]

GIVEN = "inspect"
"""A kind whose findings are about what the exercise gives, not about what the trainee laid out."""


@dataclass(frozen=True)
class Met:
    """How often a clause was satisfied, of the answers in which it played a part."""

    satisfied: int
    relevant: int

    @property
    def facility(self) -> float:
        """Satisfied of relevant, 0 to 1."""
        return self.satisfied / self.relevant


def laid_out(marks: ClassMarks) -> tuple[Row, ...]:
    """Return the rows whose findings are about what a trainee laid out."""
    given = {name for name, one in marks.bundles.items() if one.exercise.kind == GIVEN}
    return tuple(row for row in marks.rows if row.bundle not in given)


def clause_table(marks: ClassMarks) -> dict[str, dict[str, Met]]:
    """Return for each trainee and clause how it was met; clauses that played no part are left out."""
    met: dict[str, dict[str, list[bool]]] = defaultdict(lambda: defaultdict(list))
    for row in laid_out(marks):
        for clause, held in row.clauses.items():
            met[row.trainee][clause].append(held)
    return {
        trainee: {clause: Met(sum(held), len(held)) for clause, held in sorted(each.items())}
        for trainee, each in sorted(met.items())
    }


def met_by_class(table: dict[str, dict[str, Met]]) -> dict[str, Met]:
    """Return for each clause how the whole class met it, the one with most to mend first."""
    total: dict[str, Met] = {}
    for each in table.values():
        for clause, met in each.items():
            so_far = total.get(clause, Met(0, 0))
            total[clause] = Met(so_far.satisfied + met.satisfied, so_far.relevant + met.relevant)
    return dict(sorted(total.items(), key=lambda item: (item[1].facility, item[0])))


def rules_of(rows: Iterable[Row], clause: str) -> frozenset[str]:
    """Return the rules that rest on a clause in these rows."""
    return frozenset().union(*(row.rules.get(clause, frozenset()) for row in rows))


def cited(marks: ClassMarks, clause: str) -> Citation | None:
    """Return what the pack says of a clause; a part of one, as in ``1.2(i)``, may stand under the whole."""
    for bundle in marks.bundles.values():
        known = bundle.pack.citations
        if found := known.get(clause) or known.get(clause.partition("(")[0]):
            return found
    return None
