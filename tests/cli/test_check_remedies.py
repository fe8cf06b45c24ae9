"""`zonelib check --remedies`: what would mend a finding, for people and for programs."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

CASE = """
pack = "uk"
[[walls]]
id = "W1"
length = 3600
height = 2400
thickness = 126
build = "masonry"
accessories = [{ id = "S1", kind = "socket", face = "front", x = 1200, y = 450, width = 146, height = 86 }]
[[routes]]
id = "R1"
wall = "W1"
joins = ["S1"]
rcd = { ma = 30 }
cable = { width = 10.3, thickness = 6 }
points = [[1200, 450], [300, 2330]]
depth = 15
"""
Command = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture
def slant(tmp_path: Path) -> Path:
    path = tmp_path / "slant.toml"
    path.write_text(CASE, encoding="utf-8")
    return path


def test_each_failed_finding_says_how_to_mend_it(zonelib: Command, slant: Path) -> None:
    done = zonelib("check", slant, "--remedies")
    assert done.returncode == 1
    said = " ".join(done.stdout.split())
    assert "To mend it: Lead leg 1 (a to b) another way. Go up 1,880 mm, then left 900 mm." in said
    assert "Not possible: A new run is laid level or upright" in said
    assert "To mend it" not in zonelib("check", slant).stdout


def test_a_run_that_exists_may_be_covered(zonelib: Command, slant: Path) -> None:
    said = " ".join(zonelib("check", slant, "--remedies", "--existing").stdout.split())
    assert "Or: Put leg 1 (a to b) behind a steel plate" in said


def test_a_program_finds_them_in_the_failed_findings_only(zonelib: Command, slant: Path) -> None:
    data = json.loads(zonelib("check", slant, "--json", "--remedies").stdout)
    plain = json.loads(zonelib("check", slant, "--json").stdout)
    for one, same in zip(data["findings"], plain["findings"], strict=True):
        offered = one.pop("remedies", None)
        assert one == same
        assert (offered is not None) == (one["status"] == "fail")
        assert all(each["words"] and each["kind"] for each in offered or ())
