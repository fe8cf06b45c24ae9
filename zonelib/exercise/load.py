"""Read exercise files, and find those that come with the library."""

from contextlib import suppress
from importlib import resources
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from zonelib.exercise.fitting import fitting_faults
from zonelib.exercise.kinds import NAMES, exercise_model, kind_named
from zonelib.exercise.model import Exercise
from zonelib.rules.load import pack_for
from zonelib.rules.pack import Pack
from zonelib.site.faults import Fault, FileFault, faults_of
from zonelib.site.load import case_from_data, read_data
from zonelib.site.model import Case
from zonelib.site.upgrades import upgraded

__all__ = ["bank_names", "bank_path", "case_of", "exercise_path", "read_exercise"]


def bank_path(name: str) -> Path:
    """Return the file of an exercise that comes with the library.

    Raises
    ------
    FileFault
        If there is none of that name.
    """
    path = Path(str(resources.files("zonelib.exercise"))) / "bank" / f"{name}.toml"
    if name not in bank_names():
        raise FileFault("the bank", [Fault("exercise", f'"{name}"', ", ".join(bank_names()))])
    return path


def bank_names() -> list[str]:
    """Return the names of the exercises that come with the library."""
    folder = Path(str(resources.files("zonelib.exercise"))) / "bank"
    return sorted(path.stem for path in folder.glob("*.toml"))


def exercise_path(name: str) -> Path:
    """Return the file that a name means: a path, or the bare name of an exercise of the bank.

    Raises
    ------
    FileFault
        If the bank has none of that name.
    """
    return Path(name) if name.endswith((".toml", ".json")) or Path(name).is_file() else bank_path(name)


def read_exercise(path: str | Path) -> Exercise:
    """Read an exercise file; its case may be inline or the path of a case file beside it.

    Raises
    ------
    FileFault
        With every fault found, in the exercise and in its case.
    """
    path = Path(path)
    data = _with_case(upgraded("exercise", read_data(path), file=str(path)), path)
    exercise, faults = _exercise(data)
    judged, in_case = _case(data, path)
    faults += in_case
    if exercise and judged:
        with suppress(ValidationError):  # of a model answer that cannot be read: told already
            for fault in kind_named(exercise.kind).faults(exercise, *judged):
                faults.append(fault)
    if faults or exercise is None:
        raise FileFault(str(path), faults)
    return exercise


def _exercise(data: dict[str, Any]) -> tuple[Exercise | None, list[Fault]]:
    name = str(data.get("kind"))
    tables = () if name in NAMES else NAMES  # of a kind that is not known, no table can be read
    stated = {key: value for key, value in data.items() if key not in tables}
    form = exercise_model(name)
    try:
        exercise = form.model_validate(stated)
    except ValidationError as error:
        return None, faults_of(error, data, form)
    return exercise, list(fitting_faults(exercise, kind_named(name)))


def _with_case(data: dict[str, Any], path: Path) -> dict[str, Any]:
    case = data.get("case")
    if not isinstance(case, str):
        return data
    own = path.parent / case
    return {**data, "case": upgraded("case", read_data(own), file=str(own))}


def _case(data: dict[str, Any], path: Path) -> tuple[tuple[Case, Pack] | None, list[Fault]]:
    case = data.get("case")
    if not isinstance(case, dict):
        return None, []
    try:
        return case_of(case, folder=path.parent), []
    except FileFault as fault:
        return None, [Fault(f"case.{one.path}", one.found, one.allowed) for one in fault.faults]


def case_of(data: dict[str, Any], *, folder: Path | None = None) -> tuple[Case, Pack]:
    """Return the case an exercise states, and its pack."""
    pack = pack_for(data, folder=folder)
    return case_from_data(data, pack.vocabulary), pack
