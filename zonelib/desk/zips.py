"""Look into zips that strangers made: nothing is unpacked to disk, and no number in them is believed."""

import re
import stat
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import BinaryIO

__all__ = ["Member", "UnreadableZip", "is_zip", "member_bytes", "members_of", "open_zip"]

LARGEST = 20 * 1024 * 1024
"""A file in a zip is read up to here, whatever size it states [bytes]."""

MOST_DIRECTORY = 8 * 1024 * 1024
"""Size of the list of files that a zip ends with; one entry takes about a hundred [bytes]."""

MOST_RATIO = 200
"""Text packs to about a tenth; a bomb to less than a thousandth."""

SMALL = 1024 * 1024
"""What packs better than `MOST_RATIO` is still read up to this size [bytes]."""

STARTS = (b"PK\x03\x04", b"PK\x05\x06")
END, END_SIZE, END_64 = b"PK\x05\x06", 22, b"PK\x06\x07"
PACKED = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
ENCRYPTED = 0x1
BROKEN = (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, RuntimeError)


class UnreadableZip(Exception):
    """A zip, or a file in one, that is not read; its words say why."""


@dataclass(frozen=True)
class Member:
    """A file in a zip: its place in the list, its name in parts, and why it is left out, or ""."""

    number: int
    parts: tuple[str, ...]
    refusal: str = ""

    @property
    def shown(self) -> str:
        """The name as one text."""
        return "/".join(self.parts)


def is_zip(start: bytes) -> bool:
    """Tell from its first bytes whether a file is a zip."""
    return start.startswith(STARTS)


def open_zip(source: bytes | Path) -> zipfile.ZipFile:
    """Open a zip once its list of files is known to be of bearable size.

    Raises
    ------
    UnreadableZip
        If it is not, or if it is no zip.
    """
    try:
        with BytesIO(source) if isinstance(source, bytes) else source.open("rb") as file:
            _bounded(file)
        return zipfile.ZipFile(BytesIO(source) if isinstance(source, bytes) else source)
    except BROKEN as error:
        raise UnreadableZip("It is a zip that is damaged.") from error


def _bounded(file: BinaryIO) -> None:
    """Refuse a list of files that would fill the memory before one of them is read."""
    size = file.seek(0, 2)
    file.seek(max(size - END_SIZE - 65536, 0))
    tail = file.read()
    at = tail.rfind(END)
    if at < 0 or at + END_SIZE > len(tail):
        raise UnreadableZip("It is a zip that is damaged.")
    directory = int.from_bytes(tail[at + 12 : at + 16], "little")
    if directory > MOST_DIRECTORY or tail[max(at - 20, 0) : at].startswith(END_64):
        raise UnreadableZip("It is a zip of too many files.")


def members_of(archive: zipfile.ZipFile) -> Iterator[Member]:
    """Yield the files of a zip in their order, each with the reason why it is left out, or ""."""
    for number, info in enumerate(archive.infolist()):
        if not info.filename.endswith("/"):  # its own `is_dir` fails on a file without a name
            parts = tuple(part for part in re.split(r"[/\\]", info.filename) if part not in ("", "."))
            yield Member(number, parts or ("",), _refusal(info, parts))


def _refusal(info: zipfile.ZipInfo, parts: tuple[str, ...]) -> str:
    if ".." in parts or info.filename.startswith(("/", "\\")) or re.match(r"[A-Za-z]:", info.filename):
        return "Its name leads out of the zip, so it was not opened."
    kind = stat.S_IFMT(info.external_attr >> 16)
    if kind and kind != stat.S_IFREG:
        return "It is a link or a device, not an ordinary file, and was not opened."
    if info.flag_bits & ENCRYPTED:
        return "It is locked with a password and was not opened."
    return _out_of_proportion(info)


def _out_of_proportion(info: zipfile.ZipInfo) -> str:
    if info.compress_type not in PACKED:
        return "It is packed in a way that is not read here."
    if info.file_size > LARGEST:
        return f"It is larger than {LARGEST // 1024**2} MB and was not opened."
    if info.file_size > max(SMALL, MOST_RATIO * info.compress_size):
        return "It unpacks to far more than it should and was not opened."
    return ""


def member_bytes(archive: zipfile.ZipFile, number: int) -> bytes:
    """Return what a file in a zip holds, cut one byte over the largest size that is read.

    Raises
    ------
    UnreadableZip
        If it is damaged.
    """
    info = archive.infolist()[number]
    try:
        with archive.open(info) as file:
            return file.read(LARGEST + 1)
    except BROKEN as error:
        raise UnreadableZip("It is damaged within its zip.") from error
