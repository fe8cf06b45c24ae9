"""What grows with a class must not grow with its square: ten thousand trainees are marked in one run."""

import csv
import random
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest

from tests.desk.small_class import ODD, hand_in, lay_bundles, paper
from zonelib.desk import run
from zonelib.desk.classlist import ClassList
from zonelib.desk.flags import Flags
from zonelib.desk.kept import Kept, read_kept
from zonelib.desk.report.close import MOST, close_pairs
from zonelib.desk.rows import Row
from zonelib.desk.run import mark_folder

CLASS = 10_000
ENOUGH = 5.0
"""Processor time of one step for such a class [s]; with its square it would take minutes."""


@contextmanager
def in_time() -> Iterator[None]:
    began = time.process_time()
    yield
    assert time.process_time() - began < ENOUGH


def one_row(home: Path) -> Row:
    asked = paper(("bedroom-drop",))
    lay_bundles(asked, home / "exercises" / "hw")
    hand_in(home / "submitted", "C-1", {asked[0][0].id: ODD}, asked)
    (row,) = mark_folder(home / "submitted", home / "out").rows()
    return row


def test_a_whole_class_may_share_an_answer(tmp_path: Path) -> None:
    row, flags = one_row(tmp_path), Flags()
    rows = [replace(row, trainee=f"C-{at:05}", candidate=f"C-{at:05}") for at in range(CLASS)]
    with in_time():
        for one in rows:
            flags.gather([one])
        told = [flags.told(one).note for one in rows]
    named = "C-00000, C-00001, C-00003, C-00004, C-00005 and 9994 more"
    assert f"was also handed in by {named}." in told[2]
    assert f"was also handed in by {named.replace('C-00003', 'C-00002')}." in told[3]


def test_at_the_end_what_is_kept_of_each_trainee_is_read_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = paper(("bedroom-drop",))
    lay_bundles(asked, tmp_path / "exercises" / "hw")
    for name in ("C-1", "C-2"):
        hand_in(tmp_path / "submitted", name, {asked[0][0].id: ODD}, asked)
    (tmp_path / "submitted" / "C-3").mkdir()
    (tmp_path / "submitted" / "C-3" / "answer.json").write_text("no JSON", encoding="utf-8")
    reads = list[str]()

    def counted(path: Path) -> Kept | None:
        reads.append(path.name)
        return read_kept(path)

    monkeypatch.setattr(run, "read_kept", counted)
    outcome = mark_folder(tmp_path, tmp_path / "out")
    assert (len(reads), len(set(reads))) == (3, 3)
    kept = list(outcome.kept())
    with (tmp_path / "out" / "marks.csv").open(newline="", encoding="utf-8") as file:
        told = [(one["trainee"], one["note"]) for one in csv.DictReader(file)]
    assert [(one.trainee, f"{one.note} Rules: {one.edition}.".strip()) for one in outcome.rows()] == told
    assert "was also handed in by C-2." in dict(told)["C-1"], "flags are told, though they are known last"
    lines = (tmp_path / "out" / "findings.jsonl").read_text(encoding="utf-8").splitlines()
    assert lines == [line for one in kept for line in one.findings]
    assert outcome.troubles == tuple(line for one in kept for line in one.troubles) != ()


def test_a_large_class_list_is_looked_up_and_not_gone_through() -> None:
    names = ClassList({f"C-{at:05}": f"Ann Other{at}" for at in range(CLASS)})
    with in_time():
        found = [names.number_for(f"{at}_ann other{at}_hw (1)") for at in range(CLASS)]
    assert found == list(names.names)


def test_pairs_of_small_groups_are_all_there() -> None:
    draw = random.Random(1)
    groups = [[f"{draw.randrange(40)}" for _ in range(draw.randrange(1, 30))] for _ in range(12)]
    every = {pair for group in groups for pair in combinations(sorted(set(group)), 2)}
    assert set(close_pairs(groups)) == every


def test_in_a_crowd_those_who_share_more_are_found() -> None:
    crowd = [f"C-{at:05}" for at in range(CLASS)]
    draw = random.Random(2)
    halves = [draw.sample(crowd, CLASS // 8) for _ in range(6)]
    with in_time():
        found = close_pairs([crowd, *halves, ["C-09998", "C-09999"]])
    assert ("C-09998", "C-09999") in found
    assert MOST <= len(found) < 50 * CLASS


def test_a_crowd_that_shares_everything_is_soon_done_with() -> None:
    crowd = [f"C-{at:05}" for at in range(1000)]
    with in_time():
        assert len(close_pairs([crowd] * 12)) == MOST
