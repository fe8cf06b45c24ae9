"""``python -m tests.fuzz COUNT [TARGET ...]``: feed each reader made-up files; keep those that break it."""

import hashlib
import resource
import sys
import tempfile
from collections.abc import Generator
from pathlib import Path
from random import Random
from time import perf_counter

from tests.fuzz.feed import Broken, fed
from tests.fuzz.mutate import mutated
from tests.fuzz.targets import TARGETS, Target

KEPT = 200
"""Files that are still read are begun from again, so that changes pile up; the newest stay."""

FOUND = Path(tempfile.gettempdir()) / "zonelib-fuzz"


def _inputs(target: Target, rng: Random) -> Generator[bytes, bool, None]:
    pool = target.seeds()
    seeds = len(pool)
    while True:
        data = mutated(rng.choice(pool), rng, among=pool)
        keep = yield data
        if keep:
            pool.append(data)
            if len(pool) > seeds + KEPT:
                del pool[seeds + rng.randrange(KEPT)]


def _tell(words: str) -> None:
    sys.stdout.write(f"{words}\n")
    sys.stdout.flush()


def run(target: Target, count: int, seed: int) -> int:
    """Feed one reader; return how many files broke it."""
    rng, broken, read, start = Random(f"{target.name} {seed}"), 0, 0, perf_counter()
    inputs = _inputs(target, rng)
    data = next(inputs)
    with tempfile.TemporaryDirectory() as made:
        for _ in range(count):
            keep = False
            try:
                keep = fed(target, data, Path(made))
                read += keep
            except Broken as error:
                broken += 1
                FOUND.mkdir(exist_ok=True)
                name = f"{target.name}-{hashlib.sha256(data).hexdigest()[:12]}"
                (FOUND / name).write_bytes(data)
                _tell(f"  {name}: {error}"[:300])
            data = inputs.send(keep)
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    seconds = perf_counter() - start
    _tell(f"{target.name}: {count:,} files, {read:,} read, {broken} broke it, {seconds:.0f} s, {memory} MB")
    return broken


def main() -> int:
    """Run the targets named, or all."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    names = sys.argv[2:] or list(TARGETS)
    return int(sum(run(TARGETS[name], count, seed=0) for name in names) > 0)


if __name__ == "__main__":
    sys.exit(main())
