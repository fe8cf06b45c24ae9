"""The pad as a widget: a page script beside it, and a border that trusts nothing from the browser."""

from typing import Any

import anywidget
import traitlets

from zonelib.sheet.code import pad_code, pad_style
from zonelib.sheet.kinds import pad_kind

__all__ = ["Pad"]

NOT_TAKEN = "This change was not kept: {troubles}. The answer kept before it is safe. Undo brings it back."


class Pad(anywidget.AnyWidget):
    """One exercise to answer; the host sets `task` and reads `answer`.

    Each confirmed change in the browser arrives once. It clears `result` and `saved`, since both speak of
    the answer before; the host then stores the answer and sets `saved` again.

    Attributes
    ----------
    task : dict
        What is asked: ``kind`` names the tool of the page script, the rest is what that tool is given
        (see `zonelib.sheet.kinds.base.PadKind.task`).
    answer : dict
        As the kind of exercise has it; ``{}`` until there is one, so that the pad takes what the task gives.
        A value from the browser that is no answer of that kind is dropped and told of in `problem`; one set
        in Python raises `traitlets.TraitError`.
    result : dict or None
        What the last check found: ``{"stretches": […], "passed", "summary"}``.
    focus : int
        Number of the message in focus, on either side; 0 for none.
    saved : str
        Such as "Saved 14:02"; empty while a change waits to be stored.
    problem : str
        Shown as an alert; empty for none.
    """

    _esm = pad_code()
    _css = pad_style()

    task = traitlets.Dict().tag(sync=True)
    # No echo: a handle must not jump back to where it was when the kernel heard of it.
    answer = traitlets.Dict().tag(sync=True, echo_update=False)
    focus = traitlets.Int(0, min=0).tag(sync=True, echo_update=False)
    result = traitlets.Dict(allow_none=True, default_value=None).tag(sync=True)
    saved = traitlets.Unicode("").tag(sync=True)
    problem = traitlets.Unicode("").tag(sync=True)

    def set_state(self, sync_data: dict[str, Any]) -> None:
        """Take from the browser what it may set, and no more.

        Parameters
        ----------
        sync_data : dict
            New values by trait, untrusted. A refused answer is told of in `problem` and changes nothing.
        """
        taken = {name: value for name, value in sync_data.items() if name == "_view_count"}
        focus = sync_data.get("focus")
        if isinstance(focus, int) and not isinstance(focus, bool) and focus >= 0:
            taken["focus"] = focus
        if "answer" in sync_data:
            troubles = self._troubles(sync_data["answer"])
            taken |= {} if troubles else {"answer": sync_data["answer"]}
            self.problem = NOT_TAKEN.format(troubles="; ".join(troubles)) if troubles else ""
        super().set_state(taken)

    def _troubles(self, value: object) -> list[str]:
        return pad_kind(self.task.get("kind", "route")).troubles(value, self.task)

    @traitlets.validate("answer")
    def _hold_to_shape(self, proposal: traitlets.Bunch) -> dict[str, Any]:
        value: dict[str, Any] = proposal["value"]
        troubles = self._troubles(value) if value else []
        if troubles:
            raise traitlets.TraitError(f"The answer does not fit the pad: {'; '.join(troubles)}.")
        return value

    @traitlets.observe("answer")
    def _forget_what_spoke_of_the_old_one(self, _change: traitlets.Bunch) -> None:
        self.set_trait("result", None)
        self.saved = ""
