"""`zonelib exercise misconceptions`: what an exercise can show of what somebody has misunderstood."""

import subprocess
from collections.abc import Callable

Command = Callable[..., subprocess.CompletedProcess[str]]


def test_it_names_each_with_its_answers_and_those_that_look_the_same(zonelib: Command) -> None:
    done = zonelib("exercise", "misconceptions", "living-room-corner", "bedroom-how-far-out")
    assert done.returncode == 0
    said = " ".join(done.stdout.split())
    assert "slanting, by answer 4: A cable may run on a slant." in said
    assert "Not to be told from door-border, rcd-alone and borrowed-strip here." in said
    assert "bedroom-how-far-out: its typical answers show none" in said


def test_an_exercise_that_is_not_there_is_named(zonelib: Command) -> None:
    done = zonelib("exercise", "misconceptions", "no-such-thing")
    assert done.returncode == 2
    assert "no-such-thing" in done.stderr
