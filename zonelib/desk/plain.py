"""Text from a stranger's file, made fit for a page, a table and a file's name."""

import hashlib
import re

__all__ = ["LONGEST", "RESERVED", "cell", "file_name", "plain"]

LONGEST = 400
"""Longer texts from outside are cut [characters]."""

FORMULA = ("=", "+", "-", "@", "\t", "\r", "\uff1d", "\uff0b", "\uff0d", "\uff20")
"""What makes a spreadsheet take a text for a formula; the last four are the first as wide signs."""

RESERVED = re.compile(r"^(con|prn|aux|nul|com\d|lpt\d)(\.|$)", re.IGNORECASE)
"""Names that Windows keeps for devices."""


def plain(text: str, *, longest: int = LONGEST) -> str:
    """Return a text in one line, without control characters and of bounded length."""
    if not text.isprintable():  # few texts are not, and to look at each sign takes long
        whole = text.encode("utf-8", "replace").decode("utf-8")
        text = "".join(sign if sign.isprintable() else " " for sign in whole)
    line = " ".join(text.split())
    return line if len(line) <= longest else line[: longest - 1] + "…"


def cell(text: str, *, longest: int = LONGEST) -> str:
    """Return a text that a spreadsheet shows as it is, and never runs as a formula."""
    line = plain(text, longest=longest)
    return f"'{line}" if line.startswith(FORMULA) else line


def file_name(text: str) -> str:
    """Return a name that every system accepts; two texts never give the same name, whatever their case."""
    name = re.sub(r"[^a-z0-9._-]+", "-", text.lower()).strip(".-")[:60]
    if name and name == text and not RESERVED.match(name):
        return name
    # Names that are not text differ only in what "replace" would take away.
    code = hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
    return f"{name or 'trainee'}-{code[:8]}"
