"""The revision notebook without a browser: it picks, opens, and tells progress in plot and words."""

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from zonelib.coach.mastery.record import Check, Record
from zonelib.coach.variants import variant_of, vary
from zonelib.exercise.kinds import kind_named
from zonelib.exercise.model import Variants
from zonelib.sheet import SheetTrouble
from zonelib.sheet.progress import FILE
from zonelib.sheet.revision import Revision, bank
from zonelib.sheet.revision_plot import in_words, progress_figure, progress_html
from zonelib.sheet.revision_words import entries


def lay(folder: Path, *checks: Check) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / FILE).write_text(Record(checks=checks).as_text(), encoding="utf-8")


def check(exercise: str, *, days_ago: float = 0.0, **rules: float) -> Check:
    at = (datetime.now(UTC) - timedelta(days=days_ago)).isoformat()
    return Check(at=at, exercise=exercise, rules={k.replace("_", "-"): v for k, v in rules.items()})


def answer(revision: Revision, answer_given: dict[str, Any] | None = None) -> None:
    revision.sheet.set(**(answer_given or bank()[revision.pick.exercise].model))
    revision.sheet.check()


def test_who_presses_next_gets_from_one_exercise_to_another_and_progress_follows(tmp_path: Path) -> None:
    revision, seen = Revision(tmp_path), list[str]()
    assert all(row.state == "new" for row in revision.rows())
    for _ in range(3):
        seen.append(revision.pick.exercise)
        answer(revision)
        revision.next()
    assert len(set(seen)) == 3
    assert revision.pick.exercise not in seen
    assert any(row.met for row in revision.rows())
    assert not list((tmp_path / "answers").glob("*.json")), "practice is not handed in"
    assert (tmp_path / FILE).exists()


def test_an_answer_not_yet_checked_is_there_again_after_a_restart(tmp_path: Path) -> None:
    first = Revision(tmp_path)
    first.sheet.set(**bank()[first.pick.exercise].model)
    again = Revision(tmp_path)
    assert again.pick == first.pick
    assert again.sheet.answer == first.sheet.answer


def test_who_does_not_want_an_exercise_gets_another_one(tmp_path: Path) -> None:
    revision, seen = Revision(tmp_path), set[str]()
    for _ in range(4):
        seen.add(revision.pick.exercise)
        revision.next()
    assert len(seen) == 4
    assert not (tmp_path / FILE).exists()


def test_one_that_comes_again_starts_with_an_empty_pad(tmp_path: Path) -> None:
    first = Revision(tmp_path)
    name = first.pick.exercise
    answer(first)
    fresh = first._scratch(first.sheet.bundle, first._record()[0])
    assert fresh.name == f"{name}-2"
    assert not fresh.exists()


def test_homework_of_the_same_course_counts(tmp_path: Path) -> None:
    lay(tmp_path / "exercises" / "hw1", check("kitchen-hatch", wall_rcd=0.0))
    (tmp_path / "lessons").mkdir()
    revision = Revision(tmp_path / "lessons")
    assert (revision.pick.why, revision.pick.rule) == ("weakest", "wall-rcd")
    assert "where your marks were lowest: The RCD, and metal in walls." in revision.why


def test_it_says_why_a_rule_that_was_met_comes_once_more(tmp_path: Path) -> None:
    lay(tmp_path, check("bedroom-drop", wall_zone=1.0))
    assert "once more" in Revision(tmp_path).why


VARIED = {"draw": {"start": {"from": 2100, "to": 2500, "step": 10, "sets": ["start.x"]}}}


def seen_with_all_others_mastered(folder: Path, name: str) -> None:
    """Lay a record in which one exercise was met long ago, and all others lately and twice."""
    others = [one for one in bank().values() if one.id != name]
    lately = [check(one.id, days_ago=9, **dict.fromkeys(one.aim, 1.0)) for one in others]
    twice = [*lately, *(one.model_copy(update={"variant": "x"}) for one in lately)]
    lay(folder, check(name, days_ago=400, **dict.fromkeys(bank()[name].aim, 1.0)), *twice)


