"""How the choices for a given route are marked."""

from collections.abc import Callable

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.cabling.cabling import Cabling, outside_offer
from zonelib.exercise.criteria import Outcome, decide, withheld
from zonelib.exercise.kind import Judged
from zonelib.exercise.kinds.protect.answer import ProtectAnswer
from zonelib.exercise.kinds.protect.task import ProtectTask
from zonelib.exercise.told import told
from zonelib.rules.words import leg_words

__all__ = ["CHECKS", "mark"]

UNTIL = "This counts once every choice is one that can be made here."


def mark(bundle: Bundle, answer: ProtectAnswer) -> Judged:
    """Judge the given route with the trainee's choices, then decide each criterion."""
    task = bundle.exercise.task_as(ProtectTask)
    run = Cabling(task, bundle.case_with(routes=[task.case_route(answer)]), bundle.pack)
    if flaw := _flaw(bundle, answer, run):
        criteria = withheld(bundle.criteria, flaw, check="", until=UNTIL)
    else:
        criteria = decide(
            bundle.criteria, lambda rule: CHECKS[rule.check](run) if rule.check else run.in_order(rule)
        )
    return Judged(criteria, told(criteria, run.verdict), run.case, run.verdict)


def _flaw(bundle: Bundle, answer: ProtectAnswer, run: Cabling) -> str:
    """Return why an answer counts for nothing but its flaw, or "".

    An answer that leaves all as it is given does no work: where that does not pass, it earns nothing for
    the rules that happened to hold before.
    """
    for finding in run.failed(("depth-in-wall",)):
        return finding.text
    task = bundle.exercise.task_as(ProtectTask)
    if beyond := outside_offer(task, bundle.pack, depth=answer.depth, protection=answer.protection):
        return beyond
    given = bundle.case_with(routes=[task.case_route()]).routes[0]
    if run.route == given and not run.verdict.passed:
        return f"All is left as it was given, and so it does not pass: {run.verdict.failures[0].reason}."
    return ""


def _covering(run: Cabling) -> Outcome:
    """Judge whether each covered run fails without its covering."""
    covered, needless = run.needless()
    if not covered:
        return 1.0, "No covering is used beyond what was given."
    if needless:
        return 0.0, f"Without a covering, {leg_words(needless)} would pass as well, given an RCD that counts."
    return 1.0, "Each covering stands where no zone serves."


CHECKS: dict[str, Callable[[Cabling], Outcome]] = {"covering": _covering}
