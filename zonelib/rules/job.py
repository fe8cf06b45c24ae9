"""One route on one wall, prepared for the rules that judge it."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from zonelib.rules.finding import Finding, Place, Status
from zonelib.rules.legs import Leg, legs_of
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.saying import Measure, finding
from zonelib.rules.surface import Surface
from zonelib.rules.words import leg_words
from zonelib.site.model import Route, Side
from zonelib.site.tolerance import above, below

__all__ = ["SIDES", "Job"]

SIDES: tuple[Side, Side] = ("front", "rear")


@dataclass(frozen=True)
class Job:
    """One route on one wall.

    Attributes
    ----------
    route : Route
        The route.
    surface : Surface
        Its wall.
    """

    route: Route
    surface: Surface

    @property
    def book(self) -> Rulebook:
        """Pack and readings."""
        return self.surface.book

    @cached_property
    def legs(self) -> tuple[Leg, ...]:
        """The legs that are judged."""
        return legs_of(self.route, self.surface.wall, self.book)

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
        return Place(self.surface.wall.id, face, tuple(leg.number for leg in legs), from_mm, to_mm)

    def finding(
        self, rule: str, outcome: str, status: Status, *, where: Place, clause: str = "",
        measure: Measure | None = None, **facts: object,
    ) -> Finding:  # fmt: skip
        """Return a finding about this route."""
        facts.setdefault("legs", leg_words(where.legs))
        return finding(
            self.book, rule, outcome, status, subject=self.route.id, where=where, clause=clause,
            measure=measure, **facts,
        )  # fmt: skip
