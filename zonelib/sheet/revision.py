"""The revision notebook: the next exercise in place, and progress below it."""

from collections.abc import Callable
from datetime import UTC, datetime
from functools import cache
from html import escape
from pathlib import Path
from typing import Any

from ipywidgets import HTML, Button, HBox, VBox

from zonelib.coach.mastery.choosing import Offer, Pick, next_exercise
from zonelib.coach.mastery.overview import Row, overview
from zonelib.coach.mastery.policy import FILE as POLICY
from zonelib.coach.mastery.policy import Policy, policy, read_policy
from zonelib.coach.mastery.record import Record
from zonelib.coach.mastery.standing import sittings, standings
from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.kinds import kind_named
from zonelib.exercise.load import bank_names, bank_path, read_exercise
from zonelib.exercise.model import Exercise
from zonelib.exercise.report import safety_words
from zonelib.rules.course import course_for
from zonelib.sheet.files import KEPT, notebook_folder
from zonelib.sheet.progress import history
from zonelib.sheet.revision_plot import in_words, progress_html, progress_png
from zonelib.sheet.revision_words import tell
from zonelib.sheet.sheet import Sheet
from zonelib.sheet.showing import show
from zonelib.sheet.still import STYLE
from zonelib.sheet.trouble import plainly
from zonelib.site.faults import FileFault

__all__ = ["Revision", "bank"]


@cache
def bank() -> dict[str, Exercise]:
    """Return the exercises of the library that a notebook has a pad for."""
    every = {name: read_exercise(bank_path(name)) for name in bank_names()}
    return {name: one for name, one in every.items() if kind_named(one.kind).pad and one.aim}


def _offers() -> list[Offer]:
    return [
        Offer(name, one.aim, one.difficulty, varies=one.variants is not None) for name, one in bank().items()
    ]


class PractisedSheet(Sheet):
    """A sheet for practice: nothing is handed in, and progress follows each check."""

    def __init__(self, bundle: Bundle, *, folder: Path, notebook: Path, then: Callable[[], None]) -> None:
        super().__init__(bundle.exercise.id, folder=folder, bundle=bundle, notebook=notebook)
        self._then = then
        for part in (self._controls.hand_in.number, self._controls.hand_in.button):
            part.layout.display = "none"

    @property
    def box(self) -> VBox:
        """Question, pad, controls and panel."""
        return self._controls.box

    def check(self) -> None:
        """Mark the answer, show what is met, and bring progress up to date."""
        super().check()
        self._then()


