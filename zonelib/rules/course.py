"""The course file: what a tutor chooses and signs once, for every case and exercise of a course."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from pydantic import Field, ValidationError

from zonelib.rules.course_check import pack_faults, pack_of
from zonelib.rules.pack import Pack
from zonelib.rules.signoff import SignOff
from zonelib.site.faults import FileFault, faults_of
from zonelib.site.fields import Id, Piece
from zonelib.site.load import read_data
from zonelib.site.upgrades import upgraded

__all__ = ["FILE", "Course", "CourseFile", "Entry", "course_for", "read_course"]

FILE = "course.toml"


class CoursePack(Piece):
    """One pack of a course: a name or a path, readings that differ from its own, and who checked it."""

    pack: Id
    readings: dict[str, str] = Field(default_factory=dict)
    checked: SignOff | None = None


class CourseFile(Piece):
    """What a course file says."""

    schema_version: Literal[1] = Field(alias="schema")
    packs: tuple[CoursePack, ...]


@dataclass(frozen=True)
class Entry:
    """What a course says of one pack: the pack as the course loads it, its readings, and who checked it."""

    pack: Pack
    readings: Mapping[str, str]
    checked: SignOff | None


@dataclass(frozen=True)
class Course:
    """A course file that has been read.

    Attributes
    ----------
    path : Path
        Where it lies.
    entries : mapping of str to Entry
        By the id of the pack; a pack that is not among them is left as it is.
    """

    path: Path
    entries: Mapping[str, Entry]

    def chosen(self, pack: Pack, data: dict[str, Any]) -> dict[str, Any]:
        """Return a case's data with the course's readings wherever the case sets none.

        A reading that this file of the pack does not know is left out: the course was read with another.
        """
        entry, stated = self.entries.get(pack.id), data.get("readings", {})
        known = pack.vocabulary.readings
        chosen = entry.readings if entry else {}
        beneath = {name: value for name, value in chosen.items() if value in known.get(name, ())}
        if not beneath or not isinstance(stated, dict):
            return data
        return {**data, "readings": {**beneath, **stated}}

    def signed(self, pack: Pack) -> Pack:
        """Return a pack with its sign-off; one for another edition or other contents does not count."""
        entry = self.entries.get(pack.id)
        if entry is None or entry.checked is None:
            return pack
        if pack == entry.pack:
            return pack.model_copy(update={"checked": entry.checked})
        what = "this edition" if pack.edition != entry.checked.edition else "this file of it"
        told = f"the course signs off {entry.checked.edition}, not {what}, so that does not count"
        return pack.model_copy(update={"edition_note": "; ".join(filter(None, (pack.edition_note, told)))})


def course_for(folder: Path, stated: Path | None = None) -> Course | None:
    """Return the course that what lies in a folder belongs to.

    It is `stated` where that is given. Else it is ``course.toml`` in the folder itself, or in the
    nearest folder above that holds one. Else there is none.

    Raises
    ------
    FileFault
        With every fault found in the course file.
    """
    if stated is not None:
        return read_course(stated)
    found = _nearest(folder)
    return read_course(found) if found else None


def _nearest(folder: Path) -> Path | None:
    try:
        whole = folder.resolve()
        near = (place / FILE for place in (whole, *whole.parents))
        return next((path for path in near if path.is_file()), None)
    except (OSError, RuntimeError, ValueError):
        return None  # a folder that cannot be looked at: whoever reads the file itself tells of it


def read_course(path: Path) -> Course:
    """Read a course file.

    Raises
    ------
    FileFault
        With every fault found in it.
    """
    data, file = upgraded("course", read_data(path), file=str(path)), None
    faults = pack_faults(data, path.parent)
    try:
        file = CourseFile.model_validate(data)
    except ValidationError as error:
        faults = [*faults_of(error, data, CourseFile), *faults]
    if faults or file is None:
        raise FileFault(str(path), faults)
    entries = (Entry(pack_of(one.pack, path.parent), one.readings, one.checked) for one in file.packs)
    return Course(path, {one.pack.id: one for one in entries})
