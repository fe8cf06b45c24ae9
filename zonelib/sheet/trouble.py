"""Troubles that a trainee or tutor is told of in plain words."""

from zonelib.site.faults import FileFault

__all__ = ["Newer", "SaveTrouble", "SheetTrouble", "plainly"]


class SheetTrouble(ValueError):
    """What keeps a sheet from being opened or set; a notebook shows its words and no traceback."""

    def _render_traceback_(self) -> list[str]:
        return [str(self)]


class SaveTrouble(SheetTrouble):
    """An answer that could not be saved; its text is the reason in a few words."""


class Newer(SaveTrouble):
    """An answer that another window has changed meanwhile; keeps when [local time]."""

    def __init__(self, time: str) -> None:
        self.time = time
        super().__init__(time)


def plainly(fault: FileFault) -> SheetTrouble:
    """Return a file's faults as a trouble of the sheet."""
    return SheetTrouble(str(fault))
