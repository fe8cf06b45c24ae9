"""What the cells of a lesson show."""

from pathlib import Path
from typing import Any

import pytest

from tests.house.files import ROOT
from zonelib.rules.pack import load_pack
from zonelib.sheet import Lesson, SheetTrouble
from zonelib.sheet.lesson import page
from zonelib.sheet.lesson.live import LiveBox
from zonelib.sheet.lesson.question import QuestionBox

NAME = "01-reading-a-wall"
WIDGET = "application/vnd.jupyter.widget-view+json"
Shown = list[dict[str, Any]]


@pytest.fixture
def shown(monkeypatch: pytest.MonkeyPatch) -> Shown:
    """Collect what would stand in the notebook."""
    kept: Shown = []
    monkeypatch.setattr(page, "show", kept.append)
    monkeypatch.chdir(ROOT / "lessons")
    return kept


@pytest.fixture
def lesson(shown: Shown) -> Lesson:
    shown.clear()
    return Lesson(NAME)


def words(shown: Shown) -> str:
    return "\n".join(str(one.get("text/html", one.get("text/plain", ""))) for one in shown)


def box(lesson: Lesson, name: str) -> LiveBox:
    live = lesson._file.live[name]
    return LiveBox(live, ROOT / "lessons" / lesson._file.case, name="x")


def set_knobs(live: LiveBox, **values: Any) -> str:
    """Move the knobs whose label begins with a word, and return what the page shows then."""
    for name, value in values.items():
        (knob,) = [one for one in live.knobs if one.description.lower().startswith(name)]
        knob.value = value
    page_shown: str = live.page.value
    return page_shown


def test_a_bare_wall_gives_no_zone_away(lesson: Lesson, shown: Shown) -> None:
    lesson.look(zones=False)
    assert "image/png" in shown[0]
    assert "S1 socket" in words(shown)
    assert "Zone" not in words(shown)


def test_with_one_cable_only_its_own_zones_are_told(lesson: Lesson, shown: Shown) -> None:
    lesson.look(routes=["A"])
    assert "straight above and below S1" in words(shown)
    assert "straight above and below L1" not in words(shown)
    assert "L1&#x27;s zone is not for this cable" in words(shown)


def test_the_zones_in_words_are_top_corner_and_two_strips_of_each_accessory(
    lesson: Lesson, shown: Shown
) -> None:
    lesson.zones_in_words()
    sources = [line.split(":")[0] for line in shown[0]["text/markdown"].splitlines()]
    assert sorted(sources) == ["- L1", "- L1", "- S1", "- S1", "- corner", "- top"]


def test_a_cable_in_order_and_one_on_the_slant_are_explained(lesson: Lesson, shown: Shown) -> None:
    lesson.explain("A")
    assert shown[-1]["text/markdown"] == "Every rule is met."
    lesson.explain("B")
    told = shown[-1]["text/markdown"]
    assert told.startswith("1. ")
    assert "from 157 to 1,929 mm along the route" in told
    assert "522.6.202" in told


@pytest.mark.parametrize(
    ("depth", "thickness", "said"),
    [
        (15, 100, ["front face – not met: outside the zones", "rear face – not asked: 50 mm or more"]),
        (45, 100, ["front face – not met: outside the zones", "rear face – not met: outside the zones"]),
        (50, 100, ["front face – not asked: 50 mm or more", "rear face – not met: outside the zones"]),
        (50, 105, ["front face – not asked: 50 mm or more", "rear face – not met: outside the zones"]),
        (
            50,
            106,
            [
                "front face – not asked: 50 mm or more",
                "rear face – not asked: 50 mm or more",
                "RCD – not asked: no leg needs one",
            ],
        ),
    ],
)
def test_the_sliders_answer_for_both_faces(
    lesson: Lesson, depth: int, thickness: int, said: list[str]
) -> None:
    """Grade D: the rear is thickness - depth - 6 mm away; 50 mm and more is not concerned."""
    shown_page = set_knobs(box(lesson, "depth"), depth=depth, thickness=thickness)
    assert [one for one in said if one not in shown_page] == []
    assert shown_page.count("<svg") == 1


