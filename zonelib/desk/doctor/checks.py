"""Every check, in the order in which trouble shows."""

import shutil
import subprocess
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path

from zonelib.desk.doctor.folder import length, room, saved
from zonelib.desk.doctor.network import browser, port, proxy, reached
from zonelib.desk.doctor.packages import packages, python
from zonelib.desk.doctor.sign import Computer, Sign

__all__ = ["examine"]

SECONDS = 60.0


def examine(computer: Computer) -> Iterator[Sign]:
    """Yield what is found of a computer, thing by thing.

    Parameters
    ----------
    computer : Computer
        By default the one this runs on, in the folder it runs in.
    """
    yield python(computer)
    yield from packages(computer)
    yield _started(computer)
    yield from (check(computer) for check in (port, proxy, reached, browser, saved, length, room))
    if find_spec("nbgrader"):
        yield _alembic(computer)


def _started(computer: Computer) -> Sign:
    """Start the interpreter once more, as JupyterLab starts kernels."""
    try:
        done = subprocess.run(  # noqa: S603 - our own interpreter, no shell
            [computer.program, "-c", "print(1)"], capture_output=True, timeout=SECONDS, check=False
        )
        well = done.returncode == 0
    except (OSError, subprocess.TimeoutExpired):
        well = False
    if well:
        return Sign("Programs", "Python can be started from here")
    remedy = (
        "Programs in this folder may be blocked. Use the Python that the college installed, with -m zonelib."
    )
    return Sign("Programs", f"{computer.program} cannot be started", remedy)


def _alembic(computer: Computer) -> Sign:
    """Look for the one program that nbgrader calls by its bare name."""
    if shutil.which("alembic", path=computer.settings.get("PATH", "")):
        return Sign("nbgrader", "finds what it calls")
    folder = Path(computer.program).parent
    remedy = f"Before nbgrader commands, put {folder} on the path, or activate the environment."
    return Sign("nbgrader", "alembic, which it calls by name, is not on the path", remedy)
