"""Bundles: an exercise with its case, pack and readings, frozen and named by its hash."""

import hashlib
import json
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from zonelib.exercise.model import Exercise
from zonelib.exercise.route_task import RouteAnswer
from zonelib.rules.load import pack_for
from zonelib.rules.pack import Pack
from zonelib.site.faults import Fault, FileFault, faults_of
from zonelib.site.load import read_data

__all__ = ["Bundle", "freeze", "read_bundle"]

FORMAT = 1


@dataclass(frozen=True)
class Bundle:
    """What is marked: one JSON document, from which everything else follows.

    Attributes
    ----------
    data : dict
        ``format``, ``exercise`` (without model and wrong answers), ``pack``, and of the
        model answer's run ``shortest``, its length, and ``covered``, how much of it is covered [mm].
    """

    data: dict[str, Any]

    @cached_property
    def text(self) -> str:
        """The bundle as canonical JSON."""
        return json.dumps(
            self.data, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False
        )

    @cached_property
    def hash(self) -> str:
        """SHA-256 of the canonical JSON, in hexadecimal."""
        return hashlib.sha256(self.text.encode()).hexdigest()

    @cached_property
    def exercise(self) -> Exercise:
        """The exercise; its model answer is not in it."""
        return Exercise.model_validate({**self.data["exercise"], "model": {}})

    @cached_property
    def pack(self) -> Pack:
        """The pack it is marked under."""
        return Pack.model_validate(self.data["pack"])

    @property
    def shortest(self) -> float:
        """Length of the model answer's run [mm]."""
        return float(self.data["shortest"])

    @property
    def covered(self) -> float:
        """How much of the model answer's run lies in another covering than the one given [mm]."""
        return float(self.data["covered"])

    def write(self, folder: Path) -> Path:
        """Write the bundle into a folder as ``<exercise>.bundle.json`` and return its path."""
        path = folder / f"{self.exercise.id}.bundle.json"
        path.write_text(self.text + "\n", encoding="utf-8", newline="\n")
        return path


def freeze(exercise: Exercise, *, folder: Path | None = None) -> Bundle:
    """Freeze an exercise; a pack given by path counts from `folder`."""
    stated = exercise.model_dump(mode="json", by_alias=True, exclude={"model", "wrong"}, exclude_unset=True)
    rules = pack_for(exercise.case, folder=folder)
    pack = rules.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    model = RouteAnswer.model_validate(exercise.model)
    lengths = {
        "shortest": round(model.length, 3),
        "covered": round(model.covered(exercise.route.protection), 3),
    }
    data = {"format": FORMAT, "exercise": stated, "pack": pack, **lengths}
    return Bundle(json.loads(json.dumps(data, allow_nan=False)))


def read_bundle(path: str | Path) -> Bundle:
    """Read a bundle's file.

    Raises
    ------
    FileFault
        If it is not a bundle, or of a newer format.
    """
    data = read_data(Path(path))
    if data.get("format") != FORMAT:
        raise FileFault(str(path), [Fault("format", str(data.get("format", "nothing")), f"{FORMAT}")])
    bundle = Bundle(data)
    try:
        _ = bundle.exercise, bundle.pack, bundle.shortest, bundle.covered
    except ValidationError as error:
        raise FileFault(str(path), faults_of(error, data, Exercise)) from error
    except (KeyError, TypeError, ValueError) as error:
        raise FileFault(str(path), [Fault("the file", f"no {error}", "a bundle as released")]) from error
    return bundle
