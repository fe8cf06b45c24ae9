"""A bundle's hash names its content, and nothing but its content."""

import hashlib
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.exercise.answers import EASY, HARD, bundle, exercise, marked, model
from zonelib.exercise import Bundle, bank_path, freeze, read_bundle, read_exercise
from zonelib.site.faults import FileFault


def turned(value: Any) -> Any:
    """Return the same data with every table's keys the other way round."""
    if isinstance(value, dict):
        return {key: turned(value[key]) for key in reversed(value)}
    return [turned(one) for one in value] if isinstance(value, list) else value


def leaves(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    if isinstance(value, dict | list) and value:
        for key in value if isinstance(value, dict) else range(len(value)):
            yield from leaves(value[key], (*path, key))
    else:
        yield path


def changed(data: Any, path: tuple[Any, ...]) -> Any:
    copy = json.loads(json.dumps(data))
    holder = copy
    for key in path[:-1]:
        holder = holder[key]
    holder[path[-1]] = "something else"
    return copy


def test_the_hash_is_that_of_the_canonical_text() -> None:
    one = bundle(EASY)
    assert one.hash == hashlib.sha256(one.text.encode()).hexdigest()
    assert json.loads(one.text) == one.data


def test_the_order_of_keys_changes_no_hash() -> None:
    for name in (EASY, HARD):
        assert Bundle(turned(bundle(name).data)).hash == bundle(name).hash


def test_every_single_value_changes_the_hash() -> None:
    data = bundle(HARD).data
    hashes = {Bundle(changed(data, path)).hash for path in leaves(data)}
    assert len(hashes) > 300
    assert bundle(HARD).hash not in hashes


def test_freezing_twice_gives_the_same(tmp_path: Path) -> None:
    assert freeze(read_exercise(bank_path(EASY))).hash == bundle(EASY).hash
    path = bundle(EASY).write(tmp_path)
    assert path.name == f"{EASY}.bundle.json"
    assert read_bundle(path).hash == bundle(EASY).hash


def test_rewritten_with_other_spaces_it_is_the_same_bundle(tmp_path: Path) -> None:
    path = tmp_path / "spaced.json"
    path.write_text(json.dumps(turned(bundle(EASY).data), indent=4), encoding="utf-8")
    assert read_bundle(path).hash == bundle(EASY).hash


def test_it_holds_neither_model_nor_wrong_answers() -> None:
    assert {"model", "wrong"} & set(bundle(HARD).data["exercise"]) == set()
    assert exercise(HARD).model
    assert exercise(HARD).wrong


def test_it_alone_is_enough_to_mark(tmp_path: Path) -> None:
    read = read_bundle(bundle(HARD).write(tmp_path))
    assert (read.pack.id, read.exercise.id) == ("uk", HARD)
    assert marked(HARD, model(HARD)).score == marked(HARD, model(HARD)).points == 12


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"format": 2}, r"format: found 2; allowed: 1"),
        ({"format": None}, r"format: found None; allowed: 1"),
        ({"exercise": {}}, r"found nothing; allowed: this key is required"),
        ({"exercise": 7}, r"allowed: a bundle as released"),
        ({"exercise": {"kind": "rout"}}, r"kind: found \"rout\"; allowed: .*did you mean route"),
        ({"pack": 7}, r"allowed: a table"),
        ({"shortest": "far"}, r"shortest: found \"far\"; allowed: a number"),
    ],
)
def test_what_is_no_bundle_is_told(tmp_path: Path, change: dict[str, Any], message: str) -> None:
    path = tmp_path / "x.bundle.json"
    path.write_text(json.dumps({**bundle(EASY).data, **change}), encoding="utf-8")
    with pytest.raises(FileFault, match=message):
        read_bundle(path)


@pytest.mark.parametrize("key", ["format", "exercise", "pack", "shortest", "covered"])
def test_a_part_that_is_missing_is_told(tmp_path: Path, key: str) -> None:
    path = tmp_path / "x.bundle.json"
    data = {name: value for name, value in bundle(EASY).data.items() if name != key}
    path.write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(FileFault, match=key):
        read_bundle(path)
