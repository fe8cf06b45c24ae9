"""A whole class: the list of who is in it, zips of all, late work, several processes, and a run cut short."""

import csv
import io
import json
import shutil
import subprocess
import sys
import time
import zipfile
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.desk.course import MODEL, NAME, PARTIAL, ROOT, handed_in, make_course, record
from zonelib.desk import work
from zonelib.desk.classlist import ClassList, read_class
from zonelib.desk.groups import Group
from zonelib.desk.kept import FOLDER
from zonelib.desk.late import read_late_rule, time_in
from zonelib.desk.marked import Marked
from zonelib.desk.page import feedback_page
from zonelib.desk.run import mark_folder
from zonelib.desk.spread import by_processes, worthwhile
from zonelib.exercise.bundle import Bundle, read_bundle
from zonelib.site.faults import FileFault


@pytest.fixture
def bundle(tmp_path: Path) -> Bundle:
    make_course(tmp_path)
    return read_bundle(tmp_path / "solutions" / "hw" / f"{NAME}.bundle.json")


def answer(bundle: Bundle, candidate: str, *, model: bool = True) -> str:
    answers = record(bundle.hash, MODEL if model else PARTIAL, candidate=candidate)
    return json.dumps(handed_in(answers, candidate=candidate))


def put(path: Path, data: str | bytes) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    return path


def zipped(files: dict[str, str | bytes]) -> bytes:
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files.items():
            archive.writestr(name, data)
    return whole.getvalue()


def scores(home: Path, folder: Path, **options: object) -> dict[str, float]:
    outcome = mark_folder(folder, home / "out", bundles=home / "solutions", **options)  # type: ignore[arg-type]
    return {row.trainee: row.score for row in outcome.rows()}


# --- the class list


def listed(path: Path, text: str | bytes) -> ClassList:
    return read_class(put(path / "class.csv", text))


@pytest.mark.parametrize(
    "text",
    ["candidate,name\nC-1,Ann\nC-2,\n", "\ufeffCandidate;Name\r\nC-1;Ann\r\n\r\nC-2;\r\n",
     "candidate\tname\nC-1\tAnn\nC-2\n", "candidate,name\nC-1,Ann\nC-2,".encode("utf-16")],
)  # fmt: skip
def test_a_class_list_is_read_as_spreadsheets_save_it(tmp_path: Path, text: str | bytes) -> None:
    assert listed(tmp_path, text).names == {"C-1": "Ann", "C-2": ""}


def test_all_bad_rows_are_named_at_once(tmp_path: Path) -> None:
    text = "candidate,name\nC 1,Ann\nC-2,Bob\nc-2,Cy\n=1,Di\nC-3,Ed,x\n,Fi\n"
    with pytest.raises(FileFault, match="line 2") as told:
        listed(tmp_path, text)
    assert [fault.path for fault in told.value.faults] == ["line 2", "line 4", "line 5", "line 6", "line 7"]
    assert "which line 3 has as well" in str(told.value)


@pytest.mark.parametrize(
    ("text", "words"),
    [("", "line 1: found nothing"), ("name,candidate\n", "the names of the columns: candidate"),
     ("candidate\n", "a candidate number on each line"), (b"candidate,name\nC-1,\xff\xfe\n", "CSV UTF-8")],
)  # fmt: skip
def test_what_is_no_class_list_is_told(tmp_path: Path, text: str | bytes, words: str) -> None:
    with pytest.raises(FileFault, match=words):
        listed(tmp_path, text)


@pytest.mark.parametrize(
    ("text", "number"),
    [("C-014", "C-014"), ("c-014_hw1", "C-014"), ("Ann Other_12345_file", "C-014"), ("hw (C-015)", "C-015"),
     ("C-0145", ""), ("C-014 and C-015", ""), ("ann", "")],
)  # fmt: skip
def test_a_folders_name_tells_whose_it_is_where_it_can(text: str, number: str) -> None:
    assert ClassList({"C-014": "Ann Other", "C-015": "Bo"}).number_for(text) == number


