"""Time to mark one answer, beside the verdict it rests on."""

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from zonelib.exercise import AnswerRecord, Bundle, bank_names, bank_path, freeze, mark, read_exercise
from zonelib.exercise.answer import read_answer
from zonelib.exercise.kinds.route.marking import answered_case
from zonelib.rules.engine import judge

pytestmark = pytest.mark.bench
ROUTES = pytest.mark.benchmark(group="one answer of each exercise in drawing a route")


def model_answers(kind: str = "") -> list[tuple[Bundle, AnswerRecord]]:
    """Return the model answer of each exercise of the bank, of one kind or of all."""
    found = []
    for name in bank_names():
        exercise = read_exercise(bank_path(name))
        if kind not in ("", exercise.kind):
            continue
        bundle = freeze(exercise, folder=bank_path(name).parent)
        record = {"schema": 1, "exercise": exercise.id, "bundle": bundle.hash, "answer": exercise.model}
        record |= {"revision": 1, "saved_at": "2026-11-25T10:00:00Z"}
        found.append((bundle, AnswerRecord.model_validate(record)))
    return found


@ROUTES
def test_judge_the_answered_cases(benchmark: BenchmarkFixture) -> None:
    answers = model_answers("route")
    cases = [answered_case(bundle, read_answer(record, bundle.kind)) for bundle, record in answers]
    assert all(verdict.passed for verdict in benchmark(lambda: [judge(case) for case in cases]))


@ROUTES
def test_mark_the_answers(benchmark: BenchmarkFixture) -> None:
    answers = model_answers("route")
    results = benchmark(lambda: [mark(bundle, record) for bundle, record in answers])
    assert [result.score for result in results] == [result.points for result in results]


@pytest.mark.benchmark(group="one answer of each exercise, all kinds")
def test_mark_the_answers_of_every_kind(benchmark: BenchmarkFixture) -> None:
    answers = model_answers()
    results = benchmark(lambda: [mark(bundle, record) for bundle, record in answers])
    assert [result.score for result in results] == [result.points for result in results]
