"""What all tests share: where the repository lies, and a command run as a user runs it."""

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import settings

if TYPE_CHECKING:
    from playwright.sync_api import Browser

ROOT = Path(__file__).resolve().parent.parent

# nbgrader calls `alembic` by name: it must be found even where nobody has activated the environment.
os.environ["PATH"] = os.pathsep.join([str(Path(sys.executable).parent), os.environ.get("PATH", "")])
os.environ["MPLBACKEND"] = "agg"

# A slow machine is no defect, and a failure must come back the same on the next run.
settings.register_profile("house", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("house")


# The engine without the window round it does the same for a third less of the processor.
SHELL = Path("/usr/bin/chromium-headless-shell")
CHROMIUM = str(SHELL) if SHELL.is_file() else "/usr/bin/chromium"
QUIET = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """Hand out tests in blocks: neighbours share a server, a page or a class that was set up for them."""
    from xdist.scheduler import WorkStealingScheduling  # only there where tests run in parallel

    return WorkStealingScheduling(config, log) if config.getoption("dist") == "load" else None


@pytest.fixture(scope="session")
def browser() -> "Iterator[Browser]":
    """Return the one browser of the run: a second one of its kind cannot be started beside it."""
    from playwright.sync_api import sync_playwright  # most tests need no browser

    with sync_playwright() as player:
        opened = player.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        yield opened
        opened.close()


@pytest.fixture(scope="session")
def root() -> Path:
    """Return the folder of the repository."""
    return ROOT


@pytest.fixture
def zonelib(tmp_path: Path) -> Callable[..., subprocess.CompletedProcess[str]]:
    """Return a function that runs `python -m zonelib ARGUMENTS` in a folder of the test's own."""

    def run(*arguments: str | Path, cwd: Path = tmp_path) -> subprocess.CompletedProcess[str]:
        command = [sys.executable, "-m", "zonelib", *map(str, arguments)]
        return subprocess.run(command, cwd=cwd, capture_output=True, text=True, timeout=300, check=False)

    return run
