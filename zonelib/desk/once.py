"""Do once what many trainees need: like answers are marked once and drawn once, by each process."""

import json
from collections import OrderedDict
from collections.abc import Callable
from typing import Generic, TypeVar

from zonelib.exercise.answer import AnswerRecord
from zonelib.exercise.bundle import Bundle

__all__ = ["Once", "answer_key"]

MOST = 128
"""What is remembered: more than a class has typical answers to a homework, and a bearable part of memory."""

T = TypeVar("T")


class Once(Generic[T]):
    """Remembers what was made last, by key."""

    def __init__(self, most: int = MOST) -> None:
        self._made: OrderedDict[str, T] = OrderedDict()
        self._most = most

    def get(self, key: str, make: Callable[[], T]) -> T:
        """Return what was made for a key, or make it; where making fails nothing is remembered."""
        if key in self._made:
            self._made.move_to_end(key)
            return self._made[key]
        made = make()
        self._made[key] = made
        while len(self._made) > self._most:
            self._made.popitem(last=False)
        return made

    def clear(self) -> None:
        """Forget everything."""
        self._made.clear()


def answer_key(bundle: Bundle, record: AnswerRecord) -> str:
    """Return what marking depends on: the bundle, which bundle was answered, and the answer itself."""
    whole = [bundle.hash, record.bundle, record.variant, record.answer]
    return json.dumps(whole, sort_keys=True)
