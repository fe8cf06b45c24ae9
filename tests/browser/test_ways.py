"""Each kind of exercise in JupyterLab by touch, by keyboard alone, and by fields alone."""

import pytest

from tests.browser.desk import Desk
from tests.browser.drawn_turns import DRAWN
from tests.browser.formed_turns import FORMED
from tests.browser.turns import Turn

pytestmark = pytest.mark.browser
TURNS = [*DRAWN, *FORMED]
BESIDE_TOUCH = [(turn, name) for turn in TURNS for name in turn.ways() if name in ("keys", "numbers")]


@pytest.mark.parametrize("turn", TURNS, ids=lambda turn: turn.exercise)
def test_by_touch(phone: Desk, turn: Turn) -> None:
    turn.touch.act(phone.open(turn.exercise))
    assert phone.wait_for(turn.exercise, turn.touch.fits)


@pytest.mark.parametrize(
    ("turn", "name"), BESIDE_TOUCH, ids=lambda one: one if isinstance(one, str) else one.exercise
)
def test_without_pointing(desk: Desk, turn: Turn, name: str) -> None:
    way = turn.ways()[name]
    way.act(desk.open(turn.exercise))
    assert desk.wait_for(turn.exercise, way.fits)
