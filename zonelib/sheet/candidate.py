"""The candidate number: set once, remembered beside the answers."""

import re
from pathlib import Path

from zonelib.sheet.files import KEPT, kept_folder, notebook_folder, write_whole
from zonelib.sheet.trouble import SheetTrouble
from zonelib.sheet.words import say

__all__ = ["candidate", "remembered"]

FORM = re.compile(r"[A-Za-z0-9][A-Za-z0-9._\-]{0,39}")
FILE = "candidate.txt"


def remembered(folder: Path) -> str:
    """Return the candidate number set in a folder, or ""."""
    try:
        text = (folder / "answers" / KEPT / FILE).read_text(encoding="utf-8").strip()
    except (OSError, UnicodeDecodeError):
        return ""
    return text if FORM.fullmatch(text) else ""


def candidate(number: object, *, folder: str | Path | None = None) -> str:
    """Set the candidate number for all sheets of a folder, and return it.

    Parameters
    ----------
    number : object
        As the tutor gave it, such as ``C-014``.
    folder : str or Path, optional
        By default where the notebook lies.

    Raises
    ------
    SheetTrouble
        If it is not a candidate number, or cannot be kept.
    """
    number = str(number).strip()
    if not FORM.fullmatch(number):
        raise SheetTrouble(say("candidate-form", found=repr(number[:40])))
    where = notebook_folder(folder)
    try:
        kept = kept_folder(where)
    except OSError as error:
        raise SheetTrouble(say("not-saved", why=say("read-only"))) from error
    write_whole(kept / FILE, f"{number}\n", scratch=kept)
    return number
