"""A homework's notebook as trainees get it: the source without its solutions."""

import copy
import json
import re
from typing import Any

from zonelib.exercise.notebook import STUB

__all__ = ["released_notebook", "released_text"]

SOLUTION = re.compile(r"^### BEGIN SOLUTION\n.*?^### END SOLUTION(?:\n|\Z)", re.MULTILINE | re.DOTALL)


def released_notebook(source: dict[str, Any]) -> dict[str, Any]:
    """Return a source notebook with a stub in place of each solution, and nothing a trainee could take out.

    For the exchange nbgrader makes its own; this one holds the same text.
    """
    released = copy.deepcopy(source)
    for cell in released["cells"]:
        text = SOLUTION.sub(f"{STUB}\n", "".join(cell["source"])).rstrip("\n")
        cell["source"] = text.splitlines(keepends=True)
        locked = cell["metadata"].get("nbgrader", {}).get("locked", False)
        cell["metadata"] |= {"deletable": False} | ({"editable": False} if locked else {})
    return released


def released_text(source: dict[str, Any]) -> str:
    """Return the released notebook as the text of a file."""
    return json.dumps(released_notebook(source), indent=1, ensure_ascii=False, sort_keys=True) + "\n"
