"""Drawings: one scene of shapes in millimetres, and the pens that draw it.

`zonelib.draw.figure` is not imported here: it alone needs matplotlib.
"""

from zonelib.draw.scene import EVERY_PART, Scene
from zonelib.draw.svg import svg
from zonelib.draw.wall import room_scene, wall_scene

__all__ = ["EVERY_PART", "Scene", "room_scene", "svg", "wall_scene"]
