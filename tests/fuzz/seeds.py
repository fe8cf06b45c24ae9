"""What made-up files begin from: a few real ones of each form, which their readers read."""

import io
import json
import tomllib
import zipfile
from collections.abc import Iterable
from functools import cache
from typing import Any

from tests.house.files import ROOT
from zonelib.exercise.answer import MIME, AnswerRecord
from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.load import exercise_path, read_exercise

__all__ = [
    "bundles",
    "class_files",
    "files_of_tables",
    "findings",
    "hand_ins",
    "notebooks",
    "papers",
    "progress",
    "zips",
]

ONE_OF_EACH = (
    "bedroom-drop", "store-given-run", "dining-inspection", "office-which-clauses", "utility-deepest-chase",
    "landing-joist", "hall-pictures", "loft-zones", "bedroom-over-the-ceiling",
)  # fmt: skip
COURSE = b"""schema = 1
[[packs]]
pack = "uk"
readings = { blank_plates = "no", borrow_zones = "yes" }
[packs.checked]
edition = "BS 7671:2018+A2:2022"
by = "the tutor"
on = 2026-11-25
[[packs]]
pack = "de"
"""
CHANGES = (
    b"trainee,assignment,exercise,computed,score,reason,by,when\n"
    b"C-01,hw1,bedroom-drop,5,6,seen in class,tutor,2026-11-25T10:00:00Z\n"
)
CLASS = b"candidate,name\nC-01,Ann\nC-02,Bob Smith\n"
LISTED = b"candidate,extra,name\nC-01,10,Ann\nC-02,25%,Bob Smith\nC-03,,\n"
MARKS = (
    b"trainee,assignment,exercise,score,max,handed_in,source,note\n"
    b"C-01,hw1,bedroom-drop,10.0,10.0,2026-11-25 22:54:29 UTC,answers folder,Rules: BS 7671\n"
    b"C-02,hw1,bedroom-drop,0,10.0,,,Nothing handed in\n"
)
MARK = {
    "trainee": "C-01",
    "assignment": "hw1",
    "exercise": "bedroom-drop",
    "bundle": "0" * 64,
    "status": "marked",
}
FINDING = {"rule": "wall-zone", "clause": "522.6.202", "status": "pass", "subject": "R1"}
FOUND = [
    {**MARK, "answer": {"points": [[700, 2400], [700, 450]]}, "misconception": "slant"},
    {**MARK, "criterion": "reach", "marks": 2.0, "gained": 2.0, "met": True, "reason": "It reaches S1."},
    {**MARK, "finding": FINDING},
]
FOLDERS = {"case": "docs/examples", "pack": "zonelib/rules/packs", "policy": "zonelib/coach/mastery"}


@cache
def bundles() -> dict[str, Bundle]:
    """Return one bundle of each kind of exercise, by hash."""
    return {one.hash: one for one in (freeze(read_exercise(exercise_path(name))) for name in ONE_OF_EACH)}


def files_of_tables(name: str) -> tuple[list[bytes], list[bytes]]:
    """Return files of one form, as TOML and as JSON."""
    if name == "course":
        tables = [COURSE]
    elif name == "exercise":
        tables = [exercise_path(one).read_bytes() for one in ONE_OF_EACH]
    else:
        tables = [one.read_bytes() for one in sorted((ROOT / FOLDERS[name]).glob("*.toml"))]
    return tables, [_json(tomllib.loads(one.decode())) for one in tables]


def class_files(name: str) -> list[bytes]:
    """Return a table of the class as CSV."""
    return [{"overrides": CHANGES, "class-list": CLASS, "candidates": LISTED, "marks": MARKS}[name]]


def findings() -> list[bytes]:
    """Return lines of what was found, each alone."""
    return [_json(one) for one in FOUND]


@cache
def _records() -> list[AnswerRecord]:
    return [_record(one) for one in bundles().values()]


def _record(bundle: Bundle) -> AnswerRecord:
    model = read_exercise(exercise_path(bundle.exercise.id)).model
    return AnswerRecord(
        schema=1, exercise=bundle.exercise.id, bundle=bundle.hash, candidate="C-01", revision=3,
        saved_at="2026-11-25T10:00:00Z", answer=model,
    )  # fmt: skip


def papers() -> list[bytes]:
    """Return an answer of each kind of exercise."""
    return [one.as_text().encode() for one in _records()]


def hand_ins() -> list[bytes]:
    """Return a hand-in file of two answers, and one of all."""
    return [_hand_in(_records()[:2]), _hand_in(_records())]


def _hand_in(records: Iterable[AnswerRecord]) -> bytes:
    whole = {"schema": 1, "kind": "hand-in", "candidate": "C-01", "handed_in_at": "2026-11-25T10:00:00Z"}
    made = [one.model_dump(mode="json", by_alias=True) for one in records]
    return _json({**whole, "answers": made, "receipt": "AAAAA-AAAAA"})


def progress() -> list[bytes]:
    """Return an empty record of practice, and one of some checks."""
    checks = [
        {"at": f"2026-11-{day:02}T10:00:00Z", "exercise": "bedroom-drop", "variant": "", "hints": day % 3,
         "rules": {"wall-zone": 1.0, "wall-rcd": day / 40}}
        for day in (3, 9, 21)
    ]  # fmt: skip
    return [b'{"schema": 1, "checks": []}', _json({"schema": 1, "checks": checks})]


def notebooks() -> list[bytes]:
    """Return a homework as it is released, and one that was worked in."""
    released = (ROOT / "exercises" / "hw1" / "hw1.ipynb").read_bytes()
    worked = json.loads(released)
    pads = [one for one in worked["cells"] if one.get("outputs") == []]
    for cell, record in zip(pads, _records(), strict=False):
        shown = {MIME: record.model_dump(mode="json", by_alias=True), "text/plain": ["a pad"]}
        cell["outputs"] = [{"output_type": "display_data", "data": shown, "metadata": {}}]
    small = {**worked, "cells": [one for one in pads if one["outputs"]]}
    return [released, _json(worked), _json(small)]


def zips() -> list[bytes]:
    """Return the zip of one trainee, and that of a class."""
    one = _zip({f"hw1/answers/{n}.json": paper for n, paper in enumerate(papers())})
    files = {"A/hw1/hand-in.json": hand_ins()[0], "B/hw1/hw1.ipynb": notebooks()[2], "C/hw1.zip": one}
    return [one, _zip(files)]


def _zip(files: dict[str, bytes]) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as whole:
        for name, data in files.items():
            whole.writestr(name, data)
    return made.getvalue()


def _json(data: Any) -> bytes:
    return json.dumps(data, default=str).encode()
