"""Late work: a rule stated in words, and what it takes off a mark."""

import math
import re
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from zonelib.exercise.messages import marks
from zonelib.site.faults import Fault, FileFault

__all__ = ["LateRule", "read_late_rule", "read_time"]

RULE = re.compile(
    r"(?P<share>\d{1,3}(?:\.\d+)?) ?%(?: (?:per|each|a) (?P<step>hour|day|week))?"
    r"(?:,? at most (?P<most>\d{1,3}(?:\.\d+)?) ?%)?"
    r"(?:,? after (?P<grace>\d{1,4}) (?P<unit>minute|hour|day)s?)?"
)
STEPS = {"hour": timedelta(hours=1), "day": timedelta(days=1), "week": timedelta(weeks=1)}
UNITS = {"minute": timedelta(minutes=1), "hour": timedelta(hours=1), "day": timedelta(days=1)}
ALLOWED = 'such as "10% per day, at most 50%", "20%", or "5% per hour, at most 100%, after 30 minutes"'
WHOLE = 100.0


@dataclass(frozen=True)
class LateRule:
    """What late work loses.

    Attributes
    ----------
    due : datetime
        When it had to be in.
    share, most : float
        Part of the marks earned that each step takes off, and all steps at most, from 0 to 1.
    step : timedelta or None
        How long a step is; one that has begun counts. None takes `share` once.
    grace : timedelta
        How long after `due` nothing is taken off.
    words : str
        The rule as it was given.
    """

    due: datetime
    share: float = 0.0
    most: float = 1.0
    step: timedelta | None = None
    grace: timedelta = timedelta(0)
    words: str = ""

    def judge(self, handed_in: str, score: float) -> tuple[float, str]:
        """Return what is taken off a score, and the words for it; ``0.0`` and "" for work in time."""
        when = time_in(handed_in)
        if when is None:
            told = "There is no time of handing in that can be read, so nothing is taken off for lateness."
            return 0.0, told
        late = when - self.due
        if late <= timedelta(0):
            return 0.0, ""
        if late <= self.grace:
            return 0.0, f"Handed in {_length(late)} late; nothing is taken off for that."
        part = self._part(late)
        off = round(score * part, 4)
        if not off:
            return 0.0, f"Handed in {_length(late)} late."
        return off, f"Handed in {_length(late)} late: {part * WHOLE:g}% of {marks(score)} is taken off."

    def _part(self, late: timedelta) -> float:
        steps = math.ceil(late / self.step) if self.step else 1
        return min(self.share * steps, self.most)


def _length(late: timedelta) -> str:
    """Return a span of time in its two largest units, such as ``1 day 3 h``."""
    minutes = max(math.ceil(late.total_seconds() / 60), 1)
    days, hours = divmod(minutes // 60, 24)
    parts = [f"{days} day{'s' if days > 1 else ''}" if days else "", f"{hours} h" if hours else ""]
    parts.append("" if days else f"{minutes % 60} min" if minutes % 60 else "")
    return " ".join(filter(None, parts))


def read_time(text: str, *, name: str = "--due") -> datetime:
    """Read a time such as ``2026-11-27 17:00``; without an offset it counts as UTC.

    Raises
    ------
    FileFault
        If it is none.
    """
    when = time_in(text)
    if when is None:
        allowed = "a date and a time, such as 2026-11-27 17:00 or 2026-11-27T17:00+01:00"
        raise FileFault("the command", [Fault(name, f'"{text[:40]}"', allowed)])
    return when


def time_in(text: str) -> datetime | None:
    """Return the time that a text tells, in UTC unless it says otherwise, or None."""
    plain, zone = _split(text.strip())
    try:
        when = datetime.fromisoformat(plain)
        stated = when.tzinfo or (ZoneInfo(zone) if zone else UTC)
        return when.replace(tzinfo=stated).astimezone(UTC)
    except (ValueError, OverflowError, OSError):
        return None


def _split(text: str) -> tuple[str, str]:
    """Part date and time from the name of a time zone, as nbgrader writes it."""
    named = re.search(r" ([A-Za-z][A-Za-z0-9_+\-/]*)$", text)
    return (text[: named.start()], named[1]) if named else (text, "")


def read_late_rule(due: str, rule: str) -> LateRule:
    """Read when work is due and what late work loses; an empty rule takes nothing off, but tells.

    Raises
    ------
    FileFault
        If either cannot be read.
    """
    when = read_time(due)
    if not rule.strip():
        return LateRule(when)
    found = RULE.fullmatch(" ".join(rule.lower().split()))
    if not found or not 0 < float(found["share"]) <= WHOLE or float(found["most"] or WHOLE) > WHOLE:
        raise FileFault("the command", [Fault("--late", f'"{rule[:60]}"', ALLOWED)])
    grace = int(found["grace"] or 0) * UNITS[found["unit"] or "minute"]
    share, most = float(found["share"]) / WHOLE, float(found["most"] or WHOLE) / WHOLE
    return LateRule(when, share, most, STEPS.get(found["step"] or ""), grace, rule.strip())
