"""Files made to do harm: each is told of, costs no other trainee, and is soon done with."""

import io
import json
import os
import stat
import time
import tracemalloc
import zipfile
from collections.abc import Callable
from dataclasses import dataclass
from html import unescape
from pathlib import Path
from typing import Any

import pytest

from tests.desk.course import MODEL, NAME, handed_in, make_course, mirror, record
from zonelib.desk import zips
from zonelib.desk.run import Outcome, mark_folder
from zonelib.exercise.bundle import Bundle

SCRIPT = "<script>alert(1)</script><img src=x onerror=alert(1)>"


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a course that every test of this file hands in to."""
    folder = tmp_path_factory.mktemp("course")
    make_course(folder)
    return folder


@dataclass
class Inbox:
    """What one class hands in: amy means well, bob does not."""

    home: Path
    folder: Path
    bundle: Bundle

    def put(self, name: str, data: bytes | str) -> Path:
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data if isinstance(data, bytes) else data.encode())
        return path

    def answer(self, answer: Any = MODEL, **head: Any) -> dict[str, Any]:
        return record(self.bundle.hash, answer, **head)

    def file(self, answer: Any = MODEL, candidate: str = "C-014") -> str:
        return json.dumps(handed_in(self.answer(answer), candidate=candidate))

    def marked(self, **options: Any) -> Outcome:
        return mark_folder(
            self.folder, self.folder.parent / "out", bundles=self.home / "solutions", **options
        )

    def notes(self) -> dict[str, tuple[float, str]]:
        return {row.trainee: (row.score, row.note) for row in self.marked().rows()}


@pytest.fixture
def inbox(tmp_path: Path, home: Path) -> Inbox:
    """Return an inbox in which amy has handed in what she should."""
    bundle = Bundle(json.loads((home / "solutions" / "hw" / f"{NAME}.bundle.json").read_text("utf-8")))
    made = Inbox(home, tmp_path / "inbox", bundle)
    made.put("amy/x.json", made.file(candidate="C-001"))
    return made


def zipped(files: dict[str, bytes | str]) -> bytes:
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files.items():
            archive.writestr(name, data)
    return whole.getvalue()


def linked(target: str) -> bytes:
    """Return a zip that holds a symbolic link."""
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w") as archive:
        info = zipfile.ZipInfo("answers/bedroom-drop.json")
        info.create_system, info.external_attr = 3, (stat.S_IFLNK | 0o777) << 16
        archive.writestr(info, target)
    return whole.getvalue()


def locked() -> bytes:
    """Return a zip whose file says it needs a password."""
    raw = bytearray(zipped({"x.json": "{}"}))
    raw[6] |= 1
    raw[raw.rfind(b"PK\x01\x02") + 8] |= 1
    return bytes(raw)


def many_files() -> bytes:
    """Return a zip whose list of files says it is out of all proportion."""
    raw = bytearray(zipped({"x.json": "{}"}))
    at = raw.rfind(b"PK\x05\x06")
    raw[at + 12 : at + 16] = (2**31).to_bytes(4, "little")
    return bytes(raw)


def inner(depth: int, innermost: bytes) -> bytes:
    for _ in range(depth):
        innermost = zipped({"next.zip": innermost})
    return innermost


ZIPS: dict[str, tuple[Callable[[], bytes], str]] = {
    "ratio": (lambda: zipped({"x.json": b" " * 15_000_000}), "far more than it should"),
    "size": (lambda: zipped({"x.json": os.urandom(1000) * 30_000}), "larger than 20 MB"),
    "count": (lambda: zipped({f"{n}.txt": "hello" for n in range(600)}), "more than 500 files"),
    "nested": (lambda: inner(4, zipped({"x.json": "{}"})), "zips deep"),
    "total": (
        lambda: zipped({f"{n}.txt": os.urandom(200_000) + b" " * 19_000_000 for n in range(8)}),
        "come to more than 100 MB",
    ),
    "directory": (many_files, "too many files"),
    "up": (lambda: zipped({"../../../etc/x.json": "{}"}), "leads out of the zip"),
    "absolute": (lambda: zipped({"/etc/x.json": "{}"}), "leads out of the zip"),
    "drive": (lambda: zipped({"C:\\x.json": "{}"}), "leads out of the zip"),
    "link": (lambda: linked("/etc/passwd"), "a link or a device"),
    "locked": (locked, "locked with a password"),
    "cut": (lambda: zipped({"x.json": "{}"})[:-30], "damaged"),
}


@pytest.mark.parametrize("name", ZIPS)
def test_a_zip_made_to_do_harm_is_told_and_costs_nobody(inbox: Inbox, name: str) -> None:
    make, words = ZIPS[name]
    inbox.put("bob/work.zip", make())
    before = {path for path in inbox.folder.parent.rglob("*") if "out" not in path.parts}
    started = time.process_time()
    notes = inbox.notes()
    assert time.process_time() - started < 10
    assert notes["amy"][0] == 10.0
    assert notes["bob"][0] == 0.0
    assert words in notes["bob"][1]
    assert before == {path for path in inbox.folder.parent.rglob("*") if "out" not in path.parts}


def test_a_bomb_takes_no_more_memory_than_one_file(inbox: Inbox) -> None:
    inbox.put("bob/work.zip", zipped({f"{n}.json": b"[" * 15_000_000 for n in range(20)}))
    tracemalloc.start()
    inbox.notes()
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 120 * 1024**2


def test_an_answer_in_zips_within_a_zip_is_found(inbox: Inbox) -> None:
    inbox.put("bob/all.zip", zipped({"work/more.zip": zipped({"a/x": inbox.file()})}))
    assert inbox.notes()["bob"][0] == 10.0


def test_a_document_that_is_a_zip_inside_is_passed_over(inbox: Inbox) -> None:
    inbox.put("bob/essay.docx", zipped({"[Content_Types].xml": "<x/>", "word/x.json": "{"}))
    assert inbox.notes()["bob"] == (0.0, "No answer to this exercise was handed in.")


def test_a_link_and_a_folder_that_is_one_are_not_followed(inbox: Inbox) -> None:
    secret = inbox.put("../secret/x.json", inbox.file())
    (inbox.folder / "bob").mkdir()
    (inbox.folder / "bob" / "answers").symlink_to(secret.parent)
    (inbox.folder / "cy").symlink_to(secret.parent)
    notes = inbox.notes()
    assert "links are not followed" in notes["bob"][1]
    assert notes["bob"][0] == notes["cy"][0] == 0.0


def test_pipes_and_sockets_are_not_opened(inbox: Inbox) -> None:
    (inbox.folder / "bob").mkdir()
    os.mkfifo(inbox.folder / "bob" / "x.json")
    os.mkfifo(inbox.folder / "loose.json")
    notes = inbox.notes()
    assert "not an ordinary file" in notes["bob"][1]
    assert "not an ordinary file" in notes["loose"][1]


def test_what_may_not_be_read_is_told(inbox: Inbox, monkeypatch: pytest.MonkeyPatch) -> None:
    barred = inbox.put("bob/x.json", inbox.file())
    listed = inbox.put("cy/deep/x.json", inbox.file()).parent
    opened, scanned = Path.open, os.scandir

    def no_open(path: Path, *more: Any, **named: Any) -> Any:
        if path == barred:
            raise PermissionError
        return opened(path, *more, **named)

    def no_scan(path: Any) -> Any:
        if Path(path) == listed:
            raise PermissionError
        return scanned(path)

    monkeypatch.setattr(Path, "open", no_open)
    monkeypatch.setattr("zonelib.desk.walk.os.scandir", no_scan)
    notes = inbox.notes()
    assert "The file cannot be opened." in notes["bob"][1]
    assert "The folder cannot be opened." in notes["cy"][1]
    assert notes["amy"][0] == 10.0


DATA: dict[str, tuple[str, str]] = {
    "deep lists": ("[" * 200_000, "not JSON"),
    "deep tables": ('{"a":' * 100_000, "very deep"),
    "nan": ('{"schema": 1, "exercise": "bedroom-drop", "revision": NaN}', "the number NaN"),
    "far": ('{"schema": 1, "exercise": "bedroom-drop", "revision": 1e999}', "the number Infinity"),
    "long number": ('{"a": ' + "9" * 5000 + "}", "not JSON"),
    "numbers": ('{"a": [' + "1," * 1_200_000 + "1]}", "more than 1,000,000 numbers"),
    "text": ("dear tutor", "not JSON"),
    "list": ("[1, 2]", "not JSON"),
    "nothing": ("", "The file is empty."),
    "old notebook": ('{"nbformat": 3, "worksheets": [{"cells": []}]}', "cannot be read"),
}


@pytest.mark.parametrize("name", DATA)
def test_data_out_of_proportion_is_told(inbox: Inbox, name: str) -> None:
    text, words = DATA[name]
    inbox.put(f"bob/answers/{NAME}.json", text)
    started = time.process_time()
    score, note = inbox.notes()["bob"]
    assert time.process_time() - started < 5
    assert score == 0.0
    assert words in note


def points(*xy: float) -> dict[str, Any]:
    return {"points": [[xy[0], xy[1]], [1250, 450]]}


def test_a_million_points_and_numbers_beyond_all_walls_earn_nothing(inbox: Inbox) -> None:
    inbox.put("bob/x.json", json.dumps(inbox.answer({"points": [[700, 2400]] * 1_000_000})))
    inbox.put("cy/x.json", json.dumps(inbox.answer(points(1e308, -1e308))))
    inbox.put("di/x.json", json.dumps(inbox.answer(points(float("nan"), float("inf")))))
    notes = inbox.notes()
    for name in ("bob", "cy", "di"):
        assert notes[name][0] == 0.0
        assert "cannot be read" in notes[name][1] or "numbers and words" in notes[name][1]


def test_nothing_a_trainee_wrote_is_rendered_or_reckoned(inbox: Inbox) -> None:
    hostile = inbox.answer() | {"candidate": "=HYPERLINK(1)", "saved_at": f"@{SCRIPT}"[:80]}
    inbox.put(f"bob{'<b>'}/answers/{NAME}.json", json.dumps(hostile))
    cells = [{"cell_type": "markdown", "source": SCRIPT}, {"cell_type": "code", "outputs": mirror("x")}]
    inbox.put("bob<b>/nb.ipynb", json.dumps({"nbformat": 4, "cells": cells}))
    inbox.put("+1+cmd/x.json", inbox.file())
    outcome = inbox.marked()
    pages = [path.read_text("utf-8") for path in (outcome.out / "feedback").iterdir()]
    assert len(pages) == 3
    for page in pages:
        assert "<script" not in page
        assert "<img" not in page
        assert "<b>/" not in page
    assert any("bob<b>" in unescape(page) for page in pages)
    sheet = (outcome.out / "marks.csv").read_text("utf-8")
    assert "\n'+1+cmd," in sheet.replace("\r", "")
    assert f",'@{SCRIPT[:20]}" in sheet.replace('"', "")


def test_a_notebook_that_is_none_costs_nothing_else(inbox: Inbox) -> None:
    inbox.put("bob/hw.ipynb", "PK\x03\x04 not a zip")
    inbox.put("bob/hw (1).ipynb", "<html>saved page</html>")
    inbox.put("bob/hw.json.txt", inbox.file())
    assert inbox.notes()["bob"][0] == 10.0


@pytest.mark.parametrize("name", ["x.json.txt", "hw.ipynb.json", "hw (1)", "x.docx", "answers_drop.json"])
def test_files_are_known_by_what_they_hold(inbox: Inbox, name: str) -> None:
    inbox.put(f"bob/{name}", inbox.file())
    cells = [{"cell_type": "code", "outputs": mirror(inbox.answer())}]
    inbox.put(f"cy/{name}", json.dumps({"nbformat": 4, "cells": cells}))
    notes = inbox.notes()
    assert (notes["bob"][0], notes["cy"][0]) == (10.0, 10.0)


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32"])
def test_any_encoding_and_line_end_is_read(inbox: Inbox, encoding: str) -> None:
    text = json.dumps(json.loads(inbox.file()), indent=1).replace("\n", "\r")
    inbox.put("bob/x.json", text.encode(encoding))
    assert inbox.notes()["bob"][0] == 10.0


def test_names_of_any_length_and_bytes_are_told_apart(inbox: Inbox) -> None:
    long = "n" * 250
    for name in (long, long[:-1] + "m", os.fsdecode(b"\xff"), os.fsdecode(b"\xfe")):
        inbox.put(f"{name}/x.json", inbox.file())
    outcome = inbox.marked()
    assert [row.score for row in outcome.rows()] == [10.0] * 5
    assert len(list((outcome.out / "feedback").iterdir())) == 5
    assert (outcome.out / "marks.csv").read_text("utf-8").count("10.0,10.0") == 5


def test_an_edited_exercise_id_is_not_judged_as_another(inbox: Inbox) -> None:
    inbox.put(f"bob/answers/{NAME}.json", json.dumps(inbox.answer() | {"exercise": "kitchen-hatch"}))
    inbox.put("cy/x.json", json.dumps(inbox.answer() | {"bundle": "0" * 64}))
    inbox.put("di/x.json", json.dumps(inbox.answer() | {"variant": "0123456789"}))
    notes = inbox.notes()
    assert [notes[name][0] for name in ("bob", "cy", "di")] == [0.0, 0.0, 0.0]
    assert "names the exercise kitchen-hatch, but was saved for bedroom-drop" in notes["bob"][1]
    assert "another version of the exercise" in notes["cy"][1]
    assert "variant 0123456789" in notes["di"][1]


def test_another_trainees_answer_is_flagged_and_not_judged(inbox: Inbox) -> None:
    mine = json.loads(inbox.file(candidate="C-001"))
    inbox.put("bob/x.json", json.dumps(mine))
    renamed = [one | {"candidate": "C-003"} for one in mine["answers"]]
    inbox.put("C-003/x.json", json.dumps(handed_in(*renamed, candidate="C-003")))
    inbox.put("di/y.json", json.dumps(handed_in(inbox.answer(revision=9), candidate="C-003")))
    notes = inbox.notes()
    assert "The hand-in file with receipt" in notes["bob"][1]
    assert "was also handed in by amy." in notes["bob"][1]
    assert "The same answer, saved at the same second, was also handed in by amy, bob." in notes["C-003"][1]
    assert "states the candidate number of another trainee, C-003." in notes["di"][1]
    assert {score for score, _ in notes.values()} == {10.0}
    pages = "".join(path.read_text("utf-8") for path in (inbox.folder.parent / "out/feedback").iterdir())
    assert "handed in by" not in pages
    assert "another trainee" not in pages


def test_two_loose_files_of_one_number_are_told(inbox: Inbox) -> None:
    inbox.put("a.json", inbox.file(candidate="C-020"))
    inbox.put("b.json", json.dumps(handed_in(inbox.answer(revision=9), candidate="C-020")))
    assert "2 files state this candidate number: a.json, b.json." in inbox.notes()["C-020"][1]


def test_the_limits_of_a_zip_lie_where_they_are_said_to(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(zips, "LARGEST", 50)
    monkeypatch.setattr(zips, "SMALL", 10)
    monkeypatch.setattr(zips, "MOST_RATIO", 1)
    archive = zips.open_zip(zipped({"a": b"x" * 50, "b": b"x" * 51, "c": b"abcdefghij", "d": b"x" * 10}))
    told = {one.shown: one.refusal for one in zips.members_of(archive)}
    assert "far more" in told["a"]
    assert "larger than" in told["b"]
    assert told["c"] == told["d"] == ""
