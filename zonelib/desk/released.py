"""Find the bundles a class is marked from; a trainee's own copies are never among them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from zonelib.exercise.bundle import Bundle, read_bundle
from zonelib.site.faults import Fault, FileFault

__all__ = ["TREES", "Released", "find_bundles", "read_tree"]

TREES = ("solutions", "exercises")
"""Names of a course's source and released trees, the source first."""

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
    """

    folder: Path
    assignments: Mapping[str, Mapping[str, Bundle]]

    @property
    def exercises(self) -> dict[str, str]:
        """For each exercise the first assignment that asks it."""
        names: dict[str, str] = {}
        for assignment, bundles in self.assignments.items():
            for exercise in bundles:
                names.setdefault(exercise, assignment)
        return names


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
    return Released(folder, found)


def _assignment(path: Path, folder: Path) -> str:
    parts = [part for part in path.relative_to(folder).parts[:-1] if part != "bundles"]
    whole = folder.resolve()
    return parts[0] if parts else (whole.parent if whole.name == "bundles" else whole).name


def find_bundles(folder: Path, *, stated: Path | None = None) -> Released:
    """Return the bundles to mark from.

    They come from `stated`; else from the course that `folder` lies in, its source tree first; else from
    ``bundles`` in `folder`; else from the files that lie in `folder` itself.

    Raises
    ------
    FileFault
        If there are none.
    """
    for place in (stated,) if stated else _places(folder):
        if any(place.rglob(f"*{ENDING}")):
            return read_tree(place)
    return _loose(folder, stated)


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
