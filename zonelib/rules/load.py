"""Read a case with the names of the pack that will judge it."""

from pathlib import Path
from typing import Any

from zonelib.rules.course import Course, course_for
from zonelib.rules.pack import Pack, load_pack
from zonelib.site.faults import FileFault
from zonelib.site.load import case_from_data, read_data
from zonelib.site.model import Case
from zonelib.site.upgrades import upgraded

__all__ = ["case_and_pack", "pack_for", "read_case"]


def read_case(path: str | Path, pack: Pack | None = None) -> Case:
    """Read a case file.

    Parameters
    ----------
    path : str or Path
        A TOML file, or JSON where the name ends in ``.json``.
    pack : Pack, optional
        The pack to read it under; by default the one the case names.

    Raises
    ------
    FileFault
        With every fault found in the file.
    """
    return case_and_pack(path, pack)[0]


def case_and_pack(
    path: str | Path, pack: Pack | None = None, *, course: Course | None = None
) -> tuple[Case, Pack]:
    """Read a case file and the pack that judges it, signed off where its course says so.

    Readings that the case does not set are the course's. The course is the one given, else the one
    that the case's folder belongs to.
    """
    path = Path(path)
    course = course or course_for(path.parent)
    data = upgraded("case", read_data(path), file=str(path))
    try:
        chosen = pack or pack_for(data, folder=path.parent)
    except FileFault as fault:
        case_from_data(data, None, file=str(path), earlier=fault.faults)
        raise
    if course:
        data, chosen = course.chosen(chosen, data), course.signed(chosen)
    return case_from_data(data, chosen.vocabulary, file=str(path)), chosen


def pack_for(data: dict[str, Any], *, folder: Path | None = None) -> Pack:
    """Return the pack a case's data name; a path counts from the case's folder."""
    name = data.get("pack")
    if not isinstance(name, str):
        return load_pack("uk")
    return load_pack(folder / name if folder and name.endswith((".toml", ".json")) else name)
