"""Ways to do the work of a run; each gives what is done in the order of the trainees."""

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from itertools import islice
from multiprocessing import get_context

from zonelib.desk.groups import Group
from zonelib.desk.work import Done, Settings, mark_group

__all__ = ["Spread", "by_processes", "one_by_one"]

Spread = Callable[[Iterable[Group], Settings], Iterator[Done]]
"""Takes trainees and settings, calls ``mark_group`` for each, wherever it likes, and gives what is done."""

AHEAD = 8
"""Trainees per process that are handed out before the first is done: more would only fill the memory."""


def one_by_one(groups: Iterable[Group], settings: Settings) -> Iterator[Done]:
    """Mark in this process."""
    return (mark_group(group, settings) for group in groups)


def by_processes(jobs: int) -> Spread:
    """Return a way to mark by several processes of this machine.

    Each is started afresh rather than forked, so that it is the same on every system.
    """

    def spread(groups: Iterable[Group], settings: Settings) -> Iterator[Done]:
        waiting = iter(groups)
        with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as pool:
            running: deque[Future[Done]] = deque()
            running.extend(pool.submit(mark_group, one, settings) for one in islice(waiting, jobs * AHEAD))
            while running:
                yield running.popleft().result()
                running.extend(pool.submit(mark_group, one, settings) for one in islice(waiting, 1))

    return spread if jobs > 1 else one_by_one
