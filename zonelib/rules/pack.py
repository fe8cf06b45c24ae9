"""Packs: the rules of one country and edition, as data."""

from functools import cache
from importlib import resources
from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field, ValidationError
from pydantic.json_schema import SkipJsonSchema

from zonelib.rules.pack_check import check_pack
from zonelib.rules.signoff import SignOff
from zonelib.rules.timber_limits import JoistLimits, StudLimits
from zonelib.site.faults import Fault, FileFault, faults_of
from zonelib.site.fields import Flag, Id, Length, Piece, Size
from zonelib.site.load import read_data
from zonelib.site.upgrades import upgraded
from zonelib.site.vocabulary import Vocabulary

__all__ = ["Citation", "Pack", "Protection", "Reading", "ZoneRule", "load_pack", "pack_names"]

Words = Annotated[str, Field(min_length=1, max_length=400)]


class Safety(Piece):
    """What is said beside every verdict, in the country's own terms."""

    aid: Words
    lay: Words
    drill: tuple[Words, ...]


class Citation(Piece):
    """Where a rule is written: document, clause, our own summary, grade, how it was checked."""

    document: Words
    clause: Words
    about: Words
    grade: Literal["Q", "P", "T", "C", "M", "D"]
    checked: Words


class Reading(Piece):
    """A choice where the words of a rule leave room; the first value is the default."""

    values: Annotated[tuple[Words, ...], Field(min_length=2)]
    narrow: Words
    question: Words
    reason: Words


class ThinWall(Piece):
    """Walls up to this thickness [mm] carry an accessory's zones through to the other face."""

    thickness: Size
    clause: Words


class WallRules(Piece):
    """How a concealed cable in a wall is decided.

    Attributes
    ----------
    policy : str
        ``zone-and-rcd-or-covering``: shallow cables need zone and RCD, or a covering that counts;
        ``zone-only``: a zone; ``rcd-or-covering``: an RCD or a covering, wherever they lie;
        ``edge-clearance-only``: a distance from the framing's edges, or a covering.
    trigger_depth : float
        A cable less deep than this concerns a face [mm]; one of just this depth too if `trigger_included`.
        Under ``edge-clearance-only`` it is measured from the framing's edge, behind the finish.
    clause, rcd_clause, metal_clause, covering_clause, line_clause : str
        Where each part is written; what has no clause is not asked for.
    clear_of_openings : float
        How far a zone keeps from doors and windows [mm].
    thin : ThinWall or None
        Walls that carry zones through.
    """

    policy: Literal["zone-and-rcd-or-covering", "zone-only", "rcd-or-covering", "edge-clearance-only"]
    trigger_depth: Size
    trigger_included: Flag = False
    clause: Words
    rcd_clause: Words | None = None
    metal_clause: Words | None = None
    covering_clause: Words | None = None
    line_clause: Words | None = None
    clear_of_openings: Length = 0.0
    thin: ThinWall | None = None


class RcdRule(Piece):
    """Which residual current device counts; the rating is the highest [mA]."""

    most_ma: Size
    at: tuple[Literal["origin", "outlet"], ...]
    delayed: Flag
    clause: Words


class ZoneRule(Piece):
    """One generator of zones: a band along an edge, or the strip of an accessory.

    Attributes
    ----------
    source : str
        The edge it is measured from, or ``accessory``; ``from`` in a file.
    near, far : float
        Between which distances from it the band lies [mm].
    direction : str or None
        Of an accessory's strip: ``vertical`` and ``horizontal`` run the whole face,
        a ``stub`` runs upright to the nearest level band.
    only_with : str or None
        ``worktop``: only on faces that have one.
    """

    source: Literal["top", "floor", "corner", "door", "window", "accessory"] = Field(alias="from")
    near: Length = 0.0
    far: Size | None = None
    direction: Literal["vertical", "horizontal", "stub"] | None = None
    only_with: Literal["worktop"] | None = None
    clause: Words
    reason: Words


