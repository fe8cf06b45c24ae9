"""The practice quiz in a notebook: its clock, its silence before the end, what outlasts a killed kernel."""

from pathlib import Path

import pytest

from zonelib.sheet import PracticeQuiz, SheetTrouble

NAMES = ["bedroom-drop", "bedroom-zones"]
ROUTE = {
    "points": [[700, 2400], [700, 450], [1250, 450]],
    "depth": [15, 15],
    "protection": ["none", "none"],
    "rcd": {"ma": 30, "at": "origin", "delayed": False},
}


class Hand:
    """Steady seconds that the test moves."""

    def __init__(self) -> None:
        self.now = 1000.0

    def __call__(self) -> float:
        return self.now


def quiz(folder: Path, hand: Hand) -> PracticeQuiz:
    return PracticeQuiz(NAMES, 10, folder=folder, count=hand)


def test_nothing_is_taken_before_the_start(tmp_path: Path) -> None:
    made = quiz(tmp_path, Hand())
    made.pads[0].set_state({"answer": ROUTE})
    assert made.pads[0].problem == "The time is over. What was saved before counts."
    assert not (tmp_path / "practice-quiz" / "answers" / "bedroom-drop.json").exists()


def test_answers_are_saved_and_nothing_is_told_before_the_end(tmp_path: Path) -> None:
    made = quiz(tmp_path, Hand())
    made.start()
    made.pads[0].set_state({"answer": ROUTE})
    assert made.pads[0].saved.startswith("Saved ")
    assert made.pads[0].trait_values()["result"] is None
    with pytest.raises(SheetTrouble, match="Marks are shown once the quiz is over"):
        made.results()


def test_at_the_end_marks_are_shown_and_nothing_more_is_taken(tmp_path: Path) -> None:
    hand = Hand()
    made = quiz(tmp_path, hand)
    made.start()
    made.pads[0].set_state({"answer": ROUTE})
    hand.now += 601
    made.clock.ended += 1
    assert [one.status for one in made.results()] == ["marked", "empty"]
    assert made.clock.pulse["state"] == "closed"
    made.pads[1].set_state({"answer": {"areas": [[[0, 0], [100, 100]]]}})
    assert made.results()[1].score == 0
    assert made.pads[1].problem.startswith("The time is over.")


def test_a_page_that_counts_too_fast_ends_nothing(tmp_path: Path) -> None:
    hand = Hand()
    made = quiz(tmp_path, hand)
    made.start()
    hand.now += 300
    made.clock.ended += 1
    assert not made.running.over
    assert made.clock.pulse["left"] == 300


def test_a_kernel_that_is_started_again_goes_on_with_time_and_answers(tmp_path: Path) -> None:
    first = quiz(tmp_path, Hand())
    first.start()
    first.pads[0].set_state({"answer": ROUTE})
    again = quiz(tmp_path, Hand())
    assert again.running.started
    assert 590 < again.running.left <= 600
    assert again.pads[0].answer == ROUTE
    again.finish()
    assert quiz(tmp_path, Hand()).running.over


def test_marks_are_those_of_the_sheet(tmp_path: Path) -> None:
    from zonelib.sheet import Sheet

    made = quiz(tmp_path, Hand())
    made.start()
    made.pads[0].set_state({"answer": ROUTE})
    made.finish()
    sheet = Sheet.from_bank("bedroom-drop", folder=tmp_path / "other")
    sheet.set(points=ROUTE["points"])
    assert made.results()[0].score == sheet.result().score


def test_an_exercise_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(SheetTrouble, match="nosuch"):
        PracticeQuiz(["nosuch"], 5, folder=tmp_path)
