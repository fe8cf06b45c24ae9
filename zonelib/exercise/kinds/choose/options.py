"""The choices of a question, right ones and others, worked out by the engine where it can tell."""

import hashlib
from collections.abc import Callable, Iterable

from zonelib.exercise.kinds.choose.clauses import clauses
from zonelib.exercise.kinds.choose.option import Option, failed_of, texts
from zonelib.exercise.kinds.choose.task import ChooseTask
from zonelib.rules.engine import Verdict, judge
from zonelib.rules.pack import Pack
from zonelib.rules.words import mm
from zonelib.site.model import Case, Fixing, Rcd, Route

__all__ = ["all_options", "offered", "shuffled"]

FACES = ("front", "rear")


def offered(options: tuple[Option, ...], task: ChooseTask) -> tuple[Option, ...]:
    """Return the choices on offer of all there could be, in the order of the case or the file."""
    if task.among:
        return tuple(one for one in options if one.id in task.among)
    if task.ask != "clauses":
        return options
    others = [one.id for one in options if not one.right][: task.most_others]
    return tuple(one for one in options if one.right or one.id in others)


def all_options(
    case: Case, pack: Pack, task: ChooseTask, *, verdict: Verdict | None = None
) -> tuple[Option, ...]:
    """Return every choice that could be offered; a verdict that is there already is not sought again."""
    if task.ask == "own":
        own = ((one, one.why.rstrip(".")) for one in task.choices)
        return tuple(Option(one.id, one.words, one.right, short, one.why) for one, short in own)
    return tuple(ASKED[task.ask](case, pack, verdict or judge(case, pack), task))


def shuffled(options: Iterable[Option], seed: int) -> tuple[Option, ...]:
    """Return choices in the order that a seed gives, the same on every machine."""
    return tuple(sorted(options, key=lambda one: hashlib.sha256(f"{seed}:{one.id}".encode()).digest()))


def _fixings(case: Case, _: Pack, verdict: Verdict, __: ChooseTask) -> Iterable[Option]:
    for fixing in case.fixings:
        found = [one for one in verdict.findings if one.subject == fixing.id and one.rule == "fixing"]
        for one in found:
            clear = one.status == "pass"
            yield Option(
                fixing.id, _fixing_words(fixing), clear, one.reason, one.text, unsure=one.status == "caution"
            )


def _fixing_words(one: Fixing) -> str:
    return f"{one.id}: {mm(one.x)} mm from the left, {mm(one.y)} mm high, {mm(one.penetration)} mm deep"


def _routes(case: Case, pack: Pack, verdict: Verdict, _: ChooseTask) -> Iterable[Option]:
    for route in case.routes:
        failed = tuple(failed_of(verdict, route.id))
        short = "; ".join(dict.fromkeys(one.reason for one in failed)) or "it meets every rule"
        yield Option(route.id, _route_words(route, pack), not failed, short, texts(failed), findings=failed)


def _route_words(route: Route, pack: Pack) -> str:
    low, high = min(route.depth), max(route.depth)
    depth = mm(low) if low == high else f"{mm(low)} to {mm(high)}"
    coverings = " and ".join(pack.protections[name].words for name in dict.fromkeys(route.protection))
    return f"{route.id}: {depth} mm deep, {coverings}, {_rcd_words(route.rcd)}"


def _rcd_words(rcd: Rcd | None) -> str:
    if rcd is None:
        return "no RCD"
    place = "at the origin" if rcd.at == "origin" else "at the outlet"
    return f"{mm(rcd.ma)} mA RCD {place}{', delayed' if rcd.delayed else ''}"


def _faces(_: Case, __: Pack, verdict: Verdict, task: ChooseTask) -> Iterable[Option]:
    found = {
        face: [
            one
            for one in verdict.findings
            if one.subject == task.of and one.rule == "wall-zone" and one.where.face == face
        ]
        for face in FACES
    }
    concerned = {face: any(one.status != "not-applicable" for one in found[face]) for face in FACES}
    for face in FACES:
        for one in found[face][:1]:
            yield Option(face, f"The {face} face", concerned[face], one.reason, one.text)
    words = (
        "The cable lies deep enough below both."
        if not any(concerned.values())
        else "It lies near one of them."
    )
    yield Option("neither", "Neither face", not any(concerned.values()), words.rstrip("."), words)


ASKED: dict[str, Callable[[Case, Pack, Verdict, ChooseTask], Iterable[Option]]] = {
    "safe-fixings": _fixings,
    "passing-routes": _routes,
    "clauses": clauses,
    "concerned-faces": _faces,
}
