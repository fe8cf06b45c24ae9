"""The findings that the text asks for on joists and fixings."""

from __future__ import annotations

from itertools import combinations, pairwise, product
from math import hypot

from tests.oracle.facts import COVERED, NO_ZONE, Expected, Item, at_most, roof
from tests.oracle.sheet import BAND, Line, top_at

__all__ = ["has_wall", "judge_fixing", "judge_joist"]

COVER = 50.0
CENTRED = 2.0
DEEPEST = 250.0
NOTCH_GAP = 100.0
WIDEST_CABLE = 20.0


def judge_joist(joist: Item) -> list[Expected]:
    """Work out every finding of a joist."""
    holes, notches = joist.get("holes", []), joist.get("notches", [])
    found = [_hole_cover(joist, hole) for hole in holes]
    found += [_status("joist-cover", notch["id"], good=_met(notch)) for notch in notches]
    if not holes and not notches:
        return [Expected("joist-kind", joist["id"], "not-applicable")]
    free = joist["kind"] == "solid" and at_most(joist["depth"], DEEPEST)
    found.append(_status("joist-kind", joist["id"], good=free))
    structure = [e for hole in holes for e in _hole(joist, hole)]
    structure += [e for notch in notches for e in _notch(joist, notch)]
    structure += [_spacing(a, b) for a, b in combinations(holes, 2)]
    structure += [_notch_gap(h, n) for h, n in product(holes, notches)]
    return found + [e if free else _set_aside(e) for e in structure]


def _set_aside(finding: Expected) -> Expected:
    return Expected(finding.rule, finding.subject, "not-applicable", other=finding.other)


def _status(
    rule: str,
    subject: str,
    *,
    good: bool,
    measured: float | None = None,
    limit: float | None = None,
    other: str | None = None,
) -> Expected:
    status = "pass" if good else "fail"
    return Expected(rule, subject, status, measured=measured, limit=limit, other=other)


def _met(cut: Item) -> bool:
    return cut.get("protection", "none") in COVERED


def _hole_cover(joist: Item, hole: Item) -> Expected:
    """Judge the timber round a hole.

    Under the reading ``cable`` the cable lies against the hole's edge on the side that is measured, so
    both readings give one number.
    """
    radius = hole["diameter"] / 2
    cover = min(hole["y"] - radius, joist["depth"] - hole["y"] - radius)
    if _met(hole):
        return _status("joist-cover", hole["id"], good=True)
    return _status("joist-cover", hole["id"], good=at_most(COVER, cover), measured=cover, limit=COVER)


def _hole(joist: Item, hole: Item) -> list[Expected]:
    name, span = hole["id"], joist["span"]
    limit = 0.25 * joist["depth"]
    off = abs(hole["y"] - joist["depth"] / 2)
    near = min(hole["x"], span - hole["x"])
    return [
        _status(
            "joist-hole-size",
            name,
            good=at_most(hole["diameter"], limit),
            measured=hole["diameter"],
            limit=limit,
        ),
        _status("joist-hole-centre", name, good=at_most(off, CENTRED), measured=off, limit=CENTRED),
        _status("joist-hole-position", name, good=at_most(0.25 * span, near) and at_most(near, 0.4 * span)),
    ]


def _notch(joist: Item, notch: Item) -> list[Expected]:
    name, span = notch["id"], joist["span"]
    limit = 0.125 * joist["depth"]
    ends = (notch["x"] - notch["length"] / 2, notch["x"] + notch["length"] / 2)
    within = any(
        at_most(0.07 * span, low) and at_most(high, 0.25 * span)
        for low, high in (ends, (span - ends[1], span - ends[0]))
    )
    return [
        _status(
            "joist-notch-depth",
            name,
            good=at_most(notch["depth"], limit),
            measured=notch["depth"],
            limit=limit,
        ),
        _status("joist-notch-position", name, good=within),
        _status("joist-notch-edge", name, good=notch["edge"] == "top"),
    ]


def _spacing(a: Item, b: Item) -> Expected:
    gap, limit = abs(a["x"] - b["x"]), 3 * max(a["diameter"], b["diameter"])
    return _status(
        "joist-hole-spacing", a["id"], good=at_most(limit, gap), measured=gap, limit=limit, other=b["id"]
    )


def _notch_gap(hole: Item, notch: Item) -> Expected:
    gap = abs(hole["x"] - notch["x"]) - hole["diameter"] / 2 - notch["length"] / 2
    return _status(
        "joist-notch-gap",
        notch["id"],
        good=at_most(NOTCH_GAP, gap),
        measured=gap,
        limit=NOTCH_GAP,
        other=hole["id"],
    )


def judge_fixing(wall: Item, fixing: Item) -> Expected:
    """Work out the finding of one fixing: the widest view of where a cable may be."""
    reach = fixing["diameter"] / 2 + WIDEST_CABLE / 2
    if not has_wall(wall, fixing["x"], fixing["y"]) or not at_most(reach, min(_gaps(wall, fixing))):
        return Expected("fixing", fixing["id"], "fail", fixing["face"])
    deep = at_most(50, fixing["penetration"])
    return Expected("fixing", fixing["id"], "caution" if deep else "pass", fixing["face"])


def has_wall(wall: Item, x: float, y: float) -> bool:
    """Tell whether there is wall at a point: within its edges, and in no opening."""
    across = at_most(0, x) and at_most(x, wall["length"])
    inside = across and at_most(0, y) and at_most(y, top_at(roof(wall), x))
    return inside and not any(_opens(wall, o, x, y) for o in wall.get("openings", []))


def _opens(wall: Item, o: Item, x: float, y: float) -> bool:
    """Tell whether a point lies in an opening; where its edge is the wall's own, no wall is beyond it."""
    right, top = o["x"] + o["width"], o["y"] + o["height"]
    beside = at_most(x, o["x"]) and not at_most(o["x"], 0)
    beyond = at_most(right, x) and not at_most(wall["length"], right)
    under = at_most(y, o["y"]) and not at_most(o["y"], 0)
    return not (beside or beyond or under or at_most(top, y))


def _gaps(wall: Item, fixing: Item) -> list[float]:
    """Return the distance to each zone, below nought within it, past all openings [mm]."""
    x, y, side = fixing["x"], fixing["y"], wall.get(fixing["face"], {})
    gaps = [_to_line(roof(wall), x, y) - BAND]
    gaps += [abs(x - c) - BAND for key in ("internal_corners", "external_corners") for c in side.get(key, ())]
    thin = at_most(wall["thickness"], 100)
    for a in wall.get("accessories", []):
        if a["kind"] not in NO_ZONE and (thin or a["face"] == fixing["face"]):
            gaps += [abs(x - a["x"]) - a["width"] / 2, abs(y - a["y"]) - a["height"] / 2]
    return gaps


def _to_line(line: Line, x: float, y: float) -> float:
    """Return the shortest distance of a point to a polyline [mm]."""
    gaps = []
    for (x0, y0), (x1, y1) in pairwise(line):
        run, rise = x1 - x0, y1 - y0
        share = min(max(((x - x0) * run + (y - y0) * rise) / (run**2 + rise**2), 0.0), 1.0)
        gaps.append(hypot(x - x0 - share * run, y - y0 - share * rise))
    return min(gaps)
