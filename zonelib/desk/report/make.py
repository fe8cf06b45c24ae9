"""Make the class report: look at the class once, then write the page and the tables."""

import json
from dataclasses import dataclass
from pathlib import Path

from zonelib.desk.report.alike import alike_pairs
from zonelib.desk.report.clauses import clause_table, met_by_class
from zonelib.desk.report.misheld import misunderstood
from zonelib.desk.report.page import Findings, report_page
from zonelib.desk.report.reading import ClassMarks, read_marks
from zonelib.desk.report.sets import paper_sets
from zonelib.desk.report.sheets import sheets_of, write_csv, write_ods
from zonelib.desk.report.teach import what_next
from zonelib.desk.tables import write_text

__all__ = ["Made", "findings_on", "make_report"]

NAME = "report"


@dataclass(frozen=True)
class Made:
    """What was found, and the files it was written to, the page first."""

    found: Findings
    written: tuple[Path, ...]


def findings_on(marks: ClassMarks) -> Findings:
    """Return all that a report tells of a class."""
    met = clause_table(marks)
    total, held = met_by_class(met), misunderstood(marks)
    known = {json.dumps(row.answer, sort_keys=True) for row in marks.rows if row.misconception}
    alike, lessons = alike_pairs(marks, explained=known), what_next(marks, total, held)
    return Findings(marks, paper_sets(marks), met, total, held, alike, lessons)


def make_report(folder: Path, *, out: Path | None = None) -> Made:
    """Make the report on what a marking run wrote.

    Parameters
    ----------
    folder : Path
        What ``zonelib mark --out`` wrote.
    out : Path, optional
        Where ``report.html``, ``report.ods`` and ``report-*.csv`` go; by default into `folder`.

    Raises
    ------
    FileFault
        If the folder cannot be read.
    """
    home, found = out or folder, findings_on(read_marks(folder))
    page = write_text(home / f"{NAME}.html", report_page(found))
    sheets = sheets_of(found)
    tables = [write_csv(home / f"{NAME}-{name}.csv", one) for name, one in sheets.items()]
    return Made(found, (page, write_ods(home / f"{NAME}.ods", sheets), *tables))
