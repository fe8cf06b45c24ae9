"""The list of candidates: numbers, extra time, and names that are printed and not kept."""

import csv
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from zonelib.site.faults import Fault, FileFault

__all__ = ["Listed", "extra_of", "read_candidates", "with_extra"]

NUMBER = re.compile(r"[A-Za-z0-9][A-Za-z0-9._\-]{0,39}")
EXTRA = re.compile(r"(\d{1,3}(?:\.\d+)?)\s*(%|min|minutes)?")
COLUMNS = ("candidate", "extra", "name")
LARGEST = 1_000_000
MOST = 2_000
MOST_MINUTES = 600.0


@dataclass(frozen=True)
class Listed:
    """One line of the list; `name` is for the slip alone."""

    number: str
    extra: str = ""
    name: str = ""


def read_candidates(path: Path) -> list[Listed]:
    """Read a CSV with a column ``candidate``, and as you need them ``extra`` and ``name``.

    Raises
    ------
    FileFault
        With every fault found.
    """
    try:
        raw = path.read_bytes()
        text = raw.decode("utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        found = (
            "text that is not UTF-8" if isinstance(error, UnicodeDecodeError) else "no file that can be read"
        )
        raise FileFault(str(path), [Fault("the file", found, "a CSV file in UTF-8")]) from error
    if len(raw) > LARGEST:
        raise FileFault(str(path), [Fault("the file", f"{len(raw):,} bytes", f"at most {LARGEST:,}")])
    lines = _lines(path, text)
    faults = list(_head_faults(lines))
    listed = [] if faults else list(_rows(lines))
    faults += _row_faults(listed)
    if faults:
        raise FileFault(str(path), faults)
    return listed


def _lines(path: Path, text: str) -> list[list[str]]:
    try:
        return list(csv.reader(text.splitlines()))
    except csv.Error as error:
        told = [Fault("the file", "a line that is no line of a table", "a candidate number on each line")]
        raise FileFault(str(path), told) from error


def _head_faults(lines: list[list[str]]) -> Iterator[Fault]:
    head = [one.strip().lower() for one in lines[0]] if lines else []
    if "candidate" not in head:
        yield Fault("line 1", ", ".join(head)[:80] or "nothing", "a column candidate; also extra, name")
    elif strange := [one for one in head if one and one not in COLUMNS]:
        yield Fault("line 1", f"a column {strange[0][:40]}", ", ".join(COLUMNS))


def _rows(lines: list[list[str]]) -> Iterator[Listed]:
    head = [one.strip().lower() for one in lines[0]]
    for line in lines[1:]:
        if any(one.strip() for one in line):
            row = {name: value.strip() for name, value in zip(head, line, strict=False)}
            yield Listed(row.get("candidate", ""), row.get("extra", ""), row.get("name", "")[:80])


def _row_faults(listed: list[Listed]) -> Iterable[Fault]:
    seen: set[str] = set()
    for at, one in enumerate(listed, start=2):
        place = f"line {at}"
        if not NUMBER.fullmatch(one.number):
            yield Fault(place, f'candidate "{one.number[:40]}"', "1 to 40 letters, digits, dots or dashes")
        if one.number in seen:
            yield Fault(place, f"{one.number} a second time", "each candidate once")
        seen.add(one.number)
        if one.extra and not _is_extra(one.extra):
            yield Fault(place, f'extra "{one.extra[:20]}"', "minutes such as 10, or a share such as 25%")
    if len(listed) > MOST:
        yield Fault("the file", f"{len(listed):,} candidates", f"at most {MOST:,}")


def _is_extra(text: str) -> bool:
    match = EXTRA.fullmatch(text)
    return match is not None and float(match[1]) <= MOST_MINUTES


def extra_of(text: str, seconds: float | None) -> float:
    """Return extra time [s]: minutes, or a share of everyone's time.

    >>> extra_of("10", 1800), extra_of("25%", 1800), extra_of("", 1800)
    (600.0, 450.0, 0.0)
    """
    match = EXTRA.fullmatch(text)
    if not match or seconds is None:
        return 0.0
    return float(match[1]) / 100 * seconds if match[2] == "%" else float(match[1]) * 60


def with_extra(listed: list[Listed], extra: Iterable[str]) -> list[Listed]:
    """Return the list with extra time from elsewhere, each as ``C-014=10`` or ``C-014=25%``.

    Raises
    ------
    FileFault
        If one is not of that form, or names nobody.
    """
    given, faults = dict[str, str](), list[Fault]()
    known = {one.number for one in listed}
    for text in extra:
        number, _, more = (part.strip() for part in text.partition("="))
        if number not in known or not _is_extra(more):
            faults.append(Fault("--extra", f'"{text[:60]}"', "C-014=10 or C-014=25%, of a candidate listed"))
        given[number] = more
    if faults:
        raise FileFault("extra time", faults)
    return [replace(one, extra=given.get(one.number, one.extra)) for one in listed]
