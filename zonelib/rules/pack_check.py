"""Faults of a pack that lie between its tables."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from zonelib.rules.pack_parts import part_faults
from zonelib.site.faults import Fault, nearest

__all__ = ["check_pack"]

_CLAUSE_KEYS = re.compile(r"(^|_)clause$")


def check_pack(data: dict[str, Any]) -> Iterator[Fault]:
    """Yield references that lead nowhere; whatever is itself malformed is passed over.

    Parameters
    ----------
    data : dict
        The pack's tables as read from its file.
    """
    yield from _clauses(data)
    yield from _narrow_values(data)
    yield from _plate_readings(data)
    yield from part_faults(data)
    if "checked" in data:
        yield Fault("checked", "a sign-off in the pack itself", "a sign-off in the course file only")
    walls = _table(data, "walls")
    if "rcd" not in data and {"rcd_clause", "metal_clause"} & set(walls):
        yield Fault("rcd", "nothing", "a table that says which RCD counts, since the walls ask for one")


def _table(data: Mapping[str, Any], key: str) -> Mapping[str, Any]:
    value = data.get(key)
    return value if isinstance(value, Mapping) else {}


def _clauses(data: dict[str, Any]) -> Iterator[Fault]:
    """Yield clauses without a citation; a clause may name a part of a cited one, as in ``1.2(i)``."""
    cited = _table(data, "citations")
    for key, value in data.items():
        for path, clause in _named(value, key) if key != "citations" else ():
            if clause not in cited and clause.partition("(")[0] not in cited:
                yield Fault(path, f'"{clause}"', "a clause with a citation: " + ", ".join(cited))


def _named(value: Any, path: str) -> Iterator[tuple[str, str]]:
    """Yield path and text of every clause below a value."""
    if isinstance(value, Mapping):
        for key, inner in value.items():
            if isinstance(inner, str) and _CLAUSE_KEYS.search(key):
                yield f"{path}.{key}", inner
            else:
                yield from _named(inner, f"{path}.{key}")
    elif isinstance(value, list):
        for position, inner in enumerate(value, start=1):
            yield from _named(inner, f"{path}.#{position}")


def _narrow_values(data: dict[str, Any]) -> Iterator[Fault]:
    for name, reading in _table(data, "readings").items():
        values = reading.get("values") if isinstance(reading, Mapping) else None
        if isinstance(values, list) and reading.get("narrow") not in values:
            allowed = ", ".join(map(str, values)) or "one of its values"
            yield Fault(f"readings.{name}.narrow", f'"{reading.get("narrow")}"', allowed)


def _plate_readings(data: dict[str, Any]) -> Iterator[Fault]:
    readings = _table(data, "readings")
    for name, kind in _table(data, "accessories").items():
        reading = kind.get("reading") if isinstance(kind, Mapping) else None
        if isinstance(reading, str) and reading not in readings:
            named = ", ".join(readings) or "none, as the pack has no readings"
            allowed = named + nearest(reading, readings)
            yield Fault(f"accessories.{name}.reading", f'"{reading}"', allowed)