def test_names_become_numbers_and_nobody_is_left_out(tmp_path: Path, bundle: Bundle) -> None:
    put(tmp_path / "in" / "Ann Other_1" / "x.json", answer(bundle, "C-014"))
    outcome = mark_folder(
        tmp_path / "in", tmp_path / "out", bundles=tmp_path / "solutions",
        classlist=ClassList({"C-014": "Ann Other", "C-015": "Bo Other"}),
    )  # fmt: skip
    assert {row.trainee: row.score for row in outcome.rows()} == {"C-014": 10.0, "C-015": 0.0}
    written = [path for path in (tmp_path / "out").rglob("*") if path.is_file()]
    assert len(written) == 9
    for path in written:
        assert "Other" not in path.name + path.read_text("utf-8")


# --- zips of all


@pytest.mark.parametrize("wrapped", ["", "submitted/", "all/of them/"])
def test_a_zip_of_the_class_is_marked_as_a_folder_of_it(tmp_path: Path, bundle: Bundle, wrapped: str) -> None:
    files: dict[str, str | bytes] = {
        f"{wrapped}amy/hw/x.json": answer(bundle, "C-001"),
        f"{wrapped}bob/y.zip": zipped({"z.json": answer(bundle, "C-002", model=False)}),
        f"{wrapped}loose (1).json": answer(bundle, "C-003"),
    }
    archive = put(tmp_path / "class.zip", zipped(files))
    assert set(scores(tmp_path, archive)) == {"amy", "bob", "C-003"}
    put(tmp_path / "in" / "download.zip", archive.read_bytes())
    assert scores(tmp_path, tmp_path / "in") == {"amy": 10.0, "bob": 4.0258, "C-003": 10.0}


def test_a_zip_of_one_trainee_stays_whole(tmp_path: Path, bundle: Bundle) -> None:
    files: dict[str, str | bytes] = {"work/x.json": answer(bundle, "C-001"), "photos/a.png": b"\x89PNG"}
    put(tmp_path / "in" / "anything.zip", zipped(files))
    put(tmp_path / "in" / "C-002.zip", zipped({"answers/x.json": "{"}))
    assert scores(tmp_path, tmp_path / "in") == {"C-001": 10.0, "C-002": 0.0}


def test_a_folder_and_loose_files_of_one_trainee_go_together(tmp_path: Path, bundle: Bundle) -> None:
    put(tmp_path / "in" / "C-001" / "hw" / "notes.txt", "no answer")
    put(tmp_path / "in" / "x.json", answer(bundle, "C-001"))
    assert scores(tmp_path, tmp_path / "in") == {"C-001": 10.0}


# --- late work


DUE = "2026-11-27T17:00+00:00"


@pytest.mark.parametrize(
    ("rule", "handed_in", "taken"),
    [
        ("10% per day, at most 50%", "2026-11-27T17:00:00Z", 0.0),
        ("10% per day, at most 50%", "2026-11-27T17:00:01Z", 1.0),
        ("10% per day, at most 50%", "2026-11-28T17:00:00Z", 1.0),
        ("10% per day, at most 50%", "2026-11-28T17:00:01Z", 2.0),
        ("10% per day, at most 50%", "2027-11-28T17:00:01Z", 5.0),
        ("10% per day", "2027-11-28T17:00:01Z", 10.0),
        ("2.5 % each hour", "2026-11-27 19:30:00.123456 UTC", 0.75),
        ("20%", "2026-11-30T00:00:00+02:00", 2.0),
        ("20%, after 30 minutes", "2026-11-27T17:30:00Z", 0.0),
        ("20%, after 30 minutes", "2026-11-27T17:30:01Z", 2.0),
        ("20%, after 30 minutes", "2026-11-27 18:29:59.000000 Europe/Berlin", 0.0),
        ("50% a week, at most 60%", "2026-12-10T00:00:00Z", 6.0),
        ("50%", "no time at all", 0.0),
        ("", "2026-12-10T00:00:00Z", 0.0),
    ],
)
def test_what_late_work_loses(rule: str, handed_in: str, taken: float) -> None:
    assert read_late_rule(DUE, rule).judge(handed_in, 10.0)[0] == pytest.approx(taken)


@pytest.mark.parametrize(
    "rule", ["10", "0%", "101%", "10% per month", "-5%", "10% per day, at most 200%", "x"]
)
def test_a_rule_that_cannot_be_read_is_told(rule: str) -> None:
    with pytest.raises(FileFault, match="10% per day, at most 50%"):
        read_late_rule(DUE, rule)


def test_a_time_that_cannot_be_read_is_told() -> None:
    with pytest.raises(FileFault, match=r"--due: found \"tomorrow\"; allowed: a date and a time"):
        read_late_rule("tomorrow", "10%")


