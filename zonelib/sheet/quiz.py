"""A practice quiz in a notebook: several questions, one clock, marks at the end, and no server."""

import time
from collections.abc import Callable, Sequence
from functools import partial
from html import escape
from pathlib import Path

import ipywidgets
import traitlets
from ipywidgets import HTML, Button, HBox, VBox

from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.load import bank_path, read_exercise
from zonelib.exercise.marking import Result
from zonelib.exercise.messages import marks
from zonelib.exercise.report import result_html
from zonelib.rules.course import course_for
from zonelib.sheet.files import clock, notebook_folder
from zonelib.sheet.pad import Pad
from zonelib.sheet.quiz_clock import QuizClock, Running
from zonelib.sheet.still import question_html
from zonelib.sheet.task import answer_of, pad_task
from zonelib.sheet.timing import steady
from zonelib.sheet.trouble import SheetTrouble, plainly
from zonelib.sheet.words import say
from zonelib.sheet.work import Work
from zonelib.site.faults import FileFault

__all__ = ["PracticeQuiz"]


class PracticeQuiz:
    """Questions of the library against the clock, as on the server; nothing is checked before the end.

    Parameters
    ----------
    names : sequence of str
        Exercises that come with the library.
    minutes : float
        How long it lasts [min].
    name : str
        Of the folder beside the notebook that keeps its answers. Another name is another quiz.
    folder : str or Path, optional
        By default where the notebook lies.
    count : callable
        Steady seconds, for tests.

    Raises
    ------
    SheetTrouble
        If the library has no such exercise, or it has no pad.
    """

    def __init__(
        self,
        names: Sequence[str],
        minutes: float,
        *,
        name: str = "practice-quiz",
        folder: str | Path | None = None,
        count: Callable[[], float] = steady,
    ) -> None:
        where = notebook_folder(folder)
        self._works = [Work(bundle, where / name) for bundle in _bundles(names, where)]
        self.running = Running(where / name, minutes * 60, wall=time.time, count=count)
        self.pads = [_pad(work) for work in self._works]
        self.clock = QuizClock()
        self._at = 0
        self._page = VBox()
        self._page.add_class("zl-sheet")
        for work, pad in zip(self._works, self.pads, strict=True):
            pad.observe(lambda _change, work=work, pad=pad: self._drawn(work, pad), names=["answer"])
        self.clock.observe(self._ended, names=["ended"])
        self._show()

    # --- what a person does ---------------------------------------------------------------

    def start(self) -> None:
        """Start the clock and show the first question."""
        self.running.start()
        self._show()

    def finish(self) -> None:
        """End the quiz and show what was earned."""
        self.running.finish()
        self._show()

    def results(self) -> list[Result]:
        """Return the marks, once it is over.

        Raises
        ------
        SheetTrouble
            If it is not.
        """
        if not self.running.over:
            raise SheetTrouble(say("quiz-not-over"))
        return [work.mark(work.file.record.answer if work.file.record else {}) for work in self._works]

    def _go(self, at: int) -> None:
        self._at = at
        self._show()

    def _ended(self, _change: traitlets.Bunch) -> None:
        if self.running.left <= 1:
            self.finish()
        else:  # the page counted faster than the kernel: it is told again
            self.clock.pulse = self.running.pulse()

    def _drawn(self, work: Work, pad: Pad) -> None:
        if self.running.over or not self.running.started:
            pad.problem = say("quiz-over")
            return
        try:
            pad.problem, pad.saved = "", say("saved", time=clock(work.save(pad.answer).saved_at))
        except SheetTrouble as trouble:
            pad.problem = say("not-saved", why=trouble)

    # --- what is shown --------------------------------------------------------------------

    def _show(self) -> None:
        self.clock.pulse = self.running.pulse()
        if self.running.over:
            self._page.children = [self._result()]
        elif self.running.started:
            self._page.children = [self.clock, self._steps(), *self._question()]
        else:
            minutes = f"{self.running.seconds / 60:g}"
            told = say("quiz-start", questions=len(self.pads), minutes=minutes)
            self._page.children = [
                HTML(f"<p>{escape(told)}</p>"),
                _button(say("quiz-start-button"), self.start),
            ]

    def _steps(self) -> HBox:
        buttons = [
            _button(say("quiz-question", n=at + 1), partial(self._go, at), pressed=at == self._at)
            for at in range(len(self.pads))
        ]
        row = HBox([*buttons, _button(say("quiz-finish"), self.finish)])
        row.add_class("zl-controls")
        return row

    def _question(self) -> list[ipywidgets.Widget]:
        bundle = self._works[self._at].bundle
        return [HTML(question_html(bundle)), self.pads[self._at]]

    def _result(self) -> HTML:
        found = self.results()
        total, most = sum(one.score for one in found), sum(one.points for one in found)
        told = say("quiz-total", score=marks(total), points=marks(most))
        parts = [f"<p><b>{escape(told)}</b></p>"]
        pairs = zip(self._works, found, strict=True)
        parts += [
            result_html(work.bundle, one, name=f"quiz-{n}") for n, (work, one) in enumerate(pairs, start=1)
        ]
        return HTML("".join(parts))

    def _ipython_display_(self) -> None:
        from IPython.display import display

        display(self._page)  # type: ignore[no-untyped-call]  # IPython does not type it


def _bundles(names: Sequence[str], folder: Path) -> list[Bundle]:
    try:
        course = course_for(folder)
        return [freeze(read_exercise(bank_path(name)), course=course) for name in names]
    except FileFault as fault:
        raise plainly(fault) from fault


def _pad(work: Work) -> Pad:
    pad = Pad(task=pad_task(work.bundle))
    work.file.restore()
    if work.file.record:
        pad.answer = answer_of(work.file.record, work.bundle)
    return pad


def _button(words: str, act: Callable[[], None], *, pressed: bool = False) -> Button:
    button = Button(description=words)
    button.on_click(lambda _button: act())
    button.add_class("zl-main") if pressed else None
    return button
