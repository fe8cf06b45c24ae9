"""`zonelib mark` over folders as a learning platform gives them, and over what is no submission at all."""

import csv
import json
import os
import subprocess
from collections.abc import Callable
from html import unescape
from pathlib import Path

import pytest

from tests.desk.course import ASSIGNMENT, MODEL, NAME, PARTIAL, handed_in, make_course, mirror, record
from tests.desk.submitted import PART
from zonelib.desk import walk
from zonelib.desk.marked import marks_made
from zonelib.desk.plain import cell, file_name, plain
from zonelib.desk.released import read_tree
from zonelib.desk.run import mark_folder
from zonelib.exercise.answer import MIME, AnswerRecord
from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.load import bank_path, read_exercise
from zonelib.exercise.marking import Result, mark
from zonelib.sheet.handin import write_hand_in
from zonelib.sheet.saving import AnswerFile
from zonelib.site.faults import FileFault

Zonelib = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture
def bundle(tmp_path: Path) -> Bundle:
    home = tmp_path / "course"
    home.mkdir()
    return make_course(home)


@pytest.fixture
def inbox(tmp_path: Path, bundle: Bundle) -> Path:
    """Return an empty folder within the course; the bundle is asked for so that the course is there."""
    assert bundle.exercise.id == NAME
    folder = tmp_path / "course" / "inbox"
    folder.mkdir()
    return folder


def put(path: Path, data: object) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(data if isinstance(data, str) else json.dumps(data), encoding="utf-8")
    return path


def marks(folder: Path) -> dict[str, dict[str, str]]:
    out = folder.parent / "out"
    mark_folder(folder, out)
    with (out / "marks.csv").open(newline="", encoding="utf-8") as file:
        return {row["trainee"]: row for row in csv.DictReader(file)}


def test_loose_files_of_any_name_are_told_by_candidate_number(inbox: Path, bundle: Bundle) -> None:
    put(inbox / "download(1).bin", handed_in(record(bundle.hash, MODEL), candidate="C-001"))
    put(inbox / "handin.json.txt", handed_in(record(bundle.hash, PARTIAL), candidate="C-002"))
    put(inbox / "essay.docx", "PK not an answer at all")
    rows = marks(inbox)
    assert {name: float(row["score"]) for name, row in rows.items()} == {"C-001": 10.0, "C-002": PART}
    assert rows["C-001"]["handed_in"] == "2026-11-25T11:00:00Z"
    assert rows["C-001"]["assignment"] == ASSIGNMENT


def test_a_loose_notebook_and_a_hand_in_of_one_candidate_go_together(inbox: Path, bundle: Bundle) -> None:
    cells = [{"cell_type": "code", "outputs": mirror(record(bundle.hash, PARTIAL, revision=2))}]
    put(inbox / "hw (2).ipynb", {"nbformat": 4, "cells": cells})
    put(inbox / "x", handed_in(record(bundle.hash, MODEL, revision=5)))
    rows = marks(inbox)
    assert list(rows) == ["C-014"]
    assert rows["C-014"]["source"] == "hand-in file"


def test_a_folder_names_its_trainee_whatever_the_file_says(inbox: Path, bundle: Bundle) -> None:
    put(inbox / "amy" / "sub" / "a.json", handed_in(record(bundle.hash, MODEL)))
    put(inbox / "bob" / "a.json", handed_in(record(bundle.hash, MODEL)))
    rows = marks(inbox)
    assert set(rows) == {"amy", "bob"}
    assert rows["bob"]["note"].startswith(
        "Candidate number C-014 also stands in the files of amy. The hand-in"
    )
    assert float(rows["bob"]["score"]) == 10.0


def test_one_broken_answer_costs_no_other_in_its_file(inbox: Path, bundle: Bundle) -> None:
    whole = handed_in(record(bundle.hash, MODEL))
    whole["answers"].insert(0, {"schema": 1, "exercise": 5})
    put(inbox / "x.json", whole)
    assert float(marks(inbox)["C-014"]["score"]) == 10.0


