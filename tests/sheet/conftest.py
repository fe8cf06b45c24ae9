"""A folder with one exercise, as a trainee has it."""

from collections.abc import Callable
from pathlib import Path

import pytest

from zonelib.exercise import Bundle, bank_path, freeze, read_exercise
from zonelib.exercise.model import Exercise
from zonelib.sheet import Sheet


@pytest.fixture(scope="session")
def exercise() -> Exercise:
    return read_exercise(bank_path("kitchen-hatch"))


@pytest.fixture(scope="session")
def bundle(exercise: Exercise) -> Bundle:
    return freeze(exercise)


@pytest.fixture
def folder(tmp_path: Path, bundle: Bundle) -> Path:
    bundle.write(tmp_path)
    return tmp_path


@pytest.fixture
def sheet(folder: Path) -> Callable[[], Sheet]:
    """Return a function that opens the sheet, as running its cell does."""
    return lambda: Sheet("kitchen-hatch", folder=folder)
