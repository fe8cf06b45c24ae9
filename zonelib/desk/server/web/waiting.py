"""What waits while a transaction runs goes into the next one together."""

import asyncio
from collections.abc import Callable, Sequence
from concurrent.futures import Executor
from typing import Generic, TypeVar

from sqlalchemy.exc import OperationalError

__all__ = ["Waiting"]

W = TypeVar("W")
T = TypeVar("T")

MOST = 64
"""How many go together: a transaction must not grow so long that its first one is told late."""


class Waiting(Generic[W, T]):
    """A line of wishes, carried out one group after the other.

    Parameters
    ----------
    carry_out : callable
        Carries out a group, away from the loop, and returns what to tell each.
    hands : concurrent.futures.Executor
        Who does it.
    """

    def __init__(self, carry_out: Callable[[Sequence[W]], Sequence[T]], hands: Executor) -> None:
        self._carry_out, self._hands = carry_out, hands
        self._line: list[tuple[W, asyncio.Future[T]]] = []
        self._working: asyncio.Task[None] | None = None

    async def ask(self, wish: W) -> T:
        """Wait for a wish to be carried out; it fails with what it fails with."""
        told: asyncio.Future[T] = asyncio.get_running_loop().create_future()
        self._line.append((wish, told))
        if self._working is None:
            self._working = asyncio.create_task(self._work())
        return await told

    async def _work(self) -> None:
        while self._line:
            group, self._line = self._line[:MOST], self._line[MOST:]
            await self._tell(group)
        self._working = None

    async def _tell(self, group: Sequence[tuple[W, asyncio.Future[T]]]) -> None:
        loop, wishes = asyncio.get_running_loop(), [wish for wish, _ in group]
        try:
            told = await loop.run_in_executor(self._hands, self._carry_out, wishes)
        except Exception as error:  # noqa: BLE001  whatever it is, nobody may wait for ever
            await self._after(error, group)
            return
        for (_, future), one in zip(group, told, strict=True):
            if not future.done():  # who has gone away no longer waits
                future.set_result(one)

    async def _after(self, error: Exception, group: Sequence[tuple[W, asyncio.Future[T]]]) -> None:
        """Try each of a group alone, so that a wish that cannot be carried out harms no other."""
        if len(group) > 1 and not isinstance(error, OperationalError):  # that is the database's own trouble
            for one in group:
                await self._tell([one])
            return
        for _, future in group:
            if not future.done():
                future.set_exception(error)
