"""The form: the room's name, the steps, the fields of one step, and what comes of it below."""

from html import escape
from importlib import resources
from pathlib import Path

from ipywidgets import HTML, Combobox, Dropdown, ToggleButtons, VBox

from zonelib.sheet.lesson.page import still
from zonelib.sheet.survey.editor import button, flow
from zonelib.sheet.survey.page import drawing_html, plan_html, status_html
from zonelib.sheet.survey.panes import LEFT, STEPS, Pane, panes
from zonelib.sheet.survey.words import say
from zonelib.sheet.survey.work import Survey, fault, packs
from zonelib.sheet.trouble import SheetTrouble

__all__ = ["Form"]

PLANNING = 3
"""In the first steps the plan is shown as well."""


class Form:
    """The survey as it stands in a notebook.

    Parameters
    ----------
    folder : str or Path, optional
        Where the notebook lies, if it cannot be told.

    Attributes
    ----------
    survey : Survey
        What the form changes.
    """

    def __init__(self, folder: str | Path | None = None) -> None:
        self.survey = Survey(folder)
        self._name = Combobox(description=say("room-name"), style=LEFT, ensure_option=False)
        self._pack = Dropdown(options=[(one.country, name) for name, one in packs().items()], style=LEFT)
        self._pack.description = say("rules-of")
        self._steps = ToggleButtons(options=[(say(f"step-{name}"), at) for at, name in enumerate(STEPS)])
        self._steps.add_class("zl-steps")
        self._status, self._plan, self._drawing = HTML(), HTML(), HTML()
        self._pane = VBox()
        head = flow(self._name, button(say("open-room"), self._open), self._pack)
        following = flow(button(say("next-step"), self._next))
        own = resources.files("zonelib.sheet.survey").joinpath("survey.css").read_text(encoding="utf-8")
        below = (self._status, self._plan, self._drawing)
        self.box = VBox([HTML(f"<style>{own}</style>"), head, self._steps, self._pane, following, *below])
        self.box.add_class("zl-survey")
        self._filled()
        self._steps.observe(self._stepped, names=["value"])
        self._pack.observe(self._ruled, names=["value"])

    def renew(self) -> None:
        """Show everything as it stands now."""
        self.panes[self._steps.value].renew()
        self._status.value = f'<div class="zl-page">{status_html(self.survey)}</div>'
        planning = self._steps.value < PLANNING
        self._plan.layout.display = None if planning else "none"
        self._plan.value = f'<div class="zl-page">{plan_html(self.survey)}</div>' if planning else ""
        self._drawing.value = f'<div class="zl-page">{self._drawn()}</div>'

    def _drawn(self) -> str:
        try:
            return drawing_html(self.survey)
        except Exception as error:  # noqa: BLE001  a callback's errors go nowhere else
            return f"<p>{escape(fault(error))}</p>"

    def _filled(self) -> None:
        """Make the panes anew for the room that is open: another country has other names."""
        notes = self.survey.notes
        self._name.options, self._name.value = tuple(self.survey.store.names()), notes.name
        self._pack.value = notes.pack
        self.panes: tuple[Pane, ...] = panes(self.survey, self.renew)
        self._steps.value = min(notes.step, len(STEPS) - 1)
        self._put()

    def _put(self) -> None:
        self._pane.children = [self.panes[self._steps.value].box]
        self.renew()

    def _open(self) -> None:
        try:
            self.survey.open(self._name.value)
        except SheetTrouble as trouble:
            self.survey.said = str(trouble)
            self.renew()
        else:
            self._filled()

    def _stepped(self, change: dict[str, int]) -> None:
        if change["new"] != self.survey.notes.step:
            self.survey.choose(step=change["new"])
        self._put()

    def _next(self) -> None:
        self._steps.value = min(self._steps.value + 1, len(STEPS) - 1)

    def _ruled(self, change: dict[str, str]) -> None:
        if change["new"] != self.survey.notes.pack:
            self.survey.choose(pack=change["new"])
            self._filled()

    def _ipython_display_(self) -> None:
        """Show the form; without a kernel, what it is for and how to start it."""
        words = f"{say('intro')} {say('run')}"
        still(f"<p>{escape(words)}</p>", words, self.box)
