"""Put something into the output of a notebook's cell."""

from typing import Any

from IPython.display import display

__all__ = ["show"]


def show(data: dict[str, Any], *, as_id: str | None = None, update: bool = False) -> None:
    """Show data by MIME type; under an id it can be brought up to date later."""
    named = {"display_id": as_id, "update": update} if as_id else {}
    display(data, raw=True, **named)  # type: ignore[no-untyped-call]  # IPython does not type it
