"""What a candidate's page is given of an exercise: question and pad, and nothing of its marking."""

import json
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any

import sqlalchemy as sa

from zonelib.desk.server.tables import bundles
from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.load import read_exercise
from zonelib.exercise.marking import points_of
from zonelib.exercise.report import safety_words
from zonelib.sheet.still import question_html
from zonelib.sheet.task import pad_task

__all__ = ["bundle_of", "stored_view", "tryout_view", "view_text"]

MOST_VIEWS = 200

_VIEWS: dict[str, dict[str, Any]] = {}
"""By the hash of the bundle, which says all there is to say: no truth is kept here, only time saved."""


def _view_of(bundle: Bundle) -> dict[str, Any]:
    """Return what a page is given.

    Raises
    ------
    SheetTrouble
        If there is no pad for the exercise.
    """
    exercise = bundle.exercise
    return {
        "exercise": exercise.id,
        "title": exercise.title,
        "kind": exercise.kind,
        "question": question_html(bundle),
        "points": points_of(bundle),
        "safety": list(safety_words(bundle)),
        "task": pad_task(bundle),
    }


def view_text(bundle: Bundle) -> str:
    """Return the view as JSON, as it is kept."""
    return json.dumps(_view_of(bundle), separators=(",", ":"), allow_nan=False)


@cache
def tryout_view() -> dict[str, Any]:
    """Return the view of a wall to try the pad on."""
    path = Path(str(resources.files("zonelib.desk.server"))) / "tryout.toml"
    return _view_of(freeze(read_exercise(path)))


def stored_view(connection: sa.Connection, code: str) -> dict[str, Any]:
    """Return the view of a stored bundle, by its hash."""
    if code not in _VIEWS:
        text = connection.execute(sa.select(bundles.c.view).where(bundles.c.hash == code)).scalar_one()
        while len(_VIEWS) >= MOST_VIEWS:
            _VIEWS.pop(next(iter(_VIEWS)), None)
        _VIEWS[code] = json.loads(text)
    return _VIEWS[code]


def bundle_of(connection: sa.Connection, code: str) -> Bundle:
    """Return a stored bundle, by its hash."""
    text = connection.execute(sa.select(bundles.c.text).where(bundles.c.hash == code)).scalar_one()
    return Bundle(json.loads(text))
