"""``python -m tests.fuzz COUNT [TARGET ...] [--seed=N]``: feed readers made-up files; keep what breaks them.

A file that is still read is begun from again. With ``--guided`` one is that reaches something new in the
code; that needs ``pip install atheris``, which nothing else does.
"""

import subprocess
import sys
import tempfile
from collections.abc import Generator, Sequence
from importlib import import_module
from pathlib import Path
from random import Random

from tests.fuzz.feed import Feed, bounded, watched
from tests.fuzz.targets import TARGETS, Target

KEPT = 200
"""Files that are still read are begun from again, so that changes pile up; the newest stay."""


def _inputs(target: Target, rng: Random) -> Generator[bytes, bool, None]:
    pool = target.seeds()
    seeds = len(pool)
    while True:
        data = target.change(rng.choice(pool), rng, among=pool)
        keep = yield data
        if keep:
            pool.append(data)
            if len(pool) > seeds + KEPT:
                del pool[seeds + rng.randrange(KEPT)]


def _tell(words: object) -> None:
    sys.stdout.write(f"{words}\n")
    sys.stdout.flush()


def run(target: Target, count: int, seed: int) -> int:
    """Feed one reader; return how many files broke it."""
    inputs = _inputs(target, Random(f"{target.name} {seed}"))
    data = next(inputs)
    with tempfile.TemporaryDirectory() as made, watched():
        feed = Feed(target, Path(made))
        for _ in range(count):
            before = feed.read
            if told := feed(data):
                _tell(told)
            data = inputs.send(feed.read > before)
    _tell(feed)
    return feed.broken


def _guided(names: Sequence[str], count: int) -> int:
    """Run each target in a process of its own: its driver ends with the process."""
    import_module("atheris")  # here, where its absence is seen
    command = [sys.executable, "-m", "tests.fuzz.guided"]
    runs = [[*command, name, str(count)] for name in names]
    return max(subprocess.run(one, check=False, stderr=subprocess.DEVNULL).returncode for one in runs)


def main() -> int:
    """Run the targets named, or all."""
    words = [one for one in sys.argv[1:] if not one.startswith("--")]
    seed = next((int(one.removeprefix("--seed=")) for one in sys.argv if one.startswith("--seed=")), 0)
    count, names = int(words[0]) if words else 1000, words[1:] or list(TARGETS)
    if "--guided" in sys.argv:
        return _guided(names, count)
    for name in names:
        with tempfile.TemporaryDirectory() as made:
            [Feed(TARGETS[name], Path(made))(one) for one in TARGETS[name].seeds()]
    bounded()
    return int(sum(run(TARGETS[name], count, seed) for name in names) > 0)


if __name__ == "__main__":
    sys.exit(main())
