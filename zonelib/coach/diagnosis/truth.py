"""What an exercise asks for, apart from any answer: where it stays the same, so does every mark."""

from typing import Any

from zonelib.exercise.bundle import Bundle
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.zones import zones
from zonelib.site.model import Side

__all__ = ["truth_of"]

SIDES: tuple[Side, Side] = ("front", "rear")


def truth_of(bundle: Bundle) -> tuple[Any, ...] | None:
    """Return what an inspection or a drawing of zones is held against; None for other kinds."""
    if bundle.exercise.kind == "inspect":
        found = bundle.verdict.findings
        return tuple((one.rule, one.status, one.subject, one.where, one.measured, one.limit) for one in found)
    if bundle.exercise.kind == "zones":
        return tuple(_zones(bundle))
    return None


def _zones(bundle: Bundle) -> list[Any]:
    """Return the zones of every face, for a cable joined to everything and for one joined to nothing."""
    book = Rulebook(bundle.pack, bundle.case.readings)
    return [
        (one.wall, one.face, one.source, one.form, one.area.wkb)
        for wall in bundle.case.walls for side in SIDES for joined in (None, ())
        for one in zones(wall, side, book, joined=joined)
    ]  # fmt: skip