def test_a_time_without_a_zone_is_taken_as_utc() -> None:
    assert time_in("2026-11-27 17:00") == datetime(2026, 11, 27, 17, tzinfo=UTC)
    assert time_in("9999-12-31T23:59:59-23:00") is None


def test_a_penalty_is_told_and_nbgraders_stamp_wins(tmp_path: Path, bundle: Bundle) -> None:
    inbox = tmp_path / "in"
    put(inbox / "amy" / "hw" / "x.json", answer(bundle, "C-001"))
    put(inbox / "amy" / "hw" / "timestamp.txt", "2026-11-29 16:00:00.000000 UTC\n")
    put(inbox / "bob" / "x.json", answer(bundle, "C-002", model=False))
    rule = read_late_rule("2026-11-25T10:30:00Z", "10% per day, at most 50%")
    outcome = mark_folder(inbox, tmp_path / "out", bundles=tmp_path / "solutions", late=rule)
    rows = {row.trainee: row for row in outcome.rows()}
    assert (rows["amy"].score, rows["amy"].earned) == (5.0, 10.0)
    assert rows["amy"].note == "Handed in 4 days 5 h late: 50% of 10 is taken off."
    assert (rows["bob"].score, rows["bob"].handed_in) == (3.6232, "2026-11-25T11:00:00Z")
    assert rows["bob"].note == (
        "The time is as the trainee's own file states it. Handed in 30 min late: 10% of 4.03 is taken off."
    )
    page = (tmp_path / "out" / "feedback" / "amy.html").read_text("utf-8")
    assert '<td class="n">5</td>' in page
    assert page.count("Handed in 4 days 5 h late: 50% of 10 is taken off. You get 5.") == 1


# --- runs


def class_of(inbox: Path, bundle: Bundle, count: int = 6) -> None:
    for number in range(count):
        name = f"C-{number:03}"
        put(inbox / name / "x.json", answer(bundle, name, model=number % 2 == 0))


def results(out: Path) -> dict[str, bytes]:
    return {path.relative_to(out).as_posix(): path.read_bytes() for path in out.rglob("*") if path.is_file()}


def test_two_processes_give_the_same_bytes_as_one(tmp_path: Path, bundle: Bundle) -> None:
    class_of(tmp_path / "in", bundle)
    for jobs in (1, 2):
        mark_folder(
            tmp_path / "in",
            tmp_path / f"out{jobs}",
            bundles=tmp_path / "solutions",
            spread=by_processes(jobs),
        )
    one, two = results(tmp_path / "out1"), results(tmp_path / "out2")
    assert one == two
    assert len(one) == 6 * 2 + 4 + 1


def test_a_small_class_is_marked_by_one_process_and_a_large_one_by_no_more_than_there_are_cores() -> None:
    sizes = (0, 30, 999, 1000, 1999, 10_000)
    assert [worthwhile(size, cores=4) for size in sizes] == [1, 1, 1, 2, 3, 4]
    assert worthwhile(10_000, cores=1) == 1


def test_a_run_cut_short_goes_on_where_it_was(
    tmp_path: Path, bundle: Bundle, monkeypatch: pytest.MonkeyPatch
) -> None:
    inbox, out = tmp_path / "in", tmp_path / "out"
    class_of(inbox, bundle)
    whole = tmp_path / "whole"
    mark_folder(inbox, whole, bundles=tmp_path / "solutions")
    judged: list[str] = []
    page = feedback_page

    def cut(trainee: str, rows: Sequence[Marked], **more: str) -> str:
        judged.append(trainee)
        if len(judged) == 4:
            raise KeyboardInterrupt("stopped")
        return page(trainee, rows, **more)

    monkeypatch.setattr(work, "feedback_page", cut)
    with pytest.raises(KeyboardInterrupt, match="stopped"):
        mark_folder(inbox, out, bundles=tmp_path / "solutions")
    assert len(list((out / FOLDER).iterdir())) == 3
    outcome = mark_folder(inbox, out, bundles=tmp_path / "solutions")
    assert outcome.reused == 3
    assert judged[4:] == ["C-003", "C-004", "C-005"]
    assert results(out) == results(whole)


