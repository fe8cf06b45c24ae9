"""Twelve exercises made of traps: each passes under one misconception, and fails by the rules."""

import random
from collections.abc import Callable
from functools import cache
from typing import Any

from tests.rules.cases import RCD, accessory, joist, opening, route, wall
from tests.rules.rooms import own, room
from zonelib.coach.diagnosis.lens import Lens
from zonelib.coach.diagnosis.telling import typical_answers
from zonelib.exercise import Bundle, freeze
from zonelib.exercise.kinds import exercise_model
from zonelib.exercise.model import Exercise

Data = dict[str, Any]
IN_STRIP = [(1200, 2400), (1200, 450)]
BESIDE = [(1500, 2330), (1500, 450), (1200, 450)]
MIDDLE = [(1800, 2330), (1800, 450), (1200, 450)]
MASONRY = {"build": "masonry", "thickness": 126}
BOX = accessory("S1", 2200, 1200)


def trap(points: Any, of_wall: Data | None = None, **of_route: Any) -> Callable[[], tuple[Data, Data]]:
    """Return what makes a wall and a route on it."""
    return lambda: (wall(**(of_wall or {})), route(points, **of_route))


def _corner(kind: str) -> tuple[Data, Data]:
    """Return a room whose route runs level with its socket past a corner."""
    del kind
    walls = [own(1, accessory("S1", 1500, 450))]
    data = route([(1500, 450), (4000, 450)])
    return room("W1", walls=walls), {**{k: v for k, v in data.items() if k != "wall"}, "room": "W1"}


TRAPS: dict[str, Callable[[], tuple[Data, Data]]] = {
    "floor-band": trap([(1200, 450), (1200, 60), (2400, 60)]),
    "door-border": trap([(2200, 2330), (2200, 450), (1200, 450)],
                        {"openings": [opening("D1", 2300, 0, 826, 2040, kind="door")]}),
    "slanting": trap([(1200, 450), (300, 2330)]),
    "plastic": trap(BESIDE, protection=["plastic-capping", "none"]),
    "unearthed-conduit": trap(BESIDE, protection=["unearthed-steel-conduit", "none"]),
    "steel-capping": trap(BESIDE, protection=["steel-capping", "none"]),
    "rcd-alone": trap(BESIDE),
    "rcd-at-outlet": trap(IN_STRIP, rcd={"ma": 30, "at": "outlet"}),
    "rcd-delayed": trap(IN_STRIP, rcd={"ma": 30, "delayed": True}),
    "rcd-any-rating": trap(IN_STRIP, rcd={"ma": 100}),
    "no-rcd": trap(IN_STRIP, rcd=None),
    "depth-from-brick": trap(IN_STRIP, MASONRY, depth=35),
    "plaster-in-leaf": trap(IN_STRIP, MASONRY, depth=45),
    "one-face": trap([(80, 2330), (80, 300)], {
        "thickness": 60, "front": {"internal_corners": [0]}}, joins=[], depth=30),
    "any-wall-mirrors": trap(IN_STRIP, {"thickness": 150, "accessories": [
        accessory("S1", 1200, 450, face="rear", locatable_from_reverse=True)]}),
    "unseen-mirrors": trap(IN_STRIP, {"thickness": 60, "accessories": [
        accessory("S1", 1200, 450, locatable_from_reverse=False)]}, depth=30),
    "wide-strip": trap([(1313, 2330), (1313, 450), (1200, 450)]),
    "borrowed-strip": trap([(2400, 2330), (2400, 450), (1200, 450)], {"accessories": [
        accessory("S1", 1200, 450), accessory("S2", 2400, 1000)]}),
    "through-openings": trap([(600, 450), (600, 2330), (2200, 2330), (2200, 450), (2600, 450)], {
        "openings": [opening("D1", 1000, 0, 826, 2040, kind="door")],
        "accessories": [accessory("S1", 600, 450), accessory("S2", 2200, 1200)]}, joins=["S1", "S2"]),
    "round-corner": lambda: _corner("room"),
    "deep-top-band": trap([(300, 2180), (1200, 2180), (1200, 450)]),
    "wide-corner-band": trap([(220, 2330), (220, 450), (1200, 450)], {"front": {"internal_corners": [0]}}),
    "ceiling-light": trap(MIDDLE),
    "hidden-box": trap([(1200, 450), (1200, 2330), (2000, 2330), (2000, 1200)], {"accessories": [
        accessory("S1", 1200, 450), accessory("B1", 2000, 1200, kind="buried-box")]}, joins=["S1", "B1"]),
    "metal-forgotten": trap(IN_STRIP, {"build": "metal-stud"}, depth=60, rcd=None),
    "less-deep": trap(BESIDE, depth=30),
    "half-a-cable": trap([(1271, 2330), (1271, 450), (1200, 450)]),
    "one-chase": trap([(300, 450), (1200, 450)], MASONRY, depth=30),
}  # fmt: skip
"""For each misconception a route that it lets pass; depth from the brick bars one that does pass."""

