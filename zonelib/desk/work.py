"""The unit of work: one trainee's files in, one feedback page and a few small rows out.

It is a function of files alone, and what it takes and gives can be sent to another process or machine that
sees the same folders. So ``--jobs`` and a cluster both call it, and neither is needed for it.
"""

import hashlib
import json
from dataclasses import dataclass, field, replace
from functools import lru_cache
from pathlib import Path

from zonelib.desk.bag import Item
from zonelib.desk.diagnosed import idea_of, ideas_html, with_ideas
from zonelib.desk.groups import Group
from zonelib.desk.kept import Kept, items_hash, kept_path, read_kept, write_kept
from zonelib.desk.late import LateRule
from zonelib.desk.marked import Marked, mark_trainee
from zonelib.desk.page import feedback_page
from zonelib.desk.plain import file_name, plain
from zonelib.desk.released import Released, find_bundles
from zonelib.desk.rows import Row, row_of
from zonelib.desk.submissions import Submission, files_of, read_files
from zonelib.desk.tables import findings_of, keep_bundle, write_text

__all__ = ["Done", "Settings", "mark_group", "page_path", "released_for"]


@dataclass(frozen=True)
class Settings:
    """What is the same for all trainees of a run.

    Attributes
    ----------
    folder, out : Path
        What is marked, and where the results go.
    bundles : Path or None
        Where the bundles are, if that was stated.
    stamp : str
        Stands for all bundles, and for the version of zonelib: what was made under another is made again.
    only : tuple of str
        The assignments to mark; empty means all.
    late : LateRule or None
        What late work loses.
    afresh : bool
        Mark again what is kept from an earlier run.
    ideas : bool
        Look for what a trainee may have misunderstood, which takes longer than the marks.
    """

    folder: Path
    out: Path
    bundles: Path | None = None
    stamp: str = ""
    only: tuple[str, ...] = ()
    late: LateRule | None = None
    afresh: bool = False
    ideas: bool = True


@dataclass(frozen=True)
class Done:
    """What there is to tell of one trainee; the findings stay on disk.

    `reused` says that nothing had changed since an earlier run.
    """

    trainee: str
    rows: tuple[Row, ...]
    troubles: tuple[str, ...] = field(default=())
    reused: bool = False


def mark_group(group: Group, settings: Settings) -> Done:
    """Mark all that one trainee handed in, and write the feedback page and what is kept.

    Calling it twice is calling it once: a worker that dies midway costs nothing but time.
    """
    released = released_for(settings)
    items, refused = files_of(group)
    others = [*map(str, refused), str(group.listed), group.told, *_rooms(released, group.trainee)]
    key = _key(settings, items, others)
    there = None if settings.afresh else read_kept(kept_path(settings.out, group.trainee))
    if there and there.key == key and (not there.rows or page_path(settings.out, group.trainee).is_file()):
        return Done(group.trainee, there.rows, there.troubles, reused=True)
    submissions = read_files(group, released.assignments, items, refused)
    marked = list(mark_trainee(submissions, released, late=settings.late, every=group.listed))
    return _written(group, settings, key, marked, tuple(_troubles(submissions, released)))


def _written(
    group: Group, settings: Settings, key: str, marked: list[Marked], troubles: tuple[str, ...]
) -> Done:
    """Write the page first and what is kept last: what is kept stands for a page that is there."""
    out, rows = settings.out, tuple(_told(row_of(one), group.told) for one in marked)
    idea = idea_of(marked) if settings.ideas else None
    if marked:
        page = feedback_page(group.trainee, marked, idea=ideas_html(idea))
        write_text(page_path(out, group.trainee), page)
    for bundle in {one.bundle.hash: one.bundle for one in marked}.values():
        keep_bundle(bundle, out)
    lines = (line for one in marked for line in findings_of(one))
    findings = (*lines, *map(json.dumps, with_ideas(idea)))
    write_kept(out, Kept(key, group.trainee, rows, findings, troubles))
    return Done(group.trainee, rows, troubles)


def _rooms(released: Released, trainee: str) -> list[str]:
    """Return the hashes of the rooms that this trainee alone was given."""
    if not released.variants:
        return []
    given = (released.bundles_for(name, trainee) for name in released.assignments)
    return [bundle.hash for each in given for bundle in each.values()]


def _told(row: Row, words: str) -> Row:
    """Add what only the tutor is told."""
    return replace(row, note=" ".join(filter(None, [row.note, words])))


def page_path(out: Path, trainee: str) -> Path:
    """Return where a trainee's feedback page is written."""
    return out / "feedback" / f"{file_name(trainee)}.html"


def released_for(settings: Settings) -> Released:
    """Return the bundles of a run, read once by each process."""
    return _released(settings.folder, settings.bundles, settings.only, settings.stamp)


@lru_cache(maxsize=2)
def _released(folder: Path, bundles: Path | None, only: tuple[str, ...], stamp: str) -> Released:
    del stamp  # it tells one state of the same folder from another
    return find_bundles(folder, stated=bundles, only=only)


def _key(settings: Settings, items: list[Item], others: list[str]) -> str:
    rules = settings.stamp, repr(settings.late), repr(settings.only), str(settings.ideas)
    return hashlib.sha256(json.dumps([*rules, items_hash(items, others)]).encode()).hexdigest()


def _troubles(submissions: list[Submission], released: Released) -> list[str]:
    lines = []
    for one in submissions:
        lines += [f"{plain(one.trainee)}: {trouble}" for trouble in one.contents.troubles]
        unknown = {found.record.exercise for found in one.contents.found} - set(released.exercises)
        told = "there is no bundle for the exercise {}; give it with --bundles"
        lines += [f"{plain(one.trainee)}: {told.format(plain(name))}" for name in sorted(unknown)]
    return lines
