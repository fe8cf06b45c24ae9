"""Faults of a course file that lie between it and the packs it names."""

from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path
from typing import Any

from pydantic_core import PydanticCustomError

from zonelib.rules.pack import Pack, load_pack
from zonelib.rules.signoff import day_of
from zonelib.site.faults import Fault, FileFault
from zonelib.site.load import reading_faults

__all__ = ["pack_faults", "pack_of"]


def pack_of(name: str, folder: Path) -> Pack:
    """Load a pack by its name, or by a path that counts from a folder."""
    return load_pack(folder / name if name.endswith((".toml", ".json")) else name)


def pack_faults(data: dict[str, Any], folder: Path) -> list[Fault]:
    """Return what does not fit the packs named; whatever is itself malformed is passed over.

    Parameters
    ----------
    data : dict
        The course file's tables.
    folder : Path
        Where it lies; a pack's path counts from there.
    """
    faults: list[Fault] = []
    seen = set[str]()
    for where, table in _tables(data):
        try:
            pack = pack_of(table["pack"], folder)
        except FileFault as fault:
            faults += _unread(fault, table["pack"], f"{where}.pack")
            continue
        if pack.id in seen:
            faults.append(Fault(f"{where}.pack", f'"{pack.id}" more than once', "one entry for each pack"))
        seen.add(pack.id)
        faults += _between(table, pack, where)
    return faults


def _tables(data: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    packs = data.get("packs")
    for position, table in enumerate(packs if isinstance(packs, list) else (), start=1):
        if isinstance(table, dict) and isinstance(table.get("pack"), str):
            yield f"packs.#{position}", table


def _unread(fault: FileFault, name: str, where: str) -> Iterator[Fault]:
    """Yield why a pack cannot be read: faults of its own file keep their key path behind its name."""
    for one in fault.faults:
        yield Fault(where if one.path == "pack" else f"{where}, {name}, {one.path}", one.found, one.allowed)


def _between(table: dict[str, Any], pack: Pack, where: str) -> Iterator[Fault]:
    readings, checked = table.get("readings"), table.get("checked")
    if isinstance(readings, dict):
        yield from reading_faults(readings, pack.vocabulary.readings, f"{where}.readings")
    if isinstance(checked, dict):
        yield from _another_edition(checked, pack, f"{where}.checked.edition")
        yield from _day_to_come(checked, f"{where}.checked.on")


def _another_edition(checked: dict[str, Any], pack: Pack, where: str) -> Iterator[Fault]:
    edition = checked.get("edition")
    if isinstance(edition, str) and edition != pack.edition:
        allowed = f'"{pack.edition}", as the pack states it; a sign-off of another edition does not count'
        yield Fault(where, f'"{edition}"', allowed)


def _day_to_come(checked: dict[str, Any], where: str) -> Iterator[Fault]:
    today = datetime.now().astimezone().date()
    try:
        day: date = day_of(checked.get("on"))
    except PydanticCustomError:
        return
    if day > today:
        yield Fault(where, f"{day}, a day to come", f"a day up to today, {today}")
