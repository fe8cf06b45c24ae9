"""Change a cable along a joist: down its side, along its span, or in a covering."""

from collections.abc import Iterator

from zonelib.coach.remedies.covering import counting
from zonelib.coach.remedies.remedy import Advice, Impossible, Remedy
from zonelib.coach.remedies.saying import covering_words, put_words, say
from zonelib.coach.remedies.task import Task
from zonelib.rules.words import mm
from zonelib.site.timber import Run

__all__ = ["along_side", "cover_run", "keep_on_joist"]


def _run(task: Task) -> Run:
    return next(one for one in task.case.runs if one.id == task.finding.subject)


def along_side(task: Task) -> Iterator[Advice]:
    """Yield the cable clipped to the joist's side, as far from the edges that are nailed as it must be."""
    run, limits, joist = _run(task), task.pack.joists, task.joist
    if limits is None:
        return
    cover, height = limits.run_cover or limits.cover, _height(task, run)
    for below_top in (cover, joist.depth - cover - height, (joist.depth - height) / 2):
        new = run.model_copy(update={"place": "side", "below_top": below_top, "above_bottom": None})
        words = say("along-side", run=run.id, joist=joist.id, below=mm(below_top))
        yield Remedy("along-side", words, say("along-side-cost"), task.with_run(new))
    if 2 * cover + height > joist.depth:
        facts = {"cover": mm(cover), "needed": mm(2 * cover + height), "depth": mm(joist.depth)}
        yield Impossible("along-side", say("no-side", **facts))


def _height(task: Task, run: Run) -> float:
    usual = task.pack.protections[run.protection].outer
    return run.cable.width if usual is None else run.outer or usual


def cover_run(task: Task) -> Iterator[Advice]:
    """Yield the cable in each covering that counts."""
    run = _run(task)
    for name in counting(task):
        words = say("cover-run", run=run.id, covering=task.pack.protections[name].words, **put_words(name))
        case = task.with_run(run.model_copy(update={"protection": name}))
        yield Remedy("choose-covering", words, covering_words(name)["cost"], case)


def keep_on_joist(task: Task) -> Iterator[Advice]:
    """Yield the cable ended where its joist ends."""
    run, span = _run(task), task.joist.span
    start, end = max(run.start or 0.0, 0.0), min(span if run.end is None else run.end, span)
    if start < end:
        new = run.model_copy(update={"start": start, "end": end})
        words = say("on-joist", run=run.id, start=mm(start), end=mm(end))
        yield Remedy("keep-on-joist", words, say("cable-same"), task.with_run(new))
