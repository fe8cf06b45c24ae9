"""Each reader of files that others write is fed made-up ones; what once broke a reader is kept here."""

import io
import subprocess
import sys
import zipfile
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fuzz.feed import Broken, fed
from tests.fuzz.mutate import mutated
from tests.fuzz.seeds import papers, zips
from tests.fuzz.targets import TARGETS, Target
from tests.fuzz.zipped import mutated_zip
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
    assert fed(target, target.change(rng.choice(target.seeds()), rng, among=target.seeds())) in (True, False)


ONCE_BROKEN = {
    "a model answer of another form": ("exercise-json", b'"protection": ["none"', b'"protection": [0.001'),
    "a pack whose readings are gone": ("pack", b"[readings.", b"[reading."),
    "changed marks that are not UTF-8": ("overrides", b"seen", b"\xff"),
    "a class list that begins with a blank line": ("class-list", b"candidate,", b"\ncandidate,"),
    "a case without any accessory to join": ("case-json", b'"accessories"', b'"accessory"'),
    "an exercise whose case has half a sign for a name": (
        "exercise-json",
        b'"case": {',
        b'"case": "\\ud800", "x": {',
    ),
    "a pack of tables inside tables": ("pack", b"[readings.", b"[" + b"a." * 1500),
    "a class list with a cell as long as a book": ("class-list", b"C-01", b"C" * 140_000),
    "a cell whose kind is a list": ("plain-notebook", b'"cell_type": "code"', b'"cell_type": ["code"]'),
    "marks that a spreadsheet saved in another code": ("marks", b"Nothing", b"\xe9"),
    "marks without a number": ("marks", b"10.0,10.0", b"nan,10.0"),
    "a finding that is a list": ("findings", b"{", b"[{"),
    "a finding without a trainee": ("findings", b'"trainee"', b'"candidate"'),
    "candidates with a cell as long as a book": ("candidates", b"C-01", b"C" * 140_000),
}


@pytest.mark.parametrize("words", ONCE_BROKEN)
def test_what_once_broke_a_reader_is_refused_in_words(words: str) -> None:
    name, part, other = ONCE_BROKEN[words]
    target = TARGETS[name]
    made = [one.replace(part, other) for one in target.seeds() if part in one]
    assert made
    assert False in [fed(target, one) for one in made]


def test_a_zip_with_a_file_without_a_name_is_read() -> None:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as whole:
        whole.writestr(zipfile.ZipInfo(""), b"{}")
        whole.writestr("hw1/answers/0.json", papers()[0])
    assert fed(TARGETS["zip"], made.getvalue())


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


def test_a_changed_zip_mostly_opens_and_differs() -> None:
    (seed, *_) = zips()
    made = [mutated_zip(seed, Random(n), among=zips()) for n in range(100)]
    opened = [one for one in made if zipfile.is_zipfile(io.BytesIO(one))]
    assert len(set(made)) > 95
    assert len(opened) > 60


def test_more_memory_than_is_allowed_is_a_break() -> None:
    told = subprocess.run([sys.executable, "-c", GREEDY], capture_output=True, text=True, check=False)
    assert "a target: MemoryError" in told.stderr


GREEDY = """
from tests.fuzz.feed import MEMORY, bounded, fed
from tests.fuzz.targets import Target
bounded()
fed(Target("a target", list, lambda data, folder: bytearray(2 * MEMORY)), b"")
"""