def test_a_live_picture_leaves_words_and_picture_for_where_no_kernel_runs(
    lesson: Lesson, shown: Shown
) -> None:
    lesson.live("depth")
    still, picture, widget = shown
    assert "Depth, mm: 15." in still["text/plain"]
    assert "not met: outside the zones" in still["text/plain"]
    assert "press Shift and Enter" in still["text/html"]
    assert "This picture in words" in still["text/html"]
    assert "image/png" in picture
    assert list(widget) == [WIDGET]


def test_values_that_make_no_wall_are_told_and_the_next_ones_drawn(lesson: Lesson) -> None:
    live = box(lesson, "depth")
    live._data["walls"][0]["accessories"][0]["x"] = 9000
    assert "9,073" in set_knobs(live, depth=20) or "S1" in live.page.value
    assert "<svg" not in live.page.value
    live._data["walls"][0]["accessories"][0]["x"] = 900
    assert "<svg" in set_knobs(live, depth=21)


def test_a_click_on_a_choice_gives_its_reason(lesson: Lesson) -> None:
    question = lesson._file.questions["shelf"]
    asked = QuestionBox(question)
    for button, choice in zip(asked.buttons, question.choices, strict=True):
        button.click()
        assert choice.why in asked.answer.value
        assert ("<b>Yes.</b>" in asked.answer.value) == choice.right
        assert [one for one in asked.buttons if "zl-taken" in one._dom_classes] == [button]


def test_without_a_kernel_a_question_keeps_its_reasons_folded(lesson: Lesson, shown: Shown) -> None:
    lesson.ask("shelf")
    before, folded = shown[0]["text/html"].split("<details>")
    assert "straight above the socket" not in before
    assert "straight above the socket" in folded


def test_the_safety_box_holds_all_of_the_packs_words(lesson: Lesson, shown: Shown) -> None:
    lesson.safety()
    lines = shown[0]["text/markdown"].splitlines()
    assert all(line.startswith(">") for line in lines)
    assert [line for line in load_pack("uk").safety.drill if f"> - {line}" not in lines] == []


def test_the_clauses_say_how_we_know_them_and_which_edition(lesson: Lesson, shown: Shown) -> None:
    lesson.clauses()
    assert "**BS 7671, 522.6.202.**" in words(shown)
    assert "**BS 7671, 415.1.1.**" in words(shown)
    assert "How we know: wording seen quoted" in words(shown)
    assert "522.6 not checked against A4:2026" in words(shown)


def test_other_countries_bring_all_their_clauses(lesson: Lesson, shown: Shown) -> None:
    lesson.clauses("de", "us")
    assert "DIN 18015-3" in shown[0]["text/markdown"]
    assert "NEC" in shown[1]["text/markdown"]


def test_coverings_are_those_of_the_pack(lesson: Lesson, shown: Shown) -> None:
    lesson.coverings()
    rows = shown[0]["text/markdown"].splitlines()[2:]
    assert len(rows) == len(load_pack("uk").protections)
    assert sum("| yes |" in row for row in rows) == 6


@pytest.mark.parametrize(
    ("call", "told"),
    [
        (lambda lesson: lesson.look(case="walls/none.toml"), r"none\.toml"),
        (lambda lesson: lesson.ask("who"), "no question who. It has: shelf"),
        (lambda lesson: lesson.live("who"), "no live picture who. It has: depth"),
        (lambda lesson: lesson.look("above"), "no view above. There are: front"),
    ],
)
def test_what_is_not_there_is_told_in_words(lesson: Lesson, call: Any, told: str) -> None:
    with pytest.raises(SheetTrouble, match=told):
        call(lesson)


def test_a_lesson_that_is_not_there_is_told_in_words(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SheetTrouble, match=r"09-none\.toml"):
        Lesson("09-none")
