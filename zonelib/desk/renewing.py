"""Write the bundles that a class is marked by again."""

import json
from collections import Counter, defaultdict
from collections.abc import Mapping
from pathlib import Path

from zonelib.desk.plain import file_name
from zonelib.desk.renewed import FILE
from zonelib.desk.tables import write_text
from zonelib.exercise.bundle import Bundle

__all__ = ["Place", "write_renewed"]

Place = tuple[str, str, str]
"""Trainee, assignment and exercise."""


def write_renewed(home: Path, bundles: Mapping[Place, Bundle], renewed: Mapping[str, str]) -> Path:
    """Write bundles as a course has them, those of single trainees as variants, and return the folder.

    Parameters
    ----------
    home : Path
        Gets a folder of bundles, and one of variants beside it where trainees differ.
    bundles : mapping
        For each trainee, assignment and exercise what is marked by.
    renewed : mapping
        For each hash that was answered the hash that took its place.
    """
    shared = _commonest(bundles)
    for (assignment, exercise), bundle in shared.items():
        _write(home / "bundles" / assignment, exercise, bundle)
    for (trainee, assignment, exercise), bundle in bundles.items():
        if bundle.hash != shared[assignment, exercise].hash:
            _write(home / "variants" / assignment / file_name(trainee), exercise, bundle)
    write_text(home / "bundles" / FILE, json.dumps(dict(renewed), indent=1, sort_keys=True) + "\n")
    return home / "bundles"


def _commonest(bundles: Mapping[Place, Bundle]) -> dict[tuple[str, str], Bundle]:
    by_name: dict[tuple[str, str], list[Bundle]] = defaultdict(list)
    for (_, assignment, exercise), bundle in bundles.items():
        by_name[assignment, exercise].append(bundle)
    found = {}
    for name, each in by_name.items():
        most = Counter(one.hash for one in each).most_common(1)[0][0]
        found[name] = next(one for one in each if one.hash == most)
    return found


def _write(folder: Path, exercise: str, bundle: Bundle) -> None:
    write_text(folder / f"{exercise}.bundle.json", bundle.text + "\n")