GOOD = trap(IN_STRIP, rcd=RCD)
BOARDS = 10
TIMES = 3


def _choice(number: int, names: list[str]) -> Exercise:
    """Return a question that asks which of some runs pass."""
    case: Data = {"pack": "uk", "walls": [], "rooms": [], "routes": []}
    for at, maker in enumerate([GOOD, *(TRAPS[name] for name in names)], start=1):
        place, run = maker()
        rooms = "plan" in place
        renamed = _renamed(place, run, at)
        case["rooms" if rooms else "walls"].append(renamed[0])
        case["routes"].append(renamed[1])
    return _which_pass(number, case)


def _which_pass(number: int, case: Data) -> Exercise:
    return exercise_model("choose").model_validate(
        {"schema": 1, "id": f"probe-{number}", "kind": "choose", "title": "Which pass?", "question": "?",
         "case": case, "choose": {"ask": "passing-routes"}, "model": {"chosen": ["R1"]}}
    )  # fmt: skip


def choice(case: Data) -> Bundle:
    """Return a question on the runs of a case: which of them pass."""
    return freeze(_which_pass(0, case))


def _renamed(place: Data, run: Data, at: int) -> tuple[Data, Data]:
    """Return a wall and a route with names of their own in a case of many."""
    new = {"W1": f"W{at}", **{old: f"{old}.{at}" for old in ("S1", "S2", "B1", "D1")}}

    def change(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: change(one) for key, one in value.items()}
        if isinstance(value, list | tuple):
            return [change(one) for one in value]
        return new.get(value, value) if isinstance(value, str) else value

    return change(place), {**change(run), "id": f"R{at}"}


def alone(name: str) -> Bundle:
    """Return a question with one sound run and one trap."""
    return freeze(_choice(0, [name]))


def _timber(number: int, span: int) -> Exercise:
    """Return a question that asks for two holes in a shallow joist, where each needs a plate."""
    low, middle = 0.3 * span, 0.5 * span

    def cut(*places: tuple[float, float, float], plate: bool = True) -> Data:
        covering = "steel-plate" if plate else "none"
        return {"holes": [{"x": x, "y": y, "diameter": d, "protection": covering} for x, y, d in places]}

    model = (low, 55, 20), (low + 100, 55, 20)
    wrong = [cut((middle, 55, 20), (middle + 100, 55, 20)), cut((low, 62, 20), (low + 100, 62, 20)),
             cut((low, 55, 20), (low + 30, 55, 20)), cut(*model, plate=False),
             cut((low, 55, 36), (low + 190, 55, 20))]  # fmt: skip
    return exercise_model("joist").model_validate(
        {"schema": 1, "id": f"timber-{number}", "kind": "joist", "title": "Two holes", "question": "?",
         "case": joist(span=span, depth=110),
         "joist": {"joist": "J1", "holes": [{"cable": 10, "least": 16}] * 2},
         "model": cut(*model), "wrong": [{"words": "-", "answer": one, "marks": 0.0} for one in wrong]}
    )  # fmt: skip


@cache
def probes() -> tuple[tuple[Lens, tuple[Data, ...], Data], ...]:
    """Return twelve exercises, each as a lens with its typical answers and a right one."""
    draw = random.Random(399)
    slots: list[list[str]] = [[] for _ in range(8)]
    for name in TRAPS:
        for slot in sorted(slots, key=lambda one: (len(one), draw.random()))[:TIMES]:
            slot.append(name)
    exercises = [_choice(n, names) for n, names in enumerate(slots, start=1)]
    exercises += [_timber(n, span) for n, span in enumerate((3000, 3400, 3800, 4200), start=1)]
    return tuple(_probe(one) for one in exercises)


def _probe(exercise: Exercise) -> tuple[Lens, tuple[Data, ...], Data]:
    lens = Lens(freeze(exercise))
    model = {"chosen": list(lens.key(frozenset()))} if exercise.kind == "choose" else exercise.model
    return lens, typical_answers(lens, exercise), model
