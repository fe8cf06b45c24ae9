"""The parts of the page that hold marks and figures of exercises."""

from collections.abc import Iterator

from zonelib.desk.report.charts import BANDS, band_counts, facility_chart, marks_chart
from zonelib.desk.report.html import figure, listing, para, percent, section, signed, table
from zonelib.desk.report.reading import Row
from zonelib.desk.report.sets import PaperSet
from zonelib.desk.statistics import FEW, SMALL, Item, Reliability, Spread, how_sure
from zonelib.exercise.messages import marks

__all__ = ["exercises_part", "item_words", "marks_part", "reliability_words"]

EASY = 0.9
"""From this facility on nearly everybody has it, and it can hardly tell people apart."""

BANDS_OF_DISCRIMINATION = ((0.4, "very good"), (0.3, "good"), (0.2, "marginal"), (0.0, "low"))
"""Ebel and Frisbie 1991, as widely repeated (grade C)."""


def marks_part(one: PaperSet, number: int) -> str:
    """Return the marks of an assignment with their spread."""
    return section(f"Marks: {one.name}", _marks(one, number), name=f"marks-{number}")


def _marks(one: PaperSet, number: int) -> Iterator[str]:
    if one.spread is None:
        yield para("Nobody has handed anything in.")
        return
    shares = list(one.totals.values())
    yield para(_spread_words(one.spread))
    if one.absent:
        yield para(f"Handed in nothing, and counted in no figure: {', '.join(one.absent)}.")
    yield figure(marks_chart(shares, one.spread, name=f"spread-{number}"), "Trainees by share of the marks.")
    heads = [f"{at * BANDS}–{(at + 1) * BANDS}" for at in range(100 // BANDS)]
    yield table(
        "Trainees in each tenth of the marks [%]",
        ["Share", *heads],
        [["Trainees", *((str(one), "n") for one in band_counts(shares))]],
    )
    yield table(
        "Marks of each trainee", ["Trainee", "Marks", "Out of", "Share"], _mark_rows(one), css="marks"
    )


def _spread_words(spread: Spread) -> str:
    return (
        f"{spread.people} trainees. Mean {percent(spread.mean)}, middle {percent(spread.median)}. "
        f"The middle half lies between {percent(spread.lower)} and {percent(spread.upper)}. "
        f"Lowest {percent(spread.least)}, highest {percent(spread.greatest)}; "
        f"standard deviation {100 * spread.deviation:.0f} percentage points."
    )


def _mark_rows(one: PaperSet) -> Iterator[list[str | tuple[str, str]]]:
    rows: dict[str, list[Row]] = {}
    for row in one.rows:
        rows.setdefault(row.trainee, []).append(row)
    for trainee, each in sorted(rows.items()):
        score, points = sum(row.score for row in each), sum(row.points for row in each)
        changed = " (changed)" if any(row.change for row in each) else ""
        share = percent(score / points) if points else ""
        yield [trainee, (marks(score) + changed, "n"), (marks(points), "n"), (share, "n")]


def exercises_part(one: PaperSet, number: int) -> str:
    """Return the figures of each exercise of an assignment."""
    return section(f"Exercises: {one.name}", _exercises(one, number), name=f"exercises-{number}")


def _exercises(one: PaperSet, number: int) -> Iterator[str]:
    yield para(how_sure(one.people), "sure")
    if not one.items:
        return
    yield figure(
        facility_chart(one.items, name=f"facility-{number}"), "Facility: the mean share of the marks."
    )
    enough = one.people >= FEW
    heads = ["Exercise", "Facility", "Discrimination", "Upper less lower", "What it says"]
    rows = ([item.name, *_item(item, enough=enough)] for item in one.items)
    yield table("Figures of each exercise", heads if enough else heads[:2], rows)
    if one.reliability:
        yield listing(reliability_words(one.reliability))
    yield para(
        "Discrimination is the correlation of an exercise with the total of the others. "
        "Upper less lower compares the best 27 % with the lowest 27 %. "
        "Each exercise counts as a share of its own marks, lateness aside."
    )


def _item(item: Item, *, enough: bool) -> list[str | tuple[str, str]]:
    if not enough:
        return [(percent(item.facility), "n")]
    values = percent(item.facility), signed(item.discrimination), signed(item.upper_lower)
    return [*((one, "n") for one in values), item_words(item)]


def item_words(item: Item) -> str:
    """Return what the figures of an exercise say; a word, not a verdict."""
    found = item.discrimination
    if found is None:
        return "not defined: nothing varies here"
    if found < 0:
        return "negative: look at what it asks, and at what it marks"
    if item.facility >= EASY:
        return "nearly everybody has it, so it can hardly tell people apart"
    word = next(word for least, word in BANDS_OF_DISCRIMINATION if found >= least)
    return word if item.people >= SMALL else f"{word}, indicative"


def reliability_words(one: Reliability) -> list[str]:
    """Return the reliability of a set as a reader should take it, with what it rests on."""
    basis = f"{one.people} people, {one.exercises} exercises"
    if one.value is None or one.error is None:
        return [f"{one.name}: not defined ({basis}). It needs two exercises and totals that differ."]
    indicative = ", indicative only" if one.people < SMALL else ""
    points = 100 * one.error / one.exercises
    near = "Two trainees closer together than that cannot be told apart by this set."
    return [
        f"{one.name} {one.value:.2f} ({basis}{indicative}).",
        f"Standard error of a total: {points:.0f} percentage points. {near}",
        "A set that everybody masters has little spread, and so a low figure. That is no fault of the set.",
    ]
