"""Are Python and the packages that zonelib leans on here, in versions it works with."""

import re
from collections.abc import Iterator
from importlib.metadata import PackageNotFoundError, requires, version

from zonelib.desk.doctor.sign import Computer, Sign

__all__ = ["packages", "python"]

OLDEST = (3, 11)
EXTRAS = ("", "workbook")

_NAME = re.compile(r"[A-Za-z0-9._-]+")
_EXTRA = re.compile(r"extra == ['\"]([\w-]+)['\"]")
_LEAST = re.compile(r">=\s*([\d.]+)")


def python(computer: Computer) -> Sign:
    """Look at the version of Python."""
    found = ".".join(map(str, computer.python))
    least = ".".join(map(str, OLDEST))
    remedy = (
        "" if computer.python >= OLDEST else f"Install Python {least} or newer, then install zonelib there."
    )
    return Sign("Python", found, remedy)


def packages(computer: Computer) -> Iterator[Sign]:
    """Look at each package that the workbook needs; those in order are told in one line."""
    amiss = [told for line in _wanted() if (told := _amiss(line))]
    if not amiss:
        yield Sign("Packages", "all that the workbook needs are here")
    for told in amiss:
        again = f'{computer.program} -m pip install "zonelib[workbook]"'
        yield Sign("Packages", told, f"Run: {again}")


def _wanted() -> Iterator[str]:
    for line in requires("zonelib") or ():
        extra = _EXTRA.search(line)
        if (extra[1] if extra else "") in EXTRAS:
            yield line.partition(";")[0]


def _amiss(line: str) -> str:
    """Return what is amiss with one package, or ""."""
    found = _NAME.match(line)
    name = found[0] if found else line
    least = _LEAST.search(line)
    try:
        here = version(name)
    except PackageNotFoundError:
        return f"{name} is not installed"
    if least and _numbers(here) < _numbers(least[1]):
        return f"{name} {here} is older than {least[1]}"
    return ""


def _numbers(text: str) -> tuple[int, ...]:
    return tuple(int(part) for part in re.findall(r"\d+", text)[:4])
