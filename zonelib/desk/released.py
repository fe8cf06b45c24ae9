"""Find the bundles a class is marked from; a trainee's own copies are never among them."""

import csv
import hashlib
import json
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from zonelib.desk.plain import file_name
from zonelib.desk.renewed import read_renewed
from zonelib.exercise.bundle import Bundle, read_bundle
from zonelib.site.faults import Fault, FileFault

__all__ = ["GIVEN", "TREES", "VARIANTS", "Released", "find_bundles", "read_tree"]

TREES = ("solutions", "exercises")
"""Names of a course's source and released trees, the source first."""

VARIANTS = "variants"
"""Name of a course's folder of variants, which is never released."""

GIVEN = "given.csv"
"""In the folder of an assignment's variants: who was given which."""

ENDING = ".bundle.json"
HOW = "bundles as released: give their folder with --bundles"


@dataclass(frozen=True)
class Released:
    """The bundles of a course.

    Attributes
    ----------
    folder : Path
        Where they were found.
    assignments : mapping
        For each assignment its bundles by exercise.
    variants : Path or None
        The course's folder of variants: for each assignment and trainee the bundles that only this one got.
    renewed : mapping
        For each hash that was answered before the hash that took its place, if a tutor marks again.
    """

    folder: Path
    assignments: Mapping[str, Mapping[str, Bundle]]
    variants: Path | None = None
    renewed: Mapping[str, str] = field(default_factory=dict)

    @property
    def exercises(self) -> dict[str, str]:
        """For each exercise the first assignment that asks it."""
        names: dict[str, str] = {}
        for assignment, bundles in self.assignments.items():
            for exercise in bundles:
                names.setdefault(exercise, assignment)
        return names

    def bundles_for(self, assignment: str, trainee: str) -> Mapping[str, Bundle]:
        """Return what a trainee's answers to an assignment are marked by: the trainee's variants, if any."""
        home = self.variants / assignment / file_name(trainee) if self.variants else None
        own = map(read_bundle, sorted(home.glob(f"*{ENDING}"))) if home else ()
        return {**self.assignments[assignment], **{one.exercise.id: one for one in own}}

    @property
    def stamp(self) -> str:
        """A hash of all bundles but variants, and of what takes the place of others."""
        named = [[name, sorted(one.hash for one in each.values())] for name, each in self.assignments.items()]
        whole = [named, str(self.variants), sorted(self.renewed.items())]
        return hashlib.sha256(json.dumps(whole).encode()).hexdigest()

    def given(self) -> dict[str, str]:
        """Return for each variant's hash the candidate number it was given to."""
        tables = sorted(self.variants.glob(f"*/{GIVEN}")) if self.variants else ()
        rows = (row for path in tables for row in csv.DictReader(path.read_text("utf-8").splitlines()))
        return {row["bundle"]: row["candidate"] for row in rows}


def read_tree(folder: Path) -> Released:
    """Read the bundles under a folder; the first folder below it names the assignment.

    Raises
    ------
    FileFault
        If a bundle cannot be read, or two differ for one exercise of an assignment.
    """
    found: dict[str, dict[str, Bundle]] = {}
    for path in sorted(folder.rglob(f"*{ENDING}")):
        bundle = read_bundle(path)
        bundles = found.setdefault(_assignment(path, folder), {})
        other = bundles.setdefault(bundle.exercise.id, bundle)
        if other.hash != bundle.hash:
            told = [Fault(path.name, "two different bundles of one exercise", "one bundle for each exercise")]
            raise FileFault(str(folder), told)
    return Released(folder, found, renewed=read_renewed(folder))


def _assignment(path: Path, folder: Path) -> str:
    parts = [part for part in path.relative_to(folder).parts[:-1] if part != "bundles"]
    whole = folder.resolve()
    return parts[0] if parts else (whole.parent if whole.name == "bundles" else whole).name


def find_bundles(folder: Path, *, stated: Path | None = None, only: Collection[str] = ()) -> Released:
    """Return the bundles to mark from.

    They come from `stated`; else from the course that `folder` lies in, its source tree first; else from
    ``bundles`` in `folder`; else from the files that lie in `folder` itself.

    Parameters
    ----------
    folder : Path
        What is marked.
    stated : Path, optional
        Where the bundles are.
    only : collection of str
        The assignments wanted; by default all.

    Raises
    ------
    FileFault
        If there are none, or one that is wanted is not there.
    """
    home = folder if folder.is_dir() else folder.parent
    return _wanted(_found(home, stated), only)


def _found(folder: Path, stated: Path | None) -> Released:
    for place in (stated,) if stated else _places(folder):
        if any(place.rglob(f"*{ENDING}")):
            variants = place.resolve().parent / VARIANTS
            return replace(read_tree(place), variants=variants if variants.is_dir() else None)
    return _loose(folder, stated)


def _wanted(released: Released, only: Collection[str]) -> Released:
    missing = sorted(set(only) - set(released.assignments))
    if missing:
        told = [Fault("--assignment", ", ".join(missing), ", ".join(released.assignments))]
        raise FileFault(str(released.folder), told)
    kept = {name: each for name, each in released.assignments.items() if not only or name in only}
    return replace(released, assignments=kept)


def _places(folder: Path) -> Iterable[Path]:
    whole = folder.resolve()
    for home in (whole, *list(whole.parents)[:3]):
        yield from (home / tree for tree in TREES if (home / tree).is_dir())
    yield folder / "bundles"


def _loose(folder: Path, stated: Path | None) -> Released:
    bundles: dict[str, Bundle] = {}
    for path in [] if stated else sorted(folder.glob(f"*{ENDING}")):
        bundle = read_bundle(path)
        if bundles.setdefault(bundle.exercise.id, bundle).hash != bundle.hash:
            raise FileFault(str(folder), [Fault(path.name, "two different bundles of one exercise", HOW)])
    if not bundles:
        raise FileFault(str(stated or folder), [Fault("bundles", "none", HOW)])
    return Released(folder, {folder.resolve().name: bundles})
