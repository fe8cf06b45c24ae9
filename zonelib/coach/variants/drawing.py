"""Draw the numbers of a room, and set them in an exercise's data."""

from collections.abc import Iterator, Mapping
from typing import Any

from zonelib.coach.variants.places import PlaceFlaw, Places
from zonelib.coach.variants.seeds import Stream
from zonelib.exercise.model import Draw, Variants

__all__ = ["choices", "drawn", "is_bare", "parted", "plain_values", "set_all", "whole"]

Values = Mapping[str, Any]


def choices(name: str, draw: Draw) -> list[Any]:
    """Return all that may be drawn.

    Raises
    ------
    FileFault
        If the range has fewer than two values, or is not stated.
    """
    path = f"variants.draw.{name}"
    if draw.values:
        if draw.least is not None or draw.most is not None:
            raise PlaceFlaw(path, "both values and a range", "one of the two")
        return [whole(one) if isinstance(one, float) else one for one in draw.values]
    if draw.least is None or draw.most is None:
        raise PlaceFlaw(path, "neither values nor a range", "from and to, or values")
    count = int((draw.most - draw.least) / draw.step + 1e-9) + 1
    if count <= 1:
        found = f"from {draw.least:g} to {draw.most:g}"
        raise PlaceFlaw(path, found, f"a range of a step, {draw.step:g}, or more")
    return [whole(draw.least + draw.step * at) for at in range(count)]


def whole(value: float) -> float:
    """Return a number as files write it: without a point where it is whole."""
    value = round(value, 3)
    return int(value) if value == int(value) else value


def drawn(variants: Variants, stream: Stream) -> dict[str, Any]:
    """Return one value for each name."""
    return {name: stream.one_of(choices(name, draw)) for name, draw in variants.draw.items()}


def plain_values(variants: Variants, places: Places) -> dict[str, Any]:
    """Return what each name stands for in the exercise as it is written.

    Raises
    ------
    FileFault
        If a draw names no place that simply takes its value.
    """
    return {name: places.value(_first_bare(name, draw)) for name, draw in variants.draw.items()}


def _first_bare(name: str, draw: Draw) -> str:
    bare = next((one for one in draw.sets if is_bare(one)), None)
    if bare is None:
        allowed = "a place that takes the value itself, beside them"
        raise PlaceFlaw(f"variants.draw.{name}.sets", "only sums", allowed)
    return bare


def is_bare(setting: str) -> bool:
    """Tell whether a place takes the drawn value itself."""
    return "=" not in setting


def parted(setting: str) -> tuple[str, str]:
    """Return the place that a sum is for, and the sum."""
    place, _, text = setting.partition("=")
    return place.strip(), text.strip()


def set_all(variants: Variants, values: Values, places: Places) -> None:
    """Set every place: first those that take a value itself, then the sums in the order of the file."""
    for name, setting in _settings(variants):
        if is_bare(setting):
            places.put(setting, values[name])
    for _, setting in _settings(variants):
        if not is_bare(setting):
            place, text = parted(setting)
            places.put(place, whole(places.sum(text, values)))


def _settings(variants: Variants) -> Iterator[tuple[str, str]]:
    for name, draw in variants.draw.items():
        yield from ((name, one) for one in draw.sets)
