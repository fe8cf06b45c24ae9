"""Hold the engine's findings against those worked out plainly."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import Any, TypeAlias

from tests.oracle.facts import Expected, Item, case_readings
from tests.oracle.plainly import expected
from zonelib.rules.engine import judge
from zonelib.rules.finding import Finding
from zonelib.rules.load import pack_for
from zonelib.site.load import case_from_data

__all__ = ["ENDS", "MEASURED", "disagreements", "findings"]

ENDS = 1.0
"""How near the ends of a stretch must be [mm]."""

MEASURED = 0.02
"""How near what was measured must be [mm]; the plain computation itself is good to 0.002 mm."""

CURVED = 0.5
"""The same under the reading `perpendicular`, where a geometry library lays chords along curves [mm]."""

HANGS = 0.0005
"""A stretch may hang on this much of the tolerance: a leg all but parallel to an edge [mm]."""

UNPAIRED = {"joist-hole-spacing", "joist-notch-gap"}

Key: TypeAlias = tuple[Any, ...]


@dataclass(frozen=True)
class Slack:
    """How near is near enough for one case [mm]."""

    measured: float
    hangs: float


def findings(case: Item) -> tuple[Finding, ...]:
    """Return the engine's findings for raw case data."""
    pack = pack_for(case)
    return judge(case_from_data(case, pack.vocabulary), pack).findings


def disagreements(case: Item) -> list[str]:
    """Tell where the engine and the text part company.

    Parameters
    ----------
    case : dict
        The case as TOML or JSON data.

    Returns
    -------
    list of str
        One line each, none where they agree.
    """
    curved = case_readings(case)["sloping_top"] == "perpendicular"
    slack = Slack(CURVED, 0.05) if curved else Slack(MEASURED, HANGS)
    due, given = _grouped(expected(case)), _grouped_findings(findings(case))
    found = _differences(due, given, slack)
    return found and _not_hanging(case, found, given, slack)


def _not_hanging(case: Item, found: list[str], given: dict[Key, list[Finding]], slack: Slack) -> list[str]:
    """Drop the differences in stretches that vanish when the limit moves by less than the tolerance."""
    for shift in (-slack.hangs, slack.hangs):
        other = _differences(_grouped(expected(case, shift)), given, slack)
        found = [line for line in found if line.split(":")[0] in {o.split(":")[0] for o in other}]
    return found


def _grouped(items: list[Expected]) -> dict[Key, list[Expected]]:
    groups: dict[Key, list[Expected]] = defaultdict(list)
    for item in items:
        groups[_key(item.rule, item.subject, item.face, item.legs, item.other)].append(item)
    return groups


def _grouped_findings(items: tuple[Finding, ...]) -> dict[Key, list[Finding]]:
    groups: dict[Key, list[Finding]] = defaultdict(list)
    for item in items:
        where = item.where
        groups[_key(item.rule, item.subject, where.face, where.legs, where.other)].append(item)
    return groups


def _key(rule: str, subject: str, face: str | None, legs: tuple[int, ...] | None, other: str | None) -> Key:
    if rule in {"wall-zone", "fixing"}:
        return rule, subject, face
    if rule.startswith("chase") or rule in {"depth-in-wall", "route-on-wall"}:
        return rule, subject, legs
    return (rule, frozenset([subject, other])) if other else (rule, subject)


def _differences(due: dict[Key, list[Expected]], given: dict[Key, list[Finding]], slack: Slack) -> list[str]:
    found = [f"{key}: missing" for key in due if key not in given]
    found += [
        f"{key}: not asked for, {given[key][0].status}"
        for key in given
        if key not in due and not _idle(given[key])
    ]
    for key in due.keys() & given.keys():
        found += [f"{key}: {line}" for line in _compare(due[key], given[key], slack)]
    return sorted(found)


def _idle(items: list[Finding]) -> bool:
    """Tell whether the findings only say why nothing was judged, which is no disagreement."""
    return all(item.status == "not-applicable" for item in items)


def _compare(due: list[Expected], given: list[Finding], slack: Slack) -> list[str]:
    mine, theirs = [e.status for e in due], [f.status for f in given]
    if mine != theirs:
        return [f"due {mine} {[e.ends for e in due]}, given {theirs} {[_ends(f) for f in given]}"]
    by_place = sorted(given, key=lambda f: f.where.from_mm or 0.0)
    return [line for e, f in zip(due, by_place, strict=True) for line in _one(e, f, slack)]


def _ends(finding: Finding) -> tuple[float | None, float | None]:
    return finding.where.from_mm, finding.where.to_mm


def _one(due: Expected, given: Finding, slack: Slack) -> list[str]:
    found = []
    if due.ends:
        ends = _ends(given)
        if None in ends or max(abs(a - (b or 0.0)) for a, b in zip(due.ends, ends, strict=True)) > ENDS:
            found.append(f"ends due {due.ends}, given {ends}")
        if due.legs != given.where.legs:
            found.append(f"legs due {due.legs}, given {given.where.legs}")
    for name, mine, theirs in (("measured", due.measured, given.measured), ("limit", due.limit, given.limit)):
        if mine is not None and (theirs is None or abs(mine - theirs) > slack.measured):
            found.append(f"{name} due {mine}, given {theirs}")
    return found
