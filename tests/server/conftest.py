"""Rooms for the server's tests."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.server.room import Room, laid_out, opened_room, plan
from zonelib.desk.server.store import FILE


@pytest.fixture(scope="session")
def pattern(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, str]]:
    """Return a database with an open quiz of half an hour, to be copied, and its codes."""
    folder = tmp_path_factory.mktemp("pattern")
    return folder / FILE, laid_out(folder, plan())


@pytest.fixture
def room(tmp_path: Path, pattern: tuple[Path, dict[str, str]]) -> Iterator[Room]:
    """Return a room with an open quiz of half an hour."""
    shutil.copy(pattern[0], tmp_path / FILE)
    with opened_room(tmp_path, plan(), codes=pattern[1]) as opened:
        yield opened
