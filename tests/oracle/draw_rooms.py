"""Random rooms with routes round them: chimney breasts, shared walls thick and thin, partitions, voids."""

from __future__ import annotations

from random import Random

from tests.oracle.facts import READINGS, Item

__all__ = ["draw_rooms"]

KINDS = ("socket", "socket", "switch", "wall-light", "blank-plate", "radiator")
COVERINGS = ("none", "none", "none", "none", "plastic-conduit", "armoured-cable")
HUG = 0.5


def draw_rooms(seed: int) -> Item:
    """Draw a case of one to three rooms, equally high; the same seed gives the same case."""
    rng = Random(f"rooms {seed}")
    usual = {
        "height": rng.choice([2400, 2700]),
        "build": rng.choice(["timber-stud", "masonry", "metal-stud"]),
    }
    usual["thickness"] = rng.choice([75, 100, 100, 100.1, 150])
    wide, long = rng.choice([2400, 3600, 4000]), rng.choice([2000, 3000])
    rooms = [_room(rng, "A", _plan(rng, wide, long), usual)]
    if rng.random() < 0.75:
        rooms += _behind(rng, wide, long, usual)
    case: Item = {"pack": "uk", "rooms": rooms}
    if rng.random() < 0.4:
        names = rng.sample(sorted(READINGS), rng.randint(1, 3))
        case["readings"] = {name: rng.choice(READINGS[name]) for name in names}
    case["routes"] = [_route(rng, f"R{i + 1}", rng.choice(rooms), rooms) for i in range(rng.choice([1, 2]))]
    return case


def _plan(rng: Random, wide: float, long: float) -> list[list[float]]:
    """Return a clockwise plan: plain, with a chimney breast, cut to an L, or with a point on the straight."""
    corners = {
        "plain": [[wide, long], [wide, 0]],
        "breast": [[wide, long], [wide, 1300], [wide - 350, 1300], [wide - 350, 400], [wide, 400], [wide, 0]],
        "cut": [[wide, long], [wide, 900], [wide - 1000, 900], [wide - 1000, 0]],
        "straight": [[1300, long], [wide, long], [wide, 0]],
    }
    return [[0, 0], [0, long], *corners[rng.choice(sorted(corners))]]


def _behind(rng: Random, wide: float, long: float, usual: Item) -> list[Item]:
    """Return one or two rooms north of the first, a partition of the same thickness between them."""
    thick = usual["thickness"]
    left, middle = rng.choice([-800, 0, 300]), rng.choice([1000, 1300, wide - 700])
    near, far = long + thick, long + thick + 2500
    found = [_room(rng, "B", [[left, near], [left, far], [middle, far], [middle, near]], usual)]
    if rng.random() < 0.5:
        start, right = middle + thick, wide + rng.choice([0, 600])
        found.append(_room(rng, "C", [[start, near], [start, far], [right, far], [right, near]], usual))
    return found


def _room(rng: Random, name: str, plan: list[list[float]], usual: Item) -> Item:
    room: Item = {"id": name, "plan": plan, **usual}
    if rng.random() < 0.3:
        room["finish"] = rng.choice([3, 15])
    room["walls"] = [
        {"number": number, "accessories": _accessories(rng, f"{name}{number}", length),
         "openings": _openings(rng, f"{name}{number}", length)}
        for number, length in enumerate(_lengths(room), start=1)
        if rng.random() < 0.8
    ]  # fmt: skip
    return room


def _lengths(room: Item) -> list[float]:
    plan = room["plan"]
    return [abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in zip(plan, [*plan[1:], plan[0]], strict=True)]


def _openings(rng: Random, name: str, length: float) -> list[Item]:
    """Return a door or window, none where another room may end in the middle of it."""
    shared = name in {"A2", "A3", "B4", "C4"}
    if length < 1500 or rng.random() < 0.6 or (shared and name != "A2"):
        return []
    if shared:
        return [{"id": f"{name}o", "kind": "door", "x": 400, "y": 0, "width": 400, "height": 2000}]
    x, kind = round(rng.uniform(0, length - 900), 1), rng.choice(["door", "window"])
    return [{"id": f"{name}o", "kind": kind, "x": x, "y": 0 if kind == "door" else 900, "width": 826,
             "height": 1100}]  # fmt: skip


def _accessories(rng: Random, name: str, length: float) -> list[Item]:
    found = []
    for i in range(rng.choice([0, 1, 1, 2])):
        one: Item = {
            "id": f"{name}a{i}",
            "kind": rng.choice(KINDS),
            "face": "front",
            "width": 86,
            "height": 86,
        }
        one |= {"x": round(rng.uniform(45, length - 45), 1), "y": rng.choice([450, 1200, 1750])}
        if rng.random() < 0.6:
            one["locatable_from_reverse"] = rng.random() < 0.7
        found.append(one)
    return found


