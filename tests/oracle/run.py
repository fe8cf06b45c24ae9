"""Hunt for disagreements: ``python -m tests.oracle.run COUNT [FIRST] [de|rooms]``."""

from __future__ import annotations

import json
import sys

from tests.oracle.compare import disagreements
from tests.oracle.draw_cases import draw_case
from tests.oracle.draw_de import draw_de_case
from tests.oracle.draw_rooms import draw_rooms

__all__ = ["hunt"]


def hunt(count: int, first: int = 0, *, pack: str = "uk") -> dict[int, list[str]]:
    """Compare `count` random cases from the seed `first` on; return the disagreements by seed."""
    draw = {"uk": draw_case, "de": draw_de_case, "rooms": draw_rooms}[pack]
    found = {seed: disagreements(draw(seed)) for seed in range(first, first + count)}
    return {seed: lines for seed, lines in found.items() if lines}


def main() -> int:
    """Print each disagreement and how many there are."""
    numbers = [int(one) for one in sys.argv[1:] if one.isdigit()] or [1000]
    pack = next((one for one in sys.argv[1:] if one in {"de", "rooms"}), "uk")
    found = hunt(*numbers[:2], pack=pack)
    for seed, lines in found.items():
        sys.stdout.write(f"seed {seed}: {json.dumps(lines, indent=1, default=str)}\n")
    sys.stdout.write(f"{numbers[0]} cases, {len(found)} with a disagreement\n")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
