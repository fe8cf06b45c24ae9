"""A kernel killed at any moment loses no confirmed change and leaves no half file."""

import os
import signal
from pathlib import Path

import pytest

from tests.exercise.answers import bundle
from tests.sheet.killing import KINDS, kill_often, script
from zonelib.sheet import Sheet
from zonelib.sheet.saving import record_in

KILLS = 3  # of each kind; `python -m tests.sheet.kills` kills each 200 times


@pytest.mark.parametrize("kind", KINDS)
def test_kills_lose_no_confirmed_change_and_leave_no_half_file(kind: str, tmp_path: Path) -> None:
    *_, tally = kill_often(KINDS[kind], tmp_path, kills=KILLS, seed=522)
    assert tally.kills == KILLS
    assert tally.confirmed >= KILLS  # each session told of a change before it was killed


def die(*_arguments: object, **_more: object) -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def die_at(step: str, folder: Path, name: str) -> int:
    """Save once, then die at a step of the second save; return how the process ended."""
    child = os.fork()
    if not child:
        sheet = Sheet.from_bank(name, folder=folder)
        first, second = script(name)[:2]
        sheet.pad.set_state({"answer": first})
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(step, die)
            sheet.pad.set_state({"answer": second})
        os._exit(1)  # the step was not come to
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


@pytest.mark.parametrize(
    ("step", "kept"),
    [
        ("tempfile.mkstemp", 1),
        ("os.fsync", 1),
        ("pathlib.Path.chmod", 1),
        ("pathlib.Path.replace", 1),
        ("zonelib.sheet.files._settle", 2),
    ],
)
def test_a_kill_at_any_step_of_a_save_keeps_the_answer_before_or_the_new_one(
    step: str, kept: int, tmp_path: Path
) -> None:
    name = "kitchen-hatch"
    assert die_at(step, tmp_path, name) == -signal.SIGKILL
    record = record_in(tmp_path / "answers" / f"{name}.json", bundle(name).kind)
    assert record is not None
    assert (record.revision, record.answer) == (kept, script(name)[kept - 1])
    assert Sheet.from_bank(name, folder=tmp_path).answer == script(name)[kept - 1]
