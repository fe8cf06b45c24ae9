"""``python -m tests.fuzz.guided TARGET COUNT``: feed one reader, led by what a file reaches in the code."""

import os
import sys
import tempfile
from importlib import import_module
from pathlib import Path
from random import Random

atheris = import_module("atheris")
with atheris.instrument_imports(include=["zonelib"]):
    from tests.fuzz.feed import Feed, bounded, watched
    from tests.fuzz.targets import TARGETS

AFRESH = 0.25
"""Share of files that begin from a real one again, since the driver likes short ones best."""

LONGEST = 60_000
OPTIONS = (f"-max_len={LONGEST}", "-timeout=0", "-rss_limit_mb=0", "-verbosity=0", "-seed=1")
"""Time and memory are bounded by `Feed` and `bounded`; the driver would end at the first file that breaks."""


def _tell(words: object) -> None:
    sys.stdout.write(f"{words}\n")
    sys.stdout.flush()


def _led(feed: Feed, count: int, corpus: Path) -> None:
    """Let the driver feed so many files; it never returns, so the process ends with the last."""
    seeds = feed.target.seeds()
    for number, seed in enumerate(seeds):
        (corpus / f"{number}").write_bytes(seed)
        feed(seed)
    bounded()

    def one(data: bytes) -> None:
        if told := feed(data):
            _tell(told)
        if feed.files >= count:
            _tell(feed)
            os._exit(int(feed.broken > 0))

    def change(data: bytes, size: int, number: int) -> bytes:
        rng = Random(number)
        begun = rng.choice(seeds) if rng.random() < AFRESH else data
        return feed.target.change(begun, rng, among=seeds)[:size]

    atheris.Setup([sys.argv[0], *OPTIONS, str(corpus)], one, custom_mutator=change)
    atheris.Fuzz()


def main() -> None:
    """Feed the reader; end with 1 if a file broke it."""
    with tempfile.TemporaryDirectory() as made, watched():
        corpus, folder = Path(made) / "corpus", Path(made) / "fed"
        corpus.mkdir()
        folder.mkdir()
        _led(Feed(TARGETS[sys.argv[1]], folder), int(sys.argv[2]), corpus)


if __name__ == "__main__":
    main()
