"""The survey of a room without its form: notes that change, are saved, and come to a case."""

from pathlib import Path
from typing import Any

from zonelib.rules.course import Course, course_for
from zonelib.rules.pack import Pack, load_pack, pack_names
from zonelib.sheet.files import clock, notebook_folder, now
from zonelib.sheet.survey.avoid import Avoided, avoided
from zonelib.sheet.survey.case import Surveyed, surveyed
from zonelib.sheet.survey.exercise import End, ends, made_exercise, serves
from zonelib.sheet.survey.notes import Row, as_typed, next_id
from zonelib.sheet.survey.store import Store
from zonelib.sheet.survey.toml import as_toml
from zonelib.sheet.survey.words import say
from zonelib.sheet.trouble import SaveTrouble, SheetTrouble, plainly
from zonelib.sheet.words import say as words
from zonelib.site.faults import FileFault
from zonelib.site.raw import size

__all__ = ["WIDEST_DRILL", "Survey", "fault", "packs"]

FIRST = "my-room"
RIGHT_ANGLE = 90
WIDEST_DRILL = 1000.0
"""Wider than any core drill [mm]."""


def packs() -> dict[str, Pack]:
    """Return the packs that say something about where to drill, by name."""
    every = {name: load_pack(name) for name in pack_names()}
    return {name: pack for name, pack in every.items() if pack.fixings}


def fault(error: Exception) -> str:
    """Return a fault of the program itself in words: where it would be lost, someone should read it."""
    return words("fault", what=f"{type(error).__name__}, {error}"[:200])


class Survey:
    """One room being measured; every change is saved at once.

    Parameters
    ----------
    folder : str or Path, optional
        Where the notebook lies, if it cannot be told. The rooms are in ``rooms`` there.

    Attributes
    ----------
    notes : Notes
        What was measured, as typed.
    state : Surveyed
        What it comes to.
    said : str
        Whether and when it was saved, or why not.
    """

    def __init__(self, folder: str | Path | None = None) -> None:
        self.folder = notebook_folder(folder)
        self.store = Store(self.folder)
        try:
            self._course: Course | None = course_for(self.folder)
        except FileFault as found:
            raise plainly(found) from found
        self.said = ""
        names = self.store.names()
        try:
            self.open(names[0] if names else FIRST)
        except SheetTrouble as trouble:
            self.open(self._unused())
            self.said = str(trouble)

    def _unused(self) -> str:
        names, number = self.store.names(), 2
        while f"{FIRST}-{number}" in names:
            number += 1
        return f"{FIRST}-{number}"

    def open(self, name: str) -> None:
        """Open the room of that name where it was left, or begin it.

        Raises
        ------
        SheetTrouble
            If the name cannot be one, or its notes cannot be read.
        """
        notes = self.store.read(name.strip())
        if notes.pack not in packs():
            raise SheetTrouble(say("no-pack", pack=notes.pack, packs=", ".join(packs())))
        self.notes = notes
        self.state = self._read()
        self.said = say("opened", name=notes.name)

    @property
    def pack(self) -> Pack:
        """The rules, signed off where the course says so."""
        pack = packs()[self.notes.pack]
        return self._course.signed(pack) if self._course else pack

    def _read(self) -> Surveyed:
        return surveyed(self.notes, self.pack)

    # --- changes --------------------------------------------------------------------------

    def change(self, group: str, at: int, **typed: Any) -> None:
        """Note values in a row of a group, as typed: ``room walls openings accessories``."""
        self.notes.rows(group)[at].update({key: as_typed(value) for key, value in typed.items()})
        self.keep()

    def choose(self, **parts: Any) -> None:
        """Note a choice about the whole room: ``pack spread drill step``."""
        for key, value in parts.items():
            setattr(self.notes, key, as_typed(value) if key == "drill" else value)
        self.keep()

    def add_wall(self) -> int:
        """Add a wall and return its row; it turns as most walls do, until another turn is measured."""
        self.notes.walls.append({"length": None, "turn": RIGHT_ANGLE})
        self.keep()
        return len(self.notes.walls) - 1

    def add(self, group: str, wall: int, kind: str) -> int:
        """Add a thing to a wall, counted from 1, and return its row; nothing of it is measured yet."""
        taken: list[Row] = [*self.notes.openings, *self.notes.accessories]
        self.notes.rows(group).append({"id": next_id(kind, taken), "kind": kind, "wall": wall})
        self.keep()
        return len(self.notes.rows(group)) - 1

    def remove(self, group: str, at: int) -> None:
        """Take a row out."""
        self.notes.without(group, at)
        self.keep()

    def keep(self) -> None:
        """Read the notes anew and save them, and the case where it is sound."""
        self.state = self._read()
        case = self.state.data if self.state.case else None
        try:
            self.store.write(self.notes, case)
        except SaveTrouble as trouble:
            self.said = say("not-saved", why=trouble)
        else:
            self.said = say("saved" if case else "saved-notes", time=clock(now()))

    # --- what comes of it -----------------------------------------------------------------

    @property
    def drill(self) -> float | None:
        """The diameter of the drill, or None where none can be used [mm]."""
        found = size(self.notes.drill)
        return found if found is not None and found <= WIDEST_DRILL else None

    def avoided(self) -> Avoided | None:
        """Return the drawing with where not to drill, or None where there is none yet."""
        if self.state.case is None or self.drill is None:
            return None
        return avoided(self.state.case, self.notes.name, self.pack, drill=self.drill)

    def ends(self) -> dict[str, End]:
        """Return where a cable of an exercise may begin or end, by name."""
        case = self.state.case
        return {one.name: one for one in ends(case, self.notes.name)} if case else {}

    def make(self, start: str, end: str) -> str:
        """Write an exercise file, and return what to tell: where it lies, or why there is none."""
        known = self.ends()
        if start not in known or end not in known:
            return say("no-ends")
        if start == end or not (known[start].joins or known[end].joins):
            return say("same-ends")
        first, then = (known[start], known[end]) if known[end].joins else (known[end], known[start])
        try:  # the same cable: what it starts at is given, the rest is to be reached
            return self._made(first, then)
        except Exception as error:  # noqa: BLE001  a callback's errors go nowhere else
            return fault(error)

    def _made(self, start: End, end: End) -> str:
        if self.state.case is None:
            return say("no-ends")
        name = f"{self.notes.name}-{start.name}-{end.name}".lower().replace(".", "-")[:60]
        data = self._course.chosen(self.pack, self.state.data) if self._course else self.state.data
        made = made_exercise(data, self.state.case, name=name, start=start, end=end)
        if made.data is None:
            return made.words
        path = self.store.path(name, ".toml")
        try:
            self.store.put(path, f"{as_toml(made.data)}\n")
        except SaveTrouble as trouble:
            return say("not-saved", why=trouble)
        told = say("made", file=path.relative_to(self.folder).as_posix(), length=f"{made.length:g}")
        return " ".join([told, *(say("amiss", what=one) for one in serves(made.data))])
