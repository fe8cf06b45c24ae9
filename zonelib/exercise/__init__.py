"""Exercise files, frozen bundles, answers, and marking."""

from zonelib.exercise.answer import AnswerRecord, read_record
from zonelib.exercise.bundle import Bundle, freeze, read_bundle
from zonelib.exercise.criteria import Criterion
from zonelib.exercise.load import bank_names, bank_path, read_exercise
from zonelib.exercise.marking import Result, mark
from zonelib.exercise.model import Exercise

__all__ = [
    "AnswerRecord",
    "Bundle",
    "Criterion",
    "Exercise",
    "Result",
    "bank_names",
    "bank_path",
    "freeze",
    "mark",
    "read_bundle",
    "read_exercise",
    "read_record",
]
