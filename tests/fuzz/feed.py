"""Feed one file to a reader, and hold what comes of it to the promise."""

import hashlib
import resource
import signal
import tempfile
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from time import perf_counter, process_time
from types import FrameType

from tests.fuzz.targets import Target
from zonelib.site.faults import FileFault

__all__ = ["FOUND", "MEMORY", "SLOW", "Broken", "Feed", "bounded", "fed", "watched"]

SLOW = 1.0
"""A reader gives its answer within this, of its own time [s]."""

HANG = 20.0
"""After once or twice this it is stopped; a busy machine may make a reader wait [s]."""

MEMORY = 256 * 1024 * 1024
"""What reading may add to the memory of a process that has fed each target's first files [bytes]."""

FOUND = Path(tempfile.gettempdir()) / "zonelib-fuzz"
"""Where files are kept that broke a reader."""


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
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        read = _held(target, data, folder)
    if (spent := process_time() - start) > SLOW:
        raise Broken(f"{target.name}: took {spent:.1f} s")
    return read


def _held(target: Target, data: bytes, folder: Path) -> bool:
    try:
        target.read(data, folder)
    except FileFault as fault:
        if not fault.faults or not all(
            one.found and one.allowed and str(one).encode() for one in fault.faults
        ):
            raise Broken(f"{target.name}: an error without words") from fault
        return False
    except Exception as error:
        raise Broken(f"{target.name}: {type(error).__name__}: {error}") from error
    return True


@dataclass
class Feed:
    """Feeds one reader file after file, keeps those that break it, and counts; `slowest` in own time [s]."""

    target: Target
    folder: Path
    files: int = 0
    read: int = 0
    broken: int = 0
    slowest: float = 0.0

    def __call__(self, data: bytes) -> str:
        """Feed one file; return what broke, or ""."""
        start, told = perf_counter(), ""
        _STATE.files = self.files = self.files + 1
        try:
            self.read += _held(self.target, data, self.folder)
            if perf_counter() - start > SLOW / 10:  # once more: was it this file, or a busy machine?
                self.slowest = max(self.slowest, self._own_time(data))
        except Broken as error:
            told = self._kept(data, error)
        return told

    def _own_time(self, data: bytes) -> float:
        start = process_time()
        fed(self.target, data, self.folder)
        return process_time() - start

    def _kept(self, data: bytes, error: Broken) -> str:
        self.broken += 1
        FOUND.mkdir(exist_ok=True)
        name = f"{self.target.name}-{hashlib.sha256(data).hexdigest()[:12]}"
        (FOUND / name).write_bytes(data)
        return f"  {name}: {error}"[:300]

    def __str__(self) -> str:
        """Return the counts in one line."""
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
        counts = f"{self.files:,} files, {self.read:,} read, {self.broken} broke it"
        return (
            f"{self.target.name}: {counts}, slowest {self.slowest:.2f} s, {process_time():.0f} s, {memory} MB"
        )


def bounded() -> None:
    """Let this process have no more than `MEMORY` above what it has; a reader that wants more breaks."""
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0])
    most = pages * resource.getpagesize() + MEMORY
    resource.setrlimit(resource.RLIMIT_AS, (most, most))


@dataclass
class _State:
    files: int = 0
    seen: int = -1


_STATE = _State()


@contextmanager
def watched() -> Iterator[None]:
    """Stop what never ends: a clock looks now and then for a file it saw before. Warnings are errors."""
    before = signal.signal(signal.SIGALRM, _look)
    signal.setitimer(signal.ITIMER_REAL, HANG, HANG)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def _look(number: int, frame: FrameType | None) -> None:
    if _STATE.files == _STATE.seen:
        raise TimeoutError(f"no end after {HANG} s (signal {number}, {frame})")
    _STATE.seen = _STATE.files
