"""What a case must hold for a misconception to show in it, told without trying the misconception."""

from collections.abc import Callable, Iterator
from itertools import pairwise

from zonelib.site.model import Accessory, Case, Opening
from zonelib.site.tolerance import TOLERANCE

__all__ = ["OCCASIONS"]

SMALLEST = 10.0
"""No pack asks for a smaller RCD than this [mA]."""


def _openings(case: Case) -> Iterator[Opening]:
    yield from (one for wall in case.walls for one in wall.openings)
    yield from (one for room in case.rooms for wall in room.walls for one in wall.openings)


def _accessories(case: Case) -> Iterator[Accessory]:
    yield from (one for wall in case.walls for one in wall.accessories)
    yield from (one for room in case.rooms for wall in room.walls for one in wall.accessories)


def _others(case: Case) -> Iterator[Accessory]:
    """Yield the accessories that some cable is not joined to."""
    yield from (one for route in case.routes for one in _accessories(case) if one.id not in route.joins)


def _slant(case: Case) -> bool:
    legs = (leg for route in case.routes for leg in pairwise(route.points))
    return any(abs(a[0] - b[0]) > TOLERANCE and abs(a[1] - b[1]) > TOLERANCE for a, b in legs)


def _covered(*names: str) -> Callable[[Case], bool]:
    """Return whether any of some coverings is used."""

    def used(case: Case) -> bool:
        cuts = [cut.protection for one in case.joists for cut in one.holes]
        cuts += [cut.protection for one in case.joists for cut in one.notches]
        legs = [one for route in case.routes for one in route.protection]
        others = [one.protection for one in case.runs]
        studs = [cut.protection for one in case.studs for cut in one.holes]
        studs += [cut.protection for one in case.studs for cut in one.notches]
        return bool({*cuts, *legs, *others, *studs} & set(names))

    return used


OCCASIONS: dict[str, Callable[[Case], bool]] = {
    "doors-or-windows": lambda case: any(one.kind in ("door", "window") for one in _openings(case)),
    "openings": lambda case: any(_openings(case)),
    "slant": _slant,
    "plastic": _covered("plastic-capping", "plastic-conduit"),
    "unearthed-conduit": _covered("unearthed-steel-conduit"),
    "steel-capping": _covered("steel-capping"),
    "hidden-box": lambda case: any(one.kind == "buried-box" for one in _accessories(case)),
    "others": lambda case: not case.routes or any(_others(case)),
    "wall": lambda case: bool(case.walls),
    "room": lambda case: bool(case.rooms),
    "corners": lambda case: (
        bool(case.rooms)
        or any(
            face.internal_corners or face.external_corners
            for wall in case.walls
            for face in (wall.front, wall.rear)
        )
    ),
    "delayed-rcd": lambda case: any(one.rcd and one.rcd.delayed for one in case.routes),
    "rcd-at-outlet": lambda case: any(one.rcd and one.rcd.at == "outlet" for one in case.routes),
    "large-rcd": lambda case: any(one.rcd and one.rcd.ma > SMALLEST for one in case.routes),
}
"""By name, whether there is occasion for it in a case with an answer in it."""
