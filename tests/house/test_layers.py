"""Imports point down only (DEVELOPERS, "Layers"), and the bottom layers stay light."""

import json
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

HEAVY = ["matplotlib", "IPython", "ipywidgets", "anywidget", "traitlets", "nbformat", "nbgrader", "tornado"]


def lint(folder: Path) -> subprocess.CompletedProcess[str]:
    code = "from importlinter.cli import lint_imports_command as lint; lint()"
    command = [sys.executable, "-c", code, "--no-cache"]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)


def copy_with(tmp_path: Path, root: Path, files: dict[str, str]) -> Path:
    """Lay a package of the given files under the repository's own contracts."""
    (tmp_path / "pyproject.toml").write_bytes((root / "pyproject.toml").read_bytes())
    layers = ["cli", "desk", "sheet", "coach", "exercise", "draw", "rules", "site"]
    for name in ["", *layers]:
        (tmp_path / "zonelib" / name).mkdir(exist_ok=True)
        (tmp_path / "zonelib" / name / "__init__.py").write_text("")
    for name, text in files.items():
        (tmp_path / "zonelib" / name).write_text(text)
    return tmp_path


def test_the_package_keeps_its_contracts(root: Path) -> None:
    result = lint(root)
    assert result.returncode == 0, result.stdout


@pytest.mark.parametrize(
    ("files", "said"),
    [
        ({"site/model.py": "import zonelib.rules\n"}, "zonelib.site is not allowed to import zonelib.rules"),
        ({"draw/pen.py": "import zonelib.cli\n"}, "zonelib.draw is not allowed to import zonelib.cli"),
        ({"rules/plot.py": "import matplotlib\n"}, "zonelib.rules is not allowed to import matplotlib"),
        ({"spare.py": "x = 1\n"}, "zonelib.spare"),
    ],
)
def test_the_contracts_catch_a_breach(tmp_path: Path, root: Path, files: dict[str, str], said: str) -> None:
    result = lint(copy_with(tmp_path, root, files))
    assert result.returncode == 1
    assert said in " ".join(result.stdout.split())


def test_the_contracts_pass_an_empty_house(tmp_path: Path, root: Path) -> None:
    assert lint(copy_with(tmp_path, root, {})).returncode == 0


def test_import_zonelib_is_light() -> None:
    code = "import json, sys, zonelib; print(json.dumps(sorted(sys.modules)))"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    modules = set(json.loads(out))
    assert "zonelib" in modules
    assert [name for name in HEAVY if name in modules] == []
    assert [name for name in modules if name.startswith("jupyter")] == []


def test_heavy_names_are_real_dependencies(root: Path) -> None:
    """A name misspelt above would make the test before this one pass for nothing."""
    contracts = tomllib.loads((root / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
    (light,) = [contract for contract in contracts if contract["id"] == "light"]
    assert set(HEAVY) <= set(light["forbidden_modules"])
    code = f"import importlib.util as u; print([n for n in {HEAVY!r} if u.find_spec(n) is None])"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert out.strip() == "[]"
