"""What the grade cell of a notebook calls, and the form that hands in."""

import math
from dataclasses import replace
from pathlib import Path
from typing import Any

from ipywidgets import VBox

from zonelib.exercise.marking import Result, mark
from zonelib.exercise.report import result_html, result_text
from zonelib.sheet.candidate import remembered
from zonelib.sheet.controls import HandInRow
from zonelib.sheet.files import notebook_folder
from zonelib.sheet.handin import BUNDLE, HandedIn, write_hand_in
from zonelib.sheet.panel import Panel
from zonelib.sheet.saving import record_in
from zonelib.sheet.showing import show
from zonelib.sheet.trouble import SaveTrouble, SheetTrouble
from zonelib.sheet.words import say
from zonelib.sheet.work import Work, bundle_beside
from zonelib.site.faults import FileFault

__all__ = ["HandInForm", "grade", "hand_in"]


def grade(name: str, *, folder: str | Path | None = None) -> float:
    """Mark the saved answer, show the reasons, and return the marks.

    Parameters
    ----------
    name : str
        Name of the exercise; its bundle lies beside the notebook.
    folder : str or Path, optional
        Where bundle and answers lie, if not beside the notebook.

    Returns
    -------
    float
        Finite, and from 0 to the exercise's points.

    Raises
    ------
    SheetTrouble
        If there is no such exercise.
    """
    where = notebook_folder(folder, holding=f"{name}{BUNDLE}")
    work = Work(bundle_beside(name, where), where)
    result = _saved_result(work)
    report = {"text/html": result_html(work.bundle, result, name=f"grade-{name}")}
    show({**report, "text/plain": result_text(work.bundle, result)})
    score = result.score if math.isfinite(result.score) else 0.0
    return min(max(round(float(score), 4), 0.0), float(result.points))


def _saved_result(work: Work) -> Result:
    try:
        record = record_in(work.file.path, work.bundle.kind)
    except FileFault as fault:
        return _unread(work, str(fault))
    except OSError as error:
        return _unread(work, error.strerror or "it cannot be opened")
    return mark(work.bundle, record) if record else work.mark({})


def _unread(work: Work, why: str) -> Result:
    note = f"The saved answer cannot be read. {why}"
    blank = work.mark({})
    criteria = tuple(replace(one, reason=note) for one in blank.criteria)
    return replace(blank, status="unreadable", criteria=criteria, note=note)


class HandInForm:
    """A field for the candidate number and a button that hands in."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self.row = HandInRow(self.press, number=remembered(folder))
        self.panel = Panel()
        self._box = VBox([self.row.box, self.panel])
        self._box.add_class("zl-sheet")

    def press(self) -> None:
        """Hand in, and tell what came of it."""
        try:
            handed = write_hand_in(self.row.number.value, folder=self._folder)
            lines = list(handed.lines)
        except SaveTrouble as trouble:
            lines = [say("not-handed", why=trouble)]
        except SheetTrouble as trouble:
            lines = [str(trouble)]
        except Exception as error:  # noqa: BLE001  a callback's errors go nowhere else
            lines = [say("fault", what=f"{type(error).__name__}, {error}"[:200])]
        self.panel.show(notes=lines, said=lines[0])

    def _ipython_display_(self) -> None:
        live: dict[str, Any] = self._box._repr_mimebundle_()
        show({**live, "text/plain": say("run-hand-in")})


def hand_in(candidate: str = "", *, folder: str | Path | None = None) -> HandedIn | HandInForm:
    """Hand in all answers of a folder as one file.

    Parameters
    ----------
    candidate : str
        Candidate number. Without it, a form is shown and nothing is written until its button is pressed.
    folder : str or Path, optional
        By default where the notebook lies.

    Returns
    -------
    HandedIn or HandInForm
        What a notebook shows: where the file is and its receipt, or the form.

    Raises
    ------
    SheetTrouble
        If there is no answer, or no way to write.
    """
    return write_hand_in(candidate, folder=folder) if candidate else HandInForm(notebook_folder(folder))
