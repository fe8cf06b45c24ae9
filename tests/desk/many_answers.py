"""A load of any size, marked by two local Dask workers of which one is killed midway.

Run it with ``python -m tests.desk.many_answers 100000``; a folder as second argument keeps what it makes.
"""

import csv
import json
import random
import resource
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

from tests.desk.small_class import Paper, hand_in, lay_bundles, paper
from zonelib.desk.cluster import by_cluster
from zonelib.desk.run import mark_folder
from zonelib.desk.work import Done

NAMES = (
    "bedroom-drop", "kitchen-hatch", "living-room-corner", "bedroom-over-the-ceiling", "bedroom-zones",
    "dining-inspection", "hall-pictures", "landing-joist", "landing-which-screws", "utility-deepest-chase",
)  # fmt: skip
PATIENCE = 90.0


@dataclass(frozen=True)
class Ran:
    """What a run gave: times [s], peak memory of this process and of its children [MB]."""

    answers: int
    rows: int
    twice: int
    lost: int
    killed: int
    seconds: float
    here: float
    workers: float
    differing: int

    def __str__(self) -> str:
        each = 1000 * self.seconds / self.rows
        return (
            f"{self.answers} answers, {self.rows} marks, {self.lost} lost, {self.twice} twice, "
            f"{self.differing} unlike the same one marked here; worker {self.killed} was killed midway. "
            f"{self.seconds:.0f} s, {each:.1f} ms a mark; "
            f"peak memory {self.here:.0f} MB here, {self.workers:.0f} MB in the largest worker."
        )


def lay_load(home: Path, answers: int, *, names: tuple[str, ...] = NAMES) -> Path:
    """Write as many answers, those of one trainee in one file, and return the folder they lie in."""
    asked, draw = paper(names), random.Random(1)
    lay_bundles(asked, home / "exercises" / "hw")
    for number in range(answers // len(asked)):
        hand_in(home / "submitted", f"C-{number:06}", _answered(asked, draw), asked)
    return home / "submitted"


def _answered(asked: Paper, draw: random.Random) -> dict[str, dict[str, object]]:
    pools = {one.id: [one.model, *(wrong["answer"] for wrong in one.wrong)] for one, _ in asked}
    return {name: dict(draw.choice(pool)) for name, pool in pools.items()}


@contextmanager
def local_cluster(home: Path, *, workers: int = 2) -> Iterator[tuple[str, list[subprocess.Popen[bytes]]]]:
    """Start a scheduler and workers on this machine, and end just these at the end."""
    file = home / "scheduler.json"
    common = ["--scheduler-file", str(file), "--no-dashboard", "--host", "127.0.0.1"]
    with ExitStack() as ends, (home / "cluster.log").open("wb") as log:
        ends.enter_context(_process(["scheduler", *common, "--port", "0"], home, log.fileno()))
        _until(file.is_file)
        one = ["worker", *common, "--no-nanny", "--nthreads", "1"]
        started = [ends.enter_context(_process(one, home, log.fileno())) for _ in range(workers)]
        yield json.loads(file.read_text(encoding="utf-8"))["address"], started


@contextmanager
def _process(arguments: list[str], home: Path, log: int) -> Iterator[subprocess.Popen[bytes]]:
    root = Path(__file__).resolve().parents[2]
    command = [sys.executable, "-m", "dask", *arguments, "--local-directory", str(home / "dask")]
    if arguments[0] == "scheduler":
        command = command[:-2]
    with subprocess.Popen(command, stdout=log, stderr=log, cwd=root) as started:
        try:
            yield started
        finally:  # an interrupted run must leave nothing behind
            started.terminate()
            started.wait(timeout=PATIENCE)


def _until(ready: object) -> None:
    ends = time.monotonic() + PATIENCE
    while not (callable(ready) and ready()):
        if time.monotonic() > ends:
            raise TimeoutError("The cluster did not start in time; its log is cluster.log.")
        time.sleep(0.1)


def _all_there(address: str, workers: int) -> bool:
    from distributed import Client

    with Client(address, timeout=PATIENCE, set_as_default=False) as client:
        client.wait_for_workers(workers, timeout=PATIENCE)
    return True


def run(home: Path, answers: int, *, names: tuple[str, ...] = NAMES) -> Ran:
    """Mark a load by two workers, kill one when a third is done, and count."""
    inbox = lay_load(home, answers, names=names)
    with local_cluster(home) as (address, workers):
        _all_there(address, len(workers))

        def watch(done: Iterable[Done], count: int) -> Iterator[Done]:
            for number, one in enumerate(done, start=1):
                if number == max(count // 3, 1):
                    workers[0].send_signal(signal.SIGKILL)
                yield one

        began = time.monotonic()
        mark_folder(inbox, home / "marked", spread=by_cluster(address), watch=watch)
        seconds = time.monotonic() - began
        _until(lambda: workers[0].poll() is not None)
    return _counted(home, answers, seconds, workers[0].pid)


def _counted(home: Path, answers: int, seconds: float, killed: int) -> Ran:
    here, children = (
        resource.getrusage(who).ru_maxrss / 1024 for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
    )
    marks = list(_marks(home / "marked"))
    keys = {key for key, _ in marks}
    differing = _differing(home, dict(marks))
    return Ran(
        answers,
        len(marks),
        len(marks) - len(keys),
        answers - len(keys),
        killed,
        seconds,
        here,
        children,
        differing,
    )


def _marks(out: Path) -> Iterator[tuple[tuple[str, str], str]]:
    with (out / "marks.csv").open(newline="", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            yield (row["trainee"], row["exercise"]), row["score"]


def _differing(home: Path, marks: dict[tuple[str, str], str]) -> int:
    """Mark a few of the trainees here, one by one, and count the marks that are not the same."""
    some, names = home / "some", sorted({name for name, _ in marks})
    some.mkdir()
    for name in names[:: max(len(names) // 20, 1)]:
        (some / f"{name}.json").write_bytes((home / "submitted" / f"{name}.json").read_bytes())
    mark_folder(some, home / "again", bundles=home / "exercises")
    return sum(marks[key] != score for key, score in _marks(home / "again"))


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as temporary:
        place = Path(sys.argv[2]) if len(sys.argv) > 2 else Path(temporary)
        print(run(place, int(sys.argv[1])))  # noqa: T201 the figures are what it is run for
