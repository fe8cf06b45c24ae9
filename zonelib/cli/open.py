"""``zonelib open``: the workbook in JupyterLab."""

import importlib.util
import os
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import FrameType

import click

__all__ = ["command"]

MISSING = """JupyterLab is not installed here, and the workbook needs it. To install it, run:
  {python} -m pip install "zonelib[workbook]"
Then run this command again."""

NO_FOLDER = "There is no folder {folder}. Give the folder that holds the notebooks: zonelib open FOLDER"

STARTED = """The workbook is open at:
  {address}
To stop it, press Ctrl and C in this window."""

QUIET = (
    "--LabApp.news_url=None",
    "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
    "--LabApp.collapsed=True",
    "--Application.log_level=CRITICAL",
    "--LabApp.log_level=CRITICAL",
    "--ServerApp.log_level=CRITICAL",
    "--ServerApp.ip=127.0.0.1",
    "--ServerApp.open_browser=False",
)
"""Nothing is asked of the network, no news are offered, and only what stops the server is printed."""

FIRST = ("start.ipynb", "README.ipynb", "README.md")
ENDINGS = tuple(getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name))
PATIENCE = 180.0  # seconds; a slow disk or a busy machine may need many


@click.command("open")
@click.argument("folder", required=False, type=click.Path(path_type=Path))
@click.option(
    "--port",
    type=click.IntRange(1, 65535),
    help="Port to listen on; by default the first free one from 8888.",
)
@click.option("--browser/--no-browser", default=True, help="Whether to open the browser as well.")
def command(folder: Path | None, *, port: int | None, browser: bool) -> None:
    """Open the workbook: start JupyterLab on the lessons, or on FOLDER."""
    place = folder or _lessons()
    if not place.is_dir():
        raise click.ClickException(NO_FOLDER.format(folder=place))
    if importlib.util.find_spec("jupyterlab") is None:
        raise click.ClickException(MISSING.format(python=sys.executable))
    sys.exit(_serve(place.resolve(), port or _free_port(), browser=browser))


def _lessons() -> Path:
    """Return the lessons from where the command was called, or beside the package."""
    here, beside = Path("lessons"), Path(__file__).resolve().parents[2] / "lessons"
    return here if here.is_dir() or not beside.is_dir() else beside


def _first_page(place: Path) -> str:
    """Return what to open first: the start page, a README, else the first notebook, else the folder."""
    names = [name for name in FIRST if (place / name).is_file()]
    names += sorted(path.name for path in place.glob("*.ipynb"))
    return names[0] if names else ""


def _free_port(start: int = 8888) -> int:
    for port in range(start, start + 50):
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)):
                return port
    return start


def _serve(place: Path, port: int, *, browser: bool) -> int:
    """Run the server until it is stopped; return its exit status."""
    # The course is the root: homework lies beside the lessons.
    root = place.parent if place.name == "lessons" else place
    arguments = [f"--ServerApp.port={port}", "--ServerApp.port_retries=0", f"--ServerApp.root_dir={root}"]
    # Without this a container, where one is root, gets no workbook; only this machine can reach it.
    arguments += ["--allow-root"] if getattr(os, "geteuid", lambda: 1)() == 0 else []
    token = os.urandom(24).hex()
    environment = {**os.environ, "JUPYTER_TOKEN": token, "JUPYTER_CONFIG_PATH": _config_path()}
    server = subprocess.Popen([sys.executable, "-m", "jupyterlab", *QUIET, *arguments], env=environment)  # noqa: S603  our own interpreter, no shell
    page = "/".join(
        part for part in (place.relative_to(root).as_posix().strip("."), _first_page(place)) if part
    )
    address = f"http://127.0.0.1:{port}/lab/tree/{page}?token={token}"
    with _every_ending_as_ctrl_c():
        try:
            if _answers(server, port):
                click.echo(STARTED.format(address=address))
                if browser:
                    click.launch(address)
            return server.wait()
        except KeyboardInterrupt:
            server.terminate()
            server.wait()
            click.echo("Stopped. Everything you drew is saved.")
            return 0


@contextmanager
def _every_ending_as_ctrl_c() -> Iterator[None]:
    """Take a closed window or a signal as Ctrl and C, so that the server never lives on alone."""
    before = {one: signal.signal(one, _as_ctrl_c) for one in ENDINGS}
    try:
        yield
    finally:
        for one, handler in before.items():
            signal.signal(one, handler)


def _as_ctrl_c(_number: int, _frame: FrameType | None) -> None:
    raise KeyboardInterrupt


def _config_path() -> str:
    """Return where JupyterLab finds settings: ours are added to those there may be."""
    ours = str(Path(__file__).parent / "jupyter")
    return os.pathsep.join(filter(None, (ours, os.environ.get("JUPYTER_CONFIG_PATH"))))


def _answers(server: subprocess.Popen[bytes], port: int) -> bool:
    """Wait until the server answers, or has ended, or patience has."""
    end = time.monotonic() + PATIENCE
    while server.poll() is None and time.monotonic() < end:
        try:
            with urllib.request.urlopen(f"http://127.0.0.1:{port}/api", timeout=2):
                return True
        except OSError:
            time.sleep(0.2)
    return False