def test_the_same_files_give_the_same_results_and_leave_them_untouched(inbox: Path, bundle: Bundle) -> None:
    put(inbox / "a" / "x.json", handed_in(record(bundle.hash, PARTIAL)))

    def written(*, afresh: bool) -> dict[Path, tuple[bytes, int]]:
        mark_folder(inbox, inbox.parent / "out", afresh=afresh)
        files = [path for path in (inbox.parent / "out").rglob("*") if path.is_file()]
        return {path: (path.read_bytes(), path.stat().st_mtime_ns) for path in files}

    first = written(afresh=False)
    assert len(first) == 7
    assert first == written(afresh=False) == written(afresh=True)


def test_results_written_into_the_folder_itself_are_no_trainee(inbox: Path, bundle: Bundle) -> None:
    put(inbox / "a" / "x.json", handed_in(record(bundle.hash, PARTIAL)))
    for _ in range(2):
        assert {row.trainee for row in mark_folder(inbox, inbox / "out").rows()} == {"a"}


def test_links_are_not_followed(inbox: Path, bundle: Bundle, tmp_path: Path) -> None:
    put(tmp_path / "secret.json", handed_in(record(bundle.hash, MODEL)))
    (inbox / "a").mkdir()
    (inbox / "a" / "x.json").symlink_to(tmp_path / "secret.json")
    (inbox / "b").symlink_to(tmp_path)
    rows = marks(inbox)
    assert float(rows["a"]["score"]) == 0.0
    assert "links are not followed" in rows["a"]["note"]
    assert "links are not followed" in rows["b"]["note"]


def test_a_pipe_is_not_opened(inbox: Path) -> None:
    (inbox / "a").mkdir()
    os.mkfifo(inbox / "a" / "x.json")
    assert "not an ordinary file" in marks(inbox)["a"]["note"]


