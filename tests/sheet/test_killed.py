"""A kernel killed at any moment loses no confirmed change and leaves no half file."""

import os
import random
import signal
import time
from pathlib import Path

from zonelib.exercise import Bundle
from zonelib.sheet.saving import AnswerFile, record_in

KILLS = 200


def save_until_killed(folder: Path, bundle: Bundle, told: int) -> None:
    """Save one change after another; tell of each only once it is saved."""
    file = AnswerFile(folder, bundle)
    file.restore()
    while True:
        answer = {"points": [[1000.0, 2400.0], [1000.0, float(file.revision + 1)]]}
        file.save(answer, candidate="")
        os.write(told, b"%08d" % file.revision)


def killed(folder: Path, bundle: Bundle, after: float) -> int:
    """Let a process save until it is killed; return the last revision it told of, or 0."""
    heard, told = os.pipe()
    child = os.fork()
    if not child:
        os.close(heard)
        try:
            save_until_killed(folder, bundle, told)
        finally:
            os._exit(1)
    os.close(told)
    time.sleep(after)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(heard, "rb") as pipe:
        words = pipe.read()
    return int(words[-8:] or b"0")


def test_200_kills_lose_no_confirmed_change_and_leave_no_half_file(folder: Path, bundle: Bundle) -> None:
    moments = random.Random(522)
    confirmed, mid_save = 0, 0
    for _ in range(KILLS):
        confirmed = max(confirmed, killed(folder, bundle, moments.uniform(0.003, 0.04)))
        record = record_in(folder / "answers" / "kitchen-hatch.json")  # raises for half a file
        if record is None:
            assert confirmed == 0
            continue
        assert record.revision in (confirmed, confirmed + 1)
        assert record.answer["points"][1][1] == record.revision
        confirmed = record.revision
        mid_save += bool(list((folder / "answers" / ".kept").glob("*.part")))
    assert confirmed > KILLS / 4
    assert mid_save > 0  # some kills did hit a save half way, so the test could have failed
    assert not list((folder / "answers" / ".kept").glob("*.json"))  # nothing had to be kept aside
