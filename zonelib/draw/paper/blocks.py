"""What a sheet is made of."""

from collections.abc import Callable
from dataclasses import dataclass

from zonelib.draw.scene import Scene

__all__ = ["Block", "Form", "Plan", "Sheet", "Words"]


@dataclass(frozen=True)
class Words:
    """A paragraph.

    Attributes
    ----------
    text : str
        What it says, without line breaks.
    size : float
        Of its letters [pt].
    bold : bool
        Whether it is set bold; a bold one stays with what follows.
    """

    text: str
    size: float = 9.5
    bold: bool = False


@dataclass(frozen=True)
class Plan:
    """A drawing to scale.

    Attributes
    ----------
    build : callable
        Return the scene. It is built anew for each scale that is tried, so that its text can be read.
    grid : bool
        Whether to lay a grid over it, to measure by.
    """

    build: Callable[[], Scene]
    grid: bool = False


@dataclass(frozen=True)
class Form:
    """A table to be filled in, or filled in.

    Attributes
    ----------
    head : tuple of str
        Words over its columns.
    rows : tuple of tuple of str
        Each as many as `head`; "" leaves room to write.
    shares : tuple of float
        Widths of the columns, beside each other.
    """

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    shares: tuple[float, ...]


Block = Words | Plan | Form


@dataclass(frozen=True)
class Sheet:
    """What is printed together, from a new page.

    Attributes
    ----------
    title : str
        Heading of each of its pages.
    holder : str
        Who it is for, such as a candidate number; "" leaves a line to write on.
    foot : str
        What stands at the foot of each page.
    blocks : tuple of Block
        From top to bottom.
    """

    title: str
    holder: str
    foot: str
    blocks: tuple[Block, ...]
