"""The room unfolded, with where to keep a drill away: every strip counts, hidden ones too."""

from collections.abc import Iterator
from dataclasses import dataclass

import shapely
from shapely.affinity import translate

from zonelib.draw import EVERY_PART, Scene, room_scene
from zonelib.draw.overlay import Mark, overlaid
from zonelib.rules.fixing_rules import avoid_pieces
from zonelib.rules.pack import Pack
from zonelib.rules.words import mm
from zonelib.rules.zones import Zone
from zonelib.sheet.survey.words import say
from zonelib.site.geometry import solid_area
from zonelib.site.model import Case
from zonelib.site.ring import ring_of
from zonelib.site.room import RoomWall
from zonelib.site.tolerance import above, below

__all__ = ["Avoided", "avoided"]

SHOWN = EVERY_PART - {"zones", "other-zones", "routes", "findings", "points", "fixings", "safety", "legend"}


@dataclass(frozen=True)
class Avoided:
    """What one who drills is shown of a room.

    Attributes
    ----------
    scene : Scene
        The drawing.
    words : dict of str to tuple of str
        For each wall where to keep away and why, from the same pieces as the drawing.
    """

    scene: Scene
    words: dict[str, tuple[str, ...]]


def avoided(case: Case, room: str, pack: Pack, *, drill: float) -> Avoided:
    """Return the drawing of a room with the regions to avoid, and the same in words.

    Parameters
    ----------
    case : Case
        With the room in it.
    room : str
        Its id.
    pack : Pack
        The country's rules.
    drill : float
        Diameter of the drill [mm].
    """
    ring = ring_of(case, room)
    marks, words = list[Mark](), dict[str, tuple[str, ...]]()
    for wall, start in zip(ring.walls, ring.starts[:-1], strict=True):
        pieces = [one for one in avoid_pieces(wall, "front", pack, diameter=drill) if not one.area.is_empty]
        words[wall.id] = tuple(_told(wall, pieces))
        area = shapely.union_all([one.area for one in pieces]).intersection(solid_area(wall))
        alt = say("avoid-alt", wall=wall.id, where=" ".join(words[wall.id]))
        marks.append(Mark(css="zone", shape=translate(area, start), alt=alt))
    scene = room_scene(case, room, pack, show=SHOWN)
    return Avoided(overlaid(scene, marks, key={"zone": say("avoid-key")}), words)


def _told(wall: RoomWall, pieces: list[Zone]) -> Iterator[str]:
    """Yield where on a wall each piece lies, and why."""
    seen = set[str]()
    for one in pieces:
        left, bottom, right, top = one.area.bounds
        ends = {"left": mm(left), "right": mm(right), "low": mm(bottom), "high": mm(top)}
        words = say(f"avoid-{_way(one, wall.length)}", why=one.reason, **ends)
        if words not in seen:
            seen.add(words)
            yield words


def _way(piece: Zone, length: float) -> str:
    """Return how a piece is told: by heights, by distances along the wall, or by both.

    One that goes all the way along is told by heights. The strip of an accessory or a corner that begins at
    the floor goes all the way up.
    """
    left, bottom, right, _top = piece.area.bounds
    if not above(left, 0.0) and not below(right, length):
        return "level"
    return "upright" if piece.form in ("vertical", "corner") and not above(bottom, 0.0) else "both"
