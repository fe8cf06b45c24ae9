"""Sheets whose process is killed (-9) at random moments of a scripted session, and what is left then."""

import json
import os
import random
import signal
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.exercise.answers import bundle, exercise
from zonelib.exercise.bundle import Bundle
from zonelib.sheet import Sheet
from zonelib.sheet.kinds import pad_for
from zonelib.sheet.saving import record_in

__all__ = ["KINDS", "Tally", "kill_often", "killed", "script"]

Answer = dict[str, Any]

KINDS = {
    "choose": "landing-which-screws",
    "fixings": "hall-pictures",
    "inspect": "dining-inspection",
    "joist": "bathroom-joist",
    "number": "bedroom-how-far-out",
    "protect": "store-given-run",
    "route": "kitchen-hatch",
    "zones": "bedroom-zones",
}
"""An exercise of the bank for each kind."""

LATEST = 0.012  # s after the last word from the session; a save takes about as long
DRAFTS = "answers/.kept/*.part"


@dataclass
class Tally:
    """What kills came to: how many, how many half way in a save, and how many changes were saved."""

    kills: int = 0
    mid_save: int = 0
    confirmed: int = 0


def script(name: str) -> list[Answer]:
    """Return what a trainee draws one after another: the typical mistakes, then the model answer."""
    one = exercise(name)
    answers = [*(wrong["answer"] for wrong in one.model_dump(mode="json")["wrong"]), one.model]
    kind = pad_for(bundle(name))
    return [json.loads(json.dumps(kind.changed(bundle(name), {}, dict(answer)))) for answer in answers]


def work_until_killed(folder: Path, frozen: Bundle, *, answers: list[Answer], told: int) -> None:
    """Open the sheet, change the answer as the browser does and check it now and then; tell of each save."""
    sheet = Sheet(frozen.exercise.id, folder=folder, bundle=frozen)
    file = sheet._work.file
    os.write(told, b"%08d" % file.revision)
    while True:
        sheet.pad.set_state({"answer": answers[file.revision % len(answers)]})
        if sheet.pad.saved:  # what the trainee reads as "Saved 14:02"
            os.write(told, b"%08d" % file.revision)
        if file.revision % 5 == 0:
            sheet.check()
            sheet.hint()


def killed(work: Callable[[int], None], *, after: int, pause: float) -> int:
    """Let a process work until it is killed; return the last revision it told of.

    Parameters
    ----------
    after : int
        How many times it tells before it is killed.
    pause : float
        How long it goes on after that [s].
    """
    heard, told = os.pipe()
    child = os.fork()
    if not child:
        os.close(heard)  # so that it ends by itself, should nobody listen any more
        with suppress(BaseException):
            work(told)
        os._exit(1)
    os.close(told)
    with os.fdopen(heard, "rb", buffering=0) as pipe:
        words = b"".join(pipe.read(8) for _ in range(after))
        time.sleep(pause)
        os.kill(child, signal.SIGKILL)
        words += pipe.read()
    _, status = os.waitpid(child, 0)
    assert os.WTERMSIG(status) == signal.SIGKILL  # it was at work until then
    return int(words[-8:])


def kill_often(name: str, folder: Path, *, kills: int, seed: int) -> Iterator[Tally]:
    """Kill a session again and again, each going on where the last left off; assert that nothing is lost."""
    frozen, answers, moments = bundle(name), script(name), random.Random(seed)
    frozen.write(folder)
    tally = Tally()
    for _ in range(kills):
        last = killed(
            lambda told: work_until_killed(folder, frozen, answers=answers, told=told),
            after=moments.randint(2, 5),
            pause=moments.uniform(0, LATEST),
        )
        tally.kills += 1
        tally.mid_save += bool(list(folder.glob(DRAFTS)))
        tally.confirmed = look_at(folder, frozen, answers=answers, last=last)
        for draft in folder.glob(DRAFTS):
            draft.unlink()
        yield tally


def look_at(folder: Path, frozen: Bundle, *, answers: list[Answer], last: int) -> int:
    """Assert that the file is whole, no older than what was told, and opens again; return its revision."""
    record = record_in(
        folder / "answers" / f"{frozen.exercise.id}.json", frozen.kind
    )  # raises for half a file
    if record is None:
        assert last == 0
        return 0
    assert record.revision in (last, last + 1)
    assert record.answer == answers[(record.revision - 1) % len(answers)]
    assert not list((folder / "answers" / ".kept").glob("*.json"))  # nothing had to be kept aside
    return record.revision
