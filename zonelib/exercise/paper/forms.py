"""What is written on paper beside a drawing: by kind, a form that is blank or holds an answer."""

from collections.abc import Callable, Iterator, Sequence
from itertools import zip_longest
from typing import Any

from zonelib.draw.paper import Block, Form, Words
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.cabling.task import CableTask
from zonelib.exercise.kinds.choose.answer import ChooseAnswer
from zonelib.exercise.kinds.choose.marking import choices
from zonelib.exercise.kinds.fixings.answer import FixingsAnswer
from zonelib.exercise.kinds.fixings.task import FixingsTask
from zonelib.exercise.kinds.inspect.answer import InspectAnswer
from zonelib.exercise.kinds.inspect.targets import inspected
from zonelib.exercise.kinds.inspect.task import InspectTask
from zonelib.exercise.kinds.joist.answer import JoistAnswer
from zonelib.exercise.kinds.joist.task import JoistTask
from zonelib.exercise.kinds.number.answer import NumberAnswer
from zonelib.exercise.kinds.number.task import NumberTask
from zonelib.exercise.kinds.protect.answer import ProtectAnswer
from zonelib.exercise.kinds.route.answer import RouteAnswer
from zonelib.rules.words import mm
from zonelib.site.model import Rcd

__all__ = ["form_of"]

LEGS = 7
"""Rows for legs on a blank form, whatever the model answer needs."""

STRETCHES = 5
NO = "\N{BALLOT BOX}"
BOX = {True: "\N{BALLOT BOX WITH X}", False: NO}


def form_of(bundle: Bundle, answer: dict[str, Any] | None = None) -> Sequence[Block]:
    """Return what is to be filled in, blank or with an answer in it.

    Parameters
    ----------
    bundle : Bundle
        What is asked.
    answer : dict, optional
        An answer of its kind.
    """
    read = None if answer is None else bundle.kind.answer.model_validate(answer)
    return tuple(_FORMS[bundle.exercise.kind](bundle, read))


def _task(bundle: Bundle) -> Any:
    return getattr(bundle.exercise, bundle.exercise.kind)


def _cells(values: Sequence[Any] | None, count: int) -> list[str]:
    """Return numbers and names as they are written, filled up with blanks."""
    written = [mm(one) if isinstance(one, float | int) else str(one) for one in values or ()]
    return [*written, *[""] * (count - len(written))]


def _rcd(task: CableTask, rcd: Rcd | None, *, answered: bool) -> Iterator[Words]:
    if "rcd" not in task.open:
        return
    if not answered:
        yield Words(f"RCD: {NO} none  {NO} ________ mA, at {NO} origin {NO} outlet, delayed {NO} yes {NO} no")
    elif rcd is None:
        yield Words("RCD: none.")
    else:
        yield Words(f"RCD: {mm(rcd.ma)} mA, at the {rcd.at}, {'delayed' if rcd.delayed else 'not delayed'}.")


def _on_offer(bundle: Bundle, task: CableTask) -> Iterator[Words]:
    if "protection" in task.open:
        yield _coverings(bundle, task.offered(bundle.pack.protections))


def _coverings(bundle: Bundle, names: Sequence[str]) -> Words:
    return Words(f"Coverings on offer: {', '.join(_named(bundle, name) for name in names)}.", size=8)


def _named(bundle: Bundle, name: str) -> str:
    """Return a covering in the pack's words, as they are printed and written."""
    return bundle.pack.protections[name].words


def _all_named(bundle: Bundle, names: Sequence[str] | None) -> list[str]:
    return [_named(bundle, name) for name in names or ()]


def _legs(
    task: CableTask, columns: dict[str, Sequence[Any] | None], points: Sequence[Any] | None, count: int
) -> Form:
    """Return the rows of legs: their ends where these are drawn, and what is open of them."""
    head, parts, shares = ["Leg"], [[str(n + 1) for n in range(count)]], [1.0]
    if points is not None:
        ends = [f"{mm(x)}, {mm(y)}" for x, y in points]
        head += ["from x, y [mm]", "to x, y [mm]"]
        parts += [_cells(ends[:-1], count), _cells(ends[1:], count)]
        shares += [3.0, 3.0]
    for name, (words, share) in _OPEN.items():
        if name in task.open:
            head.append(words)
            parts.append(_cells(columns[name], count))
            shares.append(share)
    return Form(tuple(head), tuple(zip(*parts, strict=True)), tuple(shares))


_OPEN = {"depth": ("depth [mm]", 2.0), "protection": ("covering", 4.0), "via": ("way", 2.0)}


def _route(bundle: Bundle, answer: RouteAnswer | None) -> Iterator[Block]:
    task, count = _task(bundle), LEGS
    columns: dict[str, Sequence[Any] | None] = dict.fromkeys(_OPEN)
    points: Sequence[Any] = ()
    if answer:
        points, count = answer.points, len(answer.points) - 1
        columns = {
            "depth": answer.depth,
            "protection": _all_named(bundle, answer.protection),
            "via": answer.via,
        }
    yield from _on_offer(bundle, task)
    yield Words("Draw the route on the wall, and write down each leg.", bold=True)
    yield _legs(task, columns, points, count)
    yield from _rcd(task, answer.rcd if answer else None, answered=answer is not None)


