"""What a live picture says beside itself: each rule that looked at it, met or not, with its reason."""

import tomllib
from collections.abc import Iterable, Iterator
from functools import cache
from html import escape
from importlib import resources

from zonelib.rules.finding import Finding
from zonelib.rules.words import leg_words

__all__ = ["as_html", "as_text", "lines"]

Line = tuple[str, str]
"""Status, and words."""

STATE = {"fail": "not met", "caution": "take care", "pass": "met", "not-applicable": "not asked"}
"""What each status is called, in the order in which lines stand."""


@cache
def _names() -> dict[str, str]:
    """Return what each rule is called in a lesson."""
    text = resources.files("zonelib.sheet.lesson").joinpath("rules.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def lines(findings: Iterable[Finding], rules: Iterable[str] = ()) -> list[Line]:
    """Return each finding as status and words, failures first.

    What does not apply is told only of rules that are asked for by name.

    Parameters
    ----------
    findings : iterable of Finding
        What the engine found.
    rules : iterable of str
        Rules to tell of; by default all.
    """
    wanted = set(rules)
    counted = [one for one in findings if _counts(one, wanted)]
    several = len({one.subject for one in counted if not one.where.joist}) > 1
    told = [(one.status, _words(one, several=several)) for one in counted]
    return sorted(dict.fromkeys(told), key=lambda line: list(STATE).index(line[0]))


def _counts(finding: Finding, wanted: set[str]) -> bool:
    return finding.rule in wanted if wanted else finding.status != "not-applicable"


def _words(finding: Finding, *, several: bool) -> str:
    name = _names()[finding.rule]
    if finding.rule == "fixing":  # nothing is met or not: it tells what to expect behind a place
        return f"{name} {finding.subject}: {finding.reason}."
    whose = [finding.subject] if several and not finding.where.joist else []
    return f"{', '.join([name, *whose, *_place(finding)])} – {STATE[finding.status]}: {finding.reason}."


def _place(finding: Finding) -> Iterator[str]:
    where = finding.where
    if where.room and where.wall:
        yield f"wall {where.wall}"
    if finding.rule in ("wall-zone", "wall-edge") and where.face:
        yield f"{where.face} face"
    if finding.status == "fail" and where.legs and finding.rule.startswith("chase"):
        yield leg_words(where.legs)
    if where.joist and finding.subject != where.joist:
        yield finding.subject


def as_text(told: Iterable[Line]) -> str:
    """Return the lines as plain text."""
    return " ".join(words for _, words in told) or "No rule asks for anything here."


def as_html(told: Iterable[Line]) -> str:
    """Return the lines as a list."""
    items = "".join(f'<li class="zl-{status}">{escape(words)}</li>' for status, words in told)
    return f"<ul>{items}</ul>" if items else f"<p>{as_text(())}</p>"
