"""The buttons round the pad."""

from collections.abc import Callable

import ipywidgets
from ipywidgets import Button, HBox, Text, VBox

from zonelib.exercise.bundle import Bundle
from zonelib.sheet.pad import Pad
from zonelib.sheet.panel import Panel
from zonelib.sheet.still import question_html

__all__ = ["Controls", "HandInRow"]

Action = Callable[[], None]


def _button(words: str, action: Action, *, main: bool = False) -> Button:
    button = Button(description=words)
    button.on_click(lambda _button: action())
    button.add_class("zl-main") if main else None
    return button


def _row(*children: ipywidgets.Widget, shown: bool = True) -> HBox:
    row = HBox(list(children))
    row.add_class("zl-controls")
    row.layout.display = None if shown else "none"
    return row


class HandInRow:
    """The field for the candidate number and the button that hands in."""

    def __init__(self, action: Action, *, number: str) -> None:
        self.number = Text(value=number, description="Candidate number", placeholder="such as C-014")
        self.number.style.description_width = "initial"
        self.button = _button("Hand in", action)
        self.box = _row(self.number, self.button)


class Controls:
    """Question, pad, buttons and panel as one box.

    Parameters
    ----------
    bundle : Bundle
        The exercise.
    pad, panel : Pad, Panel
        What stands between and below the buttons.
    actions : dict
        What to do on ``check hint hand-in save-again take keep``.
    number : str
        Candidate number so far.
    unfolded : bool
        Whether the question is unfolded: the notebook does not hold it.
    """

    def __init__(
        self,
        bundle: Bundle,
        pad: Pad,
        *,
        panel: Panel,
        actions: dict[str, Action],
        number: str,
        unfolded: bool,
    ) -> None:
        self.check = _button("Check", actions["check"], main=True)
        self.hint = _button("Hint", actions["hint"])
        self.hint.layout.display = None if bundle.exercise.hints else "none"
        self.hand_in = HandInRow(actions["hand-in"], number=number)
        self.again = _row(_button("Save again", actions["save-again"]), shown=False)
        self.choice = _row(
            _button("Use the saved one", actions["take"]),
            _button("Keep this one", actions["keep"]),
            shown=False,
        )
        buttons = _row(self.check, self.hint, self.hand_in.number, self.hand_in.button)
        self.box = VBox([_question(bundle, unfolded=unfolded), self.again, self.choice, pad, buttons, panel])
        self.box.add_class("zl-sheet")
        # In the browser, so that a message lights its stretch without a way through the kernel.
        self.link = ipywidgets.jslink((panel, "focus"), (pad, "focus"))

    def offer(self, *, again: bool = False, choice: bool = False) -> None:
        """Show the buttons that help out of a trouble with saving, or hide them."""
        self.again.layout.display = None if again else "none"
        self.choice.layout.display = None if choice else "none"

    def count_hints(self, opened: int, steps: int) -> None:
        """Tell on the button how many hints are left."""
        self.hint.description = f"Hint ({opened} of {steps} open)" if opened else "Hint"
        self.hint.disabled = opened >= steps


def _question(bundle: Bundle, *, unfolded: bool) -> ipywidgets.HTML:
    state = " open" if unfolded else ""
    inner = f"<summary>The question</summary>{question_html(bundle)}"
    return ipywidgets.HTML(f'<details class="zl-question"{state}>{inner}</details>')
