"""Each kind of exercise in JupyterLab by touch, by keys alone and by fields alone; there again later."""

import pytest
from playwright.sync_api import Page

from tests.browser.desk import Desk
from tests.browser.drawn_turns import DRAWN
from tests.browser.driving import restart_kernel, saved_words
from tests.browser.formed_turns import FORMED
from tests.browser.turns import Turn, Way

pytestmark = pytest.mark.browser
TURNS = [*DRAWN, *FORMED]
BY_FIELDS = [(turn, turn.numbers) for turn in TURNS if turn.numbers]


@pytest.mark.parametrize("turn", TURNS, ids=lambda turn: turn.exercise)
def test_by_touch(phone: Desk, turn: Turn) -> None:
    turn.touch.act(phone.open(turn.exercise))
    assert phone.wait_for(turn.exercise, turn.touch.fits)


@pytest.mark.parametrize(("turn", "way"), BY_FIELDS, ids=lambda one: getattr(one, "exercise", "numbers"))
def test_by_fields_alone(desk: Desk, turn: Turn, way: Way) -> None:
    way.act(desk.open(turn.exercise))
    assert desk.wait_for(turn.exercise, way.fits)


def told(page: Page) -> list[str]:
    """Return what a screen reader is told of the drawing."""
    return page.locator(".zl-surface + .zl-unseen + .zl-unseen").all_text_contents()


def test_by_keys_alone_and_all_there_again_after_a_restart(desk: Desk) -> None:
    """One restart for all kinds: a kernel takes longer to come back than a sheet."""
    seen, saved = {}, {}
    for turn in TURNS:
        page = desk.open(turn.exercise)
        turn.keys.act(page)
        assert desk.wait_for(turn.exercise, turn.keys.fits), turn.exercise
        saved_words(page, "Saved")
        seen[turn.exercise], saved[turn.exercise] = told(page), desk.answer(turn.exercise)
    restart_kernel(desk.page)
    for exercise, words in seen.items():
        page = desk.open(exercise, afresh=False)
        saved_words(page, "back as you left it")
        assert (told(page), desk.answer(exercise)) == (words, saved[exercise]), exercise
