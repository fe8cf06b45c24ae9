"""A real hub on loopback with its proxy, servers and service; everything of it lies in one folder."""

import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

import httpx

ROOT = Path(__file__).resolve().parents[2]
DOCS = ROOT / "docs" / "hub"
PASSWORD = "larch-row"  # noqa: S105 - of a hub that lives for one test
PROXY = "configurable-http-proxy"
NO_PROXY = f"{PROXY} is missing: npm install --no-save {PROXY}@5, in this folder or in one on the path."
T = TypeVar("T")
LONGEST = 240  # s to wait for anything: a busy machine is no fault


@dataclass(frozen=True)
class Hub:
    """Where it is reached, and where its files lie."""

    home: Path
    address: str
    served: str
    process: "subprocess.Popen[bytes]"

    @property
    def log(self) -> str:
        """What hub, proxy, servers and service have said."""
        return (self.home / "hub.log").read_text(encoding="utf-8", errors="replace")


def find_proxy() -> str:
    """Return the proxy's program, beside the other packages from npm or on the path."""
    beside = ROOT / "node_modules" / ".bin" / PROXY
    found = str(beside) if beside.exists() else shutil.which(PROXY)
    assert found, NO_PROXY
    return found


def free_ports(count: int) -> list[int]:
    """Return ports that nobody listens to."""
    sockets = [socket.create_server(("127.0.0.1", 0)) for _ in range(count)]
    ports = [int(one.getsockname()[1]) for one in sockets]
    for one in sockets:
        one.close()
    return ports


def wait_for(look: Callable[[], T | None], what: str) -> T:
    """Look until something is there."""
    end = time.monotonic() + LONGEST
    while time.monotonic() < end:
        found = look()
        if found is not None:
            return found
        time.sleep(0.5)
    raise AssertionError(f"{what} did not come within {LONGEST} s")


def answering(address: str) -> httpx.Response | None:
    """Return what an address answers, or None while nobody is there, or the proxy alone."""
    try:
        told = httpx.get(address, timeout=10)
    except httpx.TransportError:
        return None
    return told if told.is_success else None


def processes_in(home: Path) -> list[int]:
    """Return the processes that work in a folder."""
    found = []
    for one in Path("/proc").glob("[0-9]*/cwd"):
        try:
            where = one.readlink()
        except OSError:
            continue
        if where.is_relative_to(home):
            found.append(int(one.parent.name))
    return found


@contextmanager
def running_hub(home: Path) -> Iterator[Hub]:
    """Start a hub, and end everything that it started."""
    port, hub_port, proxy_port, served_port = free_ports(4)
    address = f"http://127.0.0.1:{port}"
    place = {"home": str(home), "config": str(DOCS / "jupyterhub_config.py"), "password": PASSWORD}
    place |= {"proxy": find_proxy(), "address": address}
    ports = {"hub_port": hub_port, "proxy_port": proxy_port, "served_port": served_port}
    env = os.environ | {"TEST_HUB": json.dumps(place | ports)}
    config = Path(__file__).with_name("jupyterhub_config.py")
    command = [sys.executable, "-m", "jupyterhub", "-f", str(config)]
    with (home / "hub.log").open("wb") as log:
        process = subprocess.Popen(command, cwd=home, env=env, stdout=log, stderr=log)
    hub = Hub(home, address, f"http://127.0.0.1:{served_port}", process)
    try:
        wait_for(lambda: answering(f"{address}/hub/health"), "the hub")
        yield hub
    finally:
        stop(hub)


def stop(hub: Hub) -> None:
    """End the hub as its administrator would; it ends its servers, its service and its proxy."""
    hub.process.send_signal(signal.SIGTERM)
    try:
        hub.process.wait(60)
    except subprocess.TimeoutExpired:
        hub.process.kill()
    for pid in processes_in(hub.home):
        os.kill(pid, signal.SIGKILL)
