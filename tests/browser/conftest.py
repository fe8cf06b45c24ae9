"""A JupyterLab on a folder of the run's own, a browser in front of it, and desks to work at."""

import json
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.desk import Desk, desk_in, lay
from tests.browser.lab import PATIENCE, Lab, running_lab
from tests.browser.notebooks import notebook

# What is waited for with `expect` comes from a kernel, too, which a busy machine keeps waiting.
expect.set_options(timeout=PATIENCE / 3)


@pytest.fixture(scope="session")
def context(browser: Browser) -> Iterator[BrowserContext]:
    """Return one memory for all pages: JupyterLab's own code is then fetched and compiled once."""
    made = browser.new_context(viewport={"width": 1280, "height": 1000})
    made.set_default_timeout(PATIENCE)
    yield made
    made.close()


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    made = context.new_page()
    yield made
    made.close()


@pytest.fixture(scope="session")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    """Start JupyterLab on an empty folder; tests put their notebooks there."""
    folder, home = tmp_path_factory.mktemp("course"), tmp_path_factory.mktemp("home")
    with running_lab(folder, home=home) as running:
        yield running


@pytest.fixture(scope="session")
def desk(lab: Lab, browser: Browser) -> Iterator[Desk]:
    """Return the desk that the tests share: each opens its own sheet there."""
    with desk_in(lab, browser, name="desk") as made:
        yield made


@pytest.fixture(scope="session")
def phone(lab: Lab, browser: Browser) -> Iterator[Desk]:
    """Return the desk that is worked with fingers."""
    with desk_in(lab, browser, name="phone", width=1000, touch=True) as made:
        yield made


@pytest.fixture
def homework(lab: Lab) -> Callable[[str, str], str]:
    """Return a function that lays an exercise and a notebook that opens it, and gives the notebook's path."""

    def lay_out(exercise: str, folder: str) -> str:
        place = lab.folder / folder
        place.mkdir()
        lay(exercise, place)
        source = f'from zonelib.sheet import Sheet, grade, hand_in\nsheet = Sheet("{exercise}")\nsheet'
        made = notebook(source, f'grade("{exercise}")')
        (place / "homework.ipynb").write_text(json.dumps(made), encoding="utf-8")
        return f"{folder}/homework.ipynb"

    return lay_out
