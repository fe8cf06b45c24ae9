"""The steps of the form: one pane each."""

from abc import ABC, abstractmethod
from collections.abc import Callable
from html import escape
from typing import Any

from ipywidgets import HTML, Checkbox, Dropdown, Text, VBox

from zonelib.rules.words import mm
from zonelib.sheet.survey.editor import NONE, Editor, button, flow, offer
from zonelib.sheet.survey.words import say
from zonelib.sheet.survey.work import Survey
from zonelib.site.raw import number

__all__ = [
    "STEPS",
    "AvoidPane",
    "ExercisePane",
    "OwnPane",
    "Pane",
    "PlanPane",
    "RoomPane",
    "ThingsPane",
    "panes",
]

STEPS = ("room", "plan", "walls", "openings", "accessories", "avoid", "exercise")
LEFT = {"description_width": "initial"}
OPENINGS = [(kind, kind) for kind in ("door", "window", "hatch")]

Then = Callable[[], None]


class Pane(ABC):
    """One step: its words, and what is asked in it."""

    def __init__(self, survey: Survey, name: str, *children: Any) -> None:
        self.survey = survey
        self.box = VBox([HTML(f"<p>{escape(say(f'about-{name}'))}</p>"), *children])

    @abstractmethod
    def renew(self) -> None:
        """Show the notes as they are now."""


class RoomPane(Pane):
    """What all walls share."""

    def __init__(self, survey: Survey, then: Then) -> None:
        self._editor = Editor(survey, "room", then)
        super().__init__(survey, "room", self._editor.box)

    def renew(self) -> None:
        """Show the room as noted."""
        self._editor.renew()


class PlanPane(Pane):
    """The walls one after another, each with its turn."""

    def __init__(self, survey: Survey, then: Then) -> None:
        self._then = then
        self._editor = Editor(survey, "walls", then, rows=lambda: walls_of(survey), words=say("which-wall"))
        self._spread = Checkbox(description=say("spread"), indent=False)
        self._spread.observe(self._ticked, names=["value"])
        buttons = flow(button(say("add-wall"), self._add, main=True), button(say("take-wall"), self._remove))
        super().__init__(survey, "plan", self._editor.box, buttons, self._spread)

    def renew(self) -> None:
        """Show the walls there are."""
        self._editor.renew()
        self._spread.value = self.survey.notes.spread

    def _add(self) -> None:
        self._editor.renew(self.survey.add_wall())
        self._then()

    def _remove(self) -> None:
        if self._editor.at is not None:
            self.survey.remove("walls", self._editor.at)
            self._then()

    def _ticked(self, change: Any) -> None:
        if change["new"] != self.survey.notes.spread:
            self.survey.choose(spread=change["new"])
            self._then()


class OwnPane(Pane):
    """What one wall has of its own."""

    def __init__(self, survey: Survey, then: Then) -> None:
        self._editor = Editor(survey, "own", then, rows=lambda: walls_of(survey), words=say("which-wall"))
        super().__init__(survey, "walls", self._editor.box)

    def renew(self) -> None:
        """Show the walls there are."""
        self._editor.renew()


class ThingsPane(Pane):
    """Openings, or accessories: which wall, what it is, then its measures."""

    def __init__(self, survey: Survey, group: str, then: Then) -> None:
        self._group, self._then = group, then
        self._wall = Dropdown(description=say("which-wall"), style=LEFT)
        accessories = [(one.words, name) for name, one in survey.pack.accessories.items()]
        kinds = OPENINGS if group == "openings" else accessories
        self._kind = Dropdown(options=kinds, description=say("which-kind"), style=LEFT)
        self._editor = Editor(survey, group, then, rows=self._things, words=say("which-thing"))
        add = flow(self._wall, self._kind, button(say("add-thing"), self._add, main=True))
        take = button(say("take-thing"), self._remove)
        super().__init__(survey, group, add, self._editor.box, flow(take))

    def renew(self) -> None:
        """Show the walls and things there are."""
        offer(self._wall, walls_of(self.survey) or NONE)
        self._editor.renew()

    def _things(self) -> list[tuple[str, int]]:
        words = {name: kind for kind, name in self._kind.options}
        return [
            (
                say(
                    "thing-option", name=one["id"], kind=words.get(one["kind"], one["kind"]), wall=one["wall"]
                ),
                at,
            )
            for at, one in enumerate(self.survey.notes.rows(self._group))
        ]

    def _add(self) -> None:
        if self._wall.value is not None:
            self._editor.renew(self.survey.add(self._group, self._wall.value + 1, self._kind.value))
            self._then()

    def _remove(self) -> None:
        if self._editor.at is not None:
            self.survey.remove(self._group, self._editor.at)
            self._then()


class AvoidPane(Pane):
    """Which drill."""

    def __init__(self, survey: Survey, then: Then) -> None:
        self._then = then
        self._drill = Text(description=say("drill"), continuous_update=False, style=LEFT)
        self._drill.observe(self._typed, names=["value"])
        self._hint = HTML(f"<p class='zl-hint'>{escape(say('range', allowed=say('drill-allowed')))}</p>")
        super().__init__(survey, "avoid", self._drill, self._hint)

    def renew(self) -> None:
        """Show the drill as noted."""
        self._drill.value = str(self.survey.notes.drill if self.survey.notes.drill is not None else "")

    def _typed(self, change: Any) -> None:
        if change["new"] != str(self.survey.notes.drill):
            self.survey.choose(drill=change["new"])
            self._then()


class ExercisePane(Pane):
    """From where to where, and what came of it."""

    def __init__(self, survey: Survey, then: Then) -> None:
        self._start = Dropdown(description=say("from"), style=LEFT)
        self._end = Dropdown(description=say("to"), style=LEFT)
        self._told = HTML()
        make = button(say("make"), self._make, main=True)
        super().__init__(survey, "exercise", flow(self._start, self._end, make), self._told)
        self._then = then

    def renew(self) -> None:
        """Offer what was measured."""
        options = [(one.words, name) for name, one in self.survey.ends().items()] or NONE
        offer(self._start, options)
        offer(self._end, options)

    def _make(self) -> None:
        words = self.survey.make(self._start.value, self._end.value)
        self._told.value = f'<p role="status">{escape(words)}</p>'


def walls_of(survey: Survey) -> list[tuple[str, int]]:
    """Return the words and the row of each wall."""
    return [
        (say("wall-option", number=at + 1, length=_long(row)), at)
        for at, row in enumerate(survey.notes.walls)
    ]


def _long(row: dict[str, Any]) -> str:
    length = number(row.get("length"))
    return say("not-measured") if length is None else f"{mm(length)} mm"


def panes(survey: Survey, then: Then) -> tuple[Pane, ...]:
    """Return a pane for each step."""
    return (
        RoomPane(survey, then), PlanPane(survey, then), OwnPane(survey, then),
        ThingsPane(survey, "openings", then), ThingsPane(survey, "accessories", then),
        AvoidPane(survey, then), ExercisePane(survey, then),
    )  # fmt: skip
