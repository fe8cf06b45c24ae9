"""Feed one file to a reader, and hold what comes of it to the promise."""

import signal
import tempfile
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import process_time
from types import FrameType

from tests.fuzz.targets import Target
from zonelib.site.faults import FileFault

__all__ = ["SLOW", "Broken", "fed"]

SLOW = 1.0
"""A reader gives its answer within this, of its own time [s]."""

HANG = 20.0
"""After this it is stopped; a busy machine may make a reader wait [s]."""


class Broken(AssertionError):
    """A reader did something else than give a value or a named error in time."""


def fed(target: Target, data: bytes, folder: Path | None = None) -> bool:
    """Feed one file; tell whether it was read rather than refused.

    Raises
    ------
    Broken
        If it ends in any other error, or takes too long.
    """
    if folder is None:
        with tempfile.TemporaryDirectory() as made:
            return fed(target, data, Path(made))
    start = process_time()
    try:
        with _alarm(), warnings.catch_warnings():
            warnings.simplefilter("error")
            target.read(data, folder)
    except FileFault as fault:
        if not fault.faults or not all(one.found and one.allowed for one in fault.faults):
            raise Broken(f"{target.name}: an error without words") from fault
        read = False
    except Exception as error:
        raise Broken(f"{target.name}: {type(error).__name__}: {error}") from error
    else:
        read = True
    if (spent := process_time() - start) > SLOW:
        raise Broken(f"{target.name}: took {spent:.1f} s")
    return read


@contextmanager
def _alarm() -> Iterator[None]:
    """Stop what never ends; where there is no such signal, nothing is stopped."""
    if not hasattr(signal, "setitimer"):
        yield
        return
    before = signal.signal(signal.SIGALRM, _stop)
    signal.setitimer(signal.ITIMER_REAL, HANG)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def _stop(number: int, frame: FrameType | None) -> None:
    raise TimeoutError(f"no end after {HANG} s (signal {number}, {frame})")
