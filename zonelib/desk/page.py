"""The feedback page of one trainee: one file with everything in it, and no script."""

from collections.abc import Iterator, Sequence
from html import escape

from zonelib.desk.marked import Marked
from zonelib.desk.once import Once, answer_key
from zonelib.desk.plain import plain
from zonelib.exercise.messages import marks
from zonelib.exercise.report import result_html

__all__ = ["feedback_page", "reasons_html"]

NAME = "name-of-this-report"
"""Stands in a report that was made for many, where its own name goes."""

reports_made: Once[str] = Once()

STYLE = """
body { max-width: 1100px; margin: 0 auto; padding: 16px; color: #1c2733; background: #fff;
  font: 16px/1.5 system-ui, "Segoe UI", "DejaVu Sans", sans-serif; }
h1 { margin: 0 0 8px; font-size: 24px; }
h2 { margin: 32px 0 8px; padding-top: 16px; border-top: 2px solid #4a5663; font-size: 20px; }
table.marks { border-collapse: collapse; }
table.marks th, table.marks td { padding: 4px 16px 4px 0; border-bottom: 1px solid #b9c3ca; }
table.marks th { text-align: left; }
table.marks td.n { text-align: right; font-variant-numeric: tabular-nums; }
p.source { margin: 0 0 12px; color: #43505c; }
@media print { h2, svg { break-inside: avoid; } }
"""


def feedback_page(trainee: str, rows: Sequence[Marked]) -> str:
    """Return a trainee's feedback as a page; whatever came from outside stands in it as plain text."""
    title = f"Feedback for {escape(plain(trainee))}"
    head = f'<meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>{title}</title>'
    parts = [f"<h1>{title}</h1>", *_overview(rows)]
    parts += [part for number, row in enumerate(rows, start=1) for part in _exercise(row, number)]
    head = f'<!DOCTYPE html>\n<html lang="en"><head>{head}<style>{STYLE}</style></head>'
    return "\n".join([head, "<body>", *parts, "</body></html>", ""])


def _overview(rows: Sequence[Marked]) -> Iterator[str]:
    yield '<table class="marks"><thead><tr><th>Exercise</th><th>Marks</th><th>Out of</th></tr></thead><tbody>'
    for one in rows:
        title = escape(plain(one.bundle.exercise.title))
        score, points = marks(one.result.score), marks(one.result.points)
        yield f'<tr><td>{title}</td><td class="n">{score}</td><td class="n">{points}</td></tr>'
    yield "</tbody></table>"


def _exercise(row: Marked, number: int) -> Iterator[str]:
    yield f"<h2>{escape(row.assignment)}, {escape(row.exercise)}</h2>"
    yield reasons_html(row, name=f"e{number}")


def _drawn(row: Marked) -> str:
    """Return the report under a name that stands for any."""
    if row.found is None or row.result.status != "marked":
        return result_html(row.bundle, row.result, name=NAME)
    key = answer_key(row.bundle, row.found.record)
    return reports_made.get(key, lambda: result_html(row.bundle, row.result, name=NAME))


def reasons_html(row: Marked, *, name: str = "marked") -> str:
    """Return what stands behind one mark: which copy was marked, and the report on it."""
    used = f"Marked from the {row.source}." if row.source else ""
    beside = row.note.removeprefix(row.result.note).strip()
    words = escape(plain(" ".join(filter(None, [used, beside]))))
    told = f'<p class="source">{words}</p>' if words else ""
    return f"{told}\n{_report(row, name)}"


def _report(row: Marked, name: str) -> str:
    """Return the report; where it cannot be made, the reasons at least."""
    try:
        return _drawn(row).replace(NAME, name)
    except Exception:  # noqa: BLE001 - a picture that cannot be drawn must cost nobody the page
        reasons = (f"<li>{escape(one.words)}: {escape(one.reason)}</li>" for one in row.result.criteria)
        return f"<p>The picture could not be drawn.</p><ul>{''.join(reasons)}</ul>"
