"""The kinds of exercises as the pad answers them, found by name."""

from functools import cache
from importlib import import_module

from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds import NAMES, kind_named
from zonelib.sheet.kinds.base import PadKind
from zonelib.sheet.trouble import SheetTrouble
from zonelib.sheet.words import say

__all__ = ["pad_for", "pad_kind"]


@cache
def pad_kind(name: str) -> PadKind:
    """Return how a kind of exercise is answered on the pad: the ``PAD`` of a module beside this file.

    Raises
    ------
    KeyError
        If there is no pad for that kind.
    """
    if name not in NAMES or not kind_named(name).pad:
        raise KeyError(name)
    pad = import_module(f"{__name__}.{name}").PAD
    if not isinstance(pad, PadKind):
        raise TypeError(f"{__name__}.{name} holds no PadKind")
    return pad


def pad_for(bundle: Bundle) -> PadKind:
    """Return how an exercise is answered on the pad.

    Raises
    ------
    SheetTrouble
        If there is no pad for it.
    """
    kind = bundle.kind
    beyond = kind.beyond_pad(bundle.exercise) if kind.pad else ""
    if beyond or not kind.pad:
        raise SheetTrouble(say("no-pad", kind=kind.name, beyond=beyond))
    return pad_kind(kind.name)
