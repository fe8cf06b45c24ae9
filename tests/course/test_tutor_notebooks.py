"""The tutor's notebooks: run in order, stored as they ran, and their picks and links are there."""

import json
import re
from pathlib import Path

import pytest

from tests.course.lessons import code, prose, read, source
from tests.house.files import ROOT
from zonelib.desk.picking import pick
from zonelib.site.faults import FileFault

TUTOR = ROOT / "lessons" / "tutor"
NAMES = ["set-a-homework", "write-an-exercise", "write-a-pack"]
each = pytest.mark.parametrize("path", [pytest.param(TUTOR / f"{name}.ipynb", id=name) for name in NAMES])
LINK = re.compile(r"\]\(([^)#]+)(?:#[^)]*)?\)")


@each
def test_it_was_run_in_order_and_ends_without_its_folder(path: Path) -> None:
    cells = code(read(path))
    assert [cell["execution_count"] for cell in cells] == list(range(1, len(cells) + 1))
    assert [
        cell["id"] for cell in cells if any(one["output_type"] == "error" for one in cell["outputs"])
    ] == []
    assert source(cells[-1]).endswith("os.chdir(start)\nfolder.cleanup()")
    assert "/tm" + "p/" not in json.dumps(read(path))


@each
def test_it_can_fail_and_is_compared_with_what_is_stored(path: Path) -> None:
    cells = code(read(path))
    assert any("\nassert " in f"\n{source(cell)}" for cell in cells)
    assert any("nbval-check-output" in cell["metadata"].get("tags", []) for cell in cells)


@each
def test_its_links_lead_somewhere_and_back(path: Path) -> None:
    links = LINK.findall(prose(read(path)))
    assert "../start.ipynb" in links
    assert [link for link in links if not (TUTOR / link).is_file()] == []


def test_the_pack_is_that_of_the_guide() -> None:
    stored = "".join(
        "".join(one.get("text", ""))
        for cell in code(read(TUTOR / "write-a-pack.ipynb"))
        for one in cell["outputs"]
    )
    assert "10 mA fails: []  10.1 mA fails: ['wall-rcd']" in stored
    assert "did you mean" in stored


def test_a_pick_by_kind_level_and_clause() -> None:
    found = pick(kind="joist", difficulty=(1, 2), rule="joist-cover")
    assert found
    assert {one.kind for one in found} == {"joist"}
    assert [one.difficulty for one in found] == sorted(one.difficulty for one in found)
    assert all("522.6.201" in one.clauses for one in found)
    assert pick(kind="joist", difficulty=(1, 2), clause="2C30") == []


@pytest.mark.parametrize(
    ("kind", "difficulty", "told"),
    [
        ("routes", (1, 5), 'kind: found "routes"'),
        ("", (0, 3), "difficulty: found 0 to 3"),
        ("", (4, 2), "4 to 2"),
    ],
)
def test_a_pick_that_cannot_be_is_told(kind: str, difficulty: tuple[int, int], told: str) -> None:
    with pytest.raises(FileFault, match=told):
        pick(kind=kind, difficulty=difficulty)
