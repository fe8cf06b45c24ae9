"""The part of a feedback page that shows marks a tutor changed; it can be put in again without marking."""

from collections.abc import Iterable, Iterator, Sequence
from html import escape
from pathlib import Path

from zonelib.desk.overrides import Change, in_force
from zonelib.desk.plain import plain
from zonelib.desk.tables import write_text
from zonelib.exercise.messages import marks

__all__ = ["changes_html", "show_changes"]

START, END = "<!-- changed marks -->", "<!-- end of changed marks -->"
"""No text of a trainee can look like these: its brackets are escaped."""


def changes_html(trainee: str, history: Iterable[Change]) -> str:
    """Return what a trainee is told of marks the tutor changed, between two marks of its place.

    Parameters
    ----------
    trainee : str
        As it stands in the mark sheet.
    history : iterable of Change
        Of the whole class.
    """
    changes = [one for one in in_force(history).values() if one.trainee == trainee]
    return "\n".join([START, *_told(changes), END])


def _told(changes: Sequence[Change]) -> Iterator[str]:
    if changes:
        yield "<h2>Marks your tutor changed</h2>"
        yield '<table class="marks"><thead><tr>'
        heads = ("Exercise", "By the program", "By your tutor", "Reason")
        yield "".join(f'<th scope="col">{head}</th>' for head in heads)
        yield "</tr></thead><tbody>"
        yield from map(_line, changes)
        yield "</tbody></table><p>The marks by your tutor count.</p>"


def _line(one: Change) -> str:
    given = "" if one.score is None else marks(one.score)
    cells = (marks(one.computed), "n"), (given, "n"), (plain(one.reason), "")
    told = "".join(f'<td class="{css}">{escape(text)}</td>' for text, css in cells)
    return f'<tr><th scope="row">{escape(one.assignment)}, {escape(one.exercise)}</th>{told}</tr>'


def show_changes(page: Path, trainee: str, history: Iterable[Change]) -> None:
    """Put the changes into a feedback page that is there already."""
    if page.is_file():
        before, start, rest = page.read_text(encoding="utf-8").partition(START)
        if start:
            after = rest.partition(END)[2]
            write_text(page, before + changes_html(trainee, history) + after)
