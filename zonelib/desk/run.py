"""Mark a folder and write what came out."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from zonelib.desk.changed import show_changes
from zonelib.desk.classlist import ClassList
from zonelib.desk.flags import Flags
from zonelib.desk.groups import Group, find_groups
from zonelib.desk.kept import Kept, engine_hash, kept_path, read_kept, sweep
from zonelib.desk.late import LateRule
from zonelib.desk.overrides import read_changes
from zonelib.desk.plain import cell
from zonelib.desk.released import Released, find_bundles
from zonelib.desk.rows import Row
from zonelib.desk.spread import Spread, one_by_one
from zonelib.desk.tables import marks_head, marks_line
from zonelib.desk.totals import Totals
from zonelib.desk.work import Done, Settings, page_path
from zonelib.desk.writing import write_text, written
from zonelib.site.faults import Fault, FileFault

__all__ = ["Outcome", "Watch", "mark_folder"]

TROUBLES = "troubles.txt"

Watch = Callable[[Iterable[Done], int], Iterable[Done]]
"""Shows how far a run is: takes what is done and how much there is to do, gives it back one by one."""


@dataclass(frozen=True)
class Outcome:
    """What a marking run gave; the rows stay on disk.

    Attributes
    ----------
    out : Path
        The folder of the results.
    trainees : tuple of str
        Who was marked, in the order of the mark sheet.
    released : Released
        What was marked from.
    totals : Totals
        Marks by exercise.
    reused : int
        Trainees whose results were there already.
    flags : Flags
        What trainees seem to share.
    """

    out: Path
    trainees: tuple[str, ...]
    released: Released
    totals: Totals = field(default_factory=Totals)
    reused: int = 0
    flags: Flags = field(default_factory=Flags)

    def kept(self) -> Iterator[Kept]:
        """Yield what is kept of each trainee, one at a time."""
        yield from filter(None, (read_kept(kept_path(self.out, one)) for one in self.trainees))

    def rows(self) -> Iterator[Row]:
        """Yield the rows of the mark sheet, one at a time."""
        return (self.flags.told(row) for kept in self.kept() for row in kept.rows)

    @property
    def troubles(self) -> tuple[str, ...]:
        """What could not be used, one line each."""
        return tuple((self.out / TROUBLES).read_text(encoding="utf-8").split("\n")[:-1])


def mark_folder(
    folder: Path,
    out: Path,
    *,
    bundles: Path | None = None,
    only: Sequence[str] = (),
    late: LateRule | None = None,
    classlist: ClassList | None = None,
    afresh: bool = False,
    ideas: bool = True,
    spread: Spread = one_by_one,
    watch: Watch = lambda done, _: done,
) -> Outcome:
    """Mark every submission in a folder.

    Parameters
    ----------
    folder : Path
        A course, its ``submitted`` tree, any folder of files handed in, or a zip of one.
    out : Path
        Where ``marks.csv``, ``findings.jsonl``, ``troubles.txt``, ``summary.txt`` and ``feedback`` are
        written, ``bundles`` that were marked from, and in ``kept`` what makes the next run short.
    bundles : Path, optional
        Where the released bundles are; by default found in the course.
    only : sequence of str
        Assignments to mark; by default all.
    late : LateRule, optional
        What late work loses.
    classlist : ClassList, optional
        Who is in the class: names of folders become candidate numbers, and nobody is left out.
    afresh : bool
        Mark again what has not changed since an earlier run.
    ideas : bool
        Look for what each trainee may have misunderstood; it takes longer than the marks.
    spread : callable
        How the work is done: one by one, by several processes, or by a cluster.
    watch : callable
        Shows how far it is.

    Raises
    ------
    FileFault
        If there is no such folder, or nothing to mark from.
    """
    if not folder.exists():
        allowed = "a folder with what was handed in, or a zip of it"
        raise FileFault(str(folder), [Fault("the folder", "nothing there", allowed)])
    folder, out = folder.resolve(), out.resolve()
    released = find_bundles(folder, stated=bundles, only=only)
    groups = find_groups(folder, released.assignments, skip=out, classlist=classlist)
    stamp = f"{released.stamp}-{engine_hash()}"
    settings = Settings(folder, out, bundles and bundles.resolve(), stamp, tuple(only), late, afresh, ideas)
    return _finished(_marked(groups, settings, released, spread, watch))


def _marked(
    groups: Sequence[Group], settings: Settings, released: Released, spread: Spread, watch: Watch
) -> Outcome:
    """Do the work; of each trainee only short codes and sums are held."""
    totals, flags, reused = Totals(), Flags(released.given()), 0
    for done in watch(spread(groups, settings), len(groups)):
        totals.add(done.rows)
        flags.gather(done.rows)
        reused += done.reused
    trainees = tuple(group.trainee for group in groups)
    sweep(settings.out, iter(trainees))
    return Outcome(settings.out, trainees, released, totals, reused, flags)


def _finished(outcome: Outcome) -> Outcome:
    """Write what stands for the whole class; what is kept of each trainee is read once."""
    out = outcome.out
    with (
        written(out / "marks.csv") as marks,
        written(out / "findings.jsonl") as findings,
        written(out / TROUBLES) as troubles,
    ):
        marks([marks_head()])
        for one in outcome.kept():
            marks(marks_line(outcome.flags.told(row)) for row in one.rows)
            findings(f"{line}\n" for line in one.findings)
            troubles(f"{line}\n" for line in one.troubles)
    write_text(out / "summary.txt", outcome.totals.as_text(len(outcome.trainees)))
    _show_changed(outcome)
    return outcome


def _show_changed(outcome: Outcome) -> None:
    """Put marks that a tutor changed back into the pages that were made anew."""
    history = read_changes(outcome.out)
    changed = {one.trainee for one in history}
    for trainee in outcome.trainees if changed else ():
        if cell(trainee) in changed:
            show_changes(page_path(outcome.out, trainee), cell(trainee), history)
