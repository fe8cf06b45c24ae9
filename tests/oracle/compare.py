"""Hold the engine's findings against those worked out plainly."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

from tests.oracle import german, indoors, plainly
from tests.oracle.facts import Expected, Item, case_readings
from zonelib.rules.engine import judge
from zonelib.rules.finding import Finding
from zonelib.rules.load import pack_for
from zonelib.site.load import case_from_data

__all__ = ["LINE_RULES", "TIMBER_RULES", "WALL_RULES", "disagreements", "findings"]

WALL_RULES = frozenset(
    {"wall-zone", "wall-rcd", "metal-wall", "route-joins", "route-on-wall", "depth-in-wall"}
    | {"chase-depth", "chase-line"}
)
LINE_RULES = frozenset({"wall-line", "route-in-void"})
TIMBER_RULES = frozenset(
    {"joist-cover", "joist-kind", "joist-hole-size", "joist-hole-position", "joist-hole-centre"}
    | {"joist-hole-spacing", "joist-notch-depth", "joist-notch-position", "joist-notch-edge"}
    | {"joist-notch-gap", "fixing"}
)

PER_LEG = LINE_RULES | {"depth-in-wall", "route-on-wall"}

ENDS = 1.0
"""How near the ends of a stretch must be [mm]."""

MEASURED = 0.03
"""How near what was measured must be [mm]; the plain computation itself is good to 0.002 mm.

The rest is the engine's: chords round the ends of a cable shift the end of a stretch,
where the worst point may lie.
"""

CURVED = 0.5
"""The same under the reading `perpendicular`, where a geometry library lays chords along curves [mm]."""

HANGS = 0.0001
"""The ends of a stretch may hang on this much: a leg all but parallel to an edge [mm]."""

CHORDS = 0.01
"""Under `perpendicular` whole stretches may hang on this much: chords again [mm]."""

BREAK = 0.01
"""Two stretches parted by less than this count as one: edges meet there, but for the tolerance [mm]."""

Key: TypeAlias = tuple[Any, ...]
Groups: TypeAlias = dict[Key, list[Expected]]


@dataclass(frozen=True)
class Slack:
    """How near is near enough for one case [mm]."""

    measured: float
    hangs: float
    only_ends: bool


def findings(case: Item) -> tuple[Finding, ...]:
    """Return the engine's findings for raw case data."""
    pack = pack_for(case)
    return judge(case_from_data(case, pack.vocabulary), pack).findings


def due_findings(case: Item, shift: float = 0.0) -> list[Expected]:
    """Return the findings that the text asks for, by the rules of the case's country."""
    if "rooms" in case:
        return indoors.expected(case, shift)
    country = german.expected if case["pack"] == "de" else plainly.expected
    return country(case, shift)


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
    slack = Slack(CURVED, CHORDS, only_ends=False) if curved else Slack(MEASURED, HANGS, only_ends=True)
    due, given = _grouped(due_findings(case)), _grouped([_read(f) for f in findings(case)])
    found = _differences(due, given, slack)
    return found and _not_hanging(case, found, given, slack)


def _not_hanging(case: Item, found: list[str], given: Groups, slack: Slack) -> list[str]:
    """Drop the differences in stretches that vanish when the limit moves by next to nothing."""
    for shift in (-slack.hangs, slack.hangs):
        other = _differences(_grouped(due_findings(case, shift)), given, slack)
        still = {line.split(":")[0] for line in other}
        found = [f for f in found if f.split(":")[0] in still or (slack.only_ends and ": ends" not in f)]
    return found


def _read(finding: Finding) -> Expected:
    """Put a finding into the words of the second computation."""
    where = finding.where
    ends = None if where.from_mm is None or where.to_mm is None else (where.from_mm, where.to_mm)
    return Expected(
        finding.rule,
        finding.subject,
        finding.status,
        face=where.face,
        legs=where.legs,
        ends=ends,
        measured=finding.measured,
        limit=finding.limit,
        other=where.other,
        wall=where.wall if where.room and finding.rule != "route-in-void" else None,
    )


def _grouped(items: list[Expected]) -> Groups:
    groups: Groups = defaultdict(list)
    for item in sorted(items, key=lambda one: one.ends or (0.0, 0.0)):
        if item.rule in WALL_RULES | LINE_RULES | TIMBER_RULES:
            _add(groups[_key(item)], item)
    return groups


def _add(group: list[Expected], item: Expected) -> None:
    before = group[-1] if group else None
    if (
        before
        and before.ends
        and item.ends
        and item.status == "fail"
        and item.ends[0] - before.ends[1] < BREAK
    ):
        legs = tuple(sorted({*(before.legs or ()), *(item.legs or ())}))
        measured = max(before.measured or 0.0, item.measured or 0.0)
        group[-1] = replace(before, ends=(before.ends[0], item.ends[1]), legs=legs, measured=measured)
    else:
        group.append(item)


def _key(item: Expected) -> Key:
    if item.rule in {"wall-zone", "fixing", "metal-wall"}:
        return item.rule, item.subject, item.face, item.wall
    if item.rule.startswith("chase") or item.rule in PER_LEG:
        return item.rule, item.subject, item.legs, item.wall
    # The text does not say which of a pair is the subject.
    return item.rule, frozenset({item.subject, item.other} - {None})


def _differences(due: Groups, given: Groups, slack: Slack) -> list[str]:
    found = [f"{key}: missing" for key in due if key not in given]
    for key in given:
        if key in due:
            found += [f"{key}: {line}" for line in _compare(due[key], given[key], slack)]
        elif not _idle(given[key]):
            found.append(f"{key}: not asked for, {given[key][0].status}")
    return sorted(found)


def _idle(items: list[Expected]) -> bool:
    """Tell whether the findings only say why nothing was judged, which is no disagreement."""
    return all(item.status == "not-applicable" for item in items)


def _compare(due: list[Expected], given: list[Expected], slack: Slack) -> list[str]:
    mine, theirs = ([one.status for one in side] for side in (due, given))
    if mine != theirs:
        return [f"due {mine} {[one.ends for one in due]}, given {theirs} {[one.ends for one in given]}"]
    return [line for pair in zip(due, given, strict=True) for line in _one(*pair, slack)]


def _one(due: Expected, given: Expected, slack: Slack) -> list[str]:
    found = []
    if due.ends:
        found += [] if _near(due.ends, given.ends) else [f"ends due {due.ends}, given {given.ends}"]
        found += [] if due.legs == given.legs else [f"legs due {due.legs}, given {given.legs}"]
    for name, mine, theirs in (("measured", due.measured, given.measured), ("limit", due.limit, given.limit)):
        if mine is not None and (theirs is None or abs(mine - theirs) > slack.measured):
            found.append(f"{name} due {mine}, given {theirs}")
    return found


def _near(due: tuple[float, float], given: tuple[float, float] | None) -> bool:
    return given is not None and max(abs(a - b) for a, b in zip(due, given, strict=True)) <= ENDS
