"""`zonelib open`: what it starts, and what it says where it cannot."""

import json
import os
import signal
import subprocess
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from zonelib.cli import open as opening


@pytest.fixture
def started(monkeypatch: pytest.MonkeyPatch) -> list[dict[str, Any]]:
    """Take the place of the server; return what would have been started."""
    calls: list[dict[str, Any]] = []

    class Server:
        def __init__(self, command: list[str], *, env: dict[str, str]) -> None:
            calls.append({"command": command, "env": env})

        def wait(self) -> int:
            return 0

    monkeypatch.setattr(subprocess, "Popen", Server)
    monkeypatch.setattr(opening, "_answers", lambda _server, _port: True)
    return calls


def run(*arguments: str | Path) -> Any:
    return CliRunner().invoke(opening.command, [*map(str, arguments), "--no-browser"])


def test_it_prints_the_address_and_how_to_stop(tmp_path: Path, started: list[dict[str, Any]]) -> None:
    (tmp_path / "02-b.ipynb").touch()
    (tmp_path / "01-a.ipynb").touch()
    result = run(tmp_path, "--port", "9123")
    assert result.exit_code == 0
    token = started[0]["env"]["JUPYTER_TOKEN"]
    assert f"http://127.0.0.1:9123/lab/tree/01-a.ipynb?token={token}" in result.output
    assert "To stop it, press Ctrl and C" in result.output


def test_a_readme_comes_first_and_homework_is_in_reach(tmp_path: Path, started: list[dict[str, Any]]) -> None:
    lessons = tmp_path / "lessons"
    lessons.mkdir()
    (lessons / "README.md").touch()
    (lessons / "01-a.ipynb").touch()
    result = run(lessons)
    assert "/lab/tree/lessons/README.md?token=" in result.output
    assert f"--ServerApp.root_dir={tmp_path}" in started[0]["command"]


def test_the_start_page_comes_before_all(tmp_path: Path, started: list[dict[str, Any]]) -> None:
    lessons = tmp_path / "lessons"
    lessons.mkdir()
    for name in ("README.md", "00-a.ipynb", "start.ipynb"):
        (lessons / name).touch()
    assert "/lab/tree/lessons/start.ipynb?token=" in run(lessons).output
    assert started


def test_only_this_machine_is_served_and_no_news_are_asked_for(
    tmp_path: Path, started: list[dict[str, Any]]
) -> None:
    run(tmp_path)
    command = started[0]["command"]
    assert "--ServerApp.ip=127.0.0.1" in command
    assert "--LabApp.news_url=None" in command
    ours = Path(started[0]["env"]["JUPYTER_CONFIG_PATH"].split(":")[0])
    settings = json.loads((ours / "labconfig" / "default_setting_overrides.json").read_text(encoding="utf-8"))
    assert settings["@jupyterlab/apputils-extension:notification"]["fetchNews"] == "false"


def test_a_folder_that_is_not_there_is_named(tmp_path: Path) -> None:
    result = run(tmp_path / "nowhere")
    assert result.exit_code == 1
    assert f"There is no folder {tmp_path / 'nowhere'}." in result.output


def test_without_jupyterlab_it_says_what_to_install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("importlib.util.find_spec", lambda _name: None)
    result = run(tmp_path)
    assert result.exit_code == 1
    assert 'pip install "zonelib[workbook]"' in result.output


@pytest.mark.parametrize("ending", opening.ENDINGS)
def test_however_it_is_ended_the_server_ends_with_it(
    ending: signal.Signals, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A JupyterLab that lives on would hold the port, and nobody would know of it."""
    ended: list[str] = []

    class Server:
        def __init__(self, _command: list[str], *, env: dict[str, str]) -> None:
            self.env = env

        def wait(self) -> int:
            if not ended:
                os.kill(os.getpid(), ending)
            return 0

        def terminate(self) -> None:
            ended.append("terminated")

    before = signal.getsignal(ending)
    monkeypatch.setattr(subprocess, "Popen", Server)
    monkeypatch.setattr(opening, "_answers", lambda _server, _port: True)
    result = run(tmp_path)
    assert ended == ["terminated"]
    assert result.output.endswith("Stopped. Everything you drew is saved.\n")
    assert signal.getsignal(ending) is before


def test_a_port_that_is_taken_is_passed_over() -> None:
    import socket

    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert opening._free_port(port) > port