def test_a_run_that_is_killed_loses_nothing_that_was_done(tmp_path: Path, bundle: Bundle) -> None:
    inbox, out = tmp_path / "in", tmp_path / "out"
    class_of(inbox, bundle, 150)
    command = [sys.executable, "-m", "zonelib", "mark", str(inbox), "--out", str(out)]
    with subprocess.Popen([*command, "--bundles", str(tmp_path / "solutions")], cwd=ROOT) as running:
        while not (out / FOLDER).is_dir() or len(list((out / FOLDER).iterdir())) < 20:
            assert running.poll() is None
            time.sleep(0.01)
        running.kill()
    done = len(list((out / FOLDER).glob("*.json")))
    assert 20 <= done < 150
    assert not (out / "marks.csv").exists()
    outcome = mark_folder(inbox, out, bundles=tmp_path / "solutions")
    assert outcome.reused == done
    assert outcome.totals.rows == 150
    mark_folder(inbox, tmp_path / "whole", bundles=tmp_path / "solutions")
    assert (out / "marks.csv").read_bytes() == (tmp_path / "whole" / "marks.csv").read_bytes()


def test_what_has_changed_is_marked_again_and_what_is_gone_goes(tmp_path: Path, bundle: Bundle) -> None:
    inbox, out = tmp_path / "in", tmp_path / "out"
    class_of(inbox, bundle, 3)
    mark_folder(inbox, out, bundles=tmp_path / "solutions")
    put(inbox / "C-001" / "x.json", answer(bundle, "C-001"))
    shutil.rmtree(inbox / "C-002")
    (out / "feedback" / next(one.name for one in (out / "feedback").iterdir())).unlink()
    outcome = mark_folder(inbox, out, bundles=tmp_path / "solutions")
    assert {row.trainee: row.score for row in outcome.rows()} == {"C-000": 10.0, "C-001": 10.0}
    assert outcome.reused == 0
    assert len(list((out / "feedback").iterdir())) == len(list((out / FOLDER).iterdir())) == 2


def test_what_is_kept_and_damaged_is_made_again(tmp_path: Path, bundle: Bundle) -> None:
    class_of(tmp_path / "in", bundle, 2)
    first = mark_folder(tmp_path / "in", tmp_path / "out", bundles=tmp_path / "solutions")
    for path in (first.out / FOLDER).iterdir():
        path.write_text(path.read_text("utf-8")[:50], encoding="utf-8")
    again = mark_folder(tmp_path / "in", tmp_path / "out", bundles=tmp_path / "solutions")
    assert again.reused == 0
    assert [row.score for row in again.rows()] == [10.0, 4.0258]


def test_the_unit_of_work_can_be_sent_and_done_twice(tmp_path: Path, bundle: Bundle) -> None:
    import pickle

    class_of(tmp_path / "in", bundle, 1)
    group = Group("C-000", folders=[tmp_path / "in" / "C-000"])
    settings = work.Settings(tmp_path / "in", tmp_path / "out", tmp_path / "solutions")
    sent = pickle.loads(pickle.dumps((group, settings)))  # noqa: S301 - our own
    done = work.mark_group(*sent)
    assert len(pickle.dumps(done)) < 2000
    assert [row.score for row in done.rows] == [10.0]
    assert work.mark_group(group, settings).reused


def test_one_assignment_of_several_can_be_marked(tmp_path: Path, bundle: Bundle) -> None:
    shutil.copytree(tmp_path / "solutions" / "hw", tmp_path / "solutions" / "hw2")
    put(tmp_path / "in" / "amy" / "hw2" / "x.json", answer(bundle, "C-001"))
    assert scores(tmp_path, tmp_path / "in", only=("hw2",)) == {"amy": 10.0}
    with pytest.raises(FileFault, match=r"--assignment: found hw3; allowed: hw, hw2"):
        scores(tmp_path, tmp_path / "in", only=("hw3",))


def test_the_mark_sheet_opens_as_csv_with_all_rows(tmp_path: Path, bundle: Bundle) -> None:
    class_of(tmp_path / "in", bundle, 3)
    mark_folder(tmp_path / "in", tmp_path / "out", bundles=tmp_path / "solutions")
    with (tmp_path / "out" / "marks.csv").open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert [row["trainee"] for row in rows] == ["C-000", "C-001", "C-002"]
    assert (tmp_path / "out" / "summary.txt").read_text("utf-8").startswith("3 trainees, 3 marks\n")
