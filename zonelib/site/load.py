"""Read a case file, reporting every fault in it at once."""

import json
import os
import tomllib
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from zonelib.site.crosscheck import crosscheck
from zonelib.site.depth import MOST_DOTS, many_dots, too_deep
from zonelib.site.faults import Fault, FileFault, faults_of, nearest
from zonelib.site.model import Case
from zonelib.site.rooms import with_rooms
from zonelib.site.vocabulary import Vocabulary

__all__ = ["case_from_data", "read_data", "reading_faults"]

LARGEST, LARGEST_TOML = 10_000_000, 500_000
"""Larger files are refused unread [bytes]. TOML, read at about a megabyte a second, has its own."""


def read_data(path: Path) -> dict[str, Any]:
    """Read a TOML file, or JSON where the name ends in ``.json``.

    Raises
    ------
    FileFault
        If the file cannot be read, is too large, or is not TOML or JSON.
    """
    try:
        data = _table(path, _parse(path, _text(path)))
    except OSError as error:
        raise _refusal(path, error.strerror or "nothing readable", "a file you may read") from error
    if too_deep(data):
        raise _refusal(path, DEEP, "the shape of a case file")
    return data


DEEP = "lists inside lists, very deep"


def _text(path: Path) -> str:
    if not _nameable(path):
        raise _refusal(path, "a name that no file can have", "a file you may read")
    _bounded(path, path.stat().st_size)
    try:
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        raise _refusal(path, "bytes that are not UTF-8", "UTF-8 text") from error


def _nameable(path: Path) -> bool:
    try:
        return b"\0" not in os.fsencode(path)
    except UnicodeEncodeError:
        return False


def _bounded(path: Path, size: int) -> None:
    if size > LARGEST:
        raise _refusal(path, "more than 10 MB", "a file of at most 10 MB")
    if size > LARGEST_TOML and path.suffix.lower() != ".json":
        raise _refusal(
            path, "more than 500 kB of TOML", "at most 500 kB; up to 10 MB as JSON, in a .json file"
        )


def _parse(path: Path, text: str) -> Any:
    try:
        if path.suffix.lower() == ".json":
            return json.loads(text, object_pairs_hook=_no_duplicates)
        if many_dots(text):
            raise _refusal(path, f"more than {MOST_DOTS} dots in one key", "the shape of a case file")
        return tomllib.loads(text)
    except RecursionError as error:
        raise _refusal(path, DEEP, "the shape of a case file") from error
    except ValueError as error:
        form = "JSON" if path.suffix.lower() == ".json" else "TOML"
        raise _refusal(path, _plainly(str(error)), f"correct {form}, each key once") from error


def _plainly(message: str) -> str:
    """Return a parser's message in plain words."""
    for theirs, ours in _PLAIN_WORDS.items():
        message = message.replace(theirs, ours)
    return message[:1].lower() + message[1:]


_PLAIN_WORDS = {
    "Invalid": "unreadable",
    "Illegal": "unexpected",
    "Cannot overwrite a value": "a key that stands here twice",
    "Expecting value": "no value where one belongs",
}


def _no_duplicates(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    table = dict(pairs)
    if len(table) < len(pairs):
        twice = Counter(key for key, _ in pairs).most_common(1)[0][0]
        raise ValueError(f'the key "{twice}" twice in one table')
    return table


def _table(path: Path, data: Any) -> dict[str, Any]:
    if not isinstance(data, dict):
        raise _refusal(path, "a list or a single value", "a table of keys")
    return data


def _refusal(path: Path, found: str, allowed: str) -> FileFault:
    return FileFault(str(path), [Fault("the file", found, allowed)])


def case_from_data(
    data: dict[str, Any],
    vocabulary: Vocabulary | None,
    *,
    file: str = "the case",
    earlier: Sequence[Fault] = (),
) -> Case:
    """Return the case that a file's data describe.

    Parameters
    ----------
    data : dict
        The file's tables.
    vocabulary : Vocabulary or None
        Names of the pack that will judge the case; None accepts every name.
    file : str
        What to call the file in messages.
    earlier : sequence of Fault
        Faults already found, to be reported with the others.

    Raises
    ------
    FileFault
        With every fault found, not just the first.
    """
    faults = list(earlier)
    try:
        case = Case.model_validate(data, context=vocabulary)
    except ValidationError as error:
        faults.extend(faults_of(error, data, Case))
    faults.extend(_readings(data, vocabulary))
    faults.extend(crosscheck(data))
    if not faults:
        case, faults = with_rooms(case)
    if faults:
        raise FileFault(file, faults)
    return case


def _readings(data: dict[str, Any], vocabulary: Vocabulary | None) -> Iterator[Fault]:
    chosen = data.get("readings")
    if vocabulary and isinstance(chosen, dict):
        yield from reading_faults(chosen, vocabulary.readings, "readings")


def reading_faults(chosen: dict[str, Any], known: Mapping[str, Sequence[str]], path: str) -> Iterator[Fault]:
    """Yield readings that are not known, and values that a known one has not; `path` is that of the table."""
    for name, value in chosen.items():
        values = known.get(name)
        if values is None:
            allowed = ", ".join(known) + nearest(name, known)
            yield Fault(f"{path}.{name}", "a reading that is not known", allowed)
        elif isinstance(value, str) and value not in values:
            yield Fault(f"{path}.{name}", f'"{value}"', ", ".join(values))
