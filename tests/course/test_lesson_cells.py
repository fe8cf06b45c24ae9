"""What the cells of a lesson show."""

from pathlib import Path
from typing import Any

import pytest

from tests.house.files import ROOT
from zonelib.rules.pack import load_pack
from zonelib.sheet import SheetTrouble, lesson

WALL = str(ROOT / "lessons" / "walls" / "back-bedroom.toml")
Shown = list[dict[str, Any]]


@pytest.fixture
def shown(monkeypatch: pytest.MonkeyPatch) -> Shown:
    """Collect what would stand in the notebook."""
    kept: Shown = []
    monkeypatch.setattr(lesson, "show", kept.append)
    return kept


def words(shown: Shown) -> str:
    return "\n".join(str(one.get("text/html", one["text/plain"])) for one in shown)


def test_a_bare_wall_gives_no_zone_away(shown: Shown) -> None:
    lesson.look(WALL, zones=False)
    assert "image/png" in shown[0]
    assert "S1 socket" in words(shown)
    assert "Zone" not in words(shown)


def test_with_one_cable_only_its_own_zones_are_told(shown: Shown) -> None:
    lesson.look(WALL, routes=["A"])
    assert "straight above and below S1" in words(shown)
    assert "straight above and below L1" not in words(shown)
    assert "L1&#x27;s zone is not for this cable" in words(shown)


def test_the_zones_in_words_are_top_corner_and_two_strips_of_each_accessory(shown: Shown) -> None:
    lesson.zones_in_words(WALL)
    sources = [line.split(":")[0] for line in shown[0]["text/markdown"].splitlines()]
    assert sorted(sources) == ["- L1", "- L1", "- S1", "- S1", "- corner", "- top"]


def test_a_cable_in_order_and_one_on_the_slant_are_explained(shown: Shown) -> None:
    lesson.explain(WALL, "A")
    assert shown[-1]["text/markdown"] == "Every rule is met."
    lesson.explain(WALL, "B")
    told = shown[-1]["text/markdown"]
    assert told.startswith("1. ")
    assert "from 157 to 1,929 mm along the route" in told
    assert "522.6.202" in told


@pytest.mark.parametrize(
    ("depth", "said"),
    [
        (
            15,
            "15 mm below the front. Front face: outside the zones. Rear face: 50 mm or more from this face.",
        ),
        (45, "45 mm below the front. Front face: outside the zones. Rear face: outside the zones."),
        (
            50,
            "50 mm below the front. Front face: 50 mm or more from this face. Rear face: outside the zones.",
        ),
    ],
)
def test_the_slider_answers_for_both_faces_of_a_thin_wall(shown: Shown, depth: int, said: str) -> None:
    """Grade D: at 45 mm the rear is 100 - 45 - 6 = 49 mm away, at 50 mm it is 44 mm away."""
    lesson.try_depth(WALL, "B")
    (box,) = [one for one in shown if "application/vnd.jupyter.widget-view+json" in one]
    assert box["text/plain"] == lesson.RUN
    case, pack = lesson._read(WALL)
    page = lesson._depth_page(case, pack, "B", depth=depth)
    assert said in page
    assert page.count("<svg") == 1


def test_the_safety_box_holds_all_of_the_packs_words(shown: Shown) -> None:
    lesson.safety()
    lines = shown[0]["text/markdown"].splitlines()
    assert all(line.startswith(">") for line in lines)
    assert [line for line in load_pack("uk").safety.drill if f"> - {line}" not in lines] == []


def test_the_clauses_say_how_we_know_them_and_which_edition(shown: Shown) -> None:
    lesson.clauses("522.6.202")
    assert "**BS 7671, 522.6.202.**" in words(shown)
    assert "How we know: wording seen quoted" in words(shown)
    assert "522.6 not checked against A4:2026" in words(shown)


def test_a_wall_that_is_not_there_is_told_in_words(tmp_path: Path) -> None:
    with pytest.raises(SheetTrouble, match=r"none\.toml"):
        lesson.look(str(tmp_path / "none.toml"))
