"""Files of other versions: an older one is read as of today, with a note; a newer one is refused."""

import warnings
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from zonelib.site.faults import Fault, FileFault

__all__ = ["NEWEST", "STEPS", "OlderFile", "Step", "upgraded"]

KEY = "schema"

Data = dict[str, Any]


class OlderFile(UserWarning):
    """A file was read as if it were of today; the file itself stays as it is."""


@dataclass(frozen=True)
class Step:
    """One version up.

    Attributes
    ----------
    note : str
        What changes in the file, in a few words.
    change : callable
        Return its data as the next version writes them; the version itself is set by `upgraded`.
    """

    note: str
    change: Callable[[Data], Data]


NEWEST = {"case": 1, "pack": 1, "exercise": 1, "course": 1, "answer": 1, "hand-in": 1, "record": 1}
"""The version that is written today, by kind of file."""

STEPS: dict[tuple[str, int], Step] = {}
"""By kind of file and version, the step to the next. None is needed yet: every version is the first."""


def upgraded(kind: str, data: Any, *, file: str) -> Any:
    """Return a file's data as the newest version writes them.

    Parameters
    ----------
    kind : str
        Kind of file, of `NEWEST`.
    data : dict
        As it stands in the file; a case may leave its version out, which is then the first. What is no
        table comes back as it is.
    file : str
        What to call it in messages.

    Raises
    ------
    FileFault
        If it is of a newer version.
    """
    newest = NEWEST[kind]
    version = data.get(KEY, 1) if isinstance(data, dict) else None
    if not isinstance(version, int) or isinstance(version, bool):
        return data  # the file's own model tells what belongs there
    if version > newest:
        allowed = f"version {newest} or older: update zonelib, or ask for the file in that version"
        raise FileFault(file, [Fault(KEY, f"version {version}, of a newer zonelib", allowed)])
    while version < newest and (step := STEPS.get((kind, version))):
        version += 1
        data = {**step.change(data), KEY: version}
        told = f"{file} is read as version {version}: {step.note}. The file itself stays as it is."
        warnings.warn(told, OlderFile, stacklevel=2)
    return data
