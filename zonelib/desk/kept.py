"""What is kept of each trainee between runs, so that a run which was killed goes on where it was."""

import hashlib
import json
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

import zonelib
from zonelib.desk.bag import Item, item_bytes
from zonelib.desk.plain import file_name
from zonelib.desk.rows import Row
from zonelib.desk.writing import write_lines
from zonelib.desk.zips import UnreadableZip

__all__ = ["FOLDER", "Kept", "engine_hash", "items_hash", "kept_path", "read_kept", "sweep", "write_kept"]

FOLDER = "kept"
"""Folder of the results that holds one file for each trainee."""

FORMAT = 1


@dataclass(frozen=True)
class Kept:
    """One trainee's results: `key` stands for all they were made from."""

    key: str
    trainee: str
    rows: tuple[Row, ...]
    findings: tuple[str, ...]
    troubles: tuple[str, ...]


def kept_path(out: Path, trainee: str) -> Path:
    """Return where a trainee's results are kept."""
    return out / FOLDER / f"{file_name(trainee)}.json"


def write_kept(out: Path, kept: Kept) -> Path:
    """Keep a trainee's results: a line about them, then the findings, one a line."""
    rows = [one.as_data() for one in kept.rows]
    head = {
        "format": FORMAT,
        "key": kept.key,
        "trainee": kept.trainee,
        "rows": rows,
        "troubles": kept.troubles,
    }
    lines = [json.dumps(head, allow_nan=False), *kept.findings]
    return write_lines(kept_path(out, kept.trainee), (f"{line}\n" for line in lines))


def read_kept(path: Path) -> Kept | None:
    """Return what is kept in a file, or None where there is nothing whole."""
    with suppress(OSError, ValueError, KeyError, TypeError):
        head, *findings = path.read_text(encoding="utf-8").splitlines()
        data: dict[str, Any] = json.loads(head)
        rows = tuple(Row(**one) for one in data["rows"])
        if data["format"] == FORMAT:
            return Kept(data["key"], data["trainee"], rows, tuple(findings), tuple(data["troubles"]))
    return None


def sweep(out: Path, trainees: Iterator[str]) -> None:
    """Remove what is kept, and the feedback, of those who are no longer among the trainees."""
    there = {kept_path(out, trainee).name for trainee in trainees}
    for path in (out / FOLDER).glob("*.json"):
        if path.name not in there:
            (out / "feedback" / f"{path.stem}.html").unlink(missing_ok=True)
            path.unlink()


def items_hash(items: list[Item], refused: list[str]) -> str:
    """Return a hash of files with their names, and of the reasons why others are left out."""
    total = hashlib.sha256(json.dumps(refused).encode())
    for item in items:
        try:
            raw = hashlib.sha256(item_bytes(item)).hexdigest()
        except (OSError, UnreadableZip) as error:
            raw = str(error)
        total.update(json.dumps([item.shown, raw]).encode())
    return total.hexdigest()


@lru_cache(maxsize=1)
def engine_hash() -> str:
    """Return a hash of zonelib itself: another version may mark otherwise."""
    home = Path(zonelib.__file__).parent
    total = hashlib.sha256()
    for path in sorted(home.rglob("*")):
        if path.suffix in (".py", ".toml", ".css") and path.is_file():
            total.update(path.relative_to(home).as_posix().encode() + path.read_bytes())
    return total.hexdigest()
