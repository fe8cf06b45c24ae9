"""What README.md and DEVELOPERS.md tell a reader to do can be done."""

import re
import shlex
import subprocess
import sys
import tomllib

import click
import pytest

from tests.house.files import ROOT
from tests.house.readme_command import command
from zonelib.cli import group
from zonelib.rules.pack import load_pack

PAGES = ["README.md", "DEVELOPERS.md"]
COMMAND = re.compile(r"`(?:python -m )?zonelib ([a-z][^`\n]*)`")


def page(name: str) -> str:
    return (ROOT / name).read_text(encoding="utf-8")


def run(*words: str) -> str:
    return subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True).stdout


def commands() -> dict[str, click.Command]:
    context = click.Context(group)
    found = {name: group.get_command(context, name) for name in group.list_commands(context)}
    return {name: command for name, command in found.items() if command}


def options(command: click.Command) -> set[str]:
    """Return the options of a command, and of its own commands where it is a group."""
    inner = command.commands.values() if isinstance(command, click.Group) else ()
    return {opt for one in (command, *inner) for parameter in one.params for opt in parameter.opts}


def told(name: str) -> list[list[str]]:
    """Return the zonelib commands of a page, each as its words."""
    return [shlex.split(words) for words in COMMAND.findall(page(name))]


@pytest.mark.parametrize("name", ["open", "tests"])
def test_both_shells_are_told_the_same(name: str) -> None:
    posix, windows = command(name, "sh"), command(name, "powershell")
    steps = posix.replace(".venv/bin/", "").replace("python3 -m venv", "python -m venv").split(" && ")
    told = windows.replace(".venv\\Scripts\\", "").replace("py -m venv", "python -m venv").split("; ")
    assert told == steps


def test_there_are_exactly_two_commands() -> None:
    assert re.findall(r"<!-- (\w+): sh -->", page("README.md")) == ["open", "tests"]


def test_the_extras_named_exist() -> None:
    extras = tomllib.loads(page("pyproject.toml"))["project"]["optional-dependencies"]
    named = {name: re.findall(r"\.\[(\w+)\]", command(name, "sh")) for name in ("open", "tests")}
    assert named == {"open": ["workbook"], "tests": ["dev"]}
    assert {"workbook", "dev"} <= set(extras)


def test_ci_runs_the_command_that_the_readme_gives() -> None:
    assert 'command="$(python3 tests/house/readme_command.py tests)"' in page(".ci/run")
    printed = run(sys.executable, "tests/house/readme_command.py", "tests")
    assert printed.strip() == command("tests", "sh")
    assert "pytest" in printed


def test_a_missing_command_is_told() -> None:
    with pytest.raises(SystemExit, match="holds 0 commands under <!-- absent: sh -->"):
        command("absent")


@pytest.mark.parametrize("name", PAGES)
def test_every_zonelib_command_told_exists(name: str) -> None:
    known = commands()
    assert told(name)
    for words in told(name):
        assert words[0] in known, words
        assert {word for word in words if word.startswith("--")} <= options(known[words[0]]), words


@pytest.mark.parametrize("name", PAGES)
def test_every_link_leads_somewhere(name: str) -> None:
    links = [link.split("#")[0] for link in re.findall(r"\]\(([^)#]+)", page(name))]
    assert links
    assert [link for link in links if not (ROOT / link).exists()] == []


def test_the_picture_shown_is_made_by_the_command_told() -> None:
    (shown,) = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", page("README.md"))
    (made,) = [words for words in told("README.md") if words[0] == "picture" and shown in words]
    assert (ROOT / made[1]).exists()


def test_edition_and_safety_words_are_those_of_the_pack() -> None:
    pack = load_pack("uk")
    text = " ".join(page("README.md").replace(">", " ").split())
    assert pack.edition in text
    assert pack.edition_note in text
    assert pack.safety.aid in text
    for line in pack.safety.drill:
        assert line in text


def test_help_is_there_on_every_command() -> None:
    out = run(sys.executable, "-m", "zonelib", "--help")
    for name, one in commands().items():
        assert name in out
        assert one.help, name
