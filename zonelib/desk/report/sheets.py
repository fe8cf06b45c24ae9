"""The report's tables, as CSV and as one spreadsheet; no cell is ever a formula."""

from __future__ import annotations

import io
import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from zonelib.desk.overrides import COLUMNS as CHANGE_COLUMNS
from zonelib.desk.plain import cell
from zonelib.desk.report.page import Findings
from zonelib.desk.report.reading import Row
from zonelib.desk.report.sets import PaperSet
from zonelib.desk.statistics import FEW
from zonelib.desk.tables import write_text

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["sheets_of", "write_csv", "write_ods"]

Value = str | float | int | None

MARKS = (
    "trainee", "assignment", "exercise", "mark", "max", "program", "changed", "reason", "handed_in",
    "edition",
)  # fmt: skip
ITEMS = (
    "assignment", "exercise", "people", "facility", "discrimination", "with_itself", "upper_less_lower",
    "reliability_without",
)  # fmt: skip
SETS = (
    "assignment", "people", "exercises", "mean", "deviation", "median", "coefficient", "value",
    "standard_error",
)  # fmt: skip


def sheets_of(found: Findings) -> dict[str, pd.DataFrame]:
    """Return the tables by name; a figure that is not defined is an empty cell."""
    sets = [one for one in found.sets if one.spread]
    return {
        "marks": _frame(MARKS, (_mark(row) for row in found.marks.rows)),
        "exercises": _frame(ITEMS, (line for one in sets for line in _items(one))),
        "sets": _frame(SETS, map(_set, sets)),
        "clauses": _frame(("trainee", "clause", "satisfied", "relevant"), _clauses(found)),
        "misconceptions": _frame(("trainee", "misconception", "words", "truth"), _held(found)),
        "changes": _frame(CHANGE_COLUMNS, (vars(one).values() for one in found.marks.history)),
    }


def _frame(columns: Sequence[str], lines: Iterable[Iterable[Value]]) -> pd.DataFrame:
    import pandas as pd

    safe = [[cell(one) if isinstance(one, str) else one for one in line] for line in lines]
    return pd.DataFrame(safe, columns=list(columns))


def _mark(row: Row) -> list[Value]:
    changed, reason = (row.change.score, row.change.reason) if row.change else (None, "")
    names = row.trainee, row.assignment, row.exercise
    given = "yes" if row.handed_in else "no"
    return [*names, row.score, row.points, row.computed, changed, reason, given, row.edition]


def _items(one: PaperSet) -> Iterator[list[Value]]:
    for item in one.items:
        rest = item.discrimination, item.uncorrected, item.upper_lower, item.without
        told = rest if one.people >= FEW else (None,) * len(rest)
        yield [one.name, item.name, item.people, item.facility, *told]


def _set(one: PaperSet) -> list[Value]:
    worth, spread = one.reliability, one.spread
    told = (worth.name, worth.value, worth.error) if worth else ("", None, None)
    figures = (spread.mean, spread.deviation, spread.median) if spread else (None, None, None)
    return [one.name, one.people, len(one.items), *figures, *told]


def _clauses(found: Findings) -> Iterator[Sequence[Value]]:
    for trainee, each in found.met.items():
        for clause, met in each.items():
            yield trainee, clause, met.satisfied, met.relevant


def _held(found: Findings) -> Iterator[Sequence[Value]]:
    for one in found.held.found:
        what = one.misconception
        yield from ([trainee, what.id, what.words, what.truth] for trainee in one.trainees)


def write_csv(path: Path, table: pd.DataFrame) -> Path:
    """Write a table as CSV (RFC 4180)."""
    return write_text(path, table.to_csv(index=False, lineterminator="\r\n"))


def write_ods(path: Path, tables: Mapping[str, pd.DataFrame]) -> Path:
    """Write tables as the sheets of one OpenDocument spreadsheet, whole or not at all."""
    import pandas as pd

    raw = io.BytesIO()
    with pd.ExcelWriter(raw, engine="odf") as writer:
        for name, table in tables.items():
            table.to_excel(writer, sheet_name=name, index=False)
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    part.write_bytes(raw.getvalue())
    return part.replace(path)
