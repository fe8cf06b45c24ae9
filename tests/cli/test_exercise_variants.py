"""`zonelib exercise variants` and what `check` says of a table [variants] and of the shortest run."""

import re
from pathlib import Path

import pytest

from tests.cli.files import run
from zonelib.coach.variants import variant_of
from zonelib.exercise import bank_path
from zonelib.site.faults import FileFault

BEDROOM = bank_path("bedroom-drop").read_text(encoding="utf-8")


def words(output: str) -> str:
    return " ".join(output.split())


def changed(folder: Path, *pairs: tuple[str, str]) -> str:
    """Return a copy of an exercise's file with some of its text changed."""
    text = BEDROOM.replace('id = "bedroom-drop"', 'id = "drop"')
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    path = folder / "drop.toml"
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_rooms_are_shown_with_question_answers_and_pictures(tmp_path: Path) -> None:
    done = run("exercise", "variants", "bedroom-drop", "--seed", "7", "--count", "2", "--out", str(tmp_path))
    assert done.exit_code == 0
    said = words(done.stdout)
    assert "A drop to a socket, as it is written How hard: 3 legs or parts" in said
    assert f"Seed 7, variant {variant_of(7)}" in said
    assert f"Seed 8, variant {variant_of(8)}" in said
    assert re.search(r"at point a, \d+ mm from the left", said)
    assert {path.name for path in tmp_path.iterdir()} == {
        f"bedroom-drop.{variant_of(seed)}-{what}.png" for seed in (7, 8) for what in ("question", "model")
    }


def test_the_same_seed_shows_the_same_room() -> None:
    first, second = (run("exercise", "variants", "nursery-from-behind", "--seed", "5") for _ in range(2))
    assert first.stdout == second.stdout != run("exercise", "variants", "nursery-from-behind").stdout


def test_an_exercise_without_a_table_is_told(tmp_path: Path) -> None:
    path = changed(tmp_path, (BEDROOM[BEDROOM.index("[variants]") :], ""))
    done = run("exercise", "variants", path)
    assert isinstance(done.exception, FileFault)  # which `main` prints, as of any file
    assert "variants: found nothing; allowed: a table [variants]" in str(done.exception)


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('sets = ["start.x"]', 'sets = ["begin.x"]', 'variants: found "begin.x"; allowed:'),
        ('"S1.x"]', '"S1.x", "start.x = socket"]', '"start.x = socket", which gives 1250; allowed: 700'),
    ],
)  # fmt: skip
def test_a_slip_in_the_table_makes_the_file_unfit(tmp_path: Path, old: str, new: str, told: str) -> None:
    done = run("exercise", "check", changed(tmp_path, (old, new)))
    assert done.exit_code == 2
    assert told in words(done.stderr)


def test_what_to_look_at_is_told(tmp_path: Path) -> None:
    done = run("exercise", "check", changed(tmp_path, ("{start.x} mm from the left", "15 mm deep")))
    assert done.exit_code == 1
    assert 'A text says 700, and start.x changes. Put the phrase into words, with "{start.x}".' in words(
        done.stdout
    )


@pytest.mark.parametrize(("new", "said"), [("", "states none"), ("shortest = 2500\n", "says 2500")])
def test_the_shortest_run_is_told(tmp_path: Path, new: str, said: str) -> None:
    done = run("exercise", "check", changed(tmp_path, ("shortest = 2389\n", new)))
    assert done.exit_code == 1
    told = f"The shortest run is 2389 mm long, and [route] {said}: write shortest = 2389."
    assert told in words(done.stdout)