def test_large_deep_and_many_files_are_left_out(inbox: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(walk, "LARGEST", 50)
    monkeypatch.setattr(walk, "MOST_FILES", 3)
    put(inbox / "large" / "x.json", "{" + " " * 60)
    put(inbox / "deep" / "a/b/c/d/e/x.json", "{}")
    for number in range(5):
        put(inbox / "many" / f"{number}.txt", "")
    rows = marks(inbox)
    assert "larger than" in rows["large"]["note"]
    assert "folders deep" in rows["deep"]["note"]
    assert "more than 3 files" in rows["many"]["note"]


def test_a_damaged_zip_is_told(inbox: Path) -> None:
    put(inbox / "a" / "work.zip", "PK")
    assert "a zip that is damaged" in marks(inbox)["a"]["note"]


@pytest.mark.parametrize(
    "text",
    [
        '{"kind": "hand-in", "answers": 5}',
        '{"kind": "hand-in", "answers": [5, null, "x", {"answer": {}}]}',
        '{"cells": [5, {"outputs": 7}, {"outputs": [3, {"data": {"' + MIME + '": [1]}}]}]}',
        '{"exercise": ["bedroom-drop"]}',
        '{"kind": "hand-in", "candidate": "\\ud800", "answers": []}',
        '{"a": ' + "9" * 5000 + "}",
        '\ufeff{"schema": 1}',
        "[1, 2, 3]",
        "{" * 100_000,
    ],
)
def test_what_is_no_answer_is_told_and_costs_nobody_else(inbox: Path, bundle: Bundle, text: str) -> None:
    put(inbox / "odd" / "x.json", text)
    put(inbox / "fine" / "x.json", handed_in(record(bundle.hash, MODEL)))
    rows = marks(inbox)
    assert float(rows["fine"]["score"]) == 10.0
    assert float(rows["odd"]["score"]) == 0.0
    assert rows["odd"]["note"]


def test_a_fault_of_ours_is_told_as_ours(
    inbox: Path, bundle: Bundle, monkeypatch: pytest.MonkeyPatch
) -> None:
    def trip(asked: Bundle, answer: AnswerRecord) -> Result:
        if answer.revision == 13:
            raise ZeroDivisionError
        return mark(asked, answer)

    monkeypatch.setattr("zonelib.desk.marked.mark", trip)
    marks_made.clear()
    put(inbox / "a" / "x.json", handed_in(record(bundle.hash, MODEL, revision=13)))
    put(inbox / "b" / "x.json", handed_in(record(bundle.hash, PARTIAL)))
    rows = marks(inbox)
    assert "a fault of the marking program, not of yours" in rows["a"]["note"]
    assert float(rows["b"]["score"]) == PART


def test_names_from_outside_stay_text(inbox: Path, bundle: Bundle) -> None:
    put(inbox / "=cmd|' <b>x" / "x.json", handed_in(record(bundle.hash, PARTIAL)))
    assert list(marks(inbox)) == ["'=cmd|' <b>x"]
    (page,) = (inbox.parent / "out" / "feedback").iterdir()
    text = page.read_text(encoding="utf-8")
    assert "<b>x" not in text
    assert "=cmd|' <b>x" in unescape(text)


def test_a_feedback_page_stands_alone(inbox: Path, bundle: Bundle) -> None:
    put(inbox / "a" / "x.json", handed_in(record(bundle.hash, PARTIAL)))
    marks(inbox)
    text = (inbox.parent / "out" / "feedback" / "a.html").read_text(encoding="utf-8")
    for outside in ("<script", "<link", "src=", "@import", "url(http"):
        assert outside not in text
    assert "<svg" in text
    assert bundle.pack.safety.aid in unescape(text)
    assert bundle.pack.stated_edition in unescape(text)


def test_every_row_of_the_mark_sheet_says_by_which_edition(inbox: Path, bundle: Bundle) -> None:
    put(inbox / "a" / "x.json", handed_in(record(bundle.hash, PARTIAL)))
    put(inbox / "b" / "x.json", "nothing of use")
    rows = marks(inbox)
    assert set(rows) == {"a", "b"}
    for row in rows.values():
        assert row["note"].endswith("Rules: BS 7671:2018+A2:2022, 522.6 not checked against A4:2026.")


def test_the_mark_sheet_has_the_columns_that_others_rely_on(inbox: Path, bundle: Bundle) -> None:
    put(inbox / "a" / "x.json", handed_in(record(bundle.hash, PARTIAL)))
    (row,) = marks(inbox).values()
    columns = ["trainee", "assignment", "exercise", "score", "max", "handed_in", "source", "note"]
    assert list(row) == columns


def test_findings_are_written_one_a_line(inbox: Path, bundle: Bundle) -> None:
    put(inbox / "a" / "x.json", handed_in(record(bundle.hash, PARTIAL)))
    marks(inbox)
    text = (inbox.parent / "out" / "findings.jsonl").read_text(encoding="utf-8")
    lines = [json.loads(line) for line in text.splitlines()]
    failed = [one["finding"]["rule"] for one in lines if one.get("finding", {}).get("status") == "fail"]
    assert failed == ["wall-zone"]
    assert sum(one["gained"] for one in lines if "criterion" in one) == pytest.approx(PART)


def test_a_trainee_cannot_bring_the_bundle_to_mark_by(tmp_path: Path, bundle: Bundle) -> None:
    eased = Bundle(json.loads(bundle.text.replace('"depth":15', '"depth":60')))
    assert eased.hash != bundle.hash
    inbox = tmp_path / "course" / "inbox"
    put(inbox / "a" / f"{NAME}.bundle.json", eased.text)
    put(inbox / f"{NAME}.bundle.json", eased.text)
    put(inbox / "a" / "x.json", handed_in(record(eased.hash, PARTIAL)))
    assert "another version of the exercise" in marks(inbox)["a"]["note"]


def test_bundles_can_be_given_or_lie_in_the_folder(tmp_path: Path, bundle: Bundle) -> None:
    away = tmp_path / "away"
    put(away / "a" / "x.json", handed_in(record(bundle.hash, MODEL)))
    with pytest.raises(FileFault, match=r"bundles: found none; allowed: .*--bundles"):
        mark_folder(away, tmp_path / "out")
    given = mark_folder(away, tmp_path / "out", bundles=tmp_path / "course" / "solutions")
    (away / "bundles").mkdir()
    bundle.write(away / "bundles")
    beside = mark_folder(away, tmp_path / "out")
    assert [one.score for one in (*given.rows(), *beside.rows())] == [10.0, 10.0]


def test_an_exercise_without_a_bundle_is_told(inbox: Path, bundle: Bundle) -> None:
    other = record(bundle.hash, MODEL) | {"exercise": "cellar"}
    put(inbox / "a" / "x.json", handed_in(other))
    told = mark_folder(inbox, inbox.parent / "out").troubles
    assert told == ("a: there is no bundle for the exercise cellar; give it with --bundles",)


def test_the_command_prints_a_summary_and_what_it_could_not_use(
    zonelib: Zonelib, inbox: Path, bundle: Bundle
) -> None:
    put(inbox / "a" / "x.json", handed_in(record(bundle.hash, PARTIAL)))
    put(inbox / "b" / "x.json", "nothing")
    ran = zonelib("mark", inbox, "--out", inbox.parent / "out")
    assert ran.returncode == 0, ran.stderr
    for words in ("solutions", NAME, "2.01", "b: x.json: The file is not JSON", "2 trainees, 2 marks"):
        assert words in ran.stdout


def test_a_folder_that_is_not_there_is_told(zonelib: Zonelib, tmp_path: Path) -> None:
    ran = zonelib("mark", tmp_path / "none", "--out", tmp_path / "out")
    assert ran.returncode == 2
    assert "found nothing there; allowed: a folder with what was handed in" in ran.stderr
    assert "Traceback" not in ran.stderr


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@x"])
def test_a_cell_is_never_a_formula(text: str) -> None:
    assert cell(text) == f"'{text}"
    assert cell(f"x{text}") == f"x{text}"


def test_text_from_outside_is_one_bounded_line() -> None:
    assert plain("a\r\n\tb\x00c\u202ed") == "a b c d"
    assert plain("a\ud800") == "a?"
    assert len(plain("x" * 10_000)) == 400


def test_file_names_are_safe_and_never_meet() -> None:
    names = ["amy", "Amy", "AMY", "..", "con", "a/b", "a\\b", "", "é", "x" * 300]
    made = [file_name(name) for name in names]
    assert made[0] == "amy"
    assert len({name.lower() for name in made}) == len(names)
    assert all(name.strip(".") and len(name) < 80 and "/" not in name and "\\" not in name for name in made)


def test_the_sheets_own_hand_in_is_read(inbox: Path, bundle: Bundle) -> None:
    work = inbox.parent / "work"
    work.mkdir()
    AnswerFile(work, bundle).save(MODEL, candidate="C-020")
    handed = write_hand_in("C-020", folder=work)
    handed.path.rename(inbox / "anything")
    row = marks(inbox)["C-020"]
    assert (float(row["score"]), row["source"]) == (10.0, "hand-in file")
    assert row["note"].startswith("Rules: ")


def test_the_shipped_homework_gives_full_marks_to_its_model_answers(tmp_path: Path, root: Path) -> None:
    for name in read_tree(root / "solutions").assignments["hw1"]:
        exercise = read_exercise(bank_path(name))
        saved = record(freeze(exercise).hash, exercise.model) | {"exercise": name}
        put(tmp_path / "in" / "amy" / "hw1" / "answers" / f"{name}.json", saved)
    rows = mark_folder(tmp_path / "in", tmp_path / "out", bundles=root / "exercises").rows()
    assert [row.score - row.max for row in rows if row.assignment == "hw1"] == [0.0] * 3
