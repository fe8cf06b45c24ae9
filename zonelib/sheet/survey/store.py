"""Notes and case of each room, in ``rooms`` beside the notebook; each file is as before or whole."""

import json
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from zonelib.sheet.files import write_whole
from zonelib.sheet.survey.notes import Notes
from zonelib.sheet.survey.toml import as_toml
from zonelib.sheet.survey.words import say
from zonelib.sheet.trouble import SaveTrouble, SheetTrouble

__all__ = ["Store"]

ENDING = ".notes.json"

LARGEST = 1_000_000
"""Notes above this are not those of a room [bytes]."""


class Store:
    """The folder of the rooms that were measured.

    Parameters
    ----------
    folder : Path
        Where the notebook lies.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder / "rooms"

    def names(self) -> list[str]:
        """Return the rooms there are, the one changed last first."""
        found = [
            (path.stat().st_mtime, path.name.removesuffix(ENDING)) for path in self.folder.glob(f"*{ENDING}")
        ]
        return [name for _, name in sorted(found, reverse=True)]

    def read(self, name: str) -> Notes:
        """Return the notes of a room; new ones where there are none.

        Raises
        ------
        SheetTrouble
            If the name cannot be one, or the file holds no notes.
        """
        path = self.path(name, ENDING)
        try:
            fresh = Notes(schema=1, name=name)
        except ValidationError as error:
            raise SheetTrouble(say("name", name=name)) from error
        try:
            if path.stat().st_size > LARGEST:
                raise SheetTrouble(say("no-notes", file=path.name))
            return Notes.model_validate_json(path.read_text(encoding="utf-8"))
        except FileNotFoundError:
            return fresh
        except (ValueError, OSError) as error:
            raise SheetTrouble(say("no-notes", file=path.name)) from error

    def write(self, notes: Notes, case: dict[str, Any] | None) -> None:
        """Keep the notes, and the case file where there is a sound one.

        Raises
        ------
        SaveTrouble
            With the reason in a few words.
        """
        text = json.dumps(notes.model_dump(mode="json", by_alias=True), indent=1, ensure_ascii=False)
        self.put(self.path(notes.name, ENDING), f"{text}\n")
        if case:
            self.put(self.path(notes.name, ".toml"), f"{say('head')}\n{as_toml(case)}\n")

    def put(self, path: Path, text: str) -> None:
        """Write one file whole."""
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise SaveTrouble(error.strerror or "no folder can be made here") from error
        write_whole(path, text, scratch=self.folder)

    def path(self, name: str, ending: str) -> Path:
        """Return the file of a room."""
        return self.folder / f"{name}{ending}"
