"""The server's clock: it runs on steadily whatever is done to the machine's date, and never runs back."""

import time
from collections.abc import Callable

from zonelib.sheet.timing import steady

__all__ = ["Clock"]

DRIFT = 1.0
"""What a clock may drift between two looks without anyone having set it [s]."""


class Clock:
    """Time in seconds since 1970, read once and then counted.

    Parameters
    ----------
    reference : callable
        Returns the time that all servers share: of the database, or of this machine.
    floor : float
        The latest time any server of this database is known to have lived at; time does not start before it.
    count : callable
        Returns steady seconds.
    """

    def __init__(
        self,
        reference: Callable[[], float] = time.time,
        *,
        floor: float = 0.0,
        count: Callable[[], float] = steady,
    ) -> None:
        self._reference, self._count = reference, count
        now = reference()
        self.behind = max(floor - now, 0.0)
        self._base, self._from = max(now, floor), count()
        self._last, self._apart = self._base, now - self._base

    def __call__(self) -> float:
        """Return the time; never less than the time before."""
        self._last = max(self._last, self._base + self._count() - self._from)
        return self._last

    def look(self) -> float:
        """Compare with the shared time, follow its drift, and return how far it was newly set apart [s]."""
        now, shared = self(), self._reference()
        apart = shared - now
        if abs(apart) > DRIFT:
            news, self._apart = abs(apart - self._apart) > DRIFT, apart
            return apart if news else 0.0
        self._base, self._from, self._apart = shared, self._count(), 0.0
        return 0.0