def test_a_room_that_was_seen_comes_back_with_new_measures(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    name = "landing-first-run"
    varied = bank()[name].model_copy(update={"variants": Variants.model_validate(VARIED)})
    few = {name: varied, "landing-which-screws": bank()["landing-which-screws"]}
    monkeypatch.setattr("zonelib.sheet.revision.bank", lambda: few)
    seen_with_all_others_mastered(tmp_path, name)
    revision = Revision(tmp_path)
    assert (revision.pick.exercise, revision.pick.seed) == (name, 1)
    assert revision.sheet.bundle.variant
    assert "measures are new" in revision.why
    answer(revision, vary(varied, 1).model)
    assert revision.sheet.panel.view["score"] == "5 of 5 marks"
    assert f'"variant": "{variant_of(1)}"' in (tmp_path / FILE).read_text(encoding="utf-8")


def test_where_a_file_gives_no_such_room_the_exercise_comes_as_it_stands(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    name = "landing-first-run"
    nowhere = {"draw": {"start": {"from": 8000, "to": 9000, "step": 500, "sets": ["start.x"]}}}
    varied = bank()[name].model_copy(update={"variants": Variants.model_validate(nowhere)})
    monkeypatch.setattr("zonelib.sheet.revision.bank", lambda: {name: varied})
    lay(tmp_path, check(name, wall_zone=0.0))
    revision = Revision(tmp_path)
    assert revision.pick.seed == 1
    assert revision.sheet.bundle.variant is None
    assert "measures are new" not in revision.why


def test_every_exercise_offered_has_a_pad_and_an_aim() -> None:
    assert len(bank()) >= 15
    assert all(kind_named(one.kind).pad and one.aim for one in bank().values())


def test_the_plot_and_its_words_say_the_same(tmp_path: Path) -> None:
    lay(
        tmp_path,
        check("a", wall_zone=0.0),
        check("b", wall_zone=1.0),
        check("c", fixing=1.0),
        check("d", fixing=1.0),
    )
    rows, now = Revision(tmp_path).rows(), datetime.now(UTC)
    words = in_words(rows, needed=2, now=now)
    assert "Where a cable is expected: not yet, 1 of 2 in a row, met in 1 of 2, revise: " in words
    assert "Where a screw may go: mastered, met in 2 of 2" in words
    drawn = [one.get_text() for one in progress_figure(rows, needed=2, now=now).axes[0].texts]
    assert {row.words for row in rows} <= set(drawn)
    assert {"mastered", "not yet, 1 of 2 in a row", "new"} <= set(drawn)
    discs = [
        line for line in progress_figure(rows, needed=2, now=now).axes[0].lines if line.get_marker() == "o"
    ]
    assert len(discs) == sum(len(row.met) for row in rows)
    html = progress_html(rows, needed=2, now=now)
    assert all(row.words in html.split('alt="')[1].split('"')[0] for row in rows)


def test_no_text_of_the_plot_runs_into_the_next_column(tmp_path: Path) -> None:
    lay(tmp_path, *(check(f"e{n}", days_ago=20 - n, wall_zone=n % 2, joist_hole_size=0.5) for n in range(14)))
    figure = progress_figure(Revision(tmp_path).rows(), needed=2, now=datetime.now(UTC))
    boxes = [one.get_window_extent() for one in figure.axes[0].texts if one.get_text()]
    assert not [(a, b) for n, a in enumerate(boxes) for b in boxes[n + 1 :] if a.overlaps(b)]
    assert max(box.x1 for box in boxes) < figure.bbox.width


def test_a_tutors_policy_beside_the_course_file_counts(tmp_path: Path) -> None:
    (tmp_path / "course.toml").write_text('schema = 1\npacks = [{ pack = "uk" }]\n', encoding="utf-8")
    (tmp_path / "mastery.toml").write_text("schema = 1\nin_a_row = 5\n", encoding="utf-8")
    (tmp_path / "lessons").mkdir()
    assert Revision(tmp_path / "lessons").policy.in_a_row == 5
    (tmp_path / "mastery.toml").write_text("schema = 1\nin_a_row = 0\n", encoding="utf-8")
    with pytest.raises(SheetTrouble, match="in_a_row"):
        Revision(tmp_path / "lessons")


def test_without_a_kernel_the_notebook_holds_picture_and_words(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    Revision(tmp_path)._ipython_display_()
    shown = capsys.readouterr().out
    assert "Run this cell to revise" in shown
    assert "nothing practised yet" in shown


def test_the_words_fit_their_blanks() -> None:
    blanks = {"title": "T.", "family": "F", "n": 1, "of": 2, "met": 1, "day": "d", "file": "f"}
    assert all(one.format(**blanks) for one in entries().values())
    assert json.dumps(entries())