def _route(rng: Random, name: str, room: Item, rooms: list[Item]) -> Item:
    width, thickness = rng.choice([(10.3, 6.0), (8.2, 5.0), (20, 20)])
    everything = [a["id"] for one in rooms for wall in one["walls"] for a in wall["accessories"]]
    route: Item = {"id": name, "room": room["id"], "cable": {"width": width, "thickness": thickness}}
    route["joins"] = rng.sample(everything, min(len(everything), rng.choice([0, 1, 2, 3])))
    if rng.random() < 0.7:
        route["rcd"] = {"ma": rng.choice([30, 30, 100])}
    legs = rng.choice([1, 2, 3, 4])
    deep = room["thickness"] - thickness
    route["depth"] = [rng.choice([15, 20, deep / 2, deep - 15, deep - 50, 50]) for _ in range(legs)]
    route["protection"] = [rng.choice(COVERINGS) for _ in range(legs)]
    _walk(rng, route, room, legs, width / 2)
    return route


def _walk(rng: Random, route: Item, room: Item, legs: int, half: float) -> None:
    xs, ys = _edges(room, route["joins"], half)
    round_room = sum(_lengths(room))
    points, via = (
        [_start(rng, route, room) or [_place(rng, xs, round_room), _pick(rng, ys, room["height"])]],
        [],
    )
    for _ in range(legs):
        x, y = points[-1]
        edge = {0.0: "floor-void", room["height"]: "ceiling-void"}.get(y, "wall")
        through = edge if rng.random() < 0.6 else rng.choice(["wall"] * 30 + ["ceiling-void"])
        draw = rng.random()
        if through != "wall" or draw < 0.6:
            x = min(max(_place(rng, xs, round_room), x - round_room / 2), x + round_room / 2)
        if through == "wall" and draw > 0.45:
            y = _pick(rng, ys, room["height"])
        points.append([x, y])
        via.append(through)
    in_walls = [a != b for a, b, one in zip(points, points[1:], via, strict=False) if one == "wall"]
    if not any(in_walls) or points[0] == points[1]:
        points, via = [*points, [points[-1][0] + 333, 1000.0]], [*via, "wall"]
        route["depth"], route["protection"] = [*route["depth"], 20], [*route["protection"], "none"]
    route["points"] = points
    if any(one != "wall" for one in via):
        route["via"] = via


def _start(rng: Random, route: Item, room: Item) -> list[float] | None:
    """Return the middle of an accessory that the route joins in its room, most often."""
    begins = [sum(_lengths(room)[: wall["number"] - 1]) for wall in room["walls"]]
    own = [
        [begin + a["x"], a["y"]]
        for begin, wall in zip(begins, room["walls"], strict=True)
        for a in wall["accessories"]
        if a["id"] in route["joins"]
    ]
    return rng.choice(own) if own and rng.random() < 0.7 else None


def _place(rng: Random, xs: list[float], round_room: float) -> float:
    """Return an x a little way into the row before, in it, or past its end; never in a corner itself."""
    x = rng.choice(xs) if rng.random() < HUG else round(rng.uniform(0, round_room), 1)
    return x + rng.choice([0] * 8 + [0.0005, 0.1]) + rng.choice([0, 0, 0, -round_room, round_room]) * 0.5


def _pick(rng: Random, ys: list[float], high: float) -> float:
    draw = rng.random()
    if draw < 0.25:
        return rng.choice([0.0, high])
    return rng.choice(ys) if draw < 0.25 + HUG else round(rng.uniform(0, high), 1)


def _edges(room: Item, joins: list[str], half: float) -> tuple[list[float], list[float]]:
    """Places along the row and heights at which a cable of this half width just fits."""
    xs, ys, begin = [100.0], [room["height"] - 150 + half, room["height"] - 75.0, 450.0, 1200.0], 0.0
    own = {wall["number"]: wall["accessories"] for wall in room["walls"]}
    for number, length in enumerate(_lengths(room), start=1):
        xs += [begin + 150 - half, begin + half, begin + length - 150 + half, begin + 150]
        for a in own.get(number, []):
            xs += [begin + a["x"] + way * (43 - half) for way in (-1, 0, 1)] * (3 if a["id"] in joins else 1)
            ys += [a["y"] + way * (43 - half) for way in (-1, 0, 1)]
        begin += length
    return xs, ys
