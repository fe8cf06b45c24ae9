"""What a look at a computer gives, and what of the computer is looked at."""

import os
import platform
import sys
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

__all__ = ["Computer", "Sign"]


@dataclass(frozen=True)
class Sign:
    """One thing that was looked at.

    Attributes
    ----------
    name : str
        What it is.
    found : str
        What was found.
    remedy : str
        What to do about it; "" where it is in order.
    """

    name: str
    found: str
    remedy: str = ""

    @property
    def well(self) -> bool:
        """Whether nothing has to be done."""
        return not self.remedy


@dataclass(frozen=True)
class Computer:
    """The computer as the checks see it; a test can hand in another one.

    Attributes
    ----------
    folder : Path
        Where the workbook is to be used.
    system : str
        As `platform.system` names it.
    python : tuple of int
        Version of the interpreter.
    settings : mapping of str to str
        Environment variables.
    program : str
        Path of the interpreter.
    """

    folder: Path = field(default_factory=Path.cwd)
    system: str = field(default_factory=platform.system)
    python: tuple[int, ...] = sys.version_info[:3]
    settings: Mapping[str, str] = field(default_factory=lambda: dict(os.environ))
    program: str = sys.executable
