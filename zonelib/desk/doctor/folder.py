"""Can answers be saved where the workbook is used."""

import shutil
from contextlib import suppress
from pathlib import Path
from time import perf_counter

from zonelib.desk.doctor.sign import Computer, Sign
from zonelib.sheet.files import write_whole
from zonelib.sheet.trouble import SaveTrouble

__all__ = ["length", "room", "saved"]

LONGEST_NAME = 90
"""An answer's place below the workbook's folder, with its temporary name."""

WINDOWS_LIMIT = 259
LEAST_ROOM = 200 * 1024 * 1024
TRIES = 5
SLOW = 2.0
TRIED = "zonelib-doctor-tried-é.json"


def saved(computer: Computer) -> Sign:
    """Save a small file as an answer is saved, a few times over."""
    path = computer.folder / TRIED
    start = perf_counter()
    try:
        for count in range(TRIES):
            write_whole(path, f"{count}\n", scratch=computer.folder)
        well = path.read_text(encoding="utf-8") == f"{TRIES - 1}\n"
    except (OSError, SaveTrouble) as error:
        remedy = "Move the workbook's folder to a place of your own, such as your home folder."
        return Sign("Saving", f"{computer.folder} cannot be written: {_why(error)}", remedy)
    finally:
        with suppress(OSError):
            path.unlink(missing_ok=True)
    seconds = (perf_counter() - start) / TRIES
    if not well:
        remedy = "Use a folder on this computer's own disk."
        return Sign("Saving", "what was saved reads back as something else", remedy)
    if seconds > SLOW:
        remedy = "Use a folder that is not kept in step with a server."
        return Sign("Saving", f"a save takes {seconds:.1f} s", remedy)
    return Sign("Saving", "works here")


def _why(error: Exception) -> str:
    return (error.strerror if isinstance(error, OSError) else None) or str(error) or type(error).__name__


def length(computer: Computer) -> Sign:
    """Look whether the names of answers become too long for Windows."""
    long = len(str(computer.folder)) + LONGEST_NAME
    if computer.system != "Windows" or long <= WINDOWS_LIMIT:
        return Sign("Path", f"{len(str(computer.folder))} letters")
    most = WINDOWS_LIMIT - LONGEST_NAME
    remedy = f"Move the workbook to a folder whose path has at most {most} letters, such as C:\\zonelib."
    return Sign(
        "Path", f"{len(str(computer.folder))} letters, and Windows allows {WINDOWS_LIMIT} in all", remedy
    )


def room(computer: Computer) -> Sign:
    """Look how much room is left on the disk."""
    free = shutil.disk_usage(_there(computer.folder)).free
    told = f"{free // 1024**2:,} MB free"
    return Sign("Disk", told, "" if free >= LEAST_ROOM else "Free at least 200 MB.")


def _there(folder: Path) -> Path:
    return next(one for one in (folder, *folder.parents) if one.exists())
