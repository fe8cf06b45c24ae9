"""Kill the sheet of each kind 200 times: `python -m tests.sheet.kills [COUNT] [KIND ...]`."""

import sys
import tempfile
import time
from pathlib import Path

from tests.sheet.killing import KINDS, Tally, kill_often

KILLS, SEED = 200, 522
ROW = "{:<10}{:>8}{:>20}{:>18}{:>10}"


def row(kind: str, kills: int) -> str:
    """Kill the sheet of a kind so often; return what came of it as a row of the table."""
    begun, tally = time.monotonic(), Tally()
    with tempfile.TemporaryDirectory() as folder:
        for last in kill_often(KINDS[kind], Path(folder), kills=kills, seed=SEED):
            tally = last
    took = f"{time.monotonic() - begun:.0f} s"
    return ROW.format(kind, tally.kills, tally.mid_save, tally.confirmed, took)


def show(line: str) -> None:
    """Print a line at once: the next takes its time."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def main(arguments: list[str]) -> None:
    """Print a row for each kind; the first change that is lost ends it with an error."""
    count = int(arguments[0]) if arguments else KILLS
    show(ROW.format("kind", "kills", "half way in a save", "changes kept", "took"))
    for kind in arguments[1:] or KINDS:
        show(row(kind, count))


if __name__ == "__main__":
    main(sys.argv[1:])
