"""How rooms of an exercise spread: ``python -m tests.coach.variants_spread COUNT [NAME...] [--out PNG]``."""

import argparse
import sys
import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from matplotlib.axes import Axes

from zonelib.coach.variants.difficulty import Difficulty
from zonelib.coach.variants.vary import Family, Room, family_of
from zonelib.exercise import bank_names, bank_path, read_exercise

__all__ = ["Spread", "measured", "spread_of", "varied"]

HEAD = """| exercise | rooms | unsolved | alike | draws | s each | legs | tightest, mm | traps |
|---|---|---|---|---|---|---|---|---|
"""


@dataclass(frozen=True)
class Spread:
    """What came of many seeds of one exercise."""

    name: str
    plain: Difficulty
    rooms: tuple[Difficulty, ...]
    alike: int
    unsolved: int
    draws: float
    seconds: float
    refused: Counter[str]

    @property
    def scores(self) -> list[float]:
        """The tightest place of each room, as a multiple of the exercise's own; 1 where that is 0."""
        own = self.plain.margin
        return [one.margin / own if own else 1.0 for one in self.rooms]

    def row(self) -> str:
        """Return the figures as a row of a table."""
        legs, margins, traps = (
            [getattr(one, part) for one in self.rooms] for part in ("legs", "margin", "traps")
        )
        spread = f"{min(legs)}-{max(legs)} | {min(margins):g}-{max(margins):g} | {min(traps)}-{max(traps)}"
        counts = f"{len(self.rooms)} | {self.unsolved} | {self.alike} | {self.draws:.2f} | {self.seconds:.3f}"
        return f"| {self.name} | {counts} | {spread} |"


def varied() -> list[str]:
    """Return the exercises of the bank that have a table ``[variants]``."""
    return [name for name in bank_names() if read_exercise(bank_path(name)).variants]


def spread_of(name: str, seeds: Sequence[int]) -> Spread:
    """Make a room for each seed, and measure."""
    family, begun = family_of(read_exercise(bank_path(name))), time.process_time()
    rooms = [family.room(seed) for seed in seeds]
    return measured(family, rooms, seconds=(time.process_time() - begun) / len(rooms))


def measured(family: Family, rooms: Sequence[Room], *, seconds: float = 0.0) -> Spread:
    """Measure rooms that were made."""
    refused = Counter(why for room in rooms for why in room.refused)
    return Spread(
        family.exercise.id,
        family.profile.difficulty,
        tuple(room.profile.difficulty for room in rooms),
        alike=len(rooms) - len({room.nameless for room in rooms}),
        unsolved=sum(not room.profile.full for room in rooms),
        draws=1 + refused.total() / len(rooms),
        seconds=seconds,
        refused=refused,
    )


def plot(spreads: Sequence[Spread], out: Path) -> None:
    """Draw the tightest place of every room beside that of the exercise as it is written, in two columns."""
    from matplotlib.figure import Figure

    half = max(1, (len(spreads) + 1) // 2)
    figure = Figure(figsize=(9, 0.3 * half + 1.5), layout="constrained")
    for axes, column in zip(figure.subplots(1, 2), (spreads[:half], spreads[half:]), strict=True):
        _dots(axes, column)
        axes.set_ylim(half - 0.4, -0.6)
    count = max(len(one.rooms) for one in spreads)
    figure.suptitle(f"How hard {count:,} rooms of each exercise are")
    figure.supxlabel("tightest place, as a multiple of the exercise's own: less is harder")
    figure.savefig(out, dpi=130)


def _dots(axes: Axes, spreads: Sequence[Spread]) -> None:
    for row, one in enumerate(spreads):
        shifts = [row + 0.5 * ((at * 0.618) % 1 - 0.5) for at in range(len(one.rooms))]
        axes.plot(one.scores, shifts, ".", color="#35618f", alpha=0.35, markersize=3)
    axes.axvline(1, color="#444444", linewidth=1)
    axes.set_xlim(0.4, 2.1)
    axes.set_yticks(range(len(spreads)), [one.name for one in spreads])
    axes.grid(axis="x", alpha=0.3)


def main() -> None:
    """Print a row for each exercise, and draw the spread."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("count", type=int)
    parser.add_argument("names", nargs="*")
    parser.add_argument("--out", type=Path, default=Path("variants-spread.png"))
    options = parser.parse_intermixed_args()
    sys.stdout.write(HEAD)
    spreads = []
    for name in options.names or varied():
        spreads.append(spread_of(name, range(options.count)))
        sys.stdout.write(f"{spreads[-1].row()}\n")
        sys.stdout.flush()
        plot(spreads, options.out)


if __name__ == "__main__":
    main()
