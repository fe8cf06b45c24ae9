"""The parts of the page that hold the pattern: clauses, misconceptions, answers alike, what to teach next."""

from collections.abc import Iterable, Iterator, Sequence

from zonelib.desk.report.alike import EXPECTED, Alike
from zonelib.desk.report.clauses import Met, cited
from zonelib.desk.report.html import Cell, figure, para, safe, section, table
from zonelib.desk.report.misheld import Misheld, Misunderstood
from zonelib.desk.report.reading import ClassMarks
from zonelib.desk.report.teach import Lesson
from zonelib.draw import svg
from zonelib.draw.printing import large_text
from zonelib.exercise.report import marked_scenes
from zonelib.exercise.trial import marked_answer

__all__ = ["alike_part", "clauses_part", "misheld_part", "teach_part"]

LEVELS = ((1.0, "●", "full"), (0.5, "◐", "half"), (0.0, "○", "little"))
"""Symbol and colour of a cell, by the least share that it stands for."""

KEY = "In a cell: ● satisfied each time, ◐ half the time or more, ○ less than half, – it played no part."

TALLEST = 60
"""Rows of the table of clauses on the page: those with most to mend; the tables beside it have all."""

BASIS = (
    "Expected by chance: how many such pairs a class of this size would have if all answered by themselves. "
    f"Shown from less than {EXPECTED:g}. Right answers never count. "
    "Two are taken to choose the same number once in 20 times, where neither exercise nor class suggests it. "
    "Exercises are taken to be independent, which people who learn together are not."
)

SHOWN = 6
"""Misconceptions with a picture."""


def clauses_part(marks: ClassMarks, met: dict[str, dict[str, Met]], total: dict[str, Met]) -> str:
    """Return how each trainee met each clause."""
    return section("Clauses", _clauses(marks, met, total), name="clauses")


def _clauses(marks: ClassMarks, met: dict[str, dict[str, Met]], total: dict[str, Met]) -> Iterator[str]:
    if not total:
        yield para("No clause played a part in what was handed in.")
        return
    yield para(
        "How often each clause was satisfied, of the answers in which it played a part. "
        "Counted where a trainee lays something out: questions and inspections are left out."
    )
    yield para(KEY)
    yield table("Clauses by trainee", ["Trainee", *total], _heat(met, total), css="heat")
    if len(met) > TALLEST:
        yield para(f"Shown are the {TALLEST} trainees with most to mend, of {len(met)}. The tables have all.")
    yield table("What the clauses are about", ["Clause", "About"], _about(marks, total))


def _heat(met: dict[str, dict[str, Met]], total: dict[str, Met]) -> Iterator[list[Cell]]:
    yield ["Whole class", *(_level(one) for one in total.values())]
    for trainee in sorted(sorted(met, key=lambda name: _facility(met[name]))[:TALLEST]):
        yield [trainee, *(_level(met[trainee].get(clause)) for clause in total)]


def _facility(each: dict[str, Met]) -> float:
    return sum(one.satisfied for one in each.values()) / sum(one.relevant for one in each.values())


def _level(one: Met | None) -> Cell:
    if one is None:
        return "–", "none"
    symbol, css = next((symbol, css) for least, symbol, css in LEVELS if one.facility >= least)
    return f"{symbol} {one.satisfied}/{one.relevant}", css


def _about(marks: ClassMarks, total: Iterable[str]) -> Iterator[list[Cell]]:
    for clause in total:
        citation = cited(marks, clause)
        yield [clause, f"{citation.about} ({citation.document})" if citation else ""]


def misheld_part(marks: ClassMarks, held: Misunderstood) -> str:
    """Return what the class seems to have misunderstood, with a picture of an answer that shows it."""
    return section("What seems to be misunderstood", _misheld(marks, held), name="misheld")


def _misheld(marks: ClassMarks, held: Misunderstood) -> Iterator[str]:
    yield para(
        f"Looked at: the answers of {held.looked_at} trainees who lost marks. "
        "A misconception is named where it explains them clearly better than a slip or another would. "
        f"For {held.open} of them none is named. No mark changes by this."
    )
    if held.found:
        yield table(
            "Misconceptions", ["What is taken for granted", "What is so", "Trainees"], _held_rows(held)
        )
    for number, one in enumerate(held.found[:SHOWN], start=1):
        yield from _example(marks, one, number)


def _held_rows(held: Misunderstood) -> Iterator[list[Cell]]:
    for one in held.found:
        yield [
            one.misconception.words,
            one.misconception.truth,
            f"{len(one.trainees)}: {', '.join(one.trainees)}",
        ]


def _example(marks: ClassMarks, one: Misheld, number: int) -> Iterator[str]:
    bundle = marks.bundles[one.example.bundle]
    result = marked_answer(bundle, one.example.answer or {})
    with large_text():
        scenes = marked_scenes(bundle, result)[:1]
    for at, scene in enumerate(scenes):
        caption = f"“{one.misconception.words}” One answer that shows it, to: {bundle.exercise.title}."
        yield figure(svg(scene, name=f"held-{number}-{at}"), caption)


def alike_part(pairs: Sequence[Alike]) -> str:
    """Return which answers to look at together, and on what that rests."""
    return section("Answers to look at together", _alike(pairs), name="alike")


def _alike(pairs: Sequence[Alike]) -> Iterator[str]:
    yield para(
        "Trainees whose answers lose marks in the same unusual way. Look at these together before you think "
        "anything of it: a shared example, a neighbour’s advice or one habit explains it as well."
    )
    if pairs:
        heads = ["Trainees", "Exercises", "Unusual numbers in common", "Expected by chance"]
        yield table("Pairs of trainees", heads, map(_alike_row, pairs))
    else:
        yield para("There are none.")
    yield para(BASIS)


def _alike_row(one: Alike) -> list[Cell]:
    names = ", ".join(row.exercise for row in one.shared)
    expected = f"{one.expected:.2g}" if one.expected >= 1e-4 else "less than 0.0001"  # noqa: PLR2004 - as printed
    return [" and ".join(one.trainees), names, (str(one.unusual), "n"), (expected, "n")]


def teach_part(lessons: Sequence[Lesson]) -> str:
    """Return what to teach next."""
    return section("What to teach next", _teach(lessons), name="teach")


def _teach(lessons: Sequence[Lesson]) -> Iterator[str]:
    if not lessons:
        yield para("Nothing stands out: no clause is met by fewer than 80 %, and no misconception is common.")
    for one in lessons:
        yield f"<h3>{safe(one.title)}</h3>"
        yield para(f"{one.why} {one.say}".strip())
        if one.practice:
            yield para(f"To practise: {', '.join(one.practice)}.")
