"""How a choice is marked."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import count

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.criteria import Outcome, decide, withheld
from zonelib.exercise.kind import Judged
from zonelib.exercise.kinds.choose.answer import ChooseAnswer
from zonelib.exercise.kinds.choose.fitting import ChooseFacts
from zonelib.exercise.kinds.choose.option import Option
from zonelib.exercise.kinds.choose.options import all_options, offered, shuffled
from zonelib.exercise.kinds.choose.task import ChooseTask
from zonelib.exercise.told import Message, capital
from zonelib.rules.words import listed

__all__ = ["CHECKS", "Ticked", "choices", "mark", "ticked"]


@dataclass(frozen=True)
class Ticked:
    """Choices as they were ticked.

    Attributes
    ----------
    hits, strays, missed : tuple of Option
        Ticked and right, ticked and not right, right and not ticked.
    others : int
        How many choices are not right.
    pick : str
        Whether one or several are to be ticked.
    """

    hits: tuple[Option, ...]
    strays: tuple[Option, ...]
    missed: tuple[Option, ...]
    others: int
    pick: str


def choices(bundle: Bundle) -> tuple[Option, ...]:
    """Return the choices as they are shown, in their frozen order."""
    return bundle.once(_choices)


def _choices(bundle: Bundle) -> tuple[Option, ...]:
    return shuffled(bundle.once(_offered), bundle.facts_as(ChooseFacts).seed)


def _offered(bundle: Bundle) -> tuple[Option, ...]:
    task = bundle.exercise.task_as(ChooseTask)
    verdict = None if task.ask == "own" else bundle.verdict
    return offered(all_options(bundle.case, bundle.pack, task, verdict=verdict), task)


def mark(bundle: Bundle, answer: ChooseAnswer) -> Judged:
    """Compare what is ticked with what is right, then decide each criterion."""
    seen = ticked(bundle, answer)
    if flaw := _flaw(bundle, answer):
        return Judged(
            withheld(bundle.criteria, flaw, check="", until=flaw), (Message(0, "Not a choice here", flaw),)
        )
    criteria = decide(bundle.criteria, lambda rule: CHECKS[rule.check or "chosen"](seen))
    return Judged(criteria, tuple(_messages(bundle, seen)))


def ticked(bundle: Bundle, answer: ChooseAnswer) -> Ticked:
    """Return the choices as an answer ticked them."""
    options, chosen = choices(bundle), set(answer.chosen)
    return Ticked(
        tuple(one for one in options if one.right and one.id in chosen),
        tuple(one for one in options if not one.right and one.id in chosen),
        tuple(one for one in options if one.right and one.id not in chosen),
        len([one for one in options if not one.right]),
        bundle.exercise.task_as(ChooseTask).pick,
    )


def _flaw(bundle: Bundle, answer: ChooseAnswer) -> str:
    """Return why an answer is none to this question, or ""."""
    known = [one.id for one in choices(bundle)]
    strange = [one for one in answer.chosen if one not in known]
    if strange:
        return f'"{strange[0]}" is not among the choices. Choose from: {", ".join(known)}.'
    ticks = len(set(answer.chosen))
    if bundle.exercise.task_as(ChooseTask).pick == "one" and ticks > 1:
        return f"{ticks} are ticked. Tick one."
    return ""


def _chosen(seen: Ticked) -> Outcome:
    right = len(seen.hits) + len(seen.missed)
    share = max(0.0, len(seen.hits) / right - len(seen.strays) / seen.others)
    if seen.pick == "one":
        share = float(bool(seen.hits))
    return share, _counted(seen, right)


def _counted(seen: Ticked, right: int) -> str:
    if not seen.strays and not seen.missed:
        return "; ".join(f"{one.id}: {one.short}" for one in seen.hits)
    strays, hits = [one.id for one in seen.strays], len(seen.hits)
    verb = "are" if len(strays) > 1 else "is"
    parts = (
        [] if seen.pick == "one" else [f"{hits} of {right} right ones {'is' if hits == 1 else 'are'} ticked"]
    )
    parts += [f"{listed(strays)} {verb} ticked and {verb} not right"] if strays else []
    return "; ".join(parts)


CHECKS: dict[str, Callable[[Ticked], Outcome]] = {"chosen": _chosen}


def _messages(bundle: Bundle, seen: Ticked) -> Iterator[Message]:
    """Yield why each stray is none, numbered as on the picture.

    Of what is missed it is only told how much there is, so that it is still to be found.
    """
    order = [one.id for one in bundle.once(_offered)]
    numbers = count(1)
    for one in sorted(seen.strays, key=lambda stray: order.index(stray.id)):
        for finding in one.findings:
            yield Message(next(numbers), f"{one.id}: {finding.reason}", finding.text, finding.rule)
        if not one.findings:
            named = one.words.startswith(one.id)
            told = capital(one.why) if named else f'Ticked: "{one.words}" {capital(one.why)}'
            yield Message(0, f"{one.id} is not right", told)
    if seen.missed and seen.pick == "several":
        left = len(seen.missed)
        yield Message(
            0, f"{left} more to find", "Go through the choices that are not ticked, one rule at a time."
        )
    source = bundle.exercise.task_as(ChooseTask).source
    if source and (seen.strays or seen.missed):
        yield Message(0, "Where this stands", f"The answer rests on {source}")
