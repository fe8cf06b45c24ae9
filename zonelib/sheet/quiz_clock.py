"""The clock of a practice quiz: time left by the kernel's steady count, shown by the server's own clock."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import anywidget
import traitlets

from zonelib.sheet.files import kept_folder, write_whole
from zonelib.sheet.timing import steady, times

__all__ = ["QuizClock", "Running"]

STATIC = Path(__file__).parent / "static"


class QuizClock(anywidget.AnyWidget):
    """Shows the time left.

    Attributes
    ----------
    pulse : dict
        As the server's pages are told: ``state started left paused handed_in``.
    ended : int
        Rises each time the page's count comes to nothing.
    """

    _esm = STATIC / "clock.js"
    _css = STATIC / "clock.css"

    pulse = traitlets.Dict().tag(sync=True)
    ended = traitlets.Int(0).tag(sync=True)


class Running:
    """A quiz's time, remembered in a file: a kernel that is started again goes on with it.

    Parameters
    ----------
    folder : Path
        Where the quiz keeps its answers.
    seconds : float
        How long it lasts [s].
    wall, count : callable
        The date, and steady seconds.
    """

    def __init__(
        self, folder: Path, seconds: float, *, wall: Callable[[], float], count: Callable[[], float] = steady
    ) -> None:
        self._path, self.seconds = kept_folder(folder) / "quiz.json", seconds
        self._wall, self._count = wall, count
        kept = self._kept()
        self.finished = kept.get("finished") is True
        start = kept.get("started_at")
        gone = wall() - start if isinstance(start, int | float) else None
        # From here on steady: setting the date while it runs moves no end.
        self._started = None if gone is None else count() - max(gone, 0.0)

    def _kept(self) -> dict[str, Any]:
        try:
            found = json.loads(self._path.read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return {}
        return found if isinstance(found, dict) else {}

    def start(self) -> None:
        """Start the time; a second start changes nothing."""
        if self._started is None:
            self._started = self._count()
            self._keep(started_at=self._wall())

    def finish(self) -> None:
        """Note that it is over."""
        self.finished = True
        self._keep(**{**self._kept(), "finished": True})

    def _keep(self, **parts: Any) -> None:
        write_whole(self._path, json.dumps(parts), scratch=self._path.parent)

    @property
    def started(self) -> bool:
        """Whether it has begun."""
        return self._started is not None

    @property
    def left(self) -> float:
        """Time left [s]."""
        now = self._count()
        found = times(self.seconds, 0.0, started_at=self._started, pauses=(), now=now).left
        return found or 0.0

    @property
    def over(self) -> bool:
        """Whether no answer is taken any more."""
        return self.finished or (self.started and self.left <= 0)

    def pulse(self) -> dict[str, Any]:
        """Return what the clock is told."""
        told = {"state": "closed" if self.finished else "open", "started": self.started, "left": self.left}
        return {**told, "paused": False, "handed_in": self.finished}
