"""The sheet: question, pad, controls and panel of one exercise in a notebook."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from uuid import uuid4

import traitlets

from zonelib.exercise.answer import MIME
from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.load import bank_path, read_exercise
from zonelib.exercise.marking import Result
from zonelib.rules.course import course_for
from zonelib.sheet.candidate import remembered
from zonelib.sheet.controls import Controls
from zonelib.sheet.files import clock, notebook_folder, now
from zonelib.sheet.handin import BUNDLE, write_hand_in
from zonelib.sheet.kinds import pad_for
from zonelib.sheet.pad import Pad
from zonelib.sheet.panel import Panel, checked_view
from zonelib.sheet.showing import show
from zonelib.sheet.still import still_picture, still_words
from zonelib.sheet.task import answer_of, pad_result, pad_task
from zonelib.sheet.trouble import Newer, SaveTrouble, SheetTrouble, plainly
from zonelib.sheet.words import say
from zonelib.sheet.work import Work, bundle_beside
from zonelib.site.faults import FileFault

__all__ = ["Sheet"]


class Sheet:
    """One exercise to work on: shown in a notebook as question, pad, controls and panel.

    Parameters
    ----------
    name : str
        Name of the exercise; ``<name>.bundle.json`` lies beside the notebook.
    folder : str or Path, optional
        Where bundle and answers lie, if not beside the notebook.
    bundle : Bundle, optional
        The exercise itself, where no file of it lies there.
    notebook : Path, optional
        Where the record of what was practised lies, if not in the same folder.

    Attributes
    ----------
    pad : Pad
        What is drawn on.
    panel : Panel
        What is told.

    Raises
    ------
    SheetTrouble
        If there is no such exercise.
    """

    def __init__(
        self,
        name: str,
        *,
        folder: str | Path | None = None,
        bundle: Bundle | None = None,
        notebook: Path | None = None,
    ) -> None:
        where = notebook_folder(folder, holding=f"{name}{BUNDLE}")
        self._work = Work(bundle or bundle_beside(name, where), where, notebook=notebook)
        self._kind = pad_for(self.bundle)
        self.pad = Pad(task=pad_task(self.bundle))
        self.panel = Panel(view={"intro": say(self._kind.intro)})
        actions = {
            "check": self.check, "hint": self.hint, "hand-in": self._hand_in,
            "save-again": self._save_again, "take": self._take, "keep": self._keep,
        }  # fmt: skip
        number = remembered(where)
        self._controls = Controls(
            self.bundle,
            self.pad,
            panel=self.panel,
            actions=actions,
            number=number,
            unfolded=bundle is not None,
        )
        self._mirror_id = f"zonelib-{uuid4().hex}"
        self._displayed = self._loading = False
        with self._telling():
            self._restore()
        self.pad.observe(self._drawn, names=["answer"])

    @classmethod
    def from_bank(cls, name: str, *, folder: str | Path | None = None) -> "Sheet":
        """Return a sheet for an exercise that comes with the library, to practise on.

        Raises
        ------
        SheetTrouble
            If the library has no such exercise.
        """
        try:
            course = course_for(notebook_folder(folder))
            return cls(name, folder=folder, bundle=freeze(read_exercise(bank_path(name)), course=course))
        except FileFault as fault:
            raise plainly(fault) from fault

    @property
    def bundle(self) -> Bundle:
        """The exercise as it is marked."""
        return self._work.bundle

    @property
    def answer(self) -> dict[str, Any]:
        """The answer as it stands on the pad, or {}."""
        return dict(self.pad.answer)

    # --- what a person or a program does --------------------------------------------------

    def set(self, **parts: Any) -> None:
        """Set parts of the answer, as drawing would; it is saved at once.

        Parameters
        ----------
        **parts
            Named as in an answer of the exercise's kind. A route has ``points`` (x from the left end of the
            front face and y above floor [mm]), ``depth`` [mm] and ``protection`` (for all legs, or for
            each), and ``rcd`` (``ma`` [mA], ``at``, ``delayed``; None for no RCD).

        Raises
        ------
        SheetTrouble
            If it does not fit the exercise, or cannot be saved.
        """
        answer = self._kind.changed(self.bundle, self.answer, parts)
        try:
            self._load(answer)
        except traitlets.TraitError as error:
            raise SheetTrouble(say("shape", what=error)) from error
        self._save()

    def result(self) -> Result:
        """Return the mark of the answer as it stands on the pad."""
        return self._work.mark(self.answer)

    def check(self) -> None:
        """Mark the answer and show what is met and what to change."""
        with self._telling():
            result = self.result()
            if result.status != "marked":
                self.panel.show(notes=[result.note], said=result.note, score="")
                return
            self._work.attempt(result)
            found = pad_result(self.bundle, result)
            self.pad.set_trait("result", found)
            self.pad.focus = self.panel.focus = 0
            placed = {one["n"] for one in found["stretches"]} if found else set()
            attempt = say("attempt", n=self._work.checks, time=clock(now()))
            self.panel.show(**checked_view(self.bundle, result, placed=placed), attempt=attempt, notes=[])
            self._note([] if self._work.recorded() else [say("record-waits")])
            self._tell_idea(result)

    def _tell_idea(self, result: Result) -> None:
        """Say which idea the answer fits, if one; after the check is shown, since it takes longer."""
        if words := self._work.idea(result):
            self._note([words])

    def _note(self, notes: Sequence[str]) -> None:
        """Add notes to what the panel shows and says."""
        view = self.panel.view
        if notes:
            said = " ".join([view.get("said", ""), *notes])
            self.panel.show(notes=[*view["notes"], *notes], said=said)

    def hint(self) -> None:
        """Show the next of the exercise's hints: a fact, a pointer to the rule, a worked step."""
        hints = self.bundle.exercise.hints
        if hints is None:
            return
        steps = [hints.fact, hints.pointer, hints.step]
        self._work.hints = opened = min(self._work.hints + 1, len(steps))
        self._controls.count_hints(opened, len(steps))
        self.panel.show(hints=steps[:opened], said=steps[opened - 1])

    # --- saving ---------------------------------------------------------------------------

    def _drawn(self, _change: traitlets.Bunch) -> None:
        if not self._loading:
            with self._telling():
                self._save()

    def _save(self) -> None:
        record = self._work.save(self.answer)
        self._controls.offer()
        self._mirror()
        self.pad.problem, self.pad.saved = "", say("saved", time=clock(record.saved_at))
        self._go_stale()

    def _go_stale(self) -> None:
        if self.panel.view.get("score") and not self.panel.view.get("stale"):
            self.panel.show(stale=say("stale"))

    def _load(self, answer: dict[str, Any]) -> None:
        """Put an answer on the pad without taking it for a drawn one."""
        self._loading = True
        try:
            self.pad.answer = answer
        finally:
            self._loading = False

    def _restore(self) -> None:
        file = self._work.file
        note = file.restore()
        if file.record:
            try:
                self._load(answer_of(file.record, self.bundle))
                self.pad.saved = say("restored", time=clock(file.record.saved_at))
            except traitlets.TraitError:
                note = file.refuse()
        if note:
            self.panel.show(notes=[note], said=note)

    def _save_again(self) -> None:
        with self._telling():
            self._save()

    def _take(self) -> None:
        with self._telling():
            self._restore()
            self.pad.problem = ""
            self._controls.offer()
            self._mirror()

    def _keep(self) -> None:
        with self._telling():
            note = self._work.file.override()
            self._save()
            self.panel.show(notes=[note], said=note)

    def _hand_in(self) -> None:
        with self._telling(panel=True):
            if self.pad.problem:
                self._save()
            handed = write_hand_in(self._controls.hand_in.number.value, folder=self._work.folder)
            self.panel.show(notes=list(handed.lines), said=handed.lines[0])

    @contextmanager
    def _telling(self, *, panel: bool = False) -> Iterator[None]:
        """Turn what goes amiss in a callback into words on the page: otherwise nobody would see it."""
        try:
            yield
        except Newer as newer:
            self._tell(say("newer", time=newer.time), panel=False)
            self._controls.offer(choice=True)
        except SaveTrouble as trouble:
            self._tell(say("not-saved", why=trouble), panel=False)
            self._controls.offer(again=True)
        except SheetTrouble as trouble:
            self._tell(str(trouble), panel=panel)
        except Exception as error:  # noqa: BLE001  a callback's errors go nowhere else
            self._tell(say("fault", what=f"{type(error).__name__}, {error}"[:200]), panel=panel)

    def _tell(self, words: str, *, panel: bool) -> None:
        if panel:
            self.panel.show(notes=[words], said=words)
        else:
            self.pad.problem = words

    # --- showing --------------------------------------------------------------------------

    def _ipython_display_(self) -> None:
        """Show the sheet, and before it what stands for it in a notebook that is not running."""
        show(still_words(self.bundle))
        show(still_picture(self.bundle, self.result()))
        live = {**self._controls.box._repr_mimebundle_(), "text/plain": say("run")}
        show(live)
        show(self._mirrored(), as_id=self._mirror_id)
        self._displayed = True

    def _mirror(self) -> None:
        """Bring the copy of the answer in the notebook's own output up to date."""
        if self._displayed:
            show(self._mirrored(), as_id=self._mirror_id, update=True)

    def _mirrored(self) -> dict[str, Any]:
        record, name = self._work.file.record, self.bundle.exercise.id
        if record is None:
            return {"text/plain": say("mirror-none", exercise=name)}
        held, time = self._kind.count(self.answer), clock(record.saved_at)
        words = say("mirror", exercise=name, held=held, time=time, revision=record.revision)
        return {MIME: record.model_dump(mode="json", by_alias=True), "text/plain": words}
