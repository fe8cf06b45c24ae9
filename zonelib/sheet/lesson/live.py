"""A picture to change: sliders, lists and ticks over it, picture and verdict redrawn at once.

The notebook sends the next value of a slider only when the kernel is done with the one before, so a redraw
needs no timer of its own: however fast a slider is moved, the last value is always drawn.
"""

from html import escape
from pathlib import Path
from typing import Any

from ipywidgets import HTML, Checkbox, Dropdown, FloatSlider, HBox, IntSlider, VBox, Widget

from zonelib.draw import Scene, svg
from zonelib.rules.course import course_for
from zonelib.rules.engine import judge
from zonelib.rules.load import pack_for
from zonelib.rules.pack import Pack
from zonelib.sheet.lesson.data import Knob, Live
from zonelib.sheet.lesson.knob import changed, start_of
from zonelib.sheet.lesson.page import still
from zonelib.sheet.lesson.telling import Line, as_html, as_text, lines
from zonelib.sheet.lesson.view import View, scene_of, shown_case
from zonelib.sheet.words import say
from zonelib.site.faults import FileFault
from zonelib.site.load import case_from_data, read_data
from zonelib.site.model import Case

__all__ = ["LiveBox"]

WIDE = {"description_width": "initial"}


class LiveBox:
    """A live picture: its widgets, and what they show.

    Parameters
    ----------
    live : Live
        What it shows and what can be changed.
    path : Path
        The case file.
    name : str
        Its name on the page; it begins the ids of its drawing.
    """

    def __init__(self, live: Live, path: Path, *, name: str) -> None:
        self._live, self._folder, self._name = live, path.parent, name
        self._data = {**read_data(path), "show": {"zones": live.zones, "view": live.view, "hidden": True}}
        self._course = course_for(path.parent)
        self.knobs = [_widget(knob, start_of(knob, self._data)) for knob in live.knobs]
        self.page = HTML()
        row = HBox(self.knobs)
        row.add_class("zl-knobs")
        self.box = VBox([row, self.page])
        self._redraw()
        for knob in self.knobs:
            knob.observe(self._redraw, names=["value"])

    def drawn(self) -> tuple[Scene, list[Line]]:
        """Return the picture and the verdict as the knobs stand.

        Raises
        ------
        FileFault
            If the values do not make a wall.
        """
        case, pack, view = self._now()
        verdict = judge(case, pack)
        return scene_of(case, pack, view, verdict=verdict), lines(verdict.findings, self._live.rules)

    def show(self) -> None:
        """Show it, with a still one for where no kernel runs."""
        scene, told = self.drawn()
        words, state = as_text(told), self._state()
        html = f"<p>{escape(state)}</p>{as_html(told)}<p>{escape(say('live-run'))}</p>{_in_words(scene)}"
        still(html, f"{state} {words}", self.box, scene=scene)

    def _now(self) -> tuple[Case, Pack, View]:
        data = changed(self._data, self._live.knobs, [knob.value for knob in self.knobs])
        show = data.pop("show")
        pack = pack_for(data, folder=self._folder)
        if self._course:
            data, pack = self._course.chosen(pack, data), self._course.signed(pack)
        case = case_from_data(data, pack.vocabulary)
        routes = self._live.routes or tuple(route.id for route in case.routes)
        view = View(show["view"], self._live.wall, routes, zones=show["zones"], hidden=show["hidden"])
        return shown_case(case, view), pack, view

    def _redraw(self, _change: Any = None) -> None:
        try:
            scene, told = self.drawn()
        except FileFault as fault:
            self.page.value = f'<div class="zl-page" role="status">{escape(str(fault))}</div>'
            return
        status = f'<div role="status"><p>{escape(self._state())}</p>{as_html(told)}</div>'
        drawing = svg(scene, name=self._name)
        self.page.value = f'<div class="zl-page zl-{self._live.view}">{status}{drawing}</div>'

    def _state(self) -> str:
        """Return how the knobs stand, in words."""
        stands = zip(self._live.knobs, self.knobs, strict=True)
        return " ".join(f"{knob.words}: {_stand(knob, widget.value)}." for knob, widget in stands)


def _stand(knob: Knob, value: Any) -> str:
    if knob.choices:
        return next(words for words, one in knob.choices.items() if one == value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:g}"


def _widget(knob: Knob, start: Any) -> Widget:
    if knob.choices:
        return Dropdown(options=list(knob.choices.items()), value=start, description=knob.words, style=WIDE)
    if knob.low is None or knob.high is None:
        return Checkbox(value=bool(start), description=knob.words, indent=False)
    made = FloatSlider if knob.step % 1 else IntSlider
    number = float if knob.step % 1 else int
    ends = {"min": number(knob.low), "max": number(knob.high), "step": number(knob.step)}
    return made(value=number(start), **ends, description=knob.words, style=WIDE)


def _in_words(scene: Scene) -> str:
    return f"<details><summary>This picture in words</summary><p>{escape(scene.description)}</p></details>"
