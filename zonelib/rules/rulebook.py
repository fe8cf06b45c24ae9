"""A pack with its readings chosen: what the rules are for one case."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from zonelib.rules.pack import Citation, Pack, ThinWall
from zonelib.site.model import Accessory, Rcd, Side, Wall
from zonelib.site.tolerance import above

__all__ = ["Rulebook"]


@dataclass(frozen=True)
class Rulebook:
    """The rules for one case.

    Attributes
    ----------
    pack : Pack
        The country's rules.
    chosen : mapping of str to str
        Readings that differ from the pack's defaults.
    widest : bool
        True for one who drills: unknown counts as locatable, and no plate is left out.
    """

    pack: Pack
    chosen: Mapping[str, str] = field(default_factory=dict)
    widest: bool = False

    def reading(self, name: str) -> str:
        """Return the value chosen for a reading, or "" where the pack has no such reading."""
        if name in self.chosen:
            return self.chosen[name]
        known = self.pack.readings.get(name)
        return known.values[0] if known else ""

    def counts(self, protection: str) -> bool:
        """Tell whether a covering counts instead of a zone."""
        return self.pack.protections[protection].counts

    def rcd_counts(self, rcd: Rcd | None) -> bool:
        """Tell whether an RCD gives additional protection to the concealed cable."""
        rule = self.pack.rcd
        return (
            rcd is not None
            and rule is not None
            and not above(rcd.ma, rule.most_ma)
            and rcd.at in rule.at
            and (rule.delayed or not rcd.delayed)
        )

    def makes_zones(self, accessory: Accessory) -> bool:
        """Tell whether an accessory makes zones at all."""
        kind = self.pack.accessories[accessory.kind]
        return kind.zones and (kind.reading is None or self.reading(kind.reading) == "yes")

    def serves(self, accessory: Accessory, wall: Wall, side: Side) -> bool:
        """Tell whether an accessory's strips lie on a face: its own, or through a thin wall."""
        if accessory.face == side:
            return True
        thin = self.pack.walls.thin
        return thin is not None and self._goes_through(accessory, wall, thin)

    def _goes_through(self, accessory: Accessory, wall: Wall, thin: ThinWall) -> bool:
        if above(wall.thickness, thin.thickness):
            return False
        return self.widest or accessory.locatable_from_reverse is True

    def citation(self, clause: str) -> Citation:
        """Return what is known of a clause; a part of one, as in ``1.2(i)``, may stand under the whole."""
        cited = self.pack.citations
        return cited[clause] if clause in cited else cited[clause.partition("(")[0]]

    def cite(self, clause: str) -> str:
        """Return a clause as it ends an explanation, with its document and edition."""
        citation = self.citation(clause)
        edition = self.pack.edition if self.pack.edition.startswith(citation.document) else citation.document
        return f"Clause {citation.clause} of {edition}."
