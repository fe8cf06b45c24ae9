"""`zonelib exercise check` and `preview`, and the schema of exercise files, as a tutor uses them."""

import json
import tomllib
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator  # type: ignore[import-untyped]

from tests.cli.files import run
from tests.exercise.making import cable, case, stated
from zonelib.coach.variants import checking
from zonelib.exercise import bank_names, bank_path
from zonelib.exercise.kinds import NAMES
from zonelib.exercise.schema import exercise_schema

GOOD = stated(
    "choose", {"ask": "passing-routes"}, case=case(routes=[cable(), cable("R2", rcd=None)]),
    model={"chosen": ["R1"]},
    wrong=[{"words": "Both.", "answer": {"chosen": ["R1", "R2"]}, "marks": 0}],
)  # fmt: skip

CHECKER = Draft202012Validator(exercise_schema())


def written(folder: Path, name: str, **changes: Any) -> str:
    path = folder / name
    path.write_text(json.dumps({**GOOD, **changes}), encoding="utf-8")
    return str(path)


def test_every_exercise_of_the_bank_is_in_order_and_each_kind_has_four(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # Rooms are made, and looked at closer, in tests/coach/test_variants_bank.py.
    monkeypatch.setattr(checking, "must_vary", partial(checking.must_vary, seeds=()))
    result = run("exercise", "check", *bank_names())
    assert result.exit_code == 0
    assert result.stdout.count("in order") == len(bank_names())
    for kind in NAMES:
        assert result.stdout.count(f"({kind}): in order") >= 4


def test_the_gravest_of_all_files_gives_the_exit_status(tmp_path: Path) -> None:
    good, bad = written(tmp_path, "good.json"), written(tmp_path, "bad.json", kind="chose")
    off = written(tmp_path, "off.json", model={"chosen": ["R2"]})
    assert run("exercise", "check", good).exit_code == 0
    assert run("exercise", "check", good, off).exit_code == 1
    assert run("exercise", "check", bad, off, good).exit_code == 2


def test_every_fault_of_a_file_is_told_at_once(tmp_path: Path) -> None:
    wrong = [{"words": "Both.", "answer": {}, "mark": 3}]
    result = run(
        "exercise", "check", written(tmp_path, "bad.json", difficulty=9, wrong=wrong, aim=["wall-zome"])
    )
    assert result.exit_code == 2
    assert "difficulty: found 9; allowed: at most 5" in result.stderr
    result = run("exercise", "check", written(tmp_path, "bad.json", wrong=wrong, aim=["wall-zome"]))
    for told in (
        "wrong.#1.marks: found nothing; allowed: this key is required",
        "wrong.#1.mark: found a key that is not known here",
        "did you mean wall-zone?",
    ):
        assert told in " ".join(result.stderr.split())


def test_an_answer_that_earns_other_marks_than_stated_is_named(tmp_path: Path) -> None:
    wrong = [{"words": "Both.", "answer": {"chosen": ["R2"]}, "marks": 2.5}]
    result = run("exercise", "check", written(tmp_path, "off.json", model={"chosen": []}, wrong=wrong))
    said = " ".join(result.stdout.split())
    assert "Model answer earns 0 of 5 marks, not 5." in said
    assert "Typical answer 1 earns 0 of 5 marks, not 2.5." in said


def test_an_exercise_without_wrong_answers_is_asked_for_some(tmp_path: Path) -> None:
    result = run("exercise", "check", written(tmp_path, "off.json", wrong=[]))
    assert result.exit_code == 1
    assert "There is no [[wrong]] answer" in result.stdout


def test_a_preview_tells_marks_reasons_and_choices(tmp_path: Path) -> None:
    result = run("exercise", "preview", written(tmp_path, "good.json"))
    said = " ".join(result.stdout.split())
    assert result.exit_code == 0
    for told in (
        "Choice R2: R2: 20 mm deep, no covering, no RCD",
        "Model answer: 5 of 5 marks.",
        "Empty answer: 0 of 5 marks. Nothing is chosen yet.",
        "Typical answer 1: 0 of 5 marks. Both.",
        "1 of 1 right ones is ticked; R2 is ticked and is not right.",
        "All answers earn what the file says.",
    ):
        assert told in said


@pytest.mark.parametrize("show", ["question", "model", "1"])
@pytest.mark.parametrize("ending", ["svg", "png"])
def test_a_preview_draws_what_is_asked(tmp_path: Path, show: str, ending: str) -> None:
    out = tmp_path / f"picture.{ending}"
    assert run("exercise", "preview", "store-given-run", "--show", show, "--out", str(out)).exit_code == 0
    assert out.stat().st_size > 5000


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (
            ["store-given-run", "--show", "9", "--out", "x.png"],
            '--show: found "9"; allowed: question, model, 1, 2',
        ),
        (
            ["store-given-run", "--out", "x.bmp"],
            'found "x.bmp"; allowed: a name that ends in .svg, .png, .pdf',
        ),
        (["porch-what-to-say", "--out", "x.png"], "this exercise has nothing to draw there"),
    ],
)
def test_a_preview_says_what_cannot_be_drawn(arguments: list[str], told: str) -> None:
    result = run("exercise", "preview", *arguments)
    assert result.exit_code == 2
    assert told in " ".join(result.stderr.split())


def test_a_file_s_path_and_a_bank_s_name_mean_the_same() -> None:
    by_name, by_path = (
        run("exercise", "preview", one) for one in ("bedroom-drop", str(bank_path("bedroom-drop")))
    )
    assert by_name.stdout == by_path.stdout


def test_an_unknown_name_is_told_with_the_known_ones() -> None:
    result = run("exercise", "check", "bedroom-dorp")
    assert result.exit_code == 2
    assert "bedroom-drop" in result.stderr


def test_the_schema_has_each_kind_with_its_task_and_the_shape_of_its_answers() -> None:
    schema = json.loads(run("schema", "exercise").stdout)
    forms = [schema["$defs"][one["$ref"].rpartition("/")[2]] for one in schema["anyOf"]]
    assert [one["properties"]["kind"]["const"] for one in forms] == list(NAMES)
    for name, form in zip(NAMES, forms, strict=True):
        assert {"schema", "case", name, "model"} <= set(form["required"])
        assert "$ref" in form["properties"]["model"]


@pytest.mark.parametrize("name", bank_names())
def test_the_schema_takes_every_exercise_of_the_bank(name: str) -> None:
    data = tomllib.loads(bank_path(name).read_text(encoding="utf-8"))
    assert list(CHECKER.iter_errors(data)) == []


@pytest.mark.parametrize(
    "changed", [{"kind": "chose"}, {"difficulty": 9}, {"model": {"ticked": []}}, {"choose": {"ask": "all"}}]
)
def test_the_schema_refuses_what_an_exercise_may_not_hold(changed: dict[str, Any]) -> None:
    assert list(CHECKER.iter_errors(GOOD)) == []
    assert list(CHECKER.iter_errors({**GOOD, **changed})) != []
