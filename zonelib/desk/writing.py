"""Write files whole or not at all, and leave alone what is as it should be."""

import filecmp
import os
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

__all__ = ["write_lines", "write_text", "written"]

Add = Callable[[Iterable[str]], None]
"""Adds lines to a file that is being written."""


def write_text(path: Path, text: str) -> Path:
    """Write a file whole or not at all; one that holds the text already is left as it is."""
    return write_lines(path, [text])


def write_lines(path: Path, lines: Iterable[str]) -> Path:
    """Write a file piece by piece, and whole or not at all; one that holds the same is left as it is."""
    with written(path) as add:
        add(lines)
    return path


@contextmanager
def written(path: Path) -> Iterator[Add]:
    """Give what adds lines to a file, which stands there once the block has ended: whole or not at all."""
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    with part.open("wb") as file:
        yield lambda lines: file.writelines(line.encode("utf-8", "replace") for line in lines)
    if path.is_file() and filecmp.cmp(part, path, shallow=False):
        part.unlink()
    else:
        part.replace(path)
