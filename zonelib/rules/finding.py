"""A finding: one rule applied to one place."""

from dataclasses import asdict, dataclass
from typing import Any, Literal

__all__ = ["Finding", "Operator", "Place", "Status"]

Status = Literal["pass", "fail", "caution", "not-applicable"]
Operator = Literal["<=", ">=", "<", ">", "=="]


@dataclass(frozen=True)
class Place:
    """Where a finding lies.

    Attributes
    ----------
    wall, face, joist, stud : str or None
        What it lies on.
    legs : tuple of int
        Legs of the route it covers, counted from 1.
    from_mm, to_mm : float or None
        Along the route's centre line from its first point [mm].
    other : str or None
        The second of a pair.
    room : str or None
        The room of a route that runs round one; its wall is then named where one wall is meant.
    """

    wall: str | None = None
    face: str | None = None
    legs: tuple[int, ...] = ()
    from_mm: float | None = None
    to_mm: float | None = None
    joist: str | None = None
    stud: str | None = None
    other: str | None = None
    room: str | None = None


@dataclass(frozen=True)
class Finding:
    """One rule applied to one place, with its verdict and the reason for it.

    Attributes
    ----------
    rule, clause : str
        Name of the rule, and the clause behind it ("" where none is).
    status : str
        ``pass``, ``fail``, ``caution`` or ``not-applicable``.
    subject : str
        Id of the route, joist, stud, hole, notch, run or fixing.
    where : Place
        Where it lies.
    measured, limit : float or None
        What was measured and its limit, in `unit`.
    operator : str
        How `measured` must compare with `limit`.
    unit : str
        Unit of both, or "".
    reason, text : str
        The reason in a few words, and the whole explanation.
    """

    rule: str
    clause: str
    status: Status
    subject: str
    where: Place
    measured: float | None
    limit: float | None
    operator: Operator
    unit: str
    reason: str
    text: str

    def as_data(self) -> dict[str, Any]:
        """Return the finding as JSON data; empty parts of the place are left out."""
        data = asdict(self)
        stated = {key: value for key, value in data["where"].items() if value not in (None, ())}
        data["where"] = {key: _rounded(value) for key, value in stated.items()}
        return {key: _rounded(value) for key, value in data.items()}


def _rounded(value: Any) -> Any:
    """Round to the tolerance, so that noise of the last bit does not show."""
    if isinstance(value, float):
        return round(value, 3) + 0.0
    return list(value) if isinstance(value, tuple) else value
