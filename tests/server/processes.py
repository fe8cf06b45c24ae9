"""Servers as processes of their own, and a PostgreSQL that lives as long as a test."""

import asyncio
import os
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
from collections.abc import Coroutine, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, TypeVar

__all__ = ["Process", "cluster", "free_port", "programs", "run_apart"]

T = TypeVar("T")

TICK = os.sysconf("SC_CLK_TCK")
MIB = 1024 * 1024


def run_apart(work: Coroutine[Any, Any, T]) -> T:
    """Run a coroutine in a thread: the tests' browser has a loop of its own in this one."""
    with ThreadPoolExecutor(1) as hand:
        return hand.submit(asyncio.run, work).result()


def free_port() -> int:
    """Return a port of the loopback that nobody uses now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


class Process:
    """A server on a port, to be started, killed and started again."""

    def __init__(self, folder: Path, port: int, *more: str) -> None:
        self.port, self.cpu = port, 0.0
        self.command = [sys.executable, "-m", "zonelib", "serve", str(folder), "--port", str(port), *more]
        self._running: subprocess.Popen[str] | None = None
        self._at_start = 0.0

    def start(self) -> "Process":
        """Start it and wait until it serves."""
        pipe = subprocess.PIPE
        self._running = subprocess.Popen(self.command, stdout=pipe, stderr=subprocess.STDOUT, text=True)
        assert self._running.stdout
        told = ""
        for line in self._running.stdout:
            told += line
            if line.startswith("- autumn"):
                break
        assert self._running.poll() is None, told
        self._at_start = self._seconds()
        return self

    def rest(self) -> None:
        """Count the processor's time from now."""
        self.cpu, self._at_start = 0.0, self._seconds()

    def kill(self) -> None:
        """End it as a power cut would: nothing is told and nothing tidied."""
        if self._running is None:
            return
        with suppress(FileNotFoundError):
            self.cpu += self._seconds() - self._at_start
        self._running.send_signal(signal.SIGKILL)
        self._running.wait(20)
        if self._running.stdout:
            self._running.stdout.close()

    @property
    def memory(self) -> float:
        """The most memory it has held at once since it was started [MiB]."""
        assert self._running
        for line in Path(f"/proc/{self._running.pid}/status").read_text(encoding="ascii").splitlines():
            if line.startswith("VmHWM:"):
                return int(line.split()[1]) * 1024 / MIB
        return 0.0

    def _seconds(self) -> float:
        """Return what it has used of a processor since it was started [s]."""
        assert self._running
        told = Path(f"/proc/{self._running.pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
        return (int(told[11]) + int(told[12])) / TICK


def programs() -> Path:
    """Return where PostgreSQL's programs lie: Debian keeps them off the path."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"))
    if found:
        return found[-1].parent
    there = shutil.which("initdb")
    assert there, "PostgreSQL is not here; install it: apt-get install postgresql"
    return Path(there).parent


@contextmanager
def cluster() -> Iterator[str]:
    """Run a PostgreSQL of the test's own, on a socket file; give its address, and remove it after."""
    folder = Path(tempfile.mkdtemp(prefix="zl-pg-"))
    as_other = [] if os.geteuid() else ["runuser", "-u", "nobody", "--"]  # it refuses to run as root
    if as_other:
        shutil.chown(folder, "nobody")
    data, settings = folder / "data", f"-c listen_addresses='' -c unix_socket_directories={folder}"

    def run(program: str, *more: str) -> None:
        told = [*as_other, str(programs() / program), "-D", str(data), *more]
        subprocess.run(told, check=True, cwd=folder, stdout=subprocess.DEVNULL)

    try:
        run("initdb", "-U", "zonelib", "-A", "trust", "--no-sync", "-E", "UTF8", "--locale=C")
        run("pg_ctl", "-w", "-l", str(folder / "log"), "-o", settings, "start")
        try:
            yield f"postgresql://zonelib@/postgres?host={folder}"
        finally:
            run("pg_ctl", "-w", "-m", "immediate", "stop")
    finally:
        shutil.rmtree(folder, ignore_errors=True)
