"""An exercise as somebody sees it who holds certain misconceptions."""

import copy
import json
from collections.abc import Iterator
from functools import lru_cache
from typing import Any, NamedTuple

from zonelib.coach.diagnosis.changes import CHANGES
from zonelib.coach.diagnosis.excuses import excused
from zonelib.coach.diagnosis.glance import plays_a_part, still_fails
from zonelib.coach.diagnosis.misconception import Misconception, library
from zonelib.coach.diagnosis.redrawn import Redrawn
from zonelib.coach.diagnosis.stake import Stake, stake_of
from zonelib.coach.diagnosis.truth import truth_of
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.criteria import Criterion
from zonelib.exercise.kinds.choose.marking import choices
from zonelib.exercise.marking import Result
from zonelib.exercise.trial import marked_answer

__all__ = ["NOTHING", "Held", "Lens", "Ticks"]

Held = frozenset[str]
NOTHING: Held = frozenset()

MOST = 256
"""So many answers are remembered; each is looked at once for every misconception."""

ECONOMY = {"length", "covering"}
"""Checks that ask for the better of two right answers."""


class Ticks(NamedTuple):
    """How many ticks are too many or too few, of how many choices."""

    off: int
    of: int


class Lens:
    """An exercise, looked at under the rules as they are or as somebody takes them.

    Parameters
    ----------
    bundle : Bundle
        The exercise.
    """

    def __init__(self, bundle: Bundle) -> None:
        self.bundle = bundle
        self._able = frozenset(name for name, one in library().items() if plays_a_part(bundle, one))
        self.seen = lru_cache(None)(self._seen)
        self.key = lru_cache(None)(self._key)
        self.truth = lru_cache(None)(self._truth)
        self.offered = lru_cache(None)(lambda: len(choices(bundle)))
        self.stake = lru_cache(MOST)(self._stake)
        self._right = lru_cache(MOST * len(library()))(self._is_right)
        self._known: dict[str, Result] = {}

    def take(self, answer: dict[str, Any], result: Result) -> None:
        """Take the mark of an answer that is marked already."""
        self._keep(json.dumps(answer, sort_keys=True), result)

    def right(self, held: Held, answer: dict[str, Any]) -> bool:
        """Tell whether an answer is right under the rules as somebody takes them."""
        return self._right(self.part(held), json.dumps(answer, sort_keys=True))

    def ticks(self, held: Held, answer: dict[str, Any]) -> Ticks | None:
        """Return how far ticks are from what somebody would tick; None where nothing is ticked."""
        if self.bundle.exercise.kind != "choose":
            return None
        off = set(answer.get("chosen", ())) ^ set(self.key(self.part(held)))
        return Ticks(len(off), self.offered())

    def part(self, held: Held) -> Held:
        """Return the misconceptions that can play a part here."""
        return held & self._able

    def _seen(self, held: Held) -> Bundle:
        data = copy.deepcopy(self.bundle.data)
        for name in sorted(held):
            _apply(library()[name], data["pack"], data["exercise"]["case"])
        redraws = tuple(library()[name].redraw for name in sorted(held) if library()[name].redraw)
        return Redrawn(data, by=redraws) if redraws else Bundle(data)

    def _key(self, held: Held) -> tuple[str, ...]:
        """Return what would be ticked; for questions with choices only.

        Of several misconceptions, one that alone changes nothing here is taken to play no part.
        """
        if len(held) > 1:
            plain = self.key(NOTHING)
            alone = frozenset(name for name in held if self.key(frozenset({name})) != plain)
            if alone != held:
                return self.key(alone)
        return tuple(sorted(one.id for one in choices(self.seen(held)) if one.right))

    def _is_right(self, held: Held, answer: str) -> bool:
        if self.bundle.exercise.kind == "choose":
            return tuple(sorted(set(json.loads(answer).get("chosen", ())))) == self.key(held)
        told = self.stake(answer).told(library()[name] for name in held) if held else None
        if told is None and held and self.truth(held) == self.truth(NOTHING) is not None:
            told = self._right(NOTHING, answer)
        if told is None and held and self.still_fails(held, answer):
            return False
        return self.tried(held, answer) if told is None else told

    def still_fails(self, held: Held, answer: str) -> bool:
        """Tell whether a rule for which an answer loses marks fails it all the same."""
        return still_fails(self.seen(held), self.stake(answer), excuses=_excuses(held))

    def _truth(self, held: Held) -> tuple[Any, ...] | None:
        return truth_of(self.seen(held))

    def tried(self, held: Held, answer: str) -> bool:
        """Mark an answer by the rules as somebody takes them."""
        bundle = self.seen(held)
        result = marked_answer(bundle, json.loads(answer)) if held else self._plain(answer)
        if result.score <= 0.0:
            return False
        return all(_passed_over(held, bundle, result, one) for one in result.criteria if not one.met)

    def _stake(self, answer: str) -> Stake:
        return stake_of(self.bundle, self._plain(answer), right=self._right(NOTHING, answer))

    def _plain(self, answer: str) -> Result:
        """Return an answer's mark by the rules as they are."""
        return self._known.get(answer) or self._keep(answer, marked_answer(self.bundle, json.loads(answer)))

    def _keep(self, answer: str, result: Result) -> Result:
        if len(self._known) >= MOST:
            self._known.clear()
        self._known[answer] = result
        return result


def _excuses(held: Held) -> frozenset[str]:
    return frozenset(library()[name].excuses for name in held if library()[name].excuses)


def _passed_over(held: Held, bundle: Bundle, result: Result, one: Criterion) -> bool:
    """Tell whether a criterion that is not met does not count against somebody who thinks so."""
    rule = next(rule for rule in bundle.criteria if rule.id == one.id)
    if rule.check in ECONOMY or one.waits:
        return True
    failed = [f for f in result.verdict.failures if f.rule in rule.rules] if result.verdict else []
    return bool(failed) and all(excused(_excuses(held), finding, result.case) for finding in failed)


def _apply(one: Misconception, pack: dict[str, Any], case: dict[str, Any]) -> None:
    """Change pack and case as a misconception does; what a pack does not state is not changed."""
    clause = pack["zones"][0]["clause"] if pack["zones"] else ""
    for zone in one.zones if clause else ():
        pack["zones"].append({"clause": clause, "reason": one.words, **zone})
    for path, value in one.set.items():
        for table, key in _place(pack, path):
            table[key] = value
    for path in one.drop:
        for table, key in _place(pack, path):
            table.pop(key, None)
    known = {name: value for name, value in one.readings.items() if name in pack.get("readings", {})}
    case["readings"] = {**case.get("readings", {}), **known}
    if one.change:
        CHANGES[one.change](pack, case)


def _place(pack: dict[str, Any], path: str) -> Iterator[tuple[dict[str, Any], str]]:
    *above, key = path.split(".")
    table: Any = pack
    for name in above:
        table = table.get(name) if isinstance(table, dict) else None
    if isinstance(table, dict):
        yield table, key