class Revision:
    """The next exercise with its sheet, and progress: shown in a notebook, each in its cell.

    Parameters
    ----------
    folder : str or Path, optional
        Where the notebook lies, if it cannot be told.

    Attributes
    ----------
    pick : Pick
        The exercise that is open, and why it was picked.
    sheet : PractisedSheet
        Its sheet.

    Raises
    ------
    SheetTrouble
        If a course file or a policy beside it cannot be read.
    """

    def __init__(self, folder: str | Path | None = None) -> None:
        self.folder = notebook_folder(folder)
        try:
            self._course = course_for(self.folder)
            own = self._course.path.parent / POLICY if self._course else None
            self.policy: Policy = read_policy(own) if own and own.is_file() else policy()
        except FileFault as fault:
            raise plainly(fault) from fault
        self._why, self._progress, self._safety = HTML(), HTML(), HTML()
        self._button = Button(description=tell("next"))
        self._row = HBox([self._button])
        self._row.add_class("zl-controls")
        self._button.on_click(lambda _button: self.next())
        self._box = VBox()
        self._box.add_class("zl-sheet").add_class("zl-revision")
        self._skipped: set[str] = set()
        self._open()

    def next(self) -> None:
        """Open the next exercise in place of the one before; one that was not checked is left for later."""
        if self._record()[0] == self._before:
            self._skipped.add(self.pick.exercise)
        self._open()

    def _open(self) -> None:
        self._before = record = self._record()[0]
        offers = [one for one in _offers() if one.name not in self._skipped] or _offers()
        self.pick: Pick = next_exercise(record, offers, now=_now(), policy=self.policy)
        bundle = self._bundle()
        self.sheet = PractisedSheet(
            bundle, folder=self._scratch(bundle, record), notebook=self.folder, then=self._after_check
        )
        self._why.value = f'<p role="status">{escape(self.why)}</p>'
        self._box.children = [self._why, self.sheet.box, self._row, self._progress, self._safety]
        self._safety.value = f"<p><small>{escape(' '.join(safety_words(bundle)))}</small></p>"
        self._after_check()

    @property
    def why(self) -> str:
        """Why this exercise was picked, in words."""
        pick, exercise = self.pick, self.sheet.bundle.exercise
        family = self.policy.words(self.policy.family(pick.rule)) if pick.rule else ""
        mark = "" if exercise.title.endswith(("?", "!")) else "."
        words = tell(self._reason(), title=exercise.title + mark, family=family)
        return f"{words} {tell('variant')}" if self.sheet.bundle.variant else words

    def _reason(self) -> str:
        """Tell apart a rule that loses marks from one that is met and wants one exercise more."""
        found = standings(self._record()[0], [self.pick.rule], policy=self.policy)[self.pick.rule]
        return "once-more" if self.pick.why == "weakest" and found.row else self.pick.why

    def rows(self) -> tuple[Row, ...]:
        """Return how the trainee stands on each family of rules."""
        rules = (rule for one in _offers() for rule in one.aim)
        return overview(self._record()[0], rules, policy=self.policy)

    def _record(self) -> tuple[Record, tuple[str, ...]]:
        """Return what was practised here, and in the homework and lessons of the same course."""
        course = self.folder.parent
        beside = [course / "lessons", *sorted(course.glob("exercises/*/"))]
        return history([self.folder, *beside])

    def _bundle(self) -> Bundle:
        return freeze(self._exercise(), course=self._course)

    def _exercise(self) -> Exercise:
        """Return the exercise that was picked; as it stands where its file gives no such room."""
        plain = bank()[self.pick.exercise]
        if not self.pick.seed:
            return plain
        from zonelib.coach.variants import vary  # it loads scipy, which most notebooks never need

        try:
            return vary(plain, self.pick.seed, course=self._course)
        except FileFault:
            return plain

    def _scratch(self, bundle: Bundle, record: Record) -> Path:
        """Return a folder for the answer that no earlier answer lies in, out of the way of handing in."""
        key = bundle.exercise.id, bundle.variant or ""
        times = sum(one.last.key == key for one in sittings(record))
        return self.folder / "answers" / KEPT / "revision" / f"{'-'.join(filter(None, key))}-{times + 1}"

    def _after_check(self) -> None:
        notes = "".join(f"<p>{escape(one)}</p>" for one in self._record()[1])
        body = progress_html(self.rows(), needed=self.policy.in_a_row, now=_now())
        self._progress.value = f"<h3>{tell('heading')}</h3>{body}{notes}<p>{tell('private')}</p>"

    def _ipython_display_(self) -> None:
        """Show the sheet with progress; before it, what stands for it where no kernel runs."""
        rows, now, needed = self.rows(), _now(), self.policy.in_a_row
        words = in_words(rows, needed=needed, now=now)
        still = f"<p>{escape(self.why)}</p><p>{escape(tell('run'))}</p>"
        show(
            {
                "text/html": f"<style>{STYLE}</style><div class='zl-still'>{still}</div>",
                "text/plain": self.why,
            }
        )
        show({"image/png": progress_png(rows, needed=needed, now=now), "text/plain": words})
        show(_live(self._box))


def _live(box: VBox) -> dict[str, Any]:
    return {**box._repr_mimebundle_(), "text/plain": tell("run")}


def _now() -> datetime:
    return datetime.now(UTC)
