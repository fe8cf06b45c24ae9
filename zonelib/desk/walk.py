"""Find the files of a folder without trusting what lies there."""

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from zonelib.desk.plain import plain

__all__ = ["LARGEST", "Trouble", "bytes_of", "files_in", "folders_in", "loose_files"]

LARGEST = 20 * 1024 * 1024
"""Larger files are not opened [bytes]."""

DEEPEST = 4
"""Folders inside folders, counted from the one a trainee handed in."""

MOST_FILES = 500
"""Files that are looked at in what one trainee handed in."""

PASSED_OVER = ("__MACOSX", "__pycache__", "bundles")


@dataclass(frozen=True)
class Trouble:
    """What could not be used of a submission: the file, the words, and the exercise it is for, if known."""

    file: str
    words: str
    exercise: str = ""

    def __str__(self) -> str:
        """Return the trouble as one line."""
        return f"{plain(self.file)}: {self.words}"


def folders_in(folder: Path) -> list[Path]:
    """Return the folders in a folder by name: no links, and none that hold nothing handed in."""
    names = [entry.name for entry in _entries_of(folder) or () if entry.is_dir(follow_symlinks=False)]
    return [folder / name for name in names if not name.startswith(".") and name not in PASSED_OVER]


def files_in(folder: Path) -> tuple[list[Path], list[Trouble]]:
    """Return the files of what one trainee handed in by name, and what was left out."""
    files: list[Path] = []
    troubles: list[Trouble] = []
    for path, why in _entries(folder, 0):
        if why:
            troubles.append(Trouble(path.relative_to(folder).as_posix(), why))
        elif len(files) < MOST_FILES:
            files.append(path)
        else:
            told = f"It holds more than {MOST_FILES} files; the rest is left out."
            troubles.append(Trouble(folder.name, told))
            break
    return files, troubles


def loose_files(folder: Path) -> list[tuple[Path, str]]:
    """Return the files that lie in a folder itself, each with the reason why it is left out, or ""."""
    entries = (_entries_of(folder) or []) if folder.is_dir() else []
    plainly = [one for one in entries if not one.is_dir() or one.is_symlink()]
    return [(Path(one.path), _refusal(one)) for one in plainly if not one.name.startswith(".")]


def _entries_of(folder: Path) -> list[os.DirEntry[str]] | None:
    """Return what lies in a folder by name, or None where it cannot be opened."""
    try:
        return sorted(os.scandir(folder), key=lambda one: one.name)
    except OSError:
        return None


def _entries(folder: Path, depth: int) -> Iterator[tuple[Path, str]]:
    """Yield each file with the reason why it is left out, or ""."""
    entries = _entries_of(folder)
    if entries is None:
        yield folder, "The folder cannot be opened."
    for entry in entries or ():
        if entry.name.startswith(".") or entry.name in PASSED_OVER:
            continue
        if not entry.is_dir(follow_symlinks=False):
            yield Path(entry.path), _refusal(entry)
        else:
            yield from _below(Path(entry.path), depth + 1)


def _below(folder: Path, depth: int) -> Iterator[tuple[Path, str]]:
    if depth > DEEPEST:
        yield folder, f"It lies more than {DEEPEST} folders deep and is left out."
    else:
        yield from _entries(folder, depth)


def _refusal(entry: os.DirEntry[str]) -> str:
    if entry.is_symlink():
        return "It is a link to somewhere else, and links are not followed."
    if not entry.is_file(follow_symlinks=False):
        return "It is not an ordinary file and was not opened."
    large = entry.stat(follow_symlinks=False).st_size > LARGEST
    return f"It is larger than {LARGEST // 1024**2} MB and was not opened." if large else ""


def bytes_of(path: Path) -> bytes:
    """Return what a file holds, cut one byte over the largest size that is read."""
    with path.open("rb") as file:
        return file.read(LARGEST + 1)
