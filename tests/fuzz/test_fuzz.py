"""Each reader of files that others write is fed made-up ones; what once broke a reader is kept here."""

from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fuzz.feed import Broken, fed
from tests.fuzz.mutate import mutated
from tests.fuzz.targets import TARGETS, Target
from zonelib.site.faults import Fault, FileFault


@pytest.mark.parametrize("name", TARGETS)
def test_the_files_to_begin_from_are_read(name: str) -> None:
    target = TARGETS[name]
    assert [fed(target, one) for one in target.seeds()] == [True] * len(target.seeds())


@pytest.mark.parametrize("name", TARGETS)
@settings(max_examples=40, deadline=None, derandomize=True)
@given(rng=st.randoms(use_true_random=False))
def test_a_made_up_file_is_read_or_refused_in_words(name: str, rng: Random) -> None:
    target = TARGETS[name]
    assert fed(target, mutated(rng.choice(target.seeds()), rng, among=target.seeds())) in (True, False)


ONCE_BROKEN = {
    "a model answer of another form": ("exercise-json", b'"protection": ["none"', b'"protection": [0.001'),
    "a pack whose readings are gone": ("pack", b"[readings.", b"[reading."),
    "changed marks that are not UTF-8": ("overrides", b"seen", b"\xff"),
    "a class list that begins with a blank line": ("class-list", b"candidate,", b"\ncandidate,"),
    "a case without any accessory to join": ("case-json", b'"accessories"', b'"accessory"'),
}


@pytest.mark.parametrize("words", ONCE_BROKEN)
def test_what_once_broke_a_reader_is_refused_in_words(words: str) -> None:
    name, part, other = ONCE_BROKEN[words]
    target = TARGETS[name]
    made = [one.replace(part, other) for one in target.seeds() if part in one]
    assert made
    assert False in [fed(target, one) for one in made]


def _failing(error: Exception) -> Target:
    def read(data: bytes, folder: Path) -> None:
        del data, folder
        raise error

    return Target("a target", lambda: [b""], read)


@pytest.mark.parametrize("error", [KeyError("x"), RecursionError(), UserWarning("x"), FileFault("f", [])])
def test_anything_but_a_named_error_is_a_break(error: Exception) -> None:
    with pytest.raises(Broken, match="a target: "):
        fed(_failing(error), b"")


def test_a_named_error_is_a_refusal() -> None:
    assert not fed(_failing(FileFault("f", [Fault("a", "b", "c")])), b"")


def test_changes_can_be_repeated() -> None:
    (seed, *_) = TARGETS["case-json"].seeds()
    assert mutated(seed, Random(1), among=[seed]) == mutated(seed, Random(1), among=[seed])
    assert len({mutated(seed, Random(n), among=[seed]) for n in range(50)}) > 40
