"""The feedback page of one trainee: one file with everything in it, and no script."""

import re
from collections.abc import Iterator, Sequence
from html import escape
from importlib import resources

from zonelib.desk.changed import changes_html
from zonelib.desk.marked import Marked
from zonelib.desk.once import Once, answer_key
from zonelib.desk.plain import plain
from zonelib.exercise.messages import marks
from zonelib.exercise.report import result_html, safety_words

__all__ = ["feedback_page", "reasons_html"]

NAME = "name-of-this-report"
"""Stands in a report that was made for many, where its own name goes."""

reports_made: Once[str] = Once()


def feedback_page(trainee: str, rows: Sequence[Marked], *, idea: str = "") -> str:
    """Return a trainee's feedback as a page; whatever came from outside stands in it as plain text.

    `idea` is HTML on what the answers show to be misunderstood.
    """
    title = f"Feedback for {escape(plain(trainee))}"
    head = f'<meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>{title}</title>'
    parts = [f"<h1>{title}</h1>", *_safety(rows), *_overview(rows), changes_html(trainee, ()), idea]
    parts += [part for number, row in enumerate(rows, start=1) for part in _exercise(row, number)]
    head = f'<!DOCTYPE html>\n<html lang="en"><head>{head}<style>{_style(trainee, rows)}</style></head>'
    return "\n".join([head, "<body><main>", *parts, "</main></body></html>", ""])


def _style(trainee: str, rows: Sequence[Marked]) -> str:
    """Return the style, with what stands at the foot of each printed page: sheets of many get mixed up."""
    style = resources.files("zonelib.desk").joinpath("page.css").read_text(encoding="utf-8")
    aids = dict.fromkeys(row.bundle.pack.safety.aid for row in rows)
    left, right = _quoted(" ".join(aids)), _quoted(f"{plain(trainee)}, page ")
    font = "font: 10pt system-ui, sans-serif; color: #43505c; vertical-align: top;"
    return (
        f"{style}@page {{ @bottom-left {{ content: {left}; {font} }}\n"
        f'@bottom-right {{ content: {right} counter(page) " of " counter(pages); {font} }} }}\n'
    )


def _quoted(words: str) -> str:
    """Return words as a string of a style; what is neither letter nor digit stands there as a number."""
    return '"' + "".join(one if one.isalnum() or one == " " else f"\\{ord(one):x} " for one in words) + '"'


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


def _safety(rows: Sequence[Marked]) -> Iterator[str]:
    """Yield the safety words of each edition once, for paper."""
    for edition, aid, lay, *drill in dict.fromkeys(safety_words(row.bundle) for row in rows):
        yield f'<div class="safety on-paper"><p>{escape(edition)} <b>{escape(aid)}</b> {escape(lay)}</p>'
        yield "<p><b>Before you drill into a real wall:</b></p><ul>"
        yield from (f"<li>{escape(line)}</li>" for line in drill)
        yield "</ul></div>"


def _exercise(row: Marked, number: int) -> Iterator[str]:
    title = escape(plain(row.bundle.exercise.title))
    given = f"{marks(row.result.score)} of {marks(row.result.points)} marks"
    yield f'<div class="exercise"><div class="head"><h2 id="exercise-{number}">{number}. {title}</h2>'
    yield f'<p class="source">{escape(row.assignment)}, {escape(row.exercise)}</p>'
    yield f'<p class="on-paper"><b>{given}</b></p></div>'
    yield '<div class="asked"><details class="question"><summary>The question</summary>'
    yield from map(_paragraph, re.split(r"\n\s*\n", row.bundle.exercise.question.strip()))
    yield f"</details>{_told(row)}</div>{_report(row, f'e{number}')}</div>"


def _paragraph(words: str) -> str:
    """Return a paragraph of a question, or a list where each of its lines is a point."""
    told = re.sub(r"\*\*(.+?)\*\*", r"<b>\1</b>", escape(words))
    points = [line.removeprefix("- ") for line in told.splitlines()]
    if all(line.startswith("- ") for line in told.splitlines()):
        return f"<ul>{''.join(f'<li>{one}</li>' for one in points)}</ul>"
    return f"<p>{told}</p>"


def _drawn(row: Marked) -> str:
    """Return the report under a name that stands for any."""
    if row.found is None or row.result.status != "marked":
        return result_html(row.bundle, row.result, name=NAME)
    key = answer_key(row.bundle, row.found.record)
    return reports_made.get(key, lambda: result_html(row.bundle, row.result, name=NAME))


def reasons_html(row: Marked, *, name: str = "marked") -> str:
    """Return what stands behind one mark: which copy was marked, what lateness takes off, and the report."""
    return "\n".join(filter(None, [_told(row), _report(row, name)]))


def _told(row: Marked) -> str:
    used = f"Marked from the {row.source}." if row.source else ""
    beside = row.note.removeprefix(row.result.note).strip()
    words = _text(" ".join(filter(None, [used, beside])))
    told = [f'<p class="source">{words}</p>'] if words else []
    if row.taken:
        told.append(f'<p class="late"><b>{_text(f"{row.late} You get {marks(row.score)}.")}</b></p>')
    return "\n".join(told)


def _text(words: str) -> str:
    return escape(plain(words))


def _report(row: Marked, name: str) -> str:
    """Return the report; where it cannot be made, the reasons at least."""
    try:
        return _drawn(row).replace(NAME, name)
    except Exception:  # noqa: BLE001 - a picture that cannot be drawn must cost nobody the page
        reasons = (f"<li>{escape(one.words)}: {escape(one.reason)}</li>" for one in row.result.criteria)
        return f"<p>The picture could not be drawn.</p><ul>{''.join(reasons)}</ul>"
