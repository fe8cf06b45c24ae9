"""When a quiz ends, on the server and in a notebook: from what is stored, by arithmetic alone."""

import time
from collections.abc import Iterable
from dataclasses import dataclass

__all__ = ["GRACE", "Span", "Times", "paused", "steady", "times"]

GRACE = 5.0
"""How long after the end an answer on its way is still taken [s]."""

Span = tuple[float, float | None]
"""A pause: when it began, and when it ended; None while it lasts."""


def steady() -> float:
    """Return seconds that count on while the machine sleeps, and that nobody can set."""
    sleeping = getattr(time, "CLOCK_BOOTTIME", None)  # Linux alone has it; elsewhere the date has to do
    return time.time() if sleeping is None else time.clock_gettime(sleeping)


@dataclass(frozen=True)
class Times:
    """How a seat stands in time.

    Attributes
    ----------
    started_at, ends_at : float or None
        None before the start; `ends_at` also where there is no limit. While paused it moves on with the time.
    left : float or None
        Time left [s]; 0 once it is over.
    paused_at : float or None
        Since when the clock stands; None while it runs.
    """

    started_at: float | None
    ends_at: float | None
    left: float | None
    paused_at: float | None

    @property
    def is_paused(self) -> bool:
        """Whether the clock stands."""
        return self.paused_at is not None

    def over(self, now: float, *, grace: float = 0.0) -> bool:
        """Tell whether the time is over."""
        return self.ends_at is not None and not self.is_paused and now > self.ends_at + grace


def paused(spans: Iterable[Span], start: float, now: float) -> float:
    """Return how long pauses lasted between two times; where two overlap, that time counts once [s].

    >>> paused([(10, 20), (15, 30), (40, None)], 12, 50)
    28.0
    """
    total, reached = 0.0, start
    for begins, ends in sorted(spans, key=lambda span: span[0]):
        until = now if ends is None else min(ends, now)
        if until > max(begins, reached):
            total += until - max(begins, reached)
            reached = until
    return total


def times(
    seconds: float | None, extra: float, *, started_at: float | None, pauses: Iterable[Span], now: float
) -> Times:
    """Return how a seat stands in time.

    Parameters
    ----------
    seconds, extra : float
        What everyone has, and what this seat has beside it [s]; `seconds` None for no limit.
    started_at : float or None
        When the seat began.
    pauses : iterable
        Of the whole sitting and of this seat.
    now : float
        The server's time.
    """
    spans = list(pauses)
    standing = min((begins for begins, ends in spans if ends is None), default=None)
    if seconds is None:
        return Times(started_at, None, None, standing)
    if started_at is None:
        return Times(None, None, seconds + extra, standing)
    ends_at = started_at + seconds + extra + paused(spans, started_at, now)
    return Times(started_at, ends_at, max(ends_at - now, 0.0), standing)
