"""``zonelib serve`` as a process: what it says, and that it stops when told."""

import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.server.room import Client, laid_out, plan


@contextmanager
def serving(folder: Path, *more: str) -> Iterator[tuple[subprocess.Popen[str], list[str]]]:
    """Run the command until it has said all it says at the start."""
    command = [sys.executable, "-m", "zonelib", "serve", str(folder), "--port", "0", *more]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as process:
        assert process.stdout
        lines = []
        for line in process.stdout:
            lines.append(line.strip())
            if line.startswith("- autumn"):
                break
        yield process, lines
        process.kill()


def test_it_says_where_it_is_who_reads_along_and_the_key(tmp_path: Path) -> None:
    codes = laid_out(tmp_path, plan())
    with serving(tmp_path) as (process, lines):
        told = "\n".join(lines)
        assert "Only this machine can reach it." in told
        key = re.search(r"Invigilator's key: ([0-9A-Z-]{14})", told)
        port = re.search(r"Candidates: http://127.0.0.1:(\d+)/", told)
        assert key
        assert port
        client = Client(int(port[1]))
        assert client.post("/api/desk/sign-in", key=key[1]).status == 200
        assert Client(int(port[1])).post("/api/sign-in", code=codes["C-001"]).status == 200
        process.send_signal(signal.SIGTERM)
        rest, _ = process.communicate(timeout=20)
        assert process.returncode == 0
        assert "Stopped. What was saved is kept" in rest


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (("--host", "0.0.0.0"), "Plain HTTP: anyone on this network can read along, codes and answers too."),  # noqa: S104
        (("--behind-proxy",), "Behind a proxy: its headers are believed. Nobody else may reach this port."),
    ],
)
def test_it_says_plainly_what_a_network_means(tmp_path: Path, more: tuple[str, ...], words: str) -> None:
    laid_out(tmp_path, plan())
    with serving(tmp_path, *more) as (_, lines):
        assert words in lines
