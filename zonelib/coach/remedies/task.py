"""A finding to be mended, with all that those who mend it ask for."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from zonelib.rules.engine import judge
from zonelib.rules.finding import Finding
from zonelib.rules.job import Job
from zonelib.rules.journey import Journey, Site
from zonelib.rules.legs import leg_lengths
from zonelib.rules.pack import Pack
from zonelib.rules.rulebook import Rulebook
from zonelib.site.fields import Piece
from zonelib.site.model import Case, Route
from zonelib.site.timber import Hole, Joist, Notch, Run, Stud, StudNotch
from zonelib.site.wall import Wall

__all__ = ["Task", "swapped"]

Named = TypeVar("Named", Route, Joist, Stud, Run, Hole, Notch, StudNotch)


def swapped(those: Sequence[Named], new: Named) -> tuple[Named, ...]:
    """Return things with the one of the same id in place of the old one."""
    return tuple(new if one.id == new.id else one for one in those)


@dataclass(frozen=True)
class Task:
    """A finding to be mended.

    Attributes
    ----------
    case, pack, finding : Case, Pack, Finding
        What is there, by which rules, and what failed.
    existing : bool
        Whether the cable is in the wall already.
    """

    case: Case
    pack: Pack
    finding: Finding
    existing: bool = False

    @cached_property
    def book(self) -> Rulebook:
        """Pack and readings."""
        return Rulebook(self.pack, self.case.readings)

    @cached_property
    def site(self) -> Site:
        """The case made ready for its routes."""
        return Site(self.case, self.book)

    @cached_property
    def others(self) -> tuple[Finding, ...]:
        """All other failed findings."""
        return tuple(one for one in judge(self.case, self.pack).failures if one != self.finding)

    @cached_property
    def route(self) -> Route:
        """The route it is about."""
        return next(one for one in self.case.routes if one.id == self.finding.subject)

    @cached_property
    def journey(self) -> Journey:
        """The route with its legs laid on the walls."""
        return self.site.journey(self.route)

    @cached_property
    def jobs(self) -> tuple[Job, ...]:
        """The route's legs on the walls that the finding is about."""
        wall, numbers = self.finding.where.wall, self.numbers
        jobs = (one for one in self.journey.jobs if wall in (None, one.wall_id))
        return tuple(one for one in jobs if any(leg.number in numbers for leg in one.legs))

    @property
    def numbers(self) -> tuple[int, ...]:
        """The legs it covers, counted from 1."""
        return self.finding.where.legs

    @cached_property
    def joist(self) -> Joist:
        """The joist it is about."""
        return next(one for one in self.case.joists if one.id == self.finding.where.joist)

    @cached_property
    def stud(self) -> Stud:
        """The stud it is about."""
        return next(one for one in self.case.studs if one.id == self.finding.where.stud)

    @property
    def wall(self) -> Wall:
        """The wall it is about, the first one where there are several."""
        return self.jobs[0].surface.wall if self.jobs else self.journey.jobs[0].surface.wall

    def length(self, route: Route) -> float:
        """Return how long a route is [mm]."""
        return sum(leg_lengths(route, self.site.rings.get(route.room or "")))

    def with_route(self, route: Route) -> Case:
        """Return the case with the route changed."""
        return self._with(routes=swapped(self.case.routes, route))

    def with_joist(self, joist: Joist) -> Case:
        """Return the case with the joist changed."""
        return self._with(joists=swapped(self.case.joists, joist))

    def with_stud(self, stud: Stud) -> Case:
        """Return the case with the stud changed."""
        return self._with(studs=swapped(self.case.studs, stud))

    def with_run(self, run: Run) -> Case:
        """Return the case with a run along a joist changed."""
        return self._with(runs=swapped(self.case.runs, run))

    def _with(self, **parts: tuple[Piece, ...]) -> Case:
        return self.case.model_copy(update=dict(parts))
