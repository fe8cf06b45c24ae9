"""The class report as one page: no script, nothing from outside, readable in print."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from importlib import resources

from zonelib.desk.overrides import Change
from zonelib.desk.report.alike import Alike
from zonelib.desk.report.clauses import Met
from zonelib.desk.report.figures import exercises_part, marks_part
from zonelib.desk.report.html import listing, para, safe, section, table
from zonelib.desk.report.misheld import Misunderstood
from zonelib.desk.report.patterns import alike_part, clauses_part, misheld_part, teach_part
from zonelib.desk.report.reading import ClassMarks
from zonelib.desk.report.sets import PaperSet
from zonelib.desk.report.teach import Lesson
from zonelib.exercise.messages import marks as shown

__all__ = ["SCOPE", "Findings", "report_page"]

TITLE = "Class report"

SCOPE = (
    "bathroom locations, where the word zone means something else",
    "cables in screed, and cables under gardens",
    "cable sizing, grouping and insulation",
    "fire stopping",
    "circuit design, testing, and notification and reporting codes",
    "practical competence, which an assessor observes",
)
"""What these marks say nothing about."""


@dataclass(frozen=True)
class Findings:
    """All that a report tells.

    Attributes
    ----------
    marks : ClassMarks
        The class.
    sets : tuple of PaperSet
        Its assignments.
    met, total : dict
        How each trainee, and the whole class, met each clause.
    held : Misunderstood
        What seems to be misunderstood.
    alike : tuple of Alike
        Answers to look at together.
    lessons : tuple of Lesson
        What to teach next.
    """

    marks: ClassMarks
    sets: tuple[PaperSet, ...]
    met: dict[str, dict[str, Met]]
    total: dict[str, Met]
    held: Misunderstood
    alike: tuple[Alike, ...]
    lessons: tuple[Lesson, ...]


def report_page(found: Findings) -> str:
    """Return the report as a page; whatever came from outside stands in it as plain text."""
    style = resources.files("zonelib.desk.report").joinpath("page.css").read_text(encoding="utf-8")
    head = (
        f'<meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>{TITLE}</title>'
        f"<style>{style}</style>"
    )
    body = "\n".join(["<main>", f"<h1>{TITLE}</h1>", *_parts(found), "</main>"])
    return f'<!DOCTYPE html>\n<html lang="en"><head>{head}</head><body>\n{body}\n</body></html>\n'


def _parts(found: Findings) -> Iterator[str]:
    yield para(_summary(found))
    yield from (para(f"Rules: {edition}.", "edition") for edition in _editions(found.marks))
    yield teach_part(found.lessons)
    for number, one in enumerate(found.sets, start=1):
        yield marks_part(one, number)
        yield exercises_part(one, number)
    yield clauses_part(found.marks, found.met, found.total)
    yield misheld_part(found.marks, found.held)
    yield alike_part(found.alike)
    yield section("Marks that a tutor changed", _changed(found.marks.history), name="changed")
    yield section("What this report does not tell", _scope(found.marks), name="scope")


def _summary(found: Findings) -> str:
    rows = found.marks.rows
    given = sum(row.handed_in for row in rows)
    unjudged = sum(row.handed_in and row.answer is None for row in rows)
    told = f"{len(found.marks.trainees)} trainees, {len(rows)} marks, {given} answers handed in."
    return f"{told} {unjudged} of them could not be judged." if unjudged else told


def _editions(marks: ClassMarks) -> list[str]:
    return sorted({row.edition for row in marks.rows if row.edition})


def _changed(history: Sequence[Change]) -> Iterator[str]:
    if not history:
        yield para("None. A change is made with zonelib override, and stands beside the program’s own mark.")
        return
    heads = ["Trainee", "Exercise", "Program", "Tutor", "Reason", "By", "When"]
    yield table("Every change, the latest last", heads, map(_change_row, history))


def _change_row(one: Change) -> list[str]:
    score = "taken back" if one.score is None else shown(one.score)
    exercise = f"{one.assignment}, {one.exercise}"
    return [one.trainee, exercise, shown(one.computed), score, one.reason, one.by, one.when]


def _scope(marks: ClassMarks) -> Iterator[str]:
    yield para("Marks are for concealed cables in ordinary rooms, and for fixings. They say nothing about:")
    yield listing(SCOPE)
    packs = {bundle.pack.stated_edition: bundle.pack for bundle in marks.bundles.values()}
    for edition, pack in sorted(packs.items()):
        words = f"{safe(edition)}. <b>{safe(pack.safety.aid)}</b> {safe(pack.safety.lay)}"
        yield f'<div class="safety"><p>{words}</p>'
        yield f"{listing(pack.safety.drill)}</div>"
