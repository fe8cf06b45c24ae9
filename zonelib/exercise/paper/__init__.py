"""Exercises on paper: a worksheet to draw on, and the marking sheet that goes with it."""

from zonelib.exercise.paper.sheets import marking_sheet, worksheet

__all__ = ["marking_sheet", "worksheet"]
