"""Where the notebook lies, and how a file beside it is written so that it is never half there."""

import errno
import os
import tempfile
import time
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

from zonelib.sheet.trouble import SaveTrouble
from zonelib.sheet.words import say

__all__ = ["KEPT", "clock", "kept_folder", "notebook_folder", "now", "sweep", "write_whole"]

KEPT = ".kept"
"""Folder in ``answers`` for what is not an answer; those who mark do not look into it."""

WAITS = (0.02, 0.05, 0.1, 0.2, 0.4, 0.8)
"""Pauses between tries at putting a file in place: synchronised folders hold files for a moment [s]."""

READABLE = 0o644
"""A draft is private until it is in place; a tutor has to be able to read what is handed in."""

STALE = 3600.0
"""Age from which a draft belongs to nobody [s]."""

FULL = (errno.ENOSPC, errno.EDQUOT)
BARRED = (errno.EACCES, errno.EPERM, errno.EROFS)


def notebook_folder(wanted: str | Path | None = None, *, holding: str = "") -> Path:
    """Return the folder of the notebook.

    Parameters
    ----------
    wanted : str or Path, optional
        A folder that was named; it is taken as it is.
    holding : str
        Name of a file that should lie there. The current folder is taken only if the notebook's lacks it.
    """
    if wanted is not None:
        return Path(wanted).expanduser().resolve()
    session = Path(os.environ.get("JPY_SESSION_NAME", ""))
    here = Path.cwd()
    if not session.is_absolute() or not session.parent.is_dir():
        return here
    return (
        here
        if holding and not (session.parent / holding).is_file() and (here / holding).is_file()
        else session.parent
    )


def now() -> str:
    """Return the time in UTC, to the second."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def clock(stamp: str) -> str:
    """Return a time in UTC as hours and minutes here; what is no time stays as it is."""
    try:
        return datetime.fromisoformat(stamp).astimezone().strftime("%H:%M")
    except ValueError:
        return stamp


def kept_folder(folder: Path) -> Path:
    """Return the folder for what is kept beside the answers; it is made if need be."""
    kept = folder / "answers" / KEPT
    kept.mkdir(parents=True, exist_ok=True)
    return kept


def sweep(folder: Path) -> None:
    """Remove drafts that a killed kernel left behind; a fresh one may be another window's."""
    with suppress(OSError):
        for draft in (folder / "answers" / KEPT).glob("*.part"):
            if time.time() - draft.stat().st_mtime > STALE:
                draft.unlink(missing_ok=True)


def write_whole(path: Path, text: str, *, scratch: Path) -> None:
    """Write a file so that it is either as before or whole, whatever happens in between.

    Parameters
    ----------
    path : Path
        The file.
    text : str
        What it shall hold.
    scratch : Path
        A folder on the same disk for the half-written copy.

    Raises
    ------
    SaveTrouble
        With the reason in a few words.
    """
    draft = None
    try:
        draft = _draft(path, text, scratch)
        _put(draft, path)
        _settle(path.parent)
    except OSError as error:
        raise SaveTrouble(_reason(error)) from error
    finally:
        if draft is not None:
            with suppress(OSError):
                draft.unlink(missing_ok=True)


def _draft(path: Path, text: str, scratch: Path) -> Path:
    handle, name = tempfile.mkstemp(prefix=f"{path.stem}-", suffix=".part", dir=scratch)
    draft = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        draft.chmod(READABLE)
    except OSError:
        draft.unlink(missing_ok=True)
        raise
    return draft


def _put(draft: Path, path: Path) -> None:
    """Put the file in place; a refusal may be a program that holds it for a moment."""
    for wait in WAITS:
        try:
            draft.replace(path)
        except PermissionError:
            time.sleep(wait)
        else:
            return
    draft.replace(path)


def _settle(folder: Path) -> None:
    """Make the new name last through a power cut, where the system lets a folder be synced."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _reason(error: OSError) -> str:
    if error.errno in FULL:
        return say("disk-full")
    if error.errno == errno.ENOENT:
        return say("gone")
    if error.errno in BARRED:
        return say("held") if error.filename2 else say("read-only")
    return say("system", words=error.strerror or type(error).__name__)
