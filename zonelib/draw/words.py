"""The words of a drawing: labels, and sentences that say the same without it."""

from collections.abc import Sequence

from zonelib.draw.stretches import Failure
from zonelib.rules.pack import Pack
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.words import leg_words, letter, mm
from zonelib.rules.zones import Zone
from zonelib.site.model import Accessory, Fixing, Opening, Route, Side, Wall
from zonelib.site.row import Row

__all__ = [
    "accessory_alt",
    "failure_alt",
    "fixing_alt",
    "kind_words",
    "opening_alt",
    "route_alt",
    "subtitle",
    "title",
    "zone_words",
]


def kind_words(kind: str) -> str:
    """Return a kind as a label shows it.

    >>> kind_words("fused-connection")
    'fused connection'
    """
    return kind.replace("-", " ")


def title(wall: Wall, side: Side) -> str:
    """Return the title of a drawing."""
    if isinstance(wall, Row):
        return f"Room {wall.id}, unfolded"
    return f"Wall {wall.id}, {side} face"


def subtitle(wall: Wall, routes: Sequence[Route], pack: Pack) -> str:
    """Return what the wall is made of and which cable is drawn."""
    parts = list(dict.fromkeys(_make(one, pack) for one in (wall.walls if isinstance(wall, Row) else [wall])))
    parts += [_cable(route, several=len(routes) > 1) for route in routes]
    return " · ".join(parts)


def _make(wall: Wall, pack: Pack) -> str:
    return f"{pack.builds[wall.build].words} · {mm(wall.thickness)} mm thick"


def _cable(route: Route, *, several: bool) -> str:
    low, high = min(route.depth), max(route.depth)
    depth = mm(low) if low == high else f"{mm(low)} to {mm(high)}"
    name = f"cable {route.id}" if several else "cable"
    size = f"{mm(route.cable.width)} × {mm(route.cable.thickness)}"
    return f"{name} {size} at {depth} mm below the {route.depth_from}"


def zone_words(zone: Zone, book: Rulebook) -> str:
    """Return the reason for a zone as its label shows it, with its size [mm]."""
    left, bottom, right, top = zone.area.bounds
    if zone.form == "vertical":
        return f"{zone.source} · {mm(right - left)} wide"
    if zone.form == "horizontal":
        return f"{zone.source} · {mm(top - bottom)} high"
    if zone.form == "floor":  # a pack may have several such bands
        return f"{mm(bottom)} to {mm(top)} high"
    if zone.form == "beside":
        return f"beside {zone.source}"
    return _band_words(zone, book)


def _band_words(zone: Zone, book: Rulebook) -> str:
    name = "top of the wall" if zone.form == "top" else "corner"
    rule = next((rule for rule in book.pack.zones if rule.source == zone.source), None)
    if rule is None or not rule.far:
        return name
    return f"{name} · {mm(rule.near)} to {mm(rule.far)}" if rule.near else f"{name} · {mm(rule.far)}"


def opening_alt(opening: Opening) -> str:
    """Return an opening as a sentence."""
    left, bottom, right, top = opening.bounds
    return (
        f"{opening.id} {opening.kind}: from x {mm(left)} to {mm(right)}, from {mm(bottom)} to {mm(top)} high."
    )


def accessory_alt(accessory: Accessory) -> str:
    """Return an accessory as a sentence."""
    unseen = "" if accessory.visible else ", out of sight"
    place = f"centre at x {mm(accessory.x)}, {mm(accessory.y)} high"
    size = f"{mm(accessory.width)} × {mm(accessory.height)}"
    return (
        f"{accessory.id} {kind_words(accessory.kind)}, {accessory.face} face{unseen}: {place}, size {size}."
    )


def route_alt(route: Route) -> str:
    """Return a route as a list of its points."""
    points = "; ".join(f"{letter(index)} at {mm(x)}, {mm(y)}" for index, (x, y) in enumerate(route.points))
    return f"Route {route.id}: {points}."


def fixing_alt(fixing: Fixing) -> str:
    """Return a fixing as a sentence."""
    return f"{fixing.id} fixing: at {mm(fixing.x)}, {mm(fixing.y)}, {mm(fixing.penetration)} mm deep."


def failure_alt(failure: Failure) -> str:
    """Return a failing stretch as sentences; its number is that of the finding's text."""
    where = failure.finding.where
    if failure.ends is None:
        return f"Number {failure.n}: route {failure.finding.subject} as a whole. {_said(failure)}."
    low, high = failure.ends
    place = f"{leg_words(where.legs)}, {mm(low)} to {mm(high)} mm along it"
    return f"Number {failure.n}: route {failure.finding.subject}, {place}. {_said(failure)}."


def _said(failure: Failure) -> str:
    reason = failure.finding.reason
    return reason[:1].upper() + reason[1:]
