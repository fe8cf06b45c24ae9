"""A bundle under another reading of its pack."""

import copy
from collections.abc import Mapping

from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.load import bank_names, bank_path, read_exercise
from zonelib.exercise.messages import marks
from zonelib.exercise.model import Exercise
from zonelib.exercise.trial import marked_answer
from zonelib.site.faults import Fault, FileFault

__all__ = ["reading_of", "reread"]


def reading_of(text: str) -> tuple[str, str]:
    """Return name and value of a reading as it is given on the command line.

    >>> reading_of("borrow_zones=yes")
    ('borrow_zones', 'yes')
    """
    name, sign, value = text.partition("=")
    if not sign or not value:
        raise FileFault("--reading", [Fault(text, "no value", "NAME=VALUE, such as borrow_zones=yes")])
    return name.strip(), value.strip()


def reread(bundle: Bundle, readings: Mapping[str, str]) -> tuple[Bundle, str]:
    """Return a bundle under other readings, and what to doubt about it, or "".

    What marking needs of the model answer is reckoned anew where the bank still holds the very exercise;
    else it stays as it was frozen.

    Raises
    ------
    FileFault
        If its pack has no such reading.
    """
    _known(bundle, readings)
    data = copy.deepcopy(bundle.data)
    case = data["exercise"]["case"]
    case["readings"] = {**case.get("readings", {}), **readings}
    source = _source(bundle)
    if source is None:
        return Bundle(data), ""
    case = {**source.case, "readings": {**source.case.get("readings", {}), **readings}}
    fresh = freeze(source.model_copy(update={"case": case}))
    return Bundle({**fresh.data, **{name: data[name] for name in ("exercise", "pack")}}), _doubt(
        fresh, source
    )


def _known(bundle: Bundle, readings: Mapping[str, str]) -> None:
    known = bundle.pack.vocabulary.readings
    faults = [
        Fault(name, f'"{value}"', ", ".join(known.get(name, ())) or f"one of {', '.join(known)}")
        for name, value in readings.items()
        if value not in known.get(name, ())
    ]
    if faults:
        raise FileFault("--reading", faults)


def _source(bundle: Bundle) -> Exercise | None:
    """Return the exercise of the bank that a bundle was frozen from, if it is there unchanged."""
    name = bundle.exercise.id
    source = read_exercise(bank_path(name)) if name in bank_names() else None
    return source if source and freeze(source).data["exercise"] == bundle.data["exercise"] else None


def _doubt(bundle: Bundle, source: Exercise) -> str:
    result = marked_answer(bundle, source.model)
    if result.score >= result.points:
        return ""
    earned, points = marks(result.score), marks(result.points)
    return f"{source.id}: its own model answer earns {earned} of {points} under this reading"
