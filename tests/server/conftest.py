"""Rooms for the server's tests."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.server.room import Room, opened_room, plan


@pytest.fixture
def room(tmp_path: Path) -> Iterator[Room]:
    """Return a room with an open quiz of half an hour."""
    with opened_room(tmp_path, plan()) as opened:
        yield opened
