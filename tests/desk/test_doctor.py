"""A look at a computer: what is amiss is told with what to do, and nothing is left behind."""

import os
import socket
import webbrowser
from collections.abc import Iterator
from importlib import metadata
from importlib.metadata import PackageNotFoundError
from pathlib import Path

import pytest
from click.testing import CliRunner

from zonelib.cli.doctor import command
from zonelib.desk.doctor import Computer, Sign, checks, examine, folder, network, packages


def named(signs: Iterator[Sign], name: str) -> Sign:
    return next(one for one in signs if one.name == name)


@pytest.fixture
def with_browser(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(webbrowser, "get", lambda: None)


@pytest.mark.usefixtures("with_browser")
def test_a_computer_in_order_is_told_so_and_left_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(checks, "find_spec", lambda _: None)
    for name in (*network.PROXIES, *network.EXEMPT):
        monkeypatch.delenv(name, raising=False)
    done = CliRunner().invoke(command, [str(tmp_path)])
    assert done.output.splitlines()[-1] == "All is in order."
    assert done.exit_code == 0
    assert list(tmp_path.iterdir()) == []


def test_an_old_python_is_told_with_what_to_install() -> None:
    assert packages.python(Computer(python=(3, 10, 14))).remedy.startswith("Install Python 3.11 or newer")
    assert packages.python(Computer(python=(3, 11, 0))).well


@pytest.mark.parametrize(
    ("here", "told"),
    [("0.8.0", "anywidget 0.8.0 is older than 0.9.21"), (None, "anywidget is not installed")],
)
def test_a_package_that_is_old_or_missing_is_told(
    here: str | None, told: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = metadata.version

    def version(name: str) -> str:
        if name != "anywidget":
            return real(name)
        if here is None:
            raise PackageNotFoundError(name)
        return here

    monkeypatch.setattr(packages, "version", version)
    (sign,) = packages.packages(Computer(program="python3"))
    assert sign.found == told
    assert sign.remedy == 'Run: python3 -m pip install "zonelib[workbook]"'


@pytest.mark.parametrize(
    ("settings", "well"),
    [
        ({}, True),
        ({"HTTP_PROXY": "http://127.0.0.1:3128"}, False),
        ({"HTTP_PROXY": "http://127.0.0.1:3128", "NO_PROXY": "example.org"}, False),
        (
            {"http_proxy": "http://127.0.0.1:3128", "no_proxy": "localhost, 127.0.0.1"},
            True,
        ),
        ({"http_proxy": "http://127.0.0.1:3128", "no_proxy": "*"}, True),
    ],
)
def test_a_proxy_must_leave_this_computer_out(settings: dict[str, str], *, well: bool) -> None:
    assert network.proxy(Computer(settings=settings)).well is well


@pytest.mark.parametrize(
    ("system", "word"), [("Windows", "Run: set NO_PROXY"), ("Linux", "Run: export NO_PROXY")]
)
def test_the_remedy_is_in_the_words_of_the_system(system: str, word: str) -> None:
    found = network.proxy(Computer(system=system, settings={"HTTP_PROXY": "http://127.0.0.1:3128"}))
    assert found.remedy.startswith(word)


def test_no_free_port_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    with socket.socket() as taken:
        taken.bind((network.HERE, 0))
        monkeypatch.setattr(network, "FIRST", taken.getsockname()[1])
        monkeypatch.setattr(network, "COUNT", 1)
        assert "zonelib open --port" in network.port(Computer()).remedy


def test_no_browser_is_told_with_the_way_round_it(monkeypatch: pytest.MonkeyPatch) -> None:
    def none() -> None:
        raise webbrowser.Error("could not locate runnable browser")

    monkeypatch.setattr(webbrowser, "get", none)
    assert "--no-browser" in network.browser(Computer()).remedy


def test_a_folder_that_refuses_is_told_with_the_reason(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder")
    found = folder.saved(Computer(folder=tmp_path / "file"))
    assert "cannot be written" in found.found
    assert found.remedy.startswith("Move the workbook's folder")


def test_a_folder_that_holds_a_file_for_a_moment_still_saves(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real, tries = os.replace, iter([True, True])

    def replace(*names: str) -> None:
        if next(tries, False):
            raise PermissionError(13, "held")
        real(*names)

    monkeypatch.setattr(os, "replace", replace)
    assert folder.saved(Computer(folder=tmp_path)).well


@pytest.mark.parametrize(("letters", "well"), [(169, True), (170, False)])
def test_windows_counts_letters_of_a_path(letters: int, *, well: bool) -> None:
    place = Path("/" + "x" * (letters - 1))
    assert folder.length(Computer(folder=place, system="Windows")).well is well
    assert folder.length(Computer(folder=place, system="Linux")).well


def test_a_full_disk_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(folder, "LEAST_ROOM", 2**62)
    assert folder.room(Computer(folder=tmp_path / "not" / "yet")).remedy == "Free at least 200 MB."


def test_blocked_programs_are_told(tmp_path: Path) -> None:
    blocked = tmp_path / "python"
    blocked.write_text("")
    found = named(examine(Computer(program=str(blocked))), "Programs")
    assert found.found == f"{blocked} cannot be started"


def test_nbgraders_helper_off_the_path_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(checks, "find_spec", lambda _: True)
    found = named(examine(Computer(settings={"PATH": ""})), "nbgrader")
    assert "on the path" in found.remedy
