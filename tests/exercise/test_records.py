"""Answers are hostile input: refused quickly, in words, or read for what they are."""

import json
import time
from typing import Any

import pytest

from tests.exercise.answers import EASY, bundle, marked, model, record, written
from zonelib.exercise import AnswerRecord, mark, read_record
from zonelib.exercise.handin import read_hand_in
from zonelib.site.faults import FileFault

QUICK = 5.0  # seconds of processor time, however busy the machine; each takes some milliseconds


def refusal(text: str | bytes) -> str:
    start = time.process_time()
    with pytest.raises(FileFault, match="the answer: ") as caught:
        read_record(text)
    assert time.process_time() - start < QUICK
    return str(caught.value)


def test_ten_megabytes_are_refused_unread() -> None:
    assert "found 10,485,760 bytes; allowed: at most 262,144 bytes" in refusal(" " * (10 * 1024 * 1024))


def test_a_million_points_are_refused() -> None:
    text = written(EASY, {"points": [[1, 2]] * 1_000_000})
    assert "allowed: at most 262,144 bytes" in refusal(text)


@pytest.mark.parametrize("depth", [100, 1_000, 10_000, 100_000])
def test_lists_inside_lists_are_refused(depth: int) -> None:
    nested = "[" * depth + "]" * depth
    text = written(EASY, {}).replace('"answer": {}', f'"answer": {nested}')
    assert nested in text
    assert "allowed:" in refusal(text)


def test_brackets_in_words_are_not_lists() -> None:
    name = '["' * 12 + "[" * 50
    assert read_record(written(EASY, {}, candidate=name)).candidate == name


@pytest.mark.parametrize("depth", [20, 500, 900])
def test_lists_inside_an_answer_earn_nothing(depth: int) -> None:
    nested: list[Any] = []
    for _ in range(depth):
        nested = [nested]
    deep = {"revision": 1, "saved_at": "now", "answer": {"points": nested}}
    made = AnswerRecord.model_validate({"schema": 1, "exercise": EASY, "bundle": bundle(EASY).hash, **deep})
    assert mark(bundle(EASY), made).status == "unreadable"


@pytest.mark.parametrize("points", [201, 20_000])
def test_more_points_than_any_run_has_earn_nothing(points: int) -> None:
    start = time.process_time()
    result = marked(EASY, {"points": [[x % 9, 2] for x in range(points)]})
    assert (result.status, result.score) == ("unreadable", 0.0)
    assert "at most 200 entries" in result.note
    assert time.process_time() - start < QUICK


@pytest.mark.parametrize(
    "text",
    ["", "null", "[]", "7", "{", b"\xff\xfe", "{}", '{"schema": 1}', "NaN", '"' + "x" * 1000 + '"', "\x00"],
)
def test_what_is_no_record_is_told(text: str | bytes) -> None:
    assert "allowed: " in refusal(text)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"schema": 2}, "schema: found version 2, of a newer zonelib; allowed: version 1 or older"),
        ({"schema": 0}, "schema: found 0; allowed: 1"),
        ({"bundle": "abc"}, 'bundle: found "abc"; allowed: text of the form'),
        ({"bundle": None}, "bundle: found None; allowed: text in quotes"),
        ({"revision": -1}, "revision: found -1; allowed: at least 0"),
        ({"revision": 1.5}, "revision: found 1.5; allowed: a whole number"),
        ({"revision": True}, "revision: found true; allowed: a whole number"),
        ({"revision": 10**12}, "allowed: at most 1,000,000,000"),
        ({"candidate": "x" * 81}, "allowed: at most 80 characters"),
        ({"candidate": "\ud800"}, "allowed: letters that can be written"),
        ({"answer": []}, "answer: found []; allowed: a table"),
        ({"mark": 10}, "mark: found a key that is not known here; allowed: schema, exercise, bundle"),
    ],
)
def test_a_mistake_in_a_record_is_told(change: dict[str, Any], message: str) -> None:
    assert message in refusal(written(EASY, change.pop("answer", {}), **change))


def test_a_message_can_always_be_written_and_stays_short() -> None:
    for text in ("\ud800", "\n\r\x1b[31m", "k" * 100_000):
        for answer in ({text: 1}, {"points": text}, {"protection": [text]}, {"rcd": {text: text}}):
            note = marked(EASY, answer).note
            assert note.encode("utf-8").decode().isprintable()
            assert len(note) < 3500


def test_a_record_survives_being_written() -> None:
    one = record(EASY, model(EASY), candidate="C-014", revision=17, variant="v2")
    assert read_record(one.as_text()) == one
    assert json.loads(one.as_text())["schema"] == 1


def with_number(number: str) -> str:
    return written(EASY, {"points": [[700, 2400], [5, 5]]}).replace("[5, 5]", f"[{number}, 5]")


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e400"])
def test_numbers_that_are_not_finite_are_refused(number: str) -> None:
    assert f"the file: found the number {number}; allowed: finite numbers" in refusal(with_number(number))


def test_a_number_of_no_size_that_walls_have_earns_nothing() -> None:
    result = mark(bundle(EASY), read_record(with_number("9" * 400)))
    assert (result.status, result.score) == ("unreadable", 0.0)


@pytest.mark.parametrize("text", ["[" + "1," * 60_000 + "1]", "," * 100_000])
def test_more_values_than_any_answer_has_are_refused(text: str) -> None:
    assert "values; allowed: at most 50,000 values" in refusal(text)


@pytest.mark.parametrize("text", ['"' + '\\"' * 100_000, '"' * 200_000, "\\" * 200_000])
def test_quotes_without_end_are_refused_quickly(text: str) -> None:
    assert "allowed: " in refusal(text)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (" " * (10 * 1024 * 1024), "10,485,760 bytes"),
        ("[" * 10_000 + "]" * 10_000, "lists inside lists, very deep"),
        ('{"points": [' + "[1,2]," * 600_000 + "[1,2]]}", "1,200,002 values"),
        ('{"points": [' + "[1,2]," * 1_000_000 + "[1,2]]}", "6,000,019 bytes"),
        ('{"candidate": 1e999}', "the number 1e999"),
    ],
)
def test_a_hand_in_file_goes_through_the_same_reader(text: str, found: str) -> None:
    start = time.process_time()
    with pytest.raises(FileFault, match=f"the hand-in file: the file: found {found}; allowed: "):
        read_hand_in(text)
    assert time.process_time() - start < QUICK


def test_an_answer_to_another_bundle_is_refused_with_the_reason() -> None:
    result = marked(EASY, model(EASY), bundle="0" * 64)
    assert (result.status, result.score, result.points) == ("other-bundle", 0.0, 10)
    assert "another version of the exercise" in result.note
    assert all(not one.met and one.gained == 0 and one.reason == result.note for one in result.criteria)


def test_a_record_made_by_hand_is_marked_the_same() -> None:
    one = record(EASY, model(EASY))
    assert mark(bundle(EASY), AnswerRecord.model_validate(one.model_dump(by_alias=True))).score == 10