class ChaseRule(Piece):
    """Deepest chase as a divisor of the leaf's thickness."""

    clause: Words
    horizontal: Size
    vertical: Size


class Build(Piece):
    """A way of building a wall: with metal parts inside, cut for cables, or with framing behind boards."""

    words: Words
    metal: Flag = False
    chased: Flag = False
    framed: Flag = False


class Protection(Piece):
    """A covering: whether it counts instead of a zone, and why; outside size of what is round [mm]."""

    words: Words
    why: Words
    counts: Flag = False
    outer: Size | None = None
    standards: tuple[Words, ...] = ()


class AccessoryKind(Piece):
    """A kind of accessory, and whether it makes zones (or which reading decides)."""

    words: Words
    zones: Flag = True
    reading: Id | None = None


class FixingRule(Piece):
    """What one who drills takes for granted: the usual depth of fixings, a cable's width [mm]."""

    usual_depth: Size
    cable: Size
    clause: Words


class Pack(Piece):
    """The rules of one country and edition.

    SELV and PELV need no zone, cover or covering, unless `low_voltage_counts` is false.
    """

    schema_version: Literal[1] = Field(alias="schema")
    id: Id
    country: Words
    edition: Words
    edition_note: str = ""
    safety: Safety
    citations: dict[str, Citation]
    readings: dict[str, Reading] = Field(default_factory=dict)
    low_voltage_counts: Flag = True
    walls: WallRules
    rcd: RcdRule | None = None
    zones: tuple[ZoneRule, ...]
    chases: ChaseRule | None = None
    builds: dict[str, Build]
    protections: dict[str, Protection]
    accessories: dict[str, AccessoryKind]
    joists: JoistLimits | None = None
    studs: StudLimits | None = None
    fixings: FixingRule | None = None
    checked: SkipJsonSchema[SignOff | None] = None  # from the course file: a pack does not sign itself off

    @property
    def stated_edition(self) -> str:
        """The edition, with who checked it or what it was not checked against, as every verdict shows it."""
        if self.checked:
            return f"{self.edition}, {self.checked.words}"
        return f"{self.edition}, {self.edition_note}" if self.edition_note else self.edition

    @property
    def vocabulary(self) -> Vocabulary:
        """The names a case may use under this pack."""
        readings = {name: reading.values for name, reading in self.readings.items()}
        return Vocabulary(tuple(self.builds), tuple(self.accessories), tuple(self.protections), readings)


@cache
def pack_names() -> tuple[str, ...]:
    """Return the names of the packs that come with the library."""
    files = resources.files("zonelib.rules").joinpath("packs").iterdir()
    return tuple(sorted(file.name.removesuffix(".toml") for file in files if file.name.endswith(".toml")))


def load_pack(name: str | Path) -> Pack:
    """Load a pack by name, or from a path that ends in ``.toml`` or ``.json``.

    Raises
    ------
    FileFault
        If there is no such pack, or with every fault found in its file.
    """
    if str(name).endswith((".toml", ".json")):
        return _read_pack(Path(name))
    if name not in pack_names():
        allowed = ", ".join(pack_names()) + ", or the path of a pack that ends in .toml"
        raise FileFault("the case", [Fault("pack", f'"{name}"', allowed)])
    return _shipped(str(name))


@cache
def _shipped(name: str) -> Pack:
    with resources.as_file(resources.files("zonelib.rules") / "packs" / f"{name}.toml") as path:
        return _read_pack(path)


def _read_pack(path: Path) -> Pack:
    data = upgraded("pack", read_data(path), file=str(path))
    faults = list(check_pack(data))
    try:
        pack = Pack.model_validate(data)
    except ValidationError as error:
        faults = [*faults_of(error, data, Pack), *faults]
    if faults:
        raise FileFault(str(path), faults)
    return pack
