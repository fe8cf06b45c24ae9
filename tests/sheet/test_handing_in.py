"""Handing in: one file, a receipt made from its contents, and words that tell where it is."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from zonelib.exercise.handin import read_hand_in, receipt_of
from zonelib.exercise.model import Exercise
from zonelib.sheet import Sheet, SheetTrouble, candidate, hand_in
from zonelib.sheet.grading import HandInForm
from zonelib.sheet.handin import HandedIn
from zonelib.site.faults import FileFault

Open = Callable[[], Sheet]


@pytest.fixture
def answered(sheet: Open, exercise: Exercise) -> Sheet:
    opened = sheet()
    opened.set(**exercise.model)
    return opened


def handed_in(folder: Path, number: str = "C-014") -> HandedIn:
    handed = hand_in(number, folder=folder)
    assert isinstance(handed, HandedIn)
    return handed


def test_one_file_holds_every_answer_with_its_bundle(answered: Sheet, folder: Path) -> None:
    handed = handed_in(folder)
    content = read_hand_in(handed.path.read_bytes())
    assert content.candidate == "C-014"
    assert [(one.exercise, one.bundle) for one in content.answers] == [
        ("kitchen-hatch", answered.bundle.hash)
    ]
    assert content.receipt == handed.receipt == receipt_of("C-014", content.answers)
    assert content.untouched


def test_the_file_names_nobody_and_the_words_tell_where_it_is(answered: Sheet, folder: Path) -> None:
    handed = handed_in(folder)
    assert handed.path.parent == folder
    assert "C-014" not in handed.path.name
    assert handed.path.name in handed.lines[0]
    assert f"It holds: {answered.bundle.exercise.id}." in repr(handed)
    assert handed.receipt in handed._repr_html_()


def test_the_same_contents_give_the_same_receipt_and_a_change_another(answered: Sheet, folder: Path) -> None:
    first, second = handed_in(folder), handed_in(folder)
    assert first.path == second.path
    answered.set(points=[[1000, 2400], [1000, 2000]])
    assert handed_in(folder).receipt != first.receipt


@pytest.mark.usefixtures("answered")
def test_a_changed_file_no_longer_fits_its_receipt(folder: Path) -> None:
    path = handed_in(folder).path
    data = json.loads(path.read_text(encoding="utf-8"))
    data["answers"][0]["answer"]["points"][0][0] = 1001
    assert not read_hand_in(json.dumps(data)).untouched


def test_the_candidate_number_is_set_once(answered: Sheet, folder: Path, sheet: Open) -> None:
    candidate("C-014", folder=folder)
    answered.set(rcd={"ma": 30})
    saved = json.loads((folder / "answers" / "kitchen-hatch.json").read_text(encoding="utf-8"))
    assert saved["candidate"] == "C-014"
    again = sheet()
    again._controls.hand_in.button.click()
    assert again.panel.view["notes"][0].startswith("Handed in at ")


def test_a_number_is_taken_as_it_is_typed(folder: Path) -> None:
    assert candidate(" 014 ", folder=folder) == "014"
    assert candidate(14, folder=folder) == "14"


@pytest.mark.parametrize("number", ["C 014", "", "../x", "x" * 41, "<b>"])
def test_what_is_no_candidate_number_is_refused(folder: Path, number: str) -> None:
    with pytest.raises(SheetTrouble, match="A candidate number has 1 to 40 letters"):
        candidate(number, folder=folder)


@pytest.mark.usefixtures("answered")
def test_without_a_number_a_form_is_shown_and_nothing_written(folder: Path) -> None:
    form = hand_in(folder=folder)
    assert isinstance(form, HandInForm)
    assert not list(folder.glob("hand-in-*"))
    form.row.button.click()
    assert form.panel.view["notes"] == ["Type your candidate number first, as your tutor gave it to you."]
    form.row.number.value = "C-014"
    form.row.button.click()
    assert len(list(folder.glob("hand-in-*.json"))) == 1


def test_nothing_drawn_cannot_be_handed_in(folder: Path) -> None:
    with pytest.raises(SheetTrouble, match="There is no saved answer to hand in yet"):
        hand_in("C-014", folder=folder)


@pytest.mark.usefixtures("answered")
def test_an_unreadable_answer_is_named_and_costs_no_other(folder: Path) -> None:
    (folder / "answers" / "other.json").write_text("{", encoding="utf-8")
    handed = handed_in(folder)
    assert "Left out, since it could not be read: other.json." in handed.lines
    assert "It holds: kitchen-hatch." in handed.lines


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("{", "text that is not JSON"),
        ("[" * 100_000, "lists inside lists, very deep"),
        ('{"kind": "hand-in"}', "schema"),
        (" " * 5_000_000, "at most 4,194,304 bytes"),
    ],
)
def test_a_hand_in_file_is_read_as_hostile(text: str, words: str) -> None:
    with pytest.raises(FileFault, match=words):
        read_hand_in(text)
