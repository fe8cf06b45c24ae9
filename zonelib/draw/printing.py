"""How large text is drawn: by what suits a screen, or so that it can be read at a printed scale."""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

__all__ = ["EM_PX", "large_text", "printed_at", "text_scale"]

EM_PX = 13.0
"""Text size at real size [CSS px]."""

PRINTED_EM = 2.75
"""Text size on paper [mm]."""

LARGE = 1.25
"""So many times as large as usual is large text."""

_LARGER: ContextVar[float] = ContextVar("larger text", default=1.0)
_PRINTED: ContextVar[float | None] = ContextVar("printed scale", default=None)


@contextmanager
def printed_at(scale: float) -> Iterator[None]:
    """Build scenes whose text can be read when they are printed.

    Parameters
    ----------
    scale : float
        Millimetres of wall to one of paper, such as 20.
    """
    token = _PRINTED.set(scale)
    try:
        yield
    finally:
        _PRINTED.reset(token)


@contextmanager
def large_text() -> Iterator[None]:
    """Build scenes whose text can be read on a phone, and where they take a part of a printed page."""
    token = _LARGER.set(LARGE)
    try:
        yield
    finally:
        _LARGER.reset(token)


def text_scale(usual: float) -> float:
    """Return how many millimetres of wall one CSS pixel of text covers: `usual`, unless it is printed."""
    printed = _PRINTED.get()
    return usual * _LARGER.get() if printed is None else PRINTED_EM * printed / EM_PX
