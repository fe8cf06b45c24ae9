"""The panel under the pad: what it shows, as data, and the widget that shows it."""

from pathlib import Path
from typing import Any

import anywidget
import traitlets

from zonelib.draw import svg
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result
from zonelib.exercise.messages import headline, marks, met_words, most_serious_first
from zonelib.exercise.report import marked_scenes, safety_words

__all__ = ["Panel", "checked_view"]

STATIC = Path(__file__).parent / "static"

SHOWN = 3
"""Messages shown at once; more at a time are not read."""


class Panel(anywidget.AnyWidget):
    """Notes, hints, and what a check found.

    Attributes
    ----------
    view : dict
        ``notes``, ``intro``, ``hints``, ``stale``, ``safety``, ``said`` (read out), and what
        `checked_view` returns; any may be missing.
    focus : int
        Number of the message in focus, on either side; 0 for none.
    """

    _esm = STATIC / "panel.js"
    _css = STATIC / "panel.css"

    view = traitlets.Dict().tag(sync=True)
    focus = traitlets.Int(0, min=0).tag(sync=True)

    def set_state(self, sync_data: dict[str, Any]) -> None:
        """Take from the browser the message in focus, and nothing else."""
        taken = {name: value for name, value in sync_data.items() if name == "_view_count"}
        focus = sync_data.get("focus")
        if isinstance(focus, int) and not isinstance(focus, bool) and focus >= 0:
            taken["focus"] = focus
        super().set_state(taken)

    def show(self, **parts: Any) -> None:
        """Replace some parts of the view; the others stay."""
        self.view = {**self.view, "said": "", **parts}


def checked_view(bundle: Bundle, result: Result, *, placed: set[int]) -> dict[str, Any]:
    """Return what a check found as the panel shows it.

    Parameters
    ----------
    placed : set of int
        Numbers of messages whose stretch the pad can highlight.
    """
    messages = most_serious_first(result)
    score = f"{marks(result.score)} of {marks(result.points)} marks"
    first = messages[0].text if messages else ""
    return {
        "score": score,
        "headline": headline(result),
        "passed": result.score == result.points,
        "met": list(met_words(result)),
        "messages": [
            {
                "n": one.n,
                "title": one.title,
                "text": one.text,
                "place": one.n in placed,
                "folded": at >= SHOWN,
            }
            for at, one in enumerate(messages)
            if result.status == "marked"
        ],
        "pictures": [svg(scene, name=f"panel-{scene.face}") for scene in marked_scenes(bundle, result)],
        "safety": list(safety_words(bundle)),
        "stale": "",
        "said": f"{score}. {headline(result)}. {first}",
    }
