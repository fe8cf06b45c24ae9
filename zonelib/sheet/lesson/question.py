"""A question that one click answers, with a reason for every choice."""

from collections.abc import Callable
from html import escape
from typing import Any

from ipywidgets import HTML, Button, VBox

from zonelib.sheet.lesson.data import Choice, Question
from zonelib.sheet.lesson.page import still
from zonelib.sheet.words import say

__all__ = ["QuestionBox", "show_question"]

LETTERS = "ABCDEFGH"


class QuestionBox:
    """The question as it stands in a notebook.

    Parameters
    ----------
    question : Question
        What is asked.
    """

    def __init__(self, question: Question) -> None:
        self.buttons = [self._button(n, choice) for n, choice in enumerate(question.choices)]
        self.answer = HTML(_page(escape(say("ask-start"))))
        choices = VBox(self.buttons)
        choices.add_class("zl-choices")
        self.box = VBox(
            [HTML(f'<div class="zl-page"><b>{escape(question.ask)}</b></div>'), choices, self.answer]
        )

    def _button(self, n: int, choice: Choice) -> Button:
        button = Button(description=f"{LETTERS[n]}. {choice.words}", tooltip="")
        button.on_click(self._taken(choice))
        return button

    def _taken(self, choice: Choice) -> Callable[[Any], None]:
        def take(pressed: Button) -> None:
            for button in self.buttons:
                button.remove_class("zl-taken")
            pressed.add_class("zl-taken")
            self.answer.value = _page(
                f"{escape(choice.words)} – <b>{_verdict(choice)}</b> {escape(choice.why)}"
            )

        return take


def show_question(question: Question) -> None:
    """Show a question; without a kernel, with its reasons folded away."""
    choices = "".join(f"<li>{escape(one.words)}</li>" for one in question.choices)
    reasons = "".join(
        f"<li>{escape(one.words)} – <b>{_verdict(one)}</b> {escape(one.why)}</li>" for one in question.choices
    )
    html = (
        f"<p><b>{escape(question.ask)}</b></p><ol type='A'>{choices}</ol>"
        f"<details><summary>{escape(say('ask-folded'))}</summary><ol type='A'>{reasons}</ol></details>"
    )
    told = [
        f"{LETTERS[n]}. {one.words} ({_verdict(one)} {one.why})" for n, one in enumerate(question.choices)
    ]
    still(html, "\n".join([question.ask, *told]), QuestionBox(question).box)


def _verdict(choice: Choice) -> str:
    return "Yes." if choice.right else "No."


def _page(html: str) -> str:
    return f'<div class="zl-page" role="status">{html}</div>'
