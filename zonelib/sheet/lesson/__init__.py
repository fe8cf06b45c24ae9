"""Lessons: what their cells call, and how they are stored."""

from zonelib.sheet.lesson.lesson import Lesson

__all__ = ["Lesson"]
