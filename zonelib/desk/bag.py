"""Go through all that one trainee handed in, zips within zips as well, one file at a time."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from os import getpid
from pathlib import Path
from zipfile import ZipFile

from zonelib.desk import walk
from zonelib.desk.walk import Trouble, bytes_of
from zonelib.desk.zips import UnreadableZip, is_zip, member_bytes, members_of, open_zip

__all__ = ["Bag", "Item", "class_zip", "item_bytes"]

MOST_BYTES = 100 * 1024 * 1024
"""What one trainee's files may come to, unpacked [bytes]."""

DEEPEST_ZIP = 2
"""Zips inside zips, counted from the one that lies in a folder."""

OTHER_PACKED = ("[Content_Types].xml", "mimetype", "META-INF/MANIFEST.MF")
"""What tells that a zip is a document of an office program or the like, passed over without a word."""

PASSED_OVER = (*walk.PASSED_OVER, ".ipynb_checkpoints")


@dataclass(frozen=True)
class Item:
    """A file that was handed in: on disk, or the `member`-th of a zip there.

    `shown` is its name within the submission, folders and zips before it.
    """

    path: Path
    shown: str
    member: int = -1


def item_bytes(item: Item) -> bytes:
    """Return what a file holds, cut one byte over the largest size that is read.

    Raises
    ------
    OSError, UnreadableZip
        If it cannot be read.
    """
    if item.member < 0:
        return bytes_of(item.path)
    return member_bytes(class_zip(item.path), item.member)


def class_zip(path: Path) -> ZipFile:
    """Return a zip on disk, opened once for all its files by each process."""
    stated = path.stat()
    return _opened(getpid(), path, stated.st_mtime_ns, stated.st_size)


@lru_cache(maxsize=1)
def _opened(process: int, path: Path, stamp: int, size: int) -> ZipFile:
    del process, stamp, size  # they tell one opening from another: a handle is never shared by processes
    return open_zip(path)


@dataclass
class Bag:
    """Reads files one by one, and keeps what could not be read in `troubles`."""

    troubles: list[Trouble] = field(default_factory=list)
    files: int = 0
    left: int = MOST_BYTES

    def contents(self, items: Iterable[Item]) -> Iterator[tuple[str, bytes]]:
        """Yield name and contents of every file that is no zip, those in zips as well."""
        for item in items:
            try:
                raw = item_bytes(item)
            except OSError:
                self._tell(item.shown, "The file cannot be opened.")
            except UnreadableZip as error:
                self._tell(item.shown, str(error))
            else:
                yield from self._contents(item.shown, raw, 0)

    def _contents(self, shown: str, raw: bytes, depth: int) -> Iterator[tuple[str, bytes]]:
        self.left -= len(raw)
        if self.left < 0:
            self._tell(shown, f"All files come to more than {MOST_BYTES // 1024**2} MB; it was not read.")
        elif not is_zip(raw):
            yield shown, raw
        elif depth >= DEEPEST_ZIP:
            self._tell(shown, f"It is a zip more than {DEEPEST_ZIP} zips deep and was not opened.")
        else:
            yield from self._zip(shown, raw, depth)

    def _zip(self, shown: str, raw: bytes, depth: int) -> Iterator[tuple[str, bytes]]:
        try:
            archive = open_zip(raw)
        except UnreadableZip as error:
            self._tell(shown, str(error))
            return
        with archive:
            if not _is_document(archive):
                yield from self._members(shown, archive, depth)

    def _members(self, shown: str, archive: ZipFile, depth: int) -> Iterator[tuple[str, bytes]]:
        for member in members_of(archive):
            name = f"{shown}/{member.shown}"
            if _passed_over(member.parts):
                continue
            self.files += 1
            if self.files > walk.MOST_FILES or self.left < 0:
                self._tell(shown, f"It holds more than {walk.MOST_FILES} files; the rest is left out.")
                return
            if member.refusal:
                self._tell(name, member.refusal)
                continue
            try:
                raw = member_bytes(archive, member.number)
            except UnreadableZip as error:
                self._tell(name, str(error))
            else:
                yield from self._contents(name, raw, depth + 1)

    def _tell(self, shown: str, words: str) -> None:
        self.troubles.append(Trouble(shown, words))


def _passed_over(parts: tuple[str, ...]) -> bool:
    return any(part in PASSED_OVER or part.startswith(".") for part in parts if part != "..")


def _is_document(archive: ZipFile) -> bool:
    return any(name in OTHER_PACKED for name in archive.namelist()[:3])
