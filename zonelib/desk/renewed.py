"""Bundles that take the place of those a class answered: under another reading, or of a mended exercise."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path

from zonelib.desk.submissions import Submission

__all__ = ["FILE", "brought_up", "read_renewed"]

FILE = "renewed.json"
"""In a folder of bundles: which hash each took over from. Only a tutor's command writes it."""


def read_renewed(folder: Path) -> dict[str, str]:
    """Return for each hash that was answered the hash it is marked by now; none where there is no file."""
    path = folder / FILE
    return dict(json.loads(path.read_text(encoding="utf-8"))) if path.is_file() else {}


def brought_up(submissions: Iterable[Submission], renewed: Mapping[str, str]) -> list[Submission]:
    """Return submissions whose answers name the bundle that took the place of the one they answer."""
    return [_brought_up(one, renewed) for one in submissions]


def _brought_up(one: Submission, renewed: Mapping[str, str]) -> Submission:
    found = tuple(
        replace(each, record=each.record.model_copy(update={"bundle": renewed[each.record.bundle]}))
        if each.record.bundle in renewed else each
        for each in one.contents.found
    )  # fmt: skip
    return replace(one, contents=replace(one.contents, found=found))
