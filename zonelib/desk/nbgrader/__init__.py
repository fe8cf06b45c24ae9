"""The adapter to nbgrader: the only place that imports it."""

from zonelib.desk.nbgrader.course import course

__all__ = ["course"]
