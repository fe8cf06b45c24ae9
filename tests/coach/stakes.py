"""What is told of a misconception without a try, held against trying: `python -m tests.coach.stakes 5`."""

import json
import random
import sys
from collections.abc import Iterator

from tests.coach.share import random_answer
from tests.exercise.answers import NAMES, bundle, exercise
from zonelib.coach.diagnosis.lens import NOTHING, Lens
from zonelib.coach.diagnosis.misconception import library

RANDOM = ("route", "protect", "joist")


def differences(name: str, *, answers: int, drawn: int = 0) -> Iterator[str]:
    """Yield "" where both agree, and else what differs, for some typical and some random answers."""
    lens, draw = Lens(bundle(name)), random.Random(name)
    given = [exercise(name).model, *(one["answer"] for one in exercise(name).wrong)][:answers]
    if exercise(name).kind in RANDOM:
        given += [random_answer(name, draw) for _ in range(drawn)]
    for answer in given:
        text = json.dumps(answer, sort_keys=True)
        for one in library():
            held = lens.part(frozenset({one}))
            told = lens.stake(text).told(library()[each] for each in held) if held else None
            if told is None and held and lens.truth(held) == lens.truth(NOTHING) is not None:
                told = lens.right(NOTHING, answer)
            if told is None and held and lens.still_fails(held, text):
                told = False
            if told is not None:
                yield "" if lens.tried(held, text) == told else f"{name}, {one}: told {told}; {text}"


if __name__ == "__main__":
    drawn = int(sys.argv[1]) if len(sys.argv) > 1 else 0
    names = [name for name in NAMES if exercise(name).kind != "choose"]
    found = [one for name in names for one in differences(name, answers=99, drawn=drawn)]
    print("\n".join(filter(None, found)), f"{len(found)} told without trying", sep="\n")  # noqa: T201
