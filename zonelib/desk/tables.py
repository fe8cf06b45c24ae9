"""What a marking run writes: the mark sheet and the findings."""

import csv
import io
import json
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from zonelib.desk.marked import Marked
from zonelib.desk.once import Once, answer_key
from zonelib.desk.plain import LONGEST, cell, plain
from zonelib.desk.rows import Row
from zonelib.desk.writing import write_text
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result

__all__ = ["COLUMNS", "findings_of", "keep_bundle", "marks_head", "marks_line", "write_text"]

lines_made: Once[list[str]] = Once()

COLUMNS = ("trainee", "assignment", "exercise", "score", "max", "handed_in", "source", "note")


def marks_head() -> str:
    """Return the first line of the mark sheet."""
    return _csv(COLUMNS)


def marks_line(one: Row) -> str:
    """Return a line of the mark sheet as CSV (RFC 4180), safe to open in a spreadsheet.

    The note ends with the edition of the rules: a mark sheet never stands without it.
    """
    names = one.trainee, one.assignment, one.exercise
    note = cell(f"{plain(one.note)} Rules: {one.edition}.", longest=2 * LONGEST)
    told = cell(one.handed_in), cell(one.source), note
    return _csv((*map(cell, names), repr(one.score), repr(one.max), *told))


def _csv(values: Sequence[str]) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\r\n").writerow(values)
    return text.getvalue()


def findings_of(one: Marked) -> list[str]:
    """Return the answer, each criterion and each finding of a mark as JSON, one line each."""
    head = {"trainee": plain(one.trainee), "assignment": one.assignment, "exercise": one.exercise}
    head |= {
        "bundle": one.bundle.hash,
        "edition": one.bundle.pack.stated_edition,
        "status": one.result.status,
    }
    start = json.dumps(head, allow_nan=False).removesuffix("}")
    return [f"{start}, {rest}" for rest in _rests(one)]


def _rests(one: Marked) -> list[str]:
    """Return the lines without their common start, made once for all who answered alike."""
    if one.found is None or one.result.status != "marked":
        return list(_told(one.result))
    key = answer_key(one.bundle, one.found.record)
    return lines_made.get(key, lambda: list(_told(one.result)))


def _told(result: Result) -> Iterator[str]:
    for line in _lines(result):
        yield json.dumps(line, allow_nan=False).removeprefix("{")


def _lines(result: Result) -> Iterator[dict[str, Any]]:
    if result.answer:
        yield {"answer": result.answer.model_dump(mode="json", by_alias=True, exclude_unset=True)}
    for criterion in result.criteria:
        met = {"marks": criterion.marks, "gained": criterion.gained, "met": criterion.met}
        yield {"criterion": criterion.id, **met, "reason": criterion.reason}
    for finding in result.verdict.findings if result.verdict else ():
        yield {"finding": finding.as_data()}


def keep_bundle(bundle: Bundle, out: Path) -> Path:
    """Write what an exercise was marked from beside the marks, so that the report stands on these alone."""
    path = out / "bundles" / f"{bundle.hash}.bundle.json"
    text = f"{bundle.text}\n"
    there = path.is_file() and path.stat().st_size == len(
        text.encode()
    )  # its name is the hash of what it holds
    return path if there else write_text(path, text)
