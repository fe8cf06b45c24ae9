"""What is built for others holds every file the package needs, and runs on any machine."""

import zipfile
from pathlib import Path

import pytest
from hatchling.builders.wheel import WheelBuilder

from tests.house.files import ROOT


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    (built,) = WheelBuilder(str(ROOT)).build(directory=str(folder), versions=["standard"])
    return Path(built)


def test_it_is_pure_python(wheel: Path) -> None:
    assert wheel.name.endswith("-py3-none-any.whl")


def test_it_holds_every_file_of_the_package_and_no_other(wheel: Path) -> None:
    there = {name for name in zipfile.ZipFile(wheel).namelist() if ".dist-info/" not in name}
    package = [path for path in (ROOT / "zonelib").rglob("*") if path.is_file() and path.suffix != ".pyc"]
    assert there == {path.relative_to(ROOT).as_posix() for path in package}
    assert {"zonelib/py.typed", "zonelib/rules/packs/uk.toml", "zonelib/rules/words.toml"} <= there


def test_it_carries_the_licence(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    assert [name for name in names if name.endswith("licenses/LICENSE")]
