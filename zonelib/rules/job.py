"""One route, prepared for the rules that judge it: as a whole, and wall by wall."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from zonelib.rules.finding import Finding, Place, Status
from zonelib.rules.legs import Leg
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.saying import Measure, finding
from zonelib.rules.surface import Surface
from zonelib.rules.words import leg_words
from zonelib.site.model import Route, Side
from zonelib.site.tolerance import above, below

__all__ = ["SIDES", "Job", "Stage"]

SIDES: tuple[Side, Side] = ("front", "rear")


@dataclass(frozen=True)
class Stage:
    """What a rule looks at: legs of one route, all of them or those on one wall.

    Attributes
    ----------
    route : Route
        The route.
    book : Rulebook
        Pack and readings.
    legs : tuple of Leg
        The legs that are judged.
    """

    route: Route
    book: Rulebook
    legs: tuple[Leg, ...]

    @property
    def wall_id(self) -> str | None:
        """The wall they lie on; None where a route runs over several."""
        return self.route.wall

    @property
    def low_voltage(self) -> bool:
        """Whether the supply is SELV or PELV, and the pack asks for nothing then."""
        return self.route.supply != "lv" and self.book.pack.low_voltage_counts

    def concerns(self, leg: Leg, side: Side) -> bool:
        """Tell whether a leg lies so shallow that a face is concerned."""
        rules, depth = self.book.pack.walls, leg.depth(side)
        return below(depth, rules.trigger_depth) or (
            rules.trigger_included and not above(depth, rules.trigger_depth)
        )

    def exempt(self, leg: Leg) -> bool:
        """Tell whether covering or supply frees a leg from zones and RCD."""
        return leg.covered or self.low_voltage

    @cached_property
    def shallow(self) -> tuple[Leg, ...]:
        """Legs that concern a face and that nothing exempts."""
        bare = (leg for leg in self.legs if not self.exempt(leg))
        return tuple(leg for leg in bare if any(self.concerns(leg, side) for side in SIDES))

    @cached_property
    def spread(self) -> tuple[float, float]:
        """The marks of the route's first and last judged point [mm]."""
        return (self.legs[0].from_mm, self.legs[-1].to_mm) if self.legs else (0.0, 0.0)

    def place(
        self, legs: Iterable[Leg], *, face: Side | None = None, marks: tuple[float, float] | None = None
    ) -> Place:
        """Return a place on this route; without marks, from the first leg's start to the last one's end."""
        legs = tuple(legs)
        if marks is None and legs:
            marks = legs[0].from_mm, legs[-1].to_mm
        from_mm, to_mm = marks or (None, None)
        numbers = tuple(dict.fromkeys(leg.number for leg in legs))
        return Place(self.wall_id, face, numbers, from_mm, to_mm, room=self.route.room)

    def finding(
        self, rule: str, outcome: str, status: Status, *, where: Place, clause: str = "",
        measure: Measure | None = None, **facts: object,
    ) -> Finding:  # fmt: skip
        """Return a finding about this route."""
        facts.setdefault("legs", leg_words(where.legs) + self._whose(where))
        return finding(
            self.book, rule, outcome, status, subject=self.route.id, where=where, clause=clause,
            measure=measure, **facts,
        )  # fmt: skip

    @staticmethod
    def _whose(where: Place) -> str:
        return f" (wall {where.wall})" if where.room and where.wall else ""


@dataclass(frozen=True)
class Job(Stage):
    """The legs of a route on one wall.

    Attributes
    ----------
    surface : Surface
        The wall.
    """

    surface: Surface

    @property
    def wall_id(self) -> str | None:
        """The wall they lie on."""
        return self.surface.wall.id
