"""A wheelhouse holds all that pip needs, for this computer and for others, and installs without a network."""

import hashlib
import os
import re
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from click.testing import CliRunner

from tests.house.files import ROOT
from zonelib.cli import group
from zonelib.desk import wheelhouse as module
from zonelib.desk.wheelhouse import Target, lacking, wheelhouse
from zonelib.site.faults import FileFault

GUIDE = (ROOT / "docs" / "college-computers.md").read_text(encoding="utf-8")
WINDOWS = Target(("win_amd64",), "3.12")


def wheel(folder: Path, name: str, *needs: str) -> None:
    with zipfile.ZipFile(folder / f"{name}-1.0-py3-none-any.whl", "w") as made:
        lines = [f"Requires-Dist: {one}" for one in needs]
        made.writestr(f"{name}-1.0.dist-info/METADATA", "\n".join(["Name: " + name, *lines, "", "text"]))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    wheel(tmp_path, "zonelib", "Rule_s>=2", 'pads; extra == "workbook"', 'odd; extra == "hub"')
    wheel(tmp_path, "rule_s", 'colour>=0.4; sys_platform == "win32"', 'old; python_version < "3.12"')
    wheel(tmp_path, "pads", 'kit; os_name == "nt"', 'tests; extra == "test"')
    return tmp_path


def test_what_only_another_system_needs_is_found(folder: Path) -> None:
    assert lacking(folder, extras=["workbook"], target=WINDOWS) == ["colour>=0.4", "kit"]


def test_only_the_extras_asked_for_are_followed(folder: Path) -> None:
    assert lacking(folder, extras=["hub"], target=Target(("win_amd64",), "3.11")) == [
        "colour>=0.4", "kit", "odd", "old",
    ]  # fmt: skip
    assert lacking(folder, extras=[], target=Target(("manylinux_2_28_x86_64",), "3.12")) == []


def test_pip_is_told_of_platform_and_python_and_takes_wheels_only() -> None:
    assert Target().options == ["--only-binary", ":all:"]
    assert WINDOWS.options[2:] == ["--platform", "win_amd64", "--python-version", "3.12"]
    assert Target(("macosx_11_0_arm64",)).environment["sys_platform"] == "darwin"


def test_a_folder_that_is_no_repository_is_told(tmp_path: Path) -> None:
    with pytest.raises(FileFault, match=r"pyproject\.toml: found no such file; allowed: the folder of the"):
        wheelhouse(tmp_path, tmp_path / "a.zip", extras=[], target=Target())


def test_what_pip_cannot_get_is_told_in_one_line(tmp_path: Path) -> None:
    with pytest.raises(FileFault, match=r"found ERROR: .*; allowed: packages that pip can get as wheels"):
        module._pip(["download", "--no-index", "--dest", str(tmp_path), "zonelib-that-is-not-there"])


def test_without_packaging_the_command_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("importlib.util.find_spec", lambda _name: None)
    told = CliRunner().invoke(group, ["wheelhouse", "--out", "a.zip"])
    assert told.exit_code == 1
    assert 'pip install "zonelib[workbook]"' in told.output


def test_both_shells_are_told_the_same_and_no_network_is_asked() -> None:
    posix, windows = (
        re.findall(rf"<!-- install: {shell} -->\n```{shell}\n(.+?)```", GUIDE, flags=re.DOTALL)[0]
        for shell in ("sh", "powershell")
    )
    assert windows.replace("py -m", "python3 -m").replace(".venv\\Scripts\\", ".venv/bin/") == posix
    assert "--no-index --find-links wheelhouse" in posix


@pytest.mark.notebook
def test_a_wheelhouse_installs_without_an_index_and_judges_a_wall(tmp_path: Path) -> None:
    names = wheelhouse(ROOT, tmp_path / "made.zip", extras=[], target=Target())
    assert any(name.startswith("zonelib-") and name.endswith("-py3-none-any.whl") for name in names)
    with zipfile.ZipFile(tmp_path / "made.zip") as made:
        made.extractall(tmp_path)
    wheels = tmp_path / "wheelhouse"
    for line in (wheels / "SHA256SUMS").read_text(encoding="utf-8").splitlines():
        digest, name = line.split("  ")
        assert hashlib.sha256((wheels / name).read_bytes()).hexdigest() == digest
    subprocess.run([sys.executable, "-m", "venv", str(tmp_path / "new")], check=True)
    python = str(tmp_path / "new" / "bin" / "python")
    bare = {name: told for name, told in os.environ.items() if not name.startswith(("PIP_", "PYTHON"))}
    offline = ["--isolated", "install", "--quiet", "--no-index", "--find-links", str(wheels)]
    pinned = ["-c", str(wheels / "constraints.txt"), "zonelib"]
    subprocess.run([python, "-m", "pip", *offline, *pinned], check=True, env=bare)
    case = ROOT / "docs" / "examples" / "bedroom-wall.toml"
    words = [python, "-I", "-m", "zonelib", "check", str(case)]
    told = subprocess.run(words, capture_output=True, text=True, check=False, cwd=tmp_path, env=bare)
    assert (told.returncode, told.stderr) == (1, "")
    assert "522.6" in told.stdout
