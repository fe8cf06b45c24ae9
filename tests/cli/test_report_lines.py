"""Lines of a report at a terminal: nothing hangs at their ends, and a path stays in one piece."""

from pathlib import Path

import pytest

from tests.cli.files import FAILING, PASSING, run, written

CAUTION = {**PASSING, "fixings": [
    {"id": "F1", "wall": "W1", "face": "front", "x": 2600, "y": 1500, "penetration": 60, "diameter": 5},
]}  # fmt: skip
BROKEN = 'pack = "uk"\n[[walls]]\nid = "W1"\nbuild = "hedge"\n'


@pytest.mark.parametrize(
    ("command", "data"),
    [("check", FAILING), ("check", PASSING), ("check", CAUTION), ("zones", FAILING), ("check", BROKEN)],
)
def test_no_line_ends_in_blanks_or_is_too_wide(tmp_path: Path, command: str, data: object) -> None:
    name = "case.toml" if isinstance(data, str) else "case.json"
    result = run(command, written(tmp_path, name, data))
    lines = (result.stdout + result.stderr).splitlines()
    assert len(lines) > 4
    assert [line for line in lines if line != line.rstrip()] == []
    assert [line for line in lines if len(line) > 96 and str(tmp_path) not in line] == []


def test_a_wrapped_finding_keeps_its_indent(tmp_path: Path) -> None:
    lines = run("check", written(tmp_path, "case.json", FAILING)).stdout.splitlines()
    first = next(n for n, line in enumerate(lines) if line.startswith("  1. wall-zone"))
    body = lines[first + 1 : lines.index("", first + 1)]
    assert len(body) > 2
    assert all(line.startswith("     ") and line[5] != " " for line in body)


def test_the_path_of_a_course_stays_in_one_piece(tmp_path: Path) -> None:
    folder = tmp_path / ("a-long-name-" * 12)
    folder.mkdir()
    course = written(folder, "course.toml", 'schema = 1\npacks = [{ pack = "uk" }]')
    assert f"  {course}.\n" in run("check", written(folder, "case.json", PASSING)).stdout
