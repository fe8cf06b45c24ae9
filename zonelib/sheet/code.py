"""The pad's page script and style: parts that lie in one folder, joined into one text each."""

from pathlib import Path

__all__ = ["pad_code", "pad_style"]

PARTS = Path(__file__).parent / "static" / "pad"


def pad_code() -> str:
    """Return the pad as one ES module.

    A notebook imports it from an address of its own, where no import resolves: so the parts share one scope.
    """
    return _joined("js")


def pad_style() -> str:
    """Return the pad's style sheet."""
    return _joined("css")


def _joined(ending: str) -> str:
    """Return all parts with an ending, in the order of their names."""
    return "\n".join(part.read_text(encoding="utf-8") for part in sorted(PARTS.glob(f"*.{ending}")))
