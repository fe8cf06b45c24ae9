"""A folder of results that came of a sitting on the server: both know the same changed marks."""

import json
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from zonelib.desk.writing import write_text
from zonelib.site.faults import Fault, FileFault

__all__ = ["NAME", "Carried", "Link", "carry_changes", "read_link", "write_link"]

NAME = "sitting.json"
"""Beside the mark sheet: of which sitting the results are, and where the server keeps it."""


@dataclass(frozen=True)
class Link:
    """Of which sitting a folder's results are.

    Attributes
    ----------
    sitting : str
        Its name, which is the assignment's name in the mark sheet.
    database : str
        Path or address of the server's database, without a password.
    begins : str
        Hash of the first line of the sitting's log: another sitting of the same name has another.
    """

    sitting: str
    database: str
    begins: str


@dataclass(frozen=True)
class Carried:
    """What came of it when folder and server told each other of changed marks.

    Attributes
    ----------
    link : Link
        Which sitting.
    released : bool
        Whether candidates see their results there.
    sent, brought : int
        Changes that the server, and that the folder, did not know before.
    trouble : str
        Why the server's data could not be reached, or "".
    """

    link: Link
    released: bool = False
    sent: int = 0
    brought: int = 0
    trouble: str = ""


def write_link(folder: Path, link: Link) -> None:
    """Note in a folder of results of which sitting they are."""
    write_text(folder / NAME, json.dumps(asdict(link), indent=1) + "\n")


def read_link(folder: Path) -> Link | None:
    """Return of which sitting a folder's results are; None where they are of none.

    Raises
    ------
    FileFault
        If the note is there but says nothing.
    """
    path = folder / NAME
    if not path.is_file():
        return None
    try:
        data: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
        return Link(*(str(data[name]) for name in ("sitting", "database", "begins")))
    except (ValueError, KeyError, TypeError, RecursionError) as error:
        allowed = "the file as zonelib quiz mark wrote it; run that again, and it is there"
        raise FileFault(str(path), [Fault("the file", "something else", allowed)]) from error


def carry_changes(folder: Path, *, database: str | None = None) -> Carried | None:
    """Tell the server of marks changed in a folder, and the folder of those changed elsewhere.

    Parameters
    ----------
    folder : Path
        Where the mark sheet lies.
    database : str, optional
        Path or address of the server's database, where the noted one does not do.

    Returns
    -------
    Carried or None
        None where the results are of no sitting.
    """
    link = read_link(folder)
    if link is None:
        return None
    try:
        from zonelib.desk.server.carrying import carry  # without a server, no database is needed
    except ModuleNotFoundError as error:
        return Carried(link, trouble=f"the package {error.name} is not installed here")
    return carry(folder, link, database or link.database)
