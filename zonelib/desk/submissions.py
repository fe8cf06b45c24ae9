"""Tell whose each file is: by folder in nbgrader's tree, by candidate number where files lie loose."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from itertools import groupby
from operator import itemgetter
from pathlib import Path

from zonelib.desk.contents import Contents, read_files
from zonelib.desk.plain import plain
from zonelib.desk.walk import LARGEST, Trouble, bytes_of, files_in, folders_in, loose_files

__all__ = ["Submission", "read_submission", "submission_groups", "submitted_root"]

NOT_TRAINEES = ("answers", "solutions", "exercises", "autograded", "feedback", "release", "source")


@dataclass(frozen=True)
class Submission:
    """What one trainee handed in for one assignment, or for any where `assignment` is ""."""

    trainee: str
    assignment: str
    contents: Contents
    handed_in: str = ""


def submitted_root(folder: Path) -> Path:
    """Return the folder whose entries are trainees: nbgrader's ``submitted`` where there is one."""
    return folder / "submitted" if (folder / "submitted").is_dir() else folder


def submission_groups(
    folder: Path, assignments: Collection[str], *, skip: Path | None = None
) -> Iterator[list[Submission]]:
    """Yield all submissions of one trainee after the other.

    Parameters
    ----------
    folder : Path
        What holds one folder for each trainee, or files, or both.
    assignments : collection of str
        Names that a folder inside a trainee's is taken for.
    skip : Path, optional
        A folder that is passed over.
    """
    root = submitted_root(folder)
    for home in folders_in(root):
        if home.name not in NOT_TRAINEES and home.resolve() != skip:
            yield list(_trainee(home, assignments))
    yield from _loose(root)


def _trainee(home: Path, assignments: Collection[str]) -> Iterator[Submission]:
    known = [folder for folder in folders_in(home) if folder.name in assignments]
    yield from (read_submission(folder, home.name, folder.name) for folder in known)
    files, troubles = files_in(home)
    rest = [path for path in files if path.relative_to(home).parts[0] not in {one.name for one in known}]
    left = [one for one in troubles if one.file.split("/")[0] not in {folder.name for folder in known}]
    if rest or left or not known:
        yield Submission(home.name, "", read_files(home, rest) + Contents(troubles=tuple(left)))


def read_submission(folder: Path, trainee: str, assignment: str) -> Submission:
    """Read what lies in one folder of ``submitted/<trainee>/<assignment>``."""
    files, troubles = files_in(folder)
    contents = read_files(folder, files) + Contents(troubles=tuple(troubles))
    return Submission(trainee, assignment, contents, _timestamp(folder / "timestamp.txt"))


def _timestamp(path: Path) -> str:
    """Return the time nbgrader noted when it collected the submission, or ""."""
    if path.is_symlink() or not path.is_file() or path.stat().st_size > LARGEST:
        return ""
    return plain(bytes_of(path).decode("utf-8", "replace"))[:40]


def _loose(root: Path) -> Iterator[list[Submission]]:
    """Put files without a trainee's folder together by the candidate number in them."""
    told = sorted(_named(root), key=itemgetter(0))
    for name, group in groupby(told, key=itemgetter(0)):
        yield [Submission(name, "", sum((contents for _, contents in group), Contents()))]


def _named(root: Path) -> Iterator[tuple[str, Contents]]:
    """Yield what each loose file holds, under its candidate number, or its own name where it has none."""
    for path, why in [*loose_files(root), *loose_files(root / "answers")]:
        if path.name.endswith(".bundle.json"):
            continue
        contents = Contents(troubles=(Trouble(path.name, why),)) if why else read_files(root, [path])
        if contents.found or contents.troubles:
            yield contents.candidate or path.stem, contents
