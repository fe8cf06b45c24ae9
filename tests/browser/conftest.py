"""A JupyterLab on a folder of the test's own, and a browser in front of it."""

import json
import os
import re
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from zonelib.exercise import bank_path, freeze, read_exercise

LAST = "data-jp-kernel-status"
PATIENCE = 90_000  # ms; a kernel starts slowly on a busy machine


EMPTY = {
    "nbformat": 4,
    "nbformat_minor": 5,
    "metadata": {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"}},
}


def cell(source: str) -> dict[str, object]:
    parts: dict[str, object] = {
        "cell_type": "code",
        "id": f"c{len(source)}",
        "execution_count": None,
        "metadata": {},
    }
    return {**parts, "source": source, "outputs": []}


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


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    made = browser.new_context(viewport={"width": 1280, "height": 1000})
    made.set_default_timeout(PATIENCE)
    yield made
    made.close()


@pytest.fixture
def page(context: BrowserContext) -> Page:
    return context.new_page()


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


@pytest.fixture(scope="session")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    """Start `zonelib open` on an empty folder; tests put their notebooks there."""
    folder = tmp_path_factory.mktemp("course")
    home = tmp_path_factory.mktemp("home")
    settings = {"JUPYTER_CONFIG_DIR": str(home), "JUPYTER_DATA_DIR": str(home), "IPYTHONDIR": str(home)}
    command = [
        sys.executable,
        "-u",
        "-m",
        "zonelib",
        "open",
        "--no-browser",
        "--port",
        str(free_port()),
        str(folder),
    ]
    with subprocess.Popen(
        command, env={**os.environ, **settings}, stdout=subprocess.PIPE, text=True
    ) as server:
        assert server.stdout
        lines = [server.stdout.readline() for _ in range(3)]
        try:
            yield Lab(folder, lines[1].strip())
        finally:
            server.terminate()
            server.wait(timeout=30)


@pytest.fixture
def homework(lab: Lab) -> Callable[[str, str], str]:
    """Return a function that lays an exercise and a notebook that opens it, and gives the notebook's path."""

    def lay(exercise: str, folder: str) -> str:
        place = lab.folder / folder
        place.mkdir()
        path = bank_path(exercise)
        freeze(read_exercise(path), folder=path.parent).write(place)
        source = f'from zonelib.sheet import Sheet, grade, hand_in\nsheet = Sheet("{exercise}")\nsheet'
        notebook = {**EMPTY, "cells": [cell(source), cell(f'grade("{exercise}")')]}
        (place / "homework.ipynb").write_text(json.dumps(notebook), encoding="utf-8")
        return f"{folder}/homework.ipynb"

    return lay


def saved_outputs(path: Path) -> list[dict[str, object]]:
    """Return the data of all outputs of the first cell of a saved notebook."""
    cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
    return [output["data"] for output in cells[0]["outputs"] if "data" in output]
