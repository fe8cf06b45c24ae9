"""The fields of one row at a time, with a list to choose the row from."""

from collections.abc import Callable, Sequence
from typing import Any

from ipywidgets import Box, Button, Dropdown, VBox

from zonelib.sheet.survey.fields import allowed, fields
from zonelib.sheet.survey.inputs import Input
from zonelib.sheet.survey.words import say
from zonelib.sheet.survey.work import Survey

__all__ = ["NONE", "Editor", "button", "flow", "offer"]

Named = Callable[[], list[tuple[str, int]]]


def button(words: str, action: Callable[[], None], *, main: bool = False) -> Button:
    """Return a button that does something."""
    made = Button(description=words, tooltip="")
    made.on_click(lambda _made: action())
    if main:
        made.add_class("zl-main")
    return made


def flow(*children: Any) -> Box:
    """Return a row that wraps where it finds no room."""
    made = Box(list(children))
    made.add_class("zl-flow")
    return made


def offer(
    chooser: Dropdown, options: Sequence[tuple[str, Any]], wanted: Any = None, *, last: bool = False
) -> None:
    """Offer what there is now; what was chosen stays so while it is there, else the first or last is."""
    names = [name for _, name in options]
    wanted = chooser.value if wanted is None else wanted
    if list(chooser.options) != list(options):
        chooser.options = options
    chooser.value = wanted if wanted in names else names[-1 if last else 0]


class Editor:
    """Fields for one row of a group.

    Parameters
    ----------
    survey : Survey
        What they change.
    shown : str
        The group of fields; ``own`` are fields of the walls.
    then : callable
        Called after each change.
    rows : callable, optional
        Gives words and position of each row to choose from; without it there is one row.
    words : str
        What stands beside the list.
    """

    def __init__(
        self, survey: Survey, shown: str, then: Callable[[], None], *,
        rows: Named | None = None, words: str = "",
    ) -> None:  # fmt: skip
        self._survey, self._shown, self._then, self._rows = survey, shown, then, rows
        self._group = "walls" if shown == "own" else shown
        builds = [(one.words, name) for name, one in survey.pack.builds.items()]
        self.inputs = [Input(one, self._changed, builds=builds) for one in fields()[shown]]
        self.list = Dropdown(description=words, style={"description_width": "initial"})
        self.list.observe(lambda _change: self.show(), names=["value"])
        self.fields = flow(*(one.box for one in self.inputs))
        self.box = VBox([self.list, self.fields] if rows else [self.fields])

    @property
    def at(self) -> int | None:
        """The row that is shown, or None where there is none."""
        return self.list.value if self._rows else 0

    def _changed(self, key: str, value: Any) -> None:
        if self.at is not None:
            self._survey.change(self._group, self.at, **{key: value})
            self._then()

    def renew(self, at: int | None = None) -> None:
        """Offer the rows there are now, and show the one named, or the one shown before."""
        if self._rows:
            offer(self.list, self._rows() or NONE, at, last=True)
        self.show()

    def show(self) -> None:
        """Fill the fields from the notes, and tell what is amiss with each."""
        row = self._row()
        self.fields.layout.display = None if row is not None else "none"
        for one in self.inputs:
            values = row or {}
            one.show(values.get(one.field.key))
            one.tell(
                allowed=allowed(one.field, values, self._survey.notes),
                wanted=one.field.needed and values.get(one.field.key) is None,
                faults=self._faults(one.field.key),
            )

    def _row(self) -> dict[str, Any] | None:
        rows = self._survey.notes.rows(self._group)
        return rows[self.at] if self.at is not None and self.at < len(rows) else None

    def _faults(self, key: str) -> list[str]:
        told = self._survey.state.told
        groups = {self._shown, "own"} if self._group == "walls" else {self._shown}
        return [one.words for one in told if one.group in groups and (one.at, one.key) == (self.at, key)]


NONE: list[tuple[str, Any]] = [(say("none-yet"), None)]
"""What a list offers while there is nothing to choose."""
