"""Faults of a pack's parts: what a policy, a zone or a table of limits still needs to be of use."""

import string
from collections.abc import Iterator, Mapping
from typing import Any, get_args

from zonelib.site.faults import Fault
from zonelib.site.timber import Joist

__all__ = ["part_faults"]

Table = Mapping[str, Any]

JOIST_KINDS: tuple[str, ...] = get_args(Joist.model_fields["kind"].annotation)


def part_faults(data: dict[str, Any]) -> Iterator[Fault]:
    """Yield what is missing or twofold in a pack; whatever is itself malformed is passed over."""
    zones = data.get("zones")
    rules = [rule for rule in zones if isinstance(rule, Mapping)] if isinstance(zones, list) else []
    for number, rule in enumerate(rules, start=1):
        yield from _zone(rule, f"zones.#{number}")
    yield from _policy(data, zones)
    yield from _same_values(data)
    if "none" not in _table(data, "protections") and "protections" in data:
        yield Fault("protections", "no table none", "a table none, for a cable without covering")
    yield from _joists(_table(data, "joists"))


def _table(data: Table, key: str) -> Table:
    value = data.get(key)
    return value if isinstance(value, Mapping) else {}


def _zone(rule: Table, path: str) -> Iterator[Fault]:
    near, far, source = rule.get("near", 0), rule.get("far"), rule.get("from")
    if source == "accessory":
        if "direction" not in rule:
            yield Fault(f"{path}.direction", "nothing", "vertical, horizontal or stub, for an accessory")
    elif isinstance(source, str):
        if far is None:
            yield Fault(f"{path}.far", "nothing", f"how far from the {source} the zone ends, in mm")
        elif (span := _numbers(near, far)) and span[0] >= span[1]:
            yield Fault(f"{path}.far", f"{span[1]:g}", f"above near, {span[0]:g}")
    yield from _reason(rule.get("reason"), path)


def _numbers(*values: Any) -> tuple[float, ...]:
    """Return the values if all of them are numbers, else nothing."""
    sound = tuple(v for v in values if isinstance(v, int | float) and not isinstance(v, bool))
    return sound if len(sound) == len(values) else ()


def _reason(reason: Any, path: str) -> Iterator[Fault]:
    """Yield braces in a reason that stand for anything but the source's name."""
    if isinstance(reason, str):
        try:
            names = {name for _, name, _, _ in string.Formatter().parse(reason) if name is not None}
        except ValueError:
            names = {"{"}
        if names - {"source"}:
            yield Fault(f"{path}.reason", f'"{reason}"', "text; braces only in {source}, the zone's source")


def _policy(data: dict[str, Any], zones: Any) -> Iterator[Fault]:
    policy = _table(data, "walls").get("policy")
    if policy in ("zone-only", "zone-and-rcd-or-covering") and zones == []:
        yield Fault("zones", "an empty list", f"at least one zone, since the policy is {policy}")
    builds = [build for build in _table(data, "builds").values() if isinstance(build, Mapping)]
    if policy == "edge-clearance-only" and builds and not any("framed" in build for build in builds):
        yield Fault("builds", "none that is framed", f"framed = true in one, since the policy is {policy}")


def _same_values(data: dict[str, Any]) -> Iterator[Fault]:
    for name, reading in _table(data, "readings").items():
        values = reading.get("values") if isinstance(reading, Mapping) else None
        if isinstance(values, list) and len(set(map(str, values))) < len(values):
            yield Fault(f"readings.{name}.values", ", ".join(map(str, values)), "values that all differ")


def _joists(joists: Table) -> Iterator[Fault]:
    kinds = _table(joists, "kinds")
    missing = [kind for kind in JOIST_KINDS if kind not in kinds] if kinds else []
    if missing:
        yield Fault("joists.kinds", "no table for " + ", ".join(missing), "one for each of the kinds")
    hole = _table(joists, "hole")
    if {"spacing", "clear_of_holes"} <= set(hole):
        yield Fault("joists.hole", "both spacing and clear_of_holes", "one of them")
    for cut in ("hole", "notch"):
        span = _numbers(*(_table(joists, cut).get(key) for key in ("from", "to")))
        if span and span[0] >= span[1]:
            yield Fault(f"joists.{cut}", f"from {span[0]:g} to {span[1]:g}", "from less than to")
