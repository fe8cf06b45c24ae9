"""How drawn areas compare with the zones of a face: what is missed, and what goes beyond."""

from dataclasses import dataclass
from functools import cached_property

from shapely.geometry.base import BaseGeometry

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.zones.answer import ZonesAnswer, drawn_area
from zonelib.exercise.kinds.zones.areas import LEAST, areas_of, solid
from zonelib.exercise.kinds.zones.asked import Asked, asked_zones, free_face
from zonelib.exercise.kinds.zones.task import ZonesTask
from zonelib.site.geometry import face_outline

__all__ = ["Compared", "asked_and_free", "compared"]


@dataclass(frozen=True)
class Compared:
    """Drawn areas beside the zones.

    Attributes
    ----------
    asked : tuple of Asked
        The zones.
    missed : tuple of geometry
        What of each is not drawn [mm].
    found, counted : tuple of float
        Share of each that is drawn, and what of it counts, 0 to 1: the less, the more of its strip is
        drawn on past the opening that ends it.
    drawn, strayed, free : geometry
        What is drawn on the face; what of it lies beyond all zones; and all that lies beyond them [mm].
    """

    asked: tuple[Asked, ...]
    missed: tuple[BaseGeometry, ...]
    found: tuple[float, ...]
    counted: tuple[float, ...]
    drawn: BaseGeometry
    strayed: BaseGeometry
    free: BaseGeometry

    @cached_property
    def beyond(self) -> float:
        """What is drawn beyond the zones, counted in zones.

        In areas of the mean zone, but as many as there are zones at least where all the rest is drawn:
        then what was found is worth nothing.
        """
        if self.strayed.is_empty:
            return 0.0
        mean = sum(one.area.area for one in self.asked) / len(self.asked)
        return max(self.strayed.area / mean, len(self.asked) * self.strayed.area / self.free.area)

    def share(self, form: str | None = None) -> float:
        """Return what the zones of a form earn, or all of them: what counts, less what lies beyond."""
        ours = [
            share for one, share in zip(self.asked, self.counted, strict=True) if form in (None, one.form)
        ]
        return max(0.0, sum(ours) / len(ours) - self.beyond / len(self.asked)) if ours else 0.0


def compared(bundle: Bundle, answer: ZonesAnswer) -> Compared:
    """Measure drawn areas against the zones."""
    wall = bundle.case.wall(bundle.exercise.task_as(ZonesTask).wall)
    asked, free = bundle.once(asked_and_free)
    drawn = areas_of(drawn_area(answer).intersection(face_outline(wall)))
    strayed = solid(drawn.intersection(free))
    missed = tuple(solid(one.core.difference(drawn)) for one in asked)
    found = tuple(1.0 - gap.area / one.core.area for one, gap in zip(asked, missed, strict=True))
    counted = tuple(share * (1.0 - _run_on(one, strayed)) for one, share in zip(asked, found, strict=True))
    return Compared(asked, missed, found, counted, drawn, strayed, free)


def asked_and_free(bundle: Bundle) -> tuple[tuple[Asked, ...], BaseGeometry]:
    """Return the zones that are asked for, and what of the face lies beyond them [mm]."""
    task = bundle.exercise.task_as(ZonesTask)
    asked = asked_zones(bundle.case, bundle.pack, task)
    return asked, free_face(bundle.case.wall(task.wall), [one.area for one in asked], task.slack)


def _run_on(one: Asked, strayed: BaseGeometry) -> float:
    """Return how much of where a strip would go on is drawn, 0 to 1."""
    whole = one.run_on.area
    return float(one.run_on.intersection(strayed).area / whole) if whole > LEAST else 0.0
