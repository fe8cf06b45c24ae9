"""Read what one trainee handed in, assignment by assignment."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from zonelib.desk.bag import Item
from zonelib.desk.contents import Contents, read_items
from zonelib.desk.groups import Group
from zonelib.desk.plain import plain
from zonelib.desk.walk import LARGEST, Trouble, bytes_of, files_in

__all__ = ["Submission", "files_of", "read_files", "read_submission"]

STAMP = "timestamp.txt"


@dataclass(frozen=True)
class Submission:
    """What one trainee handed in for one assignment, or for any where `assignment` is "".

    `stamped` is the time that nbgrader noted when it collected the work, or "".
    """

    trainee: str
    assignment: str
    contents: Contents
    stamped: str = ""


def files_of(group: Group) -> tuple[list[Item], list[Trouble]]:
    """Return the files of a group, and those that may not be opened."""
    items, refused = [*group.items], [*group.refused]
    for folder in group.folders:
        files, troubles = files_in(folder)
        items += [Item(path, path.relative_to(folder).as_posix()) for path in files]
        refused += troubles
    return items, refused


def read_files(
    group: Group, assignments: Collection[str], items: list[Item], refused: list[Trouble]
) -> list[Submission]:
    """Return all submissions of one trainee; a folder named after an assignment is one by itself."""
    found = list(_parted(group, assignments, items, refused))
    return found or [Submission(group.trainee, "", Contents())]


def _parted(
    group: Group, assignments: Collection[str], items: list[Item], refused: list[Trouble]
) -> Iterator[Submission]:
    for name in ["", *sorted(assignments)]:
        own = [one for one in items if _assignment(one.shown, group, assignments) == name]
        left = [one for one in refused if _assignment(one.file, group, assignments) == name]
        if own or left:
            contents = read_items(own) + Contents(troubles=tuple(left))
            yield Submission(group.trainee, name, contents, _stamped(group, own, name))


def _assignment(shown: str, group: Group, assignments: Collection[str]) -> str:
    """Return the assignment whose folder a file lies in: the first, or the one below the trainee's own."""
    folders = shown.split("/")[:-1]
    if group.items and folders:  # within a zip of the class: its own name and the trainee's come first
        folders = [one for one in folders if one in assignments][:1] or folders
    return folders[0] if folders and folders[0] in assignments else ""


def read_submission(folder: Path, trainee: str, assignment: str) -> Submission:
    """Read what lies in one folder of ``submitted/<trainee>/<assignment>``."""
    files, troubles = files_in(folder)
    items = [Item(path, path.relative_to(folder).as_posix()) for path in files]
    contents = read_items(items) + Contents(troubles=tuple(troubles))
    return Submission(trainee, assignment, contents, _timestamp(folder / STAMP))


def _stamped(group: Group, items: Iterable[Item], assignment: str) -> str:
    """Return the time in the stamp of an assignment's own folder; one that a trainee could place is none."""
    places = [folder / assignment / STAMP for folder in group.folders] if assignment else []
    own = {item.path for item in items}
    return next((_timestamp(place) for place in places if place in own), "")


def _timestamp(path: Path) -> str:
    """Return the time nbgrader noted when it collected the submission, or ""."""
    if path.is_symlink() or not path.is_file() or path.stat().st_size > LARGEST:
        return ""
    return plain(bytes_of(path).decode("utf-8", "replace"))[:40]
