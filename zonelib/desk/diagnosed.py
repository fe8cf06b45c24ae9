"""What a trainee's answers show to be misunderstood, for feedback page and findings; no mark changes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from typing import Any

from zonelib.coach.diagnosis.ideas import diagnosed, idea_words
from zonelib.coach.diagnosis.misconception import Misconception
from zonelib.desk.marked import Marked
from zonelib.desk.plain import plain
from zonelib.site.tolerance import below

__all__ = ["Idea", "idea_of", "ideas_html", "with_ideas"]


@dataclass(frozen=True)
class Idea:
    """A misconception, and the rows whose answers would be right under it."""

    misconception: Misconception
    rows: tuple[Marked, ...]


def idea_of(rows: Sequence[Marked]) -> Idea | None:
    """Return the one misconception that explains a trainee's answers, or None.

    Where no answer lost marks nothing is looked at, so that right answers cost nothing.
    """
    judged = [one for one in rows if one.result.status == "marked"]
    if not any(below(one.result.score, one.result.points) for one in judged):
        return None
    try:
        found = diagnosed((one.bundle, one.result) for one in judged)
    except Exception:  # noqa: BLE001 - what may be misunderstood must cost nobody the mark
        return None
    if len(found.found) != 1 or not found.explained:
        return None
    return Idea(found.found[0], tuple(judged[at] for at in found.explained))


def ideas_html(idea: Idea | None) -> str:
    """Return the idea for the feedback page, or ""."""
    if idea is None:
        return ""
    words = idea_words(idea.misconception, answers=len(idea.rows))
    titles = "; ".join(plain(one.bundle.exercise.title) for one in idea.rows)
    return (
        f'<div class="idea"><p>{escape(words)}</p>'
        f"<p>It shows in: {escape(titles)}. Your marks do not change by this.</p></div>"
    )


def with_ideas(idea: Idea | None) -> Iterator[dict[str, Any]]:
    """Yield what the findings say of it: a line for each answer that it explains."""
    for one in idea.rows if idea else ():
        yield {
            "trainee": plain(one.trainee), "assignment": one.assignment, "exercise": one.exercise,
            "bundle": one.bundle.hash, "edition": one.bundle.pack.stated_edition,
            "status": one.result.status, "misconception": idea.misconception.id if idea else "",
        }  # fmt: skip
