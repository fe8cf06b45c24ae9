"""Mark a class again under another reading or a mended exercise: first who changes, then in earnest."""

import csv
import io
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from zonelib.desk.kept import FOLDER, Kept, read_kept
from zonelib.desk.overrides import in_force, read_changes
from zonelib.desk.plain import cell
from zonelib.desk.released import find_bundles
from zonelib.desk.renewed import read_renewed
from zonelib.desk.renewing import Place, write_renewed
from zonelib.desk.reread import reread
from zonelib.desk.rows import Row
from zonelib.desk.run import mark_folder
from zonelib.desk.tables import write_text
from zonelib.exercise.bundle import Bundle, read_bundle
from zonelib.site.faults import Fault, FileFault
from zonelib.site.tolerance import same

__all__ = ["Moved", "Plan", "apply_plan", "moved_text", "tried_plan"]

HOME = "renewed"
"""Folder of the results that holds the bundles a class was marked by again."""

COLUMNS = ("trainee", "assignment", "exercise", "before", "after", "by", "note")
STAYS = "your own mark stays"


@dataclass(frozen=True)
class Moved:
    """One mark that changes.

    Attributes
    ----------
    trainee, assignment, exercise : str
        Whose, and of what.
    before, after : float or None
        The program's marks; None where there is no row.
    note : str
        What there is to say.
    """

    trainee: str
    assignment: str
    exercise: str
    before: float | None
    after: float | None
    note: str = ""

    @property
    def by(self) -> float:
        """By how much it changes [marks]."""
        return round((self.after or 0.0) - (self.before or 0.0), 4)


@dataclass(frozen=True)
class Plan:
    """What marking again would do.

    Attributes
    ----------
    bundles, renewed : mapping
        What each trainee's exercises would be marked by, and which hash each takes over from.
    moved : tuple of Moved
        The marks that would change.
    rows : int
        How many marks were looked at.
    doubts : tuple of str
        Exercises whose own model answer loses marks.
    """

    bundles: Mapping[Place, Bundle]
    renewed: Mapping[str, str]
    moved: tuple[Moved, ...]
    rows: int
    doubts: tuple[str, ...]


def tried_plan(
    submitted: Path, against: Path, *, readings: Mapping[str, str], bundles: Path | None = None, **how: Any
) -> Plan:
    """Mark a class again beside its results, and return what would change; nothing of them is touched.

    Parameters
    ----------
    submitted, against : Path
        What was handed in, and what ``zonelib mark --out`` wrote for it.
    readings : mapping
        Readings to take instead.
    bundles : Path, optional
        Bundles of mended exercises.
    how : dict
        As for ``mark_folder``: lateness, class list.

    Raises
    ------
    FileFault
        If there are no such results, or a reading is not known.
    """
    old = {_place(row): row for kept in _kept(against) for row in kept.rows}
    new, doubts = _bundles(submitted, against, old, readings, bundles)
    renewed = _chained(against, {old[place].bundle: bundle.hash for place, bundle in new.items()})
    with _trial(new, renewed) as (tree, out):
        outcome = mark_folder(submitted, out, bundles=tree, **how)
        after = {_place(row): row for row in outcome.rows()}
    return Plan(new, renewed, tuple(_moved(old, after, against)), len(old), doubts)


def apply_plan(plan: Plan, submitted: Path, against: Path, **how: Any) -> None:
    """Mark the class again in earnest; a table of what changed stays beside the mark sheet."""
    tree = write_renewed(against / HOME, plan.bundles, plan.renewed)
    write_text(against / "remark.csv", moved_text(plan.moved))
    mark_folder(submitted, against, bundles=tree, **how)


@contextmanager
def _trial(bundles: Mapping[Place, Bundle], renewed: Mapping[str, str]) -> Iterator[tuple[Path, Path]]:
    with tempfile.TemporaryDirectory() as name:
        yield write_renewed(Path(name) / HOME, bundles, renewed), Path(name) / "out"


def _kept(against: Path) -> list[Kept]:
    found = [one for one in map(read_kept, sorted((against / FOLDER).glob("*.json"))) if one]
    if not found:
        allowed = "a folder that zonelib mark --out has written"
        raise FileFault("--against", [Fault(str(against), "no results", allowed)])
    return found


def _chained(against: Path, renewed: Mapping[str, str]) -> dict[str, str]:
    """Return what takes over from each hash, those that gave way in an earlier marking too."""
    earlier = read_renewed(against / HOME / "bundles")
    return {**renewed, **{first: renewed.get(last, last) for first, last in earlier.items()}}


def _place(row: Row) -> Place:
    return row.trainee, row.assignment, row.exercise


def _bundles(
    submitted: Path, against: Path, old: Mapping[Place, Row], readings: Mapping[str, str], stated: Path | None
) -> tuple[dict[Place, Bundle], tuple[str, ...]]:
    """Return what each mark would rest on: the mended bundle, or the one of then, under the readings."""
    mended = find_bundles(submitted, stated=stated) if stated else None
    then = {
        row.bundle: read_bundle(against / "bundles" / f"{row.bundle}.bundle.json") for row in old.values()
    }
    found: dict[Place, Bundle] = {}
    again: dict[str, tuple[Bundle, str]] = {}
    for place, row in old.items():
        trainee, assignment, exercise = place
        known = mended.bundles_for(assignment, trainee) if mended and assignment in mended.assignments else {}
        bundle = known.get(exercise, then[row.bundle])
        if bundle.hash not in again:
            again[bundle.hash] = reread(bundle, readings) if readings else (bundle, "")
        found[place] = again[bundle.hash][0]
    return found, tuple(sorted({doubt for _, doubt in again.values() if doubt}))


def _moved(old: Mapping[Place, Row], new: Mapping[Place, Row], against: Path) -> Iterator[Moved]:
    own = in_force(read_changes(against))
    for place in sorted(old.keys() | new.keys()):
        before, after = (rows[place].score if place in rows else None for rows in (old, new))
        if before is None or after is None or not same(before, after):
            yield Moved(*place, before, after, STAYS if tuple(map(cell, place)) in own else "")


def moved_text(moved: tuple[Moved, ...]) -> str:
    """Return the marks that change as CSV (RFC 4180), safe to open in a spreadsheet."""
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\r\n")
    table.writerow(COLUMNS)
    for one in moved:
        names = map(cell, (one.trainee, one.assignment, one.exercise))
        table.writerow([*names, one.before, one.after, one.by, one.note])
    return text.getvalue()
