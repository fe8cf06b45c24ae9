"""The feedback page of one trainee: one file with everything in it, and no script."""

import re
from collections.abc import Iterator, Sequence
from html import escape

from zonelib.desk.changed import changes_html
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
table.marks tbody th { font-weight: normal; }
table.marks td.n { text-align: right; font-variant-numeric: tabular-nums; }
p.source, p.late { margin: 0 0 12px; color: #43505c; }
p.late { color: inherit; }
div.idea { max-width: 60em; margin: 16px 0; padding: 4px 16px; border-left: 4px solid #0b5b55; }
table.marks tfoot :is(th, td) { border-bottom: 0; font-weight: bold; }
details.question { margin: 0 0 12px; }
details.question p { max-width: 60em; margin: 8px 0; white-space: pre-line; }
summary { min-height: 24px; padding: 4px 0; cursor: pointer; }
a { color: #14508c; }
/* The exercise's title stands above already; whoever has the page read out goes by headings. */
.zl-report h3 { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
@media print {
  h2, h3, h4, p.source, p.late, .zl-report .zl-score { break-after: avoid; }
  svg, tr, li { break-inside: avoid; }
  a { color: inherit; text-decoration: none; }
  .zl-report .zl-n { print-color-adjust: exact; }
  /* On paper nothing can be unfolded. */
  details::details-content { height: auto; content-visibility: visible; }
  /* What is met needs no paper, and one list of what to do before drilling is enough. */
  .zl-report > details, .zl-report:not(:last-of-type) .zl-safety details { display: none; }
}
"""


def feedback_page(trainee: str, rows: Sequence[Marked], *, idea: str = "") -> str:
    """Return a trainee's feedback as a page; whatever came from outside stands in it as plain text.

    `idea` is HTML on what the answers show to be misunderstood.
    """
    title = f"Feedback for {escape(plain(trainee))}"
    head = f'<meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>{title}</title>'
    parts = [f"<h1>{title}</h1>", *_overview(rows), changes_html(trainee, ()), idea]
    parts += [part for number, row in enumerate(rows, start=1) for part in _exercise(row, number)]
    head = f'<!DOCTYPE html>\n<html lang="en"><head>{head}<style>{STYLE}</style></head>'
    return "\n".join([head, "<body><main>", *parts, "</main></body></html>", ""])


def _overview(rows: Sequence[Marked]) -> Iterator[str]:
    heads = "".join(f'<th scope="col">{head}</th>' for head in ("Exercise", "Marks", "Out of"))
    yield f'<table class="marks"><thead><tr>{heads}</tr></thead><tbody>'
    for number, one in enumerate(rows, start=1):
        title = f'<a href="#exercise-{number}">{escape(plain(one.bundle.exercise.title))}</a>'
        yield _line(title, one.score, one.result.points)
    yield "</tbody>"
    if len(rows) > 1:
        total = sum(one.score for one in rows), sum(one.result.points for one in rows)
        yield f"<tfoot>{_line('In all', *total)}</tfoot>"
    yield "</table>"


def _line(title: str, score: float, points: float) -> str:
    numbers = "".join(f'<td class="n">{marks(number)}</td>' for number in (score, points))
    return f'<tr><th scope="row">{title}</th>{numbers}</tr>'


def _exercise(row: Marked, number: int) -> Iterator[str]:
    title = escape(plain(row.bundle.exercise.title))
    yield f'<h2 id="exercise-{number}">{number}. {title}</h2>'
    yield f'<p class="source">{escape(row.assignment)}, {escape(row.exercise)}</p>'
    question = re.sub(r"\*\*(.+?)\*\*", r"<b>\1</b>", escape(row.bundle.exercise.question.strip()))
    yield f'<details class="question"><summary>The question</summary><p>{question}</p></details>'
    yield reasons_html(row, name=f"e{number}")


def _drawn(row: Marked) -> str:
    """Return the report under a name that stands for any."""
    if row.found is None or row.result.status != "marked":
        return result_html(row.bundle, row.result, name=NAME)
    key = answer_key(row.bundle, row.found.record)
    return reports_made.get(key, lambda: result_html(row.bundle, row.result, name=NAME))


def reasons_html(row: Marked, *, name: str = "marked") -> str:
    """Return what stands behind one mark: which copy was marked, what lateness takes off, and the report."""
    used = f"Marked from the {row.source}." if row.source else ""
    beside = row.note.removeprefix(row.result.note).strip()
    told = (
        [f'<p class="source">{_text(" ".join(filter(None, [used, beside])))}</p>'] if used or beside else []
    )
    if row.taken:
        told.append(f'<p class="late"><b>{_text(f"{row.late} You get {marks(row.score)}.")}</b></p>')
    return "\n".join([*told, _report(row, name)])


def _text(words: str) -> str:
    return escape(plain(words))


def _report(row: Marked, name: str) -> str:
    """Return the report; where it cannot be made, the reasons at least."""
    try:
        return _drawn(row).replace(NAME, name)
    except Exception:  # noqa: BLE001 - a picture that cannot be drawn must cost nobody the page
        reasons = (f"<li>{escape(one.words)}: {escape(one.reason)}</li>" for one in row.result.criteria)
        return f"<p>The picture could not be drawn.</p><ul>{''.join(reasons)}</ul>"
