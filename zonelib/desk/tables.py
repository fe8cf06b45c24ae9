"""What a marking run writes: the mark sheet and the findings."""

import csv
import io
import json
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any

from zonelib.desk.marked import Marked
from zonelib.desk.plain import cell, plain
from zonelib.exercise.bundle import Bundle

__all__ = ["COLUMNS", "findings_text", "keep_bundle", "marks_text", "write_text"]

COLUMNS = ("trainee", "assignment", "exercise", "score", "max", "handed_in", "source", "note", "edition")


def marks_text(rows: Iterable[Marked]) -> str:
    """Return the mark sheet as CSV (RFC 4180), safe to open in a spreadsheet."""
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\r\n")
    table.writerow(COLUMNS)
    table.writerows(_row(one) for one in rows)
    return text.getvalue()


def _row(one: Marked) -> Sequence[str]:
    marks = (repr(one.result.score), repr(float(one.result.points)))
    names = one.trainee, one.assignment, one.exercise
    told = one.handed_in, one.source, one.note, one.bundle.pack.stated_edition
    return (*map(cell, names), *marks, *map(cell, told))


def findings_text(rows: Iterable[Marked]) -> str:
    """Return every criterion and finding as JSON, one line each."""
    return "".join(json.dumps(line, allow_nan=False) + "\n" for one in rows for line in _lines(one))


def _lines(one: Marked) -> Iterator[dict[str, Any]]:
    head = {"trainee": plain(one.trainee), "assignment": one.assignment, "exercise": one.exercise}
    head |= {
        "bundle": one.bundle.hash,
        "edition": one.bundle.pack.stated_edition,
        "status": one.result.status,
    }
    if one.result.answer:
        yield {**head, "answer": one.result.answer.model_dump(mode="json", by_alias=True, exclude_unset=True)}
    for criterion in one.result.criteria:
        met = {"marks": criterion.marks, "gained": criterion.gained, "met": criterion.met}
        yield {**head, "criterion": criterion.id, **met, "reason": criterion.reason}
    for finding in one.result.verdict.findings if one.result.verdict else ():
        yield {**head, "finding": finding.as_data()}


def keep_bundle(bundle: Bundle, out: Path) -> Path:
    """Write what an exercise was marked from beside the marks, so that the report stands on these alone."""
    return write_text(out / "bundles" / f"{bundle.hash}.bundle.json", bundle.text + "\n")


def write_text(path: Path, text: str) -> Path:
    """Write a file whole or not at all; one that holds the text already is left as it is."""
    raw = text.encode("utf-8", "replace")
    if path.is_file() and path.read_bytes() == raw:
        return path
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.part")
    part.write_bytes(raw)
    part.replace(path)
    return path
