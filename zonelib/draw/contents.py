"""What one drawing shows, worked out once: its shapes and its text alternative both read this."""

from collections.abc import Sequence
from dataclasses import dataclass

from zonelib.draw.bands import other_zones, served_zones
from zonelib.draw.board import Board
from zonelib.draw.stretches import Failure, failures
from zonelib.rules.finding import Finding
from zonelib.rules.zones import Zone
from zonelib.site.model import Accessory, Case, Fixing, Route

__all__ = ["Contents", "contents_of"]


@dataclass(frozen=True, kw_only=True)
class Contents:
    """What one drawing shows.

    Attributes
    ----------
    routes, failed : tuple
        Routes, and their failures by number.
    zones, others : tuple of Zone
        Zones that serve the routes, and zones that do not.
    accessories, fixings : tuple
        As the case has them.
    """

    routes: tuple[Route, ...]
    failed: tuple[Failure, ...]
    zones: tuple[Zone, ...]
    others: tuple[Zone, ...]
    accessories: tuple[Accessory, ...]
    fixings: tuple[Fixing, ...]

    def failed_of(self, route: Route) -> tuple[Failure, ...]:
        """Return the failures of one route."""
        return tuple(one for one in self.failed if one.finding.subject == route.id)


def contents_of(board: Board, case: Case, routes: Sequence[Route], findings: Sequence[Finding]) -> Contents:
    """Return what a board is to show of a case, parts that are off left out."""
    zones = served_zones(board, routes) if board.shows("zones") else ()
    others = other_zones(board, zones) if board.shows("zones") and board.shows("other-zones") else ()
    shown = tuple(routes) if board.shows("routes") else ()
    numbered = shown if board.shows("findings") else ()
    return Contents(
        routes=shown,
        failed=tuple(one for route in numbered for one in failures(route, findings)),
        zones=zones,
        others=others,
        accessories=board.accessories if board.shows("accessories") else (),
        fixings=_fixings(board, case) if board.shows("fixings") else (),
    )


def _fixings(board: Board, case: Case) -> tuple[Fixing, ...]:
    """Return the fixings into the face shown, each where it lies in the drawing's row."""
    starts = {wall.id: start for wall, start in board.faces}
    return tuple(
        one.model_copy(update={"x": one.x + starts[one.wall]})
        for one in case.fixings
        if one.wall in starts and one.face == board.side
    )
