"""One field of the form: what is typed, its unit and range, and what the case reader says of it."""

from collections.abc import Callable, Iterable
from html import escape
from typing import Any

from ipywidgets import HTML, Checkbox, Dropdown, Text, VBox

from zonelib.sheet.survey.fields import FormField
from zonelib.sheet.survey.words import say

__all__ = ["Input"]

Changed = Callable[[str, Any], None]


class Input:
    """A field with its hint below it.

    Parameters
    ----------
    field : FormField
        What is asked.
    changed : callable
        Called with key and value when someone has typed or chosen.
    builds : iterable of pairs
        Words and name of each build, where it asks for one.
    """

    def __init__(self, field: FormField, changed: Changed, *, builds: Iterable[tuple[str, str]] = ()) -> None:
        self.field, self._changed, self._loading = field, changed, False
        self.widget = _widget(field, builds)
        self.hint = HTML()
        self.hint.add_class("zl-hint")
        self.box = VBox([self.widget, self.hint])
        self.box.add_class("zl-field")
        self.widget.observe(self._typed, names=["value"])

    def _typed(self, change: Any) -> None:
        if not self._loading:
            self._changed(self.field.key, change["new"])

    def show(self, value: Any) -> None:
        """Show a value without taking it for a typed one."""
        self._loading = True
        try:
            self.widget.value = self._shown(value)
        finally:
            self._loading = False

    def _shown(self, value: Any) -> Any:
        if isinstance(self.widget, Checkbox):
            return bool(value)
        if isinstance(self.widget, Dropdown):
            return value if value in [name for _, name in self.widget.options] else None
        return "" if value is None else f"{value:g}" if isinstance(value, float) else str(value)

    def tell(self, *, allowed: str, wanted: bool, faults: Iterable[str]) -> None:
        """Show the range, whether it is still to be measured, and its faults."""
        parts = [escape(say("range", allowed=allowed))] if allowed else []
        parts += [f"<b>{escape(say('wanted'))}</b>"] if wanted else []
        parts += [f'<span class="zl-amiss">{escape(one)}</span>' for one in faults]
        self.hint.value = " ".join(parts)


def _widget(field: FormField, builds: Iterable[tuple[str, str]]) -> Any:
    style = {"description_width": "initial"}
    if field.range == "flag":
        return Checkbox(description=field.label, indent=False)
    if field.range == "builds":
        first = say("choose") if field.needed else say("same-as-room")
        return Dropdown(options=[(first, None), *builds], description=field.label, style=style)
    return Text(description=field.label, continuous_update=False, style=style)
