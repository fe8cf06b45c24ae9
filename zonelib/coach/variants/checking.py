"""What a tutor should look at in a table ``[variants]`` before rooms are made by it."""

from collections.abc import Iterator, Sequence
from math import isclose
from typing import Any

from zonelib.coach.variants.drawing import choices, is_bare, parted, plain_values
from zonelib.coach.variants.places import PlaceFlaw, Places, is_number
from zonelib.coach.variants.vary import Family, Room, plain_data
from zonelib.coach.variants.wording import stale_numbers, unsaid_phrases
from zonelib.exercise.kinds.number.answer import as_number
from zonelib.site.faults import Fault, FileFault
from zonelib.site.fields import FARTHEST

__all__ = ["must_vary", "variant_doubts"]

TRIED = range(5)
"""Seeds that are tried."""

ROUNDED = 0.051
"""How far a number that somebody wrote with one place may be out."""

Data = dict[str, Any]


def must_vary(family: Family, seeds: Sequence[int] = TRIED) -> tuple[Room, ...]:
    """Return a few rooms, so that it is seen that there are some.

    Raises
    ------
    FileFault
        With every fault of the table, or where its ranges give no room.
    """
    if faults := list(_faults(family)):
        raise FileFault(f"the exercise {family.exercise.id}", faults)
    return tuple(family.room(seed) for seed in seeds)


def _faults(family: Family) -> Iterator[Fault]:
    places = Places(plain_data(family.exercise))
    try:
        values = plain_values(family.variants, places)
        for name, draw in family.variants.draw.items():
            choices(name, draw)
            for setting in draw.sets:
                yield from _setting(name, setting, places, values)
        family.phrases(places.data, values)
    except PlaceFlaw as flaw:
        yield from flaw.faults


def _setting(name: str, setting: str, places: Places, values: Data) -> Iterator[Fault]:
    """Yield a fault where a place of the plain exercise has not what the table would give it."""
    place, text = (setting, name) if is_bare(setting) else parted(setting)
    stands, given = places.value(place), places.sum(text, values)
    if not _same(stands, given):
        found = f'"{setting}", which gives {given:g}' if isinstance(given, float | int) else f'"{setting}"'
        yield Fault(f"variants.draw.{name}.sets", found, f"{stands}, as {place} has it in this file")


def _same(stands: Any, given: Any) -> bool:
    """Tell whether both are one number, be it written as ``"42,7 mm"``, or one name."""
    if isinstance(stands, str) and isinstance(given, int | float):
        return isclose(as_number(stands, unit="mm", allowed=(0, FARTHEST)), given, abs_tol=ROUNDED)
    if isinstance(stands, int | float) and isinstance(given, int | float):
        return isclose(stands, given, abs_tol=1e-3)
    return bool(stands == given)


def variant_doubts(family: Family, rooms: Sequence[Room]) -> Iterator[str]:
    """Yield phrases that stand in no text, numbers that a text would say amiss, and rooms that are alike."""
    data = plain_data(family.exercise)
    places = Places(data)
    values = plain_values(family.variants, places)
    phrases = family.phrases(data, values)
    for one in unsaid_phrases(data, phrases):
        yield f'[variants] words: no text says "{one}".'
    for place, number in stale_numbers(data, phrases, dict(_numbers(family, places))).items():
        yield f'A text says {number}, and {place} changes. Put the phrase into words, with "{{{place}}}".'
    if len({room.nameless for room in rooms}) < len(rooms):
        yield "Of a few rooms two are alike: widen the ranges of [variants], or take smaller steps."


def _numbers(family: Family, places: Places) -> Iterator[tuple[str, float]]:
    """Yield the places that change, with what stands there in the plain exercise."""
    for draw in family.variants.draw.values():
        for setting in draw.sets:
            place, text = (setting, "") if is_bare(setting) else parted(setting)
            if not is_number(text) and isinstance(value := places.value(place), int | float):
                yield place, value
