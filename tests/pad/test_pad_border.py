"""The Python side of the pad: whatever a browser sends, only a sound answer gets in."""

import math
from typing import Any

import pytest
import traitlets

from zonelib.sheet.kinds.incoming import MOST_POINTS, answer_troubles
from zonelib.sheet.pad import Pad

KNOWN = {"none", "steel-plate"}
TASK = {"protections": [{"id": "steel-plate", "words": "Steel plate"}]}


def answer(**changes: object) -> dict[str, Any]:
    sound = {
        "points": [[1200, 450], [1200, 2330.5]],
        "depth": [20],
        "protection": ["none"],
        "rcd": {"ma": 30, "at": "origin", "delayed": False},
    }
    return sound | changes


def sent_by_browser(pad: Pad, **changes: object) -> None:
    pad.set_state(changes)


@pytest.mark.parametrize(
    "sound",
    [
        answer(),
        answer(rcd=None),
        answer(points=[], depth=[], protection=[]),
        answer(points=[[0, 0]], depth=[], protection=[]),
        answer(points=[[0, i] for i in range(MOST_POINTS)], depth=[0] * 59, protection=["steel-plate"] * 59),
    ],
)
def test_a_sound_answer_has_no_trouble(sound: dict[str, Any]) -> None:
    assert answer_troubles(sound, KNOWN) == []


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (None, "an answer has the parts points, depth, protection, rcd, and no others; None was found"),
        ([], "list was found"),
        ({}, "an empty record was found"),
        (answer(score=100), "points, depth, protection, rcd, score was found"),
        ({"points": []}, "and no others; points was found"),
        (answer(points="abc"), "points must be a list; str was found"),
        (answer(points=[[0, 0]] * 61), "a route has at most 60 points; 61 were found"),
        (answer(points=[[0, 0], [0, math.nan]]), "point 2 must be two numbers"),
        (answer(points=[[math.inf, 0], [0, 1]]), "point 1 must be two numbers"),
        (answer(points=[[0, 0], [0, 1e9]]), "point 2 must be two numbers up to 100000 mm"),
        (answer(points=[[0, 0], [0, True]]), "point 2 must be two numbers"),
        (answer(points=[[0, 0, 0], [0, 1]]), "point 1 must be two numbers"),
        (answer(points=[[0, 0], ["0", 1]]), "point 2 must be two numbers"),
        (answer(depth=[20, 20]), "one depth for each of the 1 legs; 2 was found"),
        (answer(depth=20), "one depth for each of the 1 legs; 20 was found"),
        (answer(depth=[-1]), "the depth of leg 1 must be 0 to 2000 mm; -1 was found"),
        (answer(depth=[math.nan]), "the depth of leg 1 must be 0 to 2000 mm; nan was found"),
        (answer(protection=["gold"]), "the covering of leg 1 must be one on the list; str was found"),
        (answer(protection=[["none"]]), "the covering of leg 1 must be one on the list; list was found"),
        (answer(rcd={"ma": 30}), "an RCD has the parts at, delayed, ma, and no others; ma was found"),
        (answer(rcd=30), "and no others; 30 was found"),
        (
            answer(rcd={"ma": 0, "at": "origin", "delayed": False}),
            "must be 1 to 10000 mA; 0 was found",
        ),
        (answer(rcd={"ma": 30, "at": "attic", "delayed": False}), "at the origin or at the outlet"),
        (answer(rcd={"ma": 30, "at": "outlet", "delayed": 1}), "delayed or is not"),
    ],
)
def test_each_trouble_says_what_was_found_and_what_is_allowed(value: object, words: str) -> None:
    assert any(words in trouble for trouble in answer_troubles(value, KNOWN))


def test_all_troubles_are_told_at_once() -> None:
    assert len(answer_troubles(answer(depth=[-1], protection=["gold"], rcd=3), KNOWN)) == 3


def test_a_value_too_long_to_repeat_is_named_shortly() -> None:
    (trouble,) = answer_troubles({"k" * 10_000: 1, **answer()}, KNOWN)
    assert len(trouble) < 200


def test_a_sound_answer_from_the_browser_gets_in() -> None:
    pad = Pad(task=TASK)
    sent_by_browser(pad, answer=answer(protection=["steel-plate"]), focus=2)
    assert pad.answer == answer(protection=["steel-plate"])
    assert pad.focus == 2
    assert pad.problem == ""


def test_an_unsound_answer_changes_nothing_and_is_told_of() -> None:
    pad = Pad(task=TASK, answer=answer())
    sent_by_browser(pad, answer=answer(depth=[math.inf]))
    assert pad.answer == answer()
    assert "the depth of leg 1 must be 0 to 2000 mm; inf was found" in pad.problem


def test_the_next_sound_answer_takes_the_alert_away() -> None:
    pad = Pad(task=TASK, answer=answer())
    sent_by_browser(pad, answer="rubbish")
    assert pad.problem.startswith("This change was not kept: ")
    sent_by_browser(pad, answer=answer(rcd=None))
    assert pad.problem == ""


@pytest.mark.parametrize("name", ["task", "result", "saved", "problem", "_esm", "_css", "made_up"])
def test_what_belongs_to_the_host_cannot_be_set_by_a_browser(name: str) -> None:
    pad = Pad(task=TASK)
    before = getattr(pad, name, None)
    sent_by_browser(pad, **{name: {"passed": True} if name in {"task", "result"} else "mine"})
    assert getattr(pad, name, None) == before


@pytest.mark.parametrize("focus", [-1, "1", True, 1.5, None])
def test_a_focus_that_is_no_number_of_a_message_is_left_out(focus: object) -> None:
    pad = Pad(task=TASK)
    sent_by_browser(pad, focus=focus)
    assert pad.focus == 0


def test_an_unsound_answer_set_in_python_is_an_error() -> None:
    pad = Pad(task=TASK)
    with pytest.raises(traitlets.TraitError, match="The answer does not fit the pad: a route has at most 60"):
        pad.answer = answer(points=[[0, 0]] * 99)
    assert pad.answer == {}


def test_a_changed_answer_clears_what_spoke_of_the_one_before() -> None:
    pad: Any = Pad(task=TASK, answer=answer())
    pad.result, pad.saved = {"stretches": [], "passed": True, "summary": "6 of 6 rules met"}, "Saved 14:02"
    sent_by_browser(pad, answer=answer(rcd=None))
    assert (pad.result, pad.saved) == (None, "")


def test_an_answer_is_not_sent_back_to_the_browser_it_came_from() -> None:
    for name in ("answer", "focus"):
        assert Pad.class_traits()[name].metadata["echo_update"] is False


def test_the_page_script_is_one_file_that_fetches_and_imports_nothing() -> None:
    script = str(Pad(task=TASK)._esm)
    assert "export default" in script
    for word in ("import(", "import {", 'from "', "fetch(", "XMLHttpRequest", "eval("):
        assert word not in script
