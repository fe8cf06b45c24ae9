"""The core alone, as `pip install zonelib` gives it: what needs more says so, and no traceback is seen."""

import subprocess
import sys

import pytest

from zonelib.cli.missing import told

WITHOUT = "import sys; sys.modules[{0!r}] = None; from zonelib.cli import main; sys.argv = {1!r}; main()"


def run_without(package: str, *words: str) -> "subprocess.CompletedProcess[str]":
    code = WITHOUT.format(package, ["zonelib", *words])
    return subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)


def test_the_help_of_all_is_there_and_tells_what_is_missing() -> None:
    done = run_without("ipywidgets", "--help")
    assert done.returncode == 0
    assert "(needs ipywidgets, which is not" in done.stdout
    assert "check" in done.stdout
    assert done.stderr == ""


@pytest.mark.parametrize("words", [["doctor"], ["doctor", "--all", "x"]])
def test_a_command_that_needs_more_says_what_to_do(words: list[str]) -> None:
    done = run_without("ipywidgets", *words)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == (
        "This needs the package ipywidgets, which is not installed here.\n"
        'To get it: python -m pip install "zonelib[workbook]"\n'
    )


@pytest.mark.parametrize(
    ("name", "part"), [("psycopg", "postgresql"), ("distributed.core", "cluster"), ("matplotlib", "workbook")]
)
def test_the_part_it_comes_with_is_named(name: str, part: str) -> None:
    assert f'pip install "zonelib[{part}]"' in told(ModuleNotFoundError(name=name))


def test_a_module_of_ours_that_is_not_there_is_a_fault_of_ours() -> None:
    with pytest.raises(ModuleNotFoundError, match=r"no zonelib\.none"):
        told(ModuleNotFoundError("no zonelib.none", name="zonelib.none"))
