"""One notebook in JupyterLab on which sheets are opened one after another, each with nothing answered yet."""

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.driving import open_notebook, press, run_cell
from tests.browser.lab import PATIENCE, Lab
from tests.browser.notebooks import notebook
from zonelib.exercise import bank_path, freeze, read_exercise

__all__ = ["Answer", "Desk", "desk_in"]

Answer = dict[str, Any]

CELL = """from pathlib import Path
from zonelib.sheet import Sheet
sheet = Sheet(Path("which.txt").read_text())
sheet"""
PUT_BY = "document.querySelectorAll('.zl-sheet').forEach((one) => one.classList.add('zl-gone'))"


@dataclass(frozen=True)
class Desk:
    """A page with one notebook and its kernel, kept for many exercises: starting takes most of a test.

    Attributes
    ----------
    page : Page
        With the notebook open.
    folder : Path
        Where the notebook lies.
    """

    page: Page
    folder: Path

    def open(self, exercise: str, *, afresh: bool = True) -> Page:
        """Open the sheet of an exercise by running the cell; `afresh` forgets what was answered."""
        lay(exercise, self.folder)
        if afresh:
            self.file(exercise).unlink(missing_ok=True)
        (self.folder / "which.txt").write_text(exercise, encoding="utf-8")
        self.page.evaluate(PUT_BY)
        run_cell(self.page)
        self.page.wait_for_selector(".zl-gone", state="detached")
        self.page.wait_for_selector(".zl-sheet .zl-pad .zl-folds")
        return self.page

    def check(self) -> None:
        """Press Check, and wait until the panel tells what was found."""
        press(self.page, "Check")
        self.page.locator(".zl-panel .zl-score").wait_for()

    def file(self, exercise: str) -> Path:
        """Return where an answer is saved."""
        return self.folder / "answers" / f"{exercise}.json"

    def answer(self, exercise: str) -> Answer:
        """Return what is saved, or {}."""
        path = self.file(exercise)
        return dict(json.loads(path.read_text(encoding="utf-8"))["answer"]) if path.exists() else {}

    def wait_for(self, exercise: str, fits: Callable[[Answer], bool]) -> bool:
        """Wait until what is saved fits."""
        for _ in range(200):
            found = self.answer(exercise)
            if found and fits(found):
                return True
            self.page.wait_for_timeout(50)
        return pytest.fail(f"Saved is {self.answer(exercise)}")


def lay(exercise: str, folder: Path) -> None:
    """Put the bundle of an exercise of the bank into a folder."""
    path = bank_path(exercise)
    if not (folder / f"{exercise}.bundle.json").exists():
        freeze(read_exercise(path), folder=path.parent).write(folder)


@contextmanager
def desk_in(
    lab: Lab, browser: Browser, *, name: str, width: int = 1280, touch: bool = False
) -> Iterator[Desk]:
    """Lay a notebook in a folder of its own and open it on a page of its own."""
    folder = lab.folder / name
    folder.mkdir()
    (folder / "desk.ipynb").write_text(json.dumps(notebook(CELL)), encoding="utf-8")
    context = browser.new_context(viewport={"width": width, "height": 1000}, has_touch=touch)
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    open_notebook(page, lab.page_of(f"{name}/desk.ipynb"))
    context.set_default_timeout(PATIENCE / 3)  # by now the kernel runs
    yield Desk(page, folder)
    context.close()
