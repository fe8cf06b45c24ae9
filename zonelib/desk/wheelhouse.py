"""A wheelhouse: everything that pip needs to install zonelib where there is no network, in one zip."""

import hashlib
import importlib.util
import subprocess
import sys
import tempfile
import zipfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from email.parser import HeaderParser
from pathlib import Path

from zonelib.site.faults import Fault, FileFault

__all__ = ["Target", "lacking", "wheelhouse"]

FOLDER = "wheelhouse"
NEEDED = ("pyproject.toml", "constraints.txt")
SYSTEMS = {"win": ("win32", "nt", "Windows"), "macosx": ("darwin", "posix", "Darwin")}
LINUX = ("linux", "posix", "Linux")
ROUNDS = 8
"""Packages that only another system needs may need others; so often that is followed."""


@dataclass(frozen=True)
class Target:
    """The computers a wheelhouse is for.

    Attributes
    ----------
    platforms : tuple of str
        As wheels name them, such as ``win_amd64``; none for computers like this one.
    python : str
        Version of Python, such as ``3.12``; "" for the one of this computer.
    """

    platforms: tuple[str, ...] = ()
    python: str = ""

    @property
    def options(self) -> list[str]:
        """What pip is told of it."""
        words = ["--only-binary", ":all:"]
        for platform in self.platforms:
            words += ["--platform", platform]
        return [*words, "--python-version", self.python] if self.python else words

    @property
    def environment(self) -> dict[str, str]:
        """What differs there from this computer, as dependencies ask for it."""
        differs = {}
        if self.platforms:
            system = next(
                (told for name, told in SYSTEMS.items() if self.platforms[0].startswith(name)), LINUX
            )
            differs = dict(zip(("sys_platform", "os_name", "platform_system"), system, strict=True))
        if self.python:
            differs |= {"python_version": self.python, "python_full_version": f"{self.python}.0"}
        return differs


def wheelhouse(repository: Path, out: Path, *, extras: Sequence[str], target: Target) -> list[str]:
    """Write a wheelhouse, and return the names of the wheels in it.

    Parameters
    ----------
    repository : Path
        A copy of the repository of zonelib.
    out : Path
        The zip to write.
    extras : sequence of str
        Which extras of zonelib to take along.
    target : Target
        The computers it is for.

    Raises
    ------
    FileFault
        If the folder is no such copy, or pip cannot get a wheel.
    """
    for name in NEEDED:
        if not (repository / name).is_file():
            allowed = "the folder of the repository, which holds pyproject.toml and constraints.txt"
            raise FileFault(str(repository), [Fault(name, "no such file", allowed)])
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        _pip(["wheel", *_builder(), "--no-deps", "--wheel-dir", made, str(repository)])
        (own,) = folder.glob("zonelib-*.whl")
        pinned = ["--constraint", str(repository / "constraints.txt"), *target.options]
        wanted = f"{own}[{','.join(extras)}]" if extras else str(own)
        _pip(["download", "--dest", made, *pinned, wanted])
        for _ in range(ROUNDS):
            if not (more := lacking(folder, extras=extras, target=target)):
                break
            _pip(["download", "--dest", made, "--no-deps", *pinned, *more])
        return _packed(folder, repository / "constraints.txt", out)


def lacking(folder: Path, *, extras: Sequence[str], target: Target) -> list[str]:
    """Return what wheels of a folder need on another system, and pip has not brought from this one."""
    from packaging.requirements import Requirement
    from packaging.utils import canonicalize_name, parse_wheel_filename

    here = {str(parse_wheel_filename(path.name)[0]) for path in folder.glob("*.whl")}
    asked = {"", *extras}
    found: dict[str, str] = {}
    for path in sorted(folder.glob("*.whl")):
        for line in _needs(path):
            one = Requirement(line)
            name = str(canonicalize_name(one.name))
            of_own = asked if path.name.startswith("zonelib-") else {""}
            needed = not one.marker or any(
                one.marker.evaluate({**target.environment, "extra": extra}) for extra in of_own
            )
            if needed and name not in here and name != "zonelib":
                found[name] = f"{one.name}{one.specifier}"
    return sorted(found.values())


def _needs(wheel: Path) -> list[str]:
    with zipfile.ZipFile(wheel) as opened:
        (name,) = (
            one for one in opened.namelist() if one.endswith(".dist-info/METADATA") and one.count("/") == 1
        )
        told = HeaderParser().parsestr(opened.read(name).decode("utf-8"))
    return [str(line) for line in told.get_all("Requires-Dist", [])]


def _builder() -> list[str]:
    """Return how the wheel is built: with what is here, where that is enough."""
    return ["--no-build-isolation"] if importlib.util.find_spec("hatchling") else []


def _pip(words: list[str]) -> None:
    done = subprocess.run(  # noqa: S603 - our own interpreter, no shell
        [sys.executable, "-m", "pip", *words], capture_output=True, text=True, check=False
    )
    if done.returncode:
        told = [line for line in done.stderr.splitlines() if line.startswith("ERROR")]
        why = (told or done.stderr.splitlines() or ["pip ended without a word"])[0]
        raise FileFault(f"pip {words[0]}", [Fault("packages", why, "packages that pip can get as wheels")])


def _packed(folder: Path, constraints: Path, out: Path) -> list[str]:
    files = [*sorted(folder.glob("*.whl")), constraints]
    sums = "".join(f"{digest}  {path.name}\n" for path, digest in zip(files, _digests(files), strict=True))
    with zipfile.ZipFile(out, "w") as packed:
        for path in files:
            packed.write(path, f"{FOLDER}/{path.name}")
        packed.writestr(f"{FOLDER}/SHA256SUMS", sums)
    return [path.name for path in files[:-1]]


def _digests(files: list[Path]) -> Iterator[str]:
    for path in files:
        with path.open("rb") as opened:
            yield hashlib.file_digest(opened, "sha256").hexdigest()
