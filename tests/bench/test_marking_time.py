"""Time to mark one answer, beside the verdict it rests on."""

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from zonelib.exercise import AnswerRecord, Bundle, bank_names, bank_path, freeze, mark, read_exercise
from zonelib.exercise.answer import read_answer
from zonelib.exercise.kinds.route.marking import answered_case
from zonelib.rules.engine import judge

pytestmark = [pytest.mark.bench, pytest.mark.benchmark(group="one answer of each exercise")]


def model_answers() -> list[tuple[Bundle, AnswerRecord]]:
    found = []
    for name in bank_names():
        exercise = read_exercise(bank_path(name))
        bundle = freeze(exercise, folder=bank_path(name).parent)
        record = {"schema": 1, "exercise": exercise.id, "bundle": bundle.hash, "answer": exercise.model}
        record |= {"revision": 1, "saved_at": "2026-11-25T10:00:00Z"}
        found.append((bundle, AnswerRecord.model_validate(record)))
    return found


def test_judge_the_answered_cases(benchmark: BenchmarkFixture) -> None:
    cases = [answered_case(bundle, read_answer(record, bundle.kind)) for bundle, record in model_answers()]
    assert all(verdict.passed for verdict in benchmark(lambda: [judge(case) for case in cases]))


def test_mark_the_answers(benchmark: BenchmarkFixture) -> None:
    answers = model_answers()
    results = benchmark(lambda: [mark(bundle, record) for bundle, record in answers])
    assert [result.score for result in results] == [result.points for result in results]
