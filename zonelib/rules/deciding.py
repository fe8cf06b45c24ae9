"""Which readings a verdict rests on: those under whose other value it would differ."""

from collections.abc import Iterator

from zonelib.rules.engine import Verdict, judge
from zonelib.rules.pack import Pack
from zonelib.site.model import Case

__all__ = ["deciding_readings"]


def deciding_readings(case: Case, pack: Pack, verdict: Verdict) -> tuple[str, ...]:
    """Return the names of the readings that decided a verdict.

    Parameters
    ----------
    case : Case
        What was judged.
    pack : Pack
        By which rules.
    verdict : Verdict
        What came out.

    Returns
    -------
    tuple of str
        In the pack's order; a reading is named when another of its values changes any status.
    """
    return tuple(name for name in pack.readings if _decides(name, case, pack, verdict))


def _decides(name: str, case: Case, pack: Pack, verdict: Verdict) -> bool:
    return any(
        _statuses(judge(other, pack)) != _statuses(verdict) for other in _read_otherwise(name, case, pack)
    )


def _read_otherwise(name: str, case: Case, pack: Pack) -> Iterator[Case]:
    values = pack.readings[name].values
    chosen = case.readings.get(name, values[0])
    for value in values:
        if value != chosen:
            yield case.model_copy(update={"readings": {**case.readings, name: value}})


def _statuses(verdict: Verdict) -> set[tuple[object, ...]]:
    return {(one.rule, one.subject, one.where.face, one.status) for one in verdict.findings}
