"""Ways to do the work of a run; each gives what is done in the order of the trainees."""

import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from itertools import islice
from typing import TYPE_CHECKING

from zonelib.desk.groups import Group
from zonelib.desk.work import Done, Settings, mark_group

if TYPE_CHECKING:
    from concurrent.futures import Future

__all__ = ["Spread", "as_pays", "by_processes", "one_by_one", "worthwhile"]

Spread = Callable[[Iterable[Group], Settings], Iterator[Done]]
"""Takes trainees and settings, calls ``mark_group`` for each, wherever it likes, and gives what is done."""

AHEAD = 8
"""Trainees per process that are handed out before the first is done: more would only fill the memory."""

EACH = 500
"""Trainees that a process must have to do before it pays: it marks anew what another has marked already."""


def one_by_one(groups: Iterable[Group], settings: Settings) -> Iterator[Done]:
    """Mark in this process."""
    return (mark_group(group, settings) for group in groups)


def by_processes(jobs: int) -> Spread:
    """Return a way to mark by several processes of this machine.

    Each is started afresh rather than forked, so that it is the same on every system.
    """

    def spread(groups: Iterable[Group], settings: Settings) -> Iterator[Done]:
        # Most runs need none of it, and it takes a while to load.
        from concurrent.futures import ProcessPoolExecutor
        from multiprocessing import get_context

        waiting = iter(groups)
        with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as pool:
            running: deque[Future[Done]] = deque()
            running.extend(pool.submit(mark_group, one, settings) for one in islice(waiting, jobs * AHEAD))
            while running:
                yield running.popleft().result()
                running.extend(pool.submit(mark_group, one, settings) for one in islice(waiting, 1))

    return spread if jobs > 1 else one_by_one


def as_pays(groups: Iterable[Group], settings: Settings) -> Iterator[Done]:
    """Mark by as many processes as the machine has and the class is worth."""
    waiting = list(groups)
    return by_processes(worthwhile(len(waiting), cores=_cores()))(waiting, settings)


def worthwhile(trainees: int, *, cores: int) -> int:
    """Return how many processes to mark so many trainees with.

    >>> worthwhile(30, cores=8), worthwhile(1500, cores=8), worthwhile(5000, cores=8)
    (1, 3, 8)
    """
    return max(min(trainees // EACH, cores), 1)


def _cores() -> int:
    """Return how many cores this process may use; not every system tells that."""
    allowed = getattr(os, "sched_getaffinity", None)
    return len(allowed(0)) if allowed else os.cpu_count() or 1
