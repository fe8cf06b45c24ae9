"""Write files whole or not at all, and leave alone what is as it should be."""

import filecmp
import os
from collections.abc import Iterable
from pathlib import Path

__all__ = ["write_lines", "write_text"]


def write_text(path: Path, text: str) -> Path:
    """Write a file whole or not at all; one that holds the text already is left as it is."""
    return write_lines(path, [text])


def write_lines(path: Path, lines: Iterable[str]) -> Path:
    """Write a file piece by piece, and whole or not at all; one that holds the same is left as it is."""
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    with part.open("wb") as file:
        file.writelines(line.encode("utf-8", "replace") for line in lines)
    if path.is_file() and filecmp.cmp(part, path, shallow=False):
        part.unlink()
    else:
        part.replace(path)
    return path
