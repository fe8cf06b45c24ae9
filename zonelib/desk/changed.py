"""The part of a feedback page that shows marks a tutor changed; it can be put in again without marking."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from html import escape
from pathlib import Path

from zonelib.desk.overrides import STAMP, Change, in_force
from zonelib.desk.plain import plain
from zonelib.desk.tables import write_text
from zonelib.exercise.messages import marks

__all__ = ["change_words", "changes_html", "show_changes", "table_html"]

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
    above = f"<p>The marks above are the program's. {_in_all(changes)}</p>" if changes else ""
    return "\n".join(filter(None, [START, table_html(changes), above, END]))


def table_html(changes: Sequence[Change], *, titles: Mapping[str, str] | None = None) -> str:
    """Return changes in force as a table with its heading, or "" for none.

    Parameters
    ----------
    changes : sequence of Change
        Of one trainee.
    titles : mapping, optional
        What the trainee knows each exercise by; without it assignment and name are told.
    """
    return "\n".join(_told([(_name(one, titles or {}), one) for one in changes]))


def _name(one: Change, titles: Mapping[str, str]) -> str:
    return titles.get(one.exercise, f"{one.assignment}, {one.exercise}")


def _in_all(changes: Sequence[Change]) -> str:
    """Return what the changes come to: the sum above does not hold them."""
    more = round(sum(one.score - one.computed for one in changes if one.score is not None), 2)
    if not more:
        return "In all, your tutor gave you as many."
    return f"In all, your tutor gave you {marks(abs(more))} {'fewer' if more < 0 else 'more'}."


def _told(changes: Sequence[tuple[str, Change]]) -> Iterator[str]:
    if changes:
        yield "<h2>Marks your tutor changed</h2>"
        yield '<table class="marks"><thead><tr>'
        yield '<th scope="col">Exercise</th><th scope="col" class="n">By the program</th>'
        yield '<th scope="col" class="n">By your tutor</th><th scope="col">Reason</th>'
        yield "</tr></thead><tbody>"
        yield from (_line(name, one) for name, one in changes)
        yield "</tbody></table><p>The marks by your tutor count.</p>"


def _line(name: str, one: Change) -> str:
    numbers = (marks(one.computed), _given(one))
    told = "".join(f'<td class="n">{escape(text)}</td>' for text in numbers)
    why = f'{escape(plain(one.reason))}<p class="source">{escape(_who(one))}</p>'
    return f'<tr><th scope="row">{escape(name)}</th>{told}<td>{why}</td></tr>'


def _given(one: Change) -> str:
    return "" if one.score is None else marks(one.score)


def _who(one: Change) -> str:
    """Return in which role and when, as far as it is known."""
    when = plain(one.when)
    if STAMP.fullmatch(one.when):
        at = datetime.fromisoformat(one.when)
        when = f"{at.day} {at:%B %Y, %H:%M} UTC"
    return f"Changed by: {plain(one.by)}. {when}."


def change_words(one: Change) -> str:
    """Return what stands beside a program's mark that does not count."""
    return f"By the program: {marks(one.computed)}. By your tutor: {_given(one)}. Your tutor's mark counts."


def show_changes(page: Path, trainee: str, history: Iterable[Change]) -> None:
    """Put the changes into a feedback page that is there already."""
    if page.is_file():
        before, start, rest = page.read_text(encoding="utf-8").partition(START)
        if start:
            after = rest.partition(END)[2]
            write_text(page, before + changes_html(trainee, history) + after)
