"""A JupyterLab that serves a folder, started as a trainee starts it, and stopped again."""

import os
import re
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from threading import Timer

__all__ = ["PATIENCE", "Lab", "running_lab"]

PATIENCE = 90_000  # ms; a kernel starts slowly on a busy machine
HOMES = ("JUPYTER_CONFIG_DIR", "JUPYTER_DATA_DIR", "JUPYTER_RUNTIME_DIR", "IPYTHONDIR")


@dataclass(frozen=True)
class Lab:
    """A running JupyterLab.

    Attributes
    ----------
    folder : Path
        What it serves.
    address : str
        As ``zonelib open`` printed it.
    """

    folder: Path
    address: str

    def page_of(self, name: str) -> str:
        """Return the address of a notebook, in a workspace of its own."""
        base, token = re.fullmatch(r"(http://[^/]+)/.*\?token=(\w+)", self.address).groups()  # type: ignore[union-attr]
        return f"{base}/lab/workspaces/w{time.monotonic_ns()}/tree/{name}?token={token}"


def free_port() -> int:
    """Return a port that nobody listens on: each worker of a run in parallel has its own server."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


@contextmanager
def running_lab(folder: Path, *, home: Path) -> Iterator[Lab]:
    """Run `zonelib open` on a folder, with settings in a home of its own."""
    words = ["open", "--no-browser", "--port", str(free_port()), str(folder)]
    settings = {**os.environ, **{name: str(home) for name in HOMES}}
    with subprocess.Popen(
        [sys.executable, "-u", "-m", "zonelib", *words], env=settings, stdout=subprocess.PIPE, text=True
    ) as server:
        assert server.stdout
        late = Timer(PATIENCE / 400, server.terminate)  # rather an error than a wait without end
        late.start()
        lines = [server.stdout.readline() for _ in range(3)]
        late.cancel()
        try:
            assert lines[1], "JupyterLab did not start"
            yield Lab(folder, lines[1].strip())
        finally:
            server.terminate()
            server.wait(timeout=30)
