"""`zonelib picture`, as a user runs it."""

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from tests.draw.walls import route, wall

Run = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture
def case_file(tmp_path: Path) -> Path:
    rear = route([(1200, 450), (300, 2330)], id="R2", wall="W2", joins=["S2"], depth_from="rear")
    other = wall(id="W2", accessories=[{**wall()["accessories"][0], "id": "S2"}])
    data: dict[str, Any] = {
        "pack": "uk",
        "walls": [wall(), other],
        "routes": [route([(1200, 450), (1200, 2330)]), rear],
    }
    path = tmp_path / "case.json"
    path.write_text(json.dumps(data))
    return path


def test_one_picture_goes_where_it_was_asked_for(zonelib: Run, case_file: Path, tmp_path: Path) -> None:
    for name in ("wall.svg", "wall.PNG", "wall.pdf"):
        result = zonelib("picture", case_file, "--out", name, "--route", "R1")
        assert result.returncode == 0, result.stderr
        assert result.stdout.startswith(f"Wrote {name}\n")
        assert "not checked against A4:2026" in result.stdout
        assert (tmp_path / name).stat().st_size > 5_000


def test_several_pictures_have_wall_and_face_in_their_names(
    zonelib: Run, case_file: Path, tmp_path: Path
) -> None:
    assert zonelib("picture", case_file, "--out", "all.svg").returncode == 0
    assert sorted(path.name for path in tmp_path.glob("all*")) == [
        "all-W1-front.svg",
        "all-W2-front.svg",
        "all-W2-rear.svg",
    ]
    assert zonelib("picture", case_file, "--out", "all.pdf").returncode == 0
    assert len(PdfReader(tmp_path / "all.pdf").pages) == 3


def test_the_numbers_are_those_of_check(zonelib: Run, case_file: Path, tmp_path: Path) -> None:
    found = json.loads(zonelib("check", case_file, "--json").stdout)["findings"]
    failed = [finding["rule"] for finding in found if finding["status"] == "fail"]
    zonelib("picture", case_file, "--out", "rear.svg", "--wall", "W2", "--face", "rear")
    assert f'data-n="{failed.index("wall-zone") + 1}"' in (tmp_path / "rear.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--out", "wall.gif"], '--out: found "wall.gif"; allowed: a name that ends in .svg, .png, .pdf.'),
        (["--out", "wall"], '--out: found "wall"; allowed: a name that ends in .svg, .png, .pdf.'),
        (["--out", "a.svg", "--wall", "W9"], '--wall: found "W9"; allowed: W1, W2.'),
        (["--out", "a.svg", "--route", "R9"], '--route: found "R9"; allowed: R1, R2.'),
        (
            ["--out", "a.svg", "--route", "R1", "--wall", "W2"],
            '--wall: found "W2"; allowed: "W1", the wall of R1.',
        ),
        (["--out", "none/a.svg", "--route", "R1"], "a.svg cannot be written: No such file or directory."),
    ],
)
def test_what_cannot_be_drawn_is_said_with_what_is_allowed(
    zonelib: Run, case_file: Path, options: list[str], said: str
) -> None:
    result = zonelib("picture", case_file, *options)
    assert result.returncode != 0
    assert said in result.stderr
    assert "Traceback" not in result.stderr


def test_a_case_with_faults_shows_them_all(zonelib: Run, tmp_path: Path) -> None:
    (tmp_path / "bad.toml").write_text('pack = "uk"\n[[walls]]\nid = "W1"\nlength = -1\n')
    result = zonelib("picture", "bad.toml", "--out", "wall.svg")
    assert result.returncode == 2
    assert "walls.W1.length: found -1" in result.stderr
    assert "thickness" in result.stderr
    assert not (tmp_path / "wall.svg").exists()


def test_a_case_without_a_wall_says_so(zonelib: Run, tmp_path: Path) -> None:
    (tmp_path / "empty.toml").write_text('pack = "uk"\n')
    result = zonelib("picture", "empty.toml", "--out", "wall.svg")
    assert "The file has no wall to draw." in result.stderr


def test_the_picture_in_the_guide_is_the_one_the_command_makes(
    zonelib: Run, root: Path, tmp_path: Path
) -> None:
    zonelib("picture", root / "docs/examples/bedroom-wall.toml", "--out", "marked-wall.png")
    from matplotlib.image import imread

    made, kept = imread(tmp_path / "marked-wall.png"), imread(root / "docs/marked-wall.png")
    assert made.shape == kept.shape
    assert abs(made - kept).mean() < 0.002


def test_drawing_svg_loads_no_matplotlib(root: Path, tmp_path: Path) -> None:
    file = str(root / "docs/examples/bedroom-wall.toml")
    code = (
        "import sys; from click.testing import CliRunner; from zonelib.cli.picture import command; "
        f"r = CliRunner().invoke(command, [{file!r}, '--out', 'w.svg']); "
        "print(r.exit_code, 'matplotlib' in sys.modules)"
    )
    out = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=tmp_path
    )
    assert out.stdout.split() == ["0", "False"]
