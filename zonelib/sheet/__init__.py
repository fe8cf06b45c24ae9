"""What a trainee works in: the pad, the panel, saving and handing in."""

from zonelib.sheet.candidate import candidate
from zonelib.sheet.grading import grade, hand_in
from zonelib.sheet.lesson import Lesson
from zonelib.sheet.quiz import PracticeQuiz
from zonelib.sheet.sheet import Sheet
from zonelib.sheet.survey import survey
from zonelib.sheet.trouble import SheetTrouble

__all__ = ["Lesson", "PracticeQuiz", "Sheet", "SheetTrouble", "candidate", "grade", "hand_in", "survey"]
