"""What the sheet shows and tells, without a browser."""

import json
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from zonelib.exercise import Bundle, bank_names, bank_path, freeze, read_exercise
from zonelib.exercise.answer import MIME
from zonelib.exercise.kinds import kind_named
from zonelib.exercise.model import Exercise
from zonelib.sheet import Sheet, SheetTrouble, grade
from zonelib.sheet.still import question_html, still_words
from zonelib.sheet.task import pad_task

Open = Callable[[], Sheet]
SLANT = [[1000, 2400], [2200, 950]]
BESIDE_THE_HATCH = [[1000, 2400], [1000, 2300], [1565, 2300], [1565, 950], [2200, 950]]


def test_the_model_answer_earns_full_marks_and_grade_returns_a_plain_float(
    sheet: Open, folder: Path, exercise: Exercise, capsys: pytest.CaptureFixture[str]
) -> None:
    opened = sheet()
    opened.set(**exercise.model)
    result = opened.result()
    mark = grade("kitchen-hatch", folder=folder)
    assert type(mark) is float
    assert mark == result.score == result.points
    assert "12 of 12 marks" in capsys.readouterr().out


def test_grade_of_nothing_is_nothing(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert grade("kitchen-hatch", folder=folder) == 0.0
    assert "Nothing is drawn yet." in capsys.readouterr().out


def test_grade_of_a_broken_file_is_nothing_and_says_so(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "answers").mkdir()
    (folder / "answers" / "kitchen-hatch.json").write_text("{", encoding="utf-8")
    assert grade("kitchen-hatch", folder=folder) == 0.0
    assert "The saved answer cannot be read." in capsys.readouterr().out


def test_a_check_shows_one_score_and_three_messages_first(sheet: Open) -> None:
    opened = sheet()
    opened.set(points=SLANT, depth=40, protection="plastic-conduit", rcd=None)
    opened.check()
    view = opened.panel.view
    assert re.fullmatch(r"[\d.]+ of 12 marks", view["score"])
    assert re.fullmatch(r"\d of \d met", view["headline"])
    assert len(view["messages"]) > 3
    assert [one["folded"] for one in view["messages"]] == [at >= 3 for at in range(len(view["messages"]))]
    assert view["messages"][0]["title"].startswith("Crosses door D1")  # first that there is a whole route
    assert view["attempt"].startswith("Check 1, ")
    assert view["safety"][1] == opened.bundle.pack.safety.aid


def test_messages_and_stretches_share_their_numbers(sheet: Open) -> None:
    opened = sheet()
    opened.set(points=BESIDE_THE_HATCH, rcd=None)
    opened.check()
    placed = {one["n"]: one["text"] for one in opened.pad.result["stretches"]}
    said = {one["n"]: one["text"] for one in opened.panel.view["messages"] if one["place"]}
    assert placed
    assert said == placed


def test_a_change_after_a_check_says_so(sheet: Open, exercise: Exercise) -> None:
    opened = sheet()
    opened.set(points=SLANT)
    opened.check()
    assert opened.panel.view["stale"] == ""
    opened.set(**exercise.model)
    assert "Press Check again" in opened.panel.view["stale"]
    assert opened.pad.result is None


def test_checks_are_recorded_across_sessions(sheet: Open, folder: Path, exercise: Exercise) -> None:
    first = sheet()
    first.set(points=SLANT)
    first.check()
    again = sheet()
    again.hint()
    again.set(**exercise.model)
    again.check()
    assert again.panel.view["attempt"].startswith("Check 2, ")
    file = folder / "answers" / ".kept" / "attempts-kitchen-hatch.csv"
    lines = file.read_text(encoding="utf-8").splitlines()
    assert lines[0] == "time,revision,score,points,hints"
    assert [line.split(",")[1:] for line in lines[2:]] == [["2", "12.0", "12.0", "1"]]


def test_nothing_drawn_is_no_attempt(sheet: Open, folder: Path) -> None:
    opened = sheet()
    opened.check()
    assert opened.panel.view["notes"] == ["Nothing is drawn yet."]
    assert not (folder / "answers").exists()


def test_hints_come_one_step_at_a_time(sheet: Open, exercise: Exercise) -> None:
    opened = sheet()
    assert exercise.hints
    steps = [exercise.hints.fact, exercise.hints.pointer, exercise.hints.step]
    for shown in (1, 2, 3, 3):
        opened.hint()
        assert opened.panel.view["hints"] == steps[:shown]
    assert opened._controls.hint.disabled


def test_a_fault_in_a_callback_is_told_and_the_answer_stays(
    sheet: Open, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened = sheet()
    opened.set(points=SLANT)
    monkeypatch.setattr("zonelib.sheet.sheet.pad_result", lambda _bundle, _result: 1 / 0)
    opened._controls.check.click()
    assert "Something in this program did not work: ZeroDivisionError" in opened.pad.problem
    assert "It is not your answer." in opened.pad.problem
    assert opened.answer["points"] == SLANT


def test_the_picture_to_draw_on_gives_no_zones_away(bundle: Bundle, exercise: Exercise) -> None:
    assert 'class=\\"zone\\"' not in json.dumps(pad_task(bundle))
    shown = freeze(exercise.model_copy(update={"show": ("zones",)}))
    assert "Zone" in pad_task(shown)["alt"]["front"]
    assert "Zone" not in pad_task(bundle)["alt"]["front"]


def test_the_page_is_sent_no_model_answer(sheet: Open, exercise: Exercise) -> None:
    opened = sheet()
    sent = json.dumps([opened.pad.task, opened.panel.view])
    assert json.dumps(exercise.model["points"]) not in sent
    assert "shortest" not in sent


def test_what_is_closed_cannot_be_set(tmp_path: Path) -> None:
    opened = Sheet.from_bank("bedroom-drop", folder=tmp_path)
    with pytest.raises(SheetTrouble, match=r"does not open depth: it is given\. It opens: points"):
        opened.set(points=SLANT, depth=60)
    opened.set(points=SLANT, depth=15)  # as given: nothing is changed
    assert opened.answer["depth"] == [15]


@pytest.mark.parametrize(
    "parts",
    [
        {"points": [[1, 2, 3]]},
        {"points": "abc"},
        {"points": [[float("nan"), 0], [1, 1]]},
        {"points": SLANT, "protection": "gold"},
        {"points": SLANT, "depth": [1, 2, 3]},
        {"points": SLANT, "rcd": {"ma": -1}},
    ],
)
def test_what_does_not_fit_the_pad_is_refused_in_words(sheet: Open, parts: dict[str, object]) -> None:
    opened = sheet()
    with pytest.raises(SheetTrouble, match="The answer does not fit the exercise"):
        opened.set(**parts)
    assert opened.answer == {}


def has_pad(exercise: Exercise) -> bool:
    kind = kind_named(exercise.kind)
    return kind.pad and not kind.beyond_pad(exercise)


BANK = {name: read_exercise(bank_path(name)) for name in bank_names()}
WITH_PAD = [name for name, exercise in BANK.items() if has_pad(exercise)]


@pytest.mark.parametrize("name", WITH_PAD)
def test_every_exercise_of_the_bank_opens(name: str, tmp_path: Path) -> None:
    opened = Sheet.from_bank(name, folder=tmp_path)
    assert opened.pad.task["title"] == opened.bundle.exercise.title
    assert opened.pad.task["kind"] == opened.bundle.kind.name
    assert opened.result().score == 0.0


@pytest.mark.parametrize("name", WITH_PAD)
def test_a_model_answer_is_set_saved_and_back_when_the_sheet_is_opened_again(
    name: str, tmp_path: Path
) -> None:
    opened = Sheet.from_bank(name, folder=tmp_path)
    opened.set(**BANK[name].model)
    opened.check()
    assert opened.pad.problem == ""
    assert opened.panel.view["passed"]
    assert opened.pad.result is not None
    assert opened.pad.result["stretches"] == []
    again = Sheet.from_bank(name, folder=tmp_path)
    assert again.answer == opened.answer
    assert again.result().score == again.result().points
    again.pad.set_state({"answer": opened.answer})
    assert again.pad.problem == ""


def shown(name: str, tmp_path: Path, answer: dict[str, object]) -> Sheet:
    opened = Sheet.from_bank(name, folder=tmp_path)
    opened.set(**answer)
    opened.check()
    return opened


@pytest.mark.parametrize("name", WITH_PAD)
def test_what_a_check_draws_has_the_numbers_of_what_it_tells(name: str, tmp_path: Path) -> None:
    for slip in BANK[name].wrong:
        opened = shown(name, tmp_path, dict(slip["answer"]))
        assert opened.pad.problem == ""
        assert opened.pad.result is not None
        drawn = {one["n"] for one in opened.pad.result["stretches"]}
        assert drawn == {one["n"] for one in opened.panel.view["messages"] if one["place"]}
        assert drawn <= {one["n"] for one in opened.panel.view["messages"]}


def test_an_exercise_without_a_pad_is_told_in_words(
    exercise: Exercise, monkeypatch: pytest.MonkeyPatch
) -> None:
    round_a_room = replace(kind_named("route"), beyond_pad=lambda _: " in a tent")
    monkeypatch.setattr("zonelib.exercise.bundle.kind_named", lambda _: round_a_room)
    with pytest.raises(SheetTrouble, match="no pad for exercises of the kind route in a tent"):
        Sheet(exercise.id, bundle=freeze(exercise))


def test_a_part_that_no_answer_has_is_named(sheet: Open) -> None:
    with pytest.raises(SheetTrouble, match=r"no areas\. It has: points, depth, protection, rcd"):
        sheet().set(areas=[])


def test_an_unknown_exercise_of_the_bank_is_named(tmp_path: Path) -> None:
    with pytest.raises(SheetTrouble, match='found "attic"; allowed: anz-laundry-runs, attic-which-faces'):
        Sheet.from_bank("attic", folder=tmp_path)


def test_the_mirror_holds_the_saved_record(sheet: Open, exercise: Exercise, folder: Path) -> None:
    opened = sheet()
    assert MIME not in opened._mirrored()
    opened.set(**exercise.model)
    data = json.loads((folder / "answers" / "kitchen-hatch.json").read_text(encoding="utf-8"))
    assert opened._mirrored()[MIME] == data


def test_markup_in_a_question_stays_text(exercise: Exercise) -> None:
    words = {"question": "<script>1</script> **bold** [x](javascript:1)", "title": "<b>T"}
    sly = freeze(exercise.model_copy(update=words))
    page = question_html(sly) + still_words(sly)["text/html"]
    assert "<script>" not in page
    assert 'href="javascript' not in page
    assert "<strong>bold</strong>" in page
    assert "<b>T" not in page
