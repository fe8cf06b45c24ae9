"""Which room is whose: seeds from a key that only the tutor has, and their names."""

import hashlib
import hmac
from collections.abc import Iterable, Iterator, Sequence
from itertools import count
from typing import TypeVar

from zonelib.site.faults import Fault, FileFault

__all__ = ["Stream", "seed_for", "variant_of", "whose"]

BITS = 64
"""Of a seed: too many to be tried out, where a name is known and its seed is not."""

DIGITS = 10
"""Of a name: enough that no two of a class meet, and few enough to be read out."""

T = TypeVar("T")


def seed_for(key: bytes, *, course: str, candidate: str) -> int:
    """Return the seed of a candidate in a course.

    Parameters
    ----------
    key : bytes
        Known to the tutor alone: without it nobody can tell from a candidate number which room is whose.
    course, candidate : str
        Name of the course, and candidate number.
    """
    text = f"{len(course)}:{course}{candidate}"  # the length keeps "a" and "bc" apart from "ab" and "c"
    return int.from_bytes(hmac.digest(key, text.encode(), "sha256")[: BITS // 8], "big")


def variant_of(seed: int) -> str:
    """Return the name of a variant: a hash of its seed, from which nobody comes back to the seed.

    Whoever has the seed can make the room again, with its model answer; a bundle tells only the name.

    Raises
    ------
    FileFault
        If the seed is out of range.
    """
    if not 0 <= seed < 2**BITS:
        raise FileFault("the variant", [Fault("seed", f"{seed}", f"a whole number from 0 to {2**BITS - 1}")])
    return hashlib.sha256(f"variant {seed:x}".encode()).hexdigest()[:DIGITS]


def whose(variant: str, key: bytes, *, course: str, candidates: Iterable[str]) -> str | None:
    """Return the candidate whose variant it is, or None where it is nobody's of these."""
    seeds = ((one, seed_for(key, course=course, candidate=one)) for one in candidates)
    return next((one for one, seed in seeds if variant_of(seed) == variant), None)


class Stream:
    """An endless row of choices that depends on names and a seed alone, on any machine and Python.

    Parameters
    ----------
    exercise : str
        Name of the exercise.
    seed : int
        The seed.
    """

    def __init__(self, exercise: str, seed: int) -> None:
        self._start = f"{exercise}:{seed:010x}:"
        self._numbers = self._all()

    def _all(self) -> Iterator[int]:
        for number in count():
            yield int.from_bytes(hashlib.sha256(f"{self._start}{number}".encode()).digest(), "big")

    def one_of(self, values: Sequence[T]) -> T:
        """Return the next choice; 256 bits leave no bias that counts."""
        return values[next(self._numbers) % len(values)]
