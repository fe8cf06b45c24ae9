"""Mark a folder and write what came out."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from zonelib.desk.marked import Marked, mark_trainee
from zonelib.desk.page import feedback_page
from zonelib.desk.plain import file_name, plain
from zonelib.desk.released import Released, find_bundles
from zonelib.desk.submissions import Submission, submission_groups
from zonelib.desk.tables import findings_text, keep_bundle, marks_text, write_text
from zonelib.site.faults import Fault, FileFault

__all__ = ["Outcome", "mark_folder"]

Watch = Callable[[Iterable[list[Submission]], int], Iterable[list[Submission]]]
"""Shows how far a run is: takes the trainees and how many they are, gives them back one by one."""


@dataclass(frozen=True)
class Outcome:
    """What a marking run gave.

    Attributes
    ----------
    rows : tuple of Marked
        One for each trainee and exercise.
    troubles : tuple of str
        What could not be used, one line each.
    released : Released
        What was marked from.
    written : tuple of Path
        The files made.
    """

    rows: tuple[Marked, ...]
    troubles: tuple[str, ...]
    released: Released
    written: tuple[Path, ...]


def mark_folder(
    folder: Path, out: Path, *, bundles: Path | None = None, watch: Watch = lambda groups, _: groups
) -> Outcome:
    """Mark every submission in a folder.

    Parameters
    ----------
    folder : Path
        A course, its ``submitted`` tree, or any folder of files handed in.
    out : Path
        Where ``marks.csv``, ``findings.jsonl``, ``troubles.txt`` and ``feedback`` are written.
    bundles : Path, optional
        Where the released bundles are; by default found in the course.

    Raises
    ------
    FileFault
        If there is no such folder, or nothing to mark from.
    """
    if not folder.is_dir():
        raise FileFault(
            str(folder), [Fault("the folder", "nothing there", "a folder with what was handed in")]
        )
    released = find_bundles(folder, stated=bundles)
    groups = list(submission_groups(folder, released.assignments, skip=out.resolve()))
    rows, written = [], []
    for group in watch(groups, len(groups)):
        marked = list(mark_trainee(group, released))
        rows += marked
        if marked:
            page = feedback_page(marked[0].trainee, marked)
            written.append(write_text(out / "feedback" / f"{file_name(marked[0].trainee)}.html", page))
    told = tuple(_with_twins(rows))
    troubles = tuple(_troubles(groups, released))
    texts = {
        "marks.csv": marks_text(told),
        "findings.jsonl": findings_text(told),
        "troubles.txt": "".join(f"{line}\n" for line in troubles),
    }
    written += [write_text(out / name, text) for name, text in texts.items()]
    written += [keep_bundle(bundle, out) for bundle in {one.bundle.hash: one.bundle for one in rows}.values()]
    return Outcome(told, troubles, released, tuple(written))


def _with_twins(rows: list[Marked]) -> Iterator[Marked]:
    """Say where two trainees handed in under one candidate number; who is who is for the tutor to tell."""
    holders: dict[str, set[str]] = defaultdict(set)
    for one in rows:
        holders[one.candidate].add(one.trainee)
    for one in rows:
        others = sorted(map(plain, holders[one.candidate] - {one.trainee})) if one.candidate else []
        told = f"Candidate number {plain(one.candidate)} is also used by {', '.join(others)}."
        yield replace(one, note=f"{one.note} {told}".strip()) if others else one


def _troubles(groups: Iterable[list[Submission]], released: Released) -> Iterator[str]:
    for submission in (one for group in groups for one in group):
        yield from (f"{plain(submission.trainee)}: {one}" for one in submission.contents.troubles)
        unknown = {one.record.exercise for one in submission.contents.found} - set(released.exercises)
        for name in sorted(unknown):
            told = f"there is no bundle for the exercise {plain(name)}; give it with --bundles"
            yield f"{plain(submission.trainee)}: {told}"