def _protect(bundle: Bundle, answer: ProtectAnswer | None) -> Iterator[Block]:
    task = _task(bundle)
    columns: dict[str, Sequence[Any] | None] = dict.fromkeys(_OPEN)
    if answer:
        columns.update(depth=answer.depth, protection=_all_named(bundle, answer.protection))
    yield from _on_offer(bundle, task)
    yield Words("The letters on the drawing are the ends of the legs: leg 1 is from a to b.", bold=True)
    yield _legs(task, columns, None, len(task.points) - 1)
    yield from _rcd(task, answer.rcd if answer else None, answered=answer is not None)


def _zones(bundle: Bundle, answer: Any) -> Iterator[Block]:
    del bundle
    if answer is None:
        yield Words("Shade every zone on the wall, and write its size at its edges.", bold=True)


def _fixings(bundle: Bundle, answer: FixingsAnswer | None) -> Iterator[Block]:
    task: FixingsTask = _task(bundle)
    places = answer.places if answer else {}
    rows = [
        (f"{one.id} {one.words}", f"{mm(one.width)} x {mm(one.height)}", *_cells(places.get(one.id), 2))
        for one in task.items
    ]
    yield Words("Draw each thing where it may hang, and write down its lower left corner.", bold=True)
    yield Form(("thing", "size [mm]", "x [mm]", "y [mm]"), tuple(rows), (4, 2, 2, 2))


def _joist(bundle: Bundle, answer: JoistAnswer | None) -> Iterator[Block]:
    task: JoistTask = _task(bundle)
    yield Words(
        "Draw each cut on the joist, and write it down: x from the left support, y from the bottom.",
        bold=True,
    )
    if task.holes:
        holes = answer.holes if answer else ()
        given = [(one.x, one.y, one.diameter, _named(bundle, one.protection)) for one in holes]
        yield _cuts(("hole", "x [mm]", "y [mm]", "diameter [mm]", "covering"), given, len(task.holes))
    if task.notches:
        notches = answer.notches if answer else ()
        given_too = [
            (one.x, one.length, one.depth, f"{one.edge}, {_named(bundle, one.protection)}") for one in notches
        ]
        head = ("notch", "x [mm]", "length [mm]", "depth [mm]", "edge, covering")
        yield _cuts(head, given_too, len(task.notches))
    yield _coverings(bundle, task.protections)


def _cuts(head: tuple[str, ...], given: Sequence[Sequence[Any]], count: int) -> Form:
    rows = [
        (str(n), *_cells(values, len(head) - 1))
        for n, (_, values) in enumerate(zip_longest(range(count), given, fillvalue=()), start=1)
    ]
    return Form(head, tuple(rows), (1, 2, 2, 2, 4))


def _inspect(bundle: Bundle, answer: InspectAnswer | None) -> Iterator[Block]:
    task: InspectTask = _task(bundle)
    cited = bundle.pack.citations
    clauses = dict(zip(task.clauses, _letters(), strict=False))
    remedies = {one.id: f"R{n}" for n, one in enumerate(task.remedies, start=1)}
    whys = {one.id: f"Y{n}" for n, one in enumerate(task.whys, start=1)}
    lists = {
        "Clauses": [(clauses[name], f"{name}: {cited[name].about}") for name in task.clauses],
        "Remedies": [(remedies[one.id], one.words) for one in task.remedies],
        "Why it matters": [(whys[one.id], one.words) for one in task.whys],
    }
    yield Words(
        "Mark each stretch that fails, and write it down: mm along the cable from its first point.", bold=True
    )
    rows = [_stretch(one, clauses, remedies, whys) for one in answer.stretches] if answer else []
    rows += [("",) * 6] * (STRETCHES if answer is None else 0)
    head = ("cable", "from [mm]", "to [mm]", "clause", "remedy", "why")
    yield Form(head, tuple(rows), (2, 2, 2, 1, 1, 1))
    for name, entries in lists.items():
        if entries:
            yield Words(name, size=8.5, bold=True)
            yield from (Words(f"{key}  {words}", size=8) for key, words in entries)
    passes = answer.passes if answer else {}
    for route in inspected(bundle.case, task):
        yes, no = BOX[passes.get(route.id) is True], BOX[passes.get(route.id) is False]
        yield Words(f"Would {route.id} pass as new work?  {yes} yes  {no} no")


def _letters() -> Iterator[str]:
    return iter("ABCDEFGHIJKLMNOPQRSTUVWXYZ")


def _stretch(
    one: Any, clauses: dict[str, str], remedies: dict[str, str], whys: dict[str, str]
) -> tuple[str, ...]:
    whole = ("all", "all")
    ends = whole if one.start is None or one.to is None else (mm(one.start), mm(one.to))
    said = (clauses.get(one.clause or ""), remedies.get(one.remedy or ""), whys.get(one.why or ""))
    return (one.route, *ends, *(word or "" for word in said))


def _choose(bundle: Bundle, answer: ChooseAnswer | None) -> Iterator[Block]:
    pick = "Tick one." if _task(bundle).pick == "one" else "Tick all that are right."
    chosen = answer.chosen if answer else ()
    yield Words(pick, bold=True)
    yield from (Words(f"{BOX[one.id in chosen]}  {one.words}") for one in choices(bundle))


def _number(bundle: Bundle, answer: NumberAnswer | None) -> Iterator[Block]:
    task: NumberTask = _task(bundle)
    given = "________________" if answer is None else str(answer.value)
    yield Words(f"Answer: {given} {task.unit}", bold=True)


_FORMS: dict[str, Callable[[Bundle, Any], Iterator[Block]]] = {
    "choose": _choose,
    "fixings": _fixings,
    "inspect": _inspect,
    "joist": _joist,
    "number": _number,
    "protect": _protect,
    "route": _route,
    "zones": _zones,
}
