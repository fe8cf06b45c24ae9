"""Time from Check to what was found, on the screen in JupyterLab: `python -m tests.browser.feedback [TIMES]`.

Each check follows a change of the answer: Undo and Redo in turn. The aim is 300 ms for 95 of 100 checks.
"""

import os
import statistics
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from tests.browser.desk import Desk, desk_in
from tests.browser.drawn_turns import DRAWN
from tests.browser.driving import saved_words
from tests.browser.formed_turns import FORMED
from tests.browser.lab import running_lab
from tests.browser.turns import Turn
from tests.conftest import CHROMIUM, QUIET

TIMES = 40
ROW = "{:<26}{:>10}{:>10}{:>10}{:>9}"
CHECK = """async () => {
  const panel = document.querySelector(".zl-panel");
  const button = [...document.querySelectorAll(".zl-sheet .zl-main")].find((b) => b.textContent === "Check");
  const begun = performance.now();
  const filled = new Promise((resolve) => new MutationObserver(resolve).observe(panel, { childList: true }));
  button.click();
  await filled;
  await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
  return performance.now() - begun;
}"""


def times_of(desk: Desk, turn: Turn, many: int) -> list[float]:
    """Answer an exercise, change it and check it so often; return how long each check took [ms]."""
    page = desk.open(turn.exercise)
    turn.mouse.act(page)
    desk.wait_for(turn.exercise, turn.mouse.fits)
    times = []
    for at in range(many):
        page.get_by_role("button", name="Redo" if at % 2 else "Undo", exact=True).click()
        page.wait_for_timeout(60)
        saved_words(page, "Saved")
        times.append(float(page.evaluate(CHECK)))
    return times


def row(desk: Desk, turn: Turn, many: int) -> str:
    """Return median, 95th percentile and longest time of a kind as a row of the table."""
    times = times_of(desk, turn, many)
    late = statistics.quantiles(times, n=20, method="inclusive")[-1]
    figures = (f"{one:.0f} ms" for one in (statistics.median(times), late, max(times)))
    return ROW.format(turn.exercise, *figures, many)


def main(arguments: list[str]) -> None:
    """Print a row for each kind, and how busy the machine was."""
    many = int(arguments[0]) if arguments else TIMES
    lines = [ROW.format("exercise", "median", "p95", "longest", "checks")]
    with tempfile.TemporaryDirectory() as place, sync_playwright() as player:
        folder, home = Path(place) / "course", Path(place) / "home"
        folder.mkdir()
        browser = player.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        with running_lab(folder, home=home) as lab, desk_in(lab, browser, name="desk") as desk:
            lines += [row(desk, turn, many) for turn in (*DRAWN, *FORMED)]
    busy = "how many programs wanted a processor, in the last five minutes"
    sys.stdout.write("\n".join([*lines, f"{os.getloadavg()[1]:.1f} of {os.cpu_count()}: {busy}", ""]))


if __name__ == "__main__":
    main(sys.argv[1:])
