"""A class of three at a real JupyterHub: one homework from release to feedback, and who may reach what."""

import csv
import os
import re
import signal
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from html import unescape
from pathlib import Path

import pytest

from tests.desk.submitted import PART
from tests.hub.hub import answering, processes_in, running_hub, wait_for
from tests.hub.lesson import COURSE, HOMEWORK, Class, hold, lay_out
from tests.hub.person import Person
from zonelib.desk.run import mark_folder

pytestmark = pytest.mark.notebook
GRADED = """
    SELECT submitted_assignment.student_id, SUM(grade.auto_score) FROM grade
    JOIN submitted_notebook ON grade.notebook_id = submitted_notebook.id
    JOIN submitted_assignment ON submitted_notebook.assignment_id = submitted_assignment.id
    GROUP BY submitted_assignment.student_id
"""


@pytest.fixture(scope="module")
def people(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Class]:
    home = tmp_path_factory.mktemp("hub")
    lay_out(home)
    with running_hub(home) as hub:
        yield hold(hub)


def feedback(person: Person) -> str:
    """Fetch the feedback as the assignment list does, and open the page it links to."""
    listed = person.press("fetch_feedback", HOMEWORK, COURSE)
    (sent,) = [one for one in listed if one["status"] == "submitted"]
    path = sent["submissions"][-1]["local_feedback_path"]
    return unescape(person.ask("GET", f"/user/{person.name}/files/{path}/{HOMEWORK}.html").text)


def desk_marks(people: Class) -> dict[str, float]:
    """Mark what was collected as `zonelib mark` does; return the sums."""
    mark_folder(people.course, people.hub.home / "marked", ideas=False)
    sums: dict[str, float] = {}
    with (people.hub.home / "marked" / "marks.csv").open(newline="", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            sums[row["trainee"]] = sums.get(row["trainee"], 0.0) + float(row["score"])
    return sums


def test_nbgrader_and_the_desk_give_the_same_marks(people: Class) -> None:
    with closing(sqlite3.connect(people.course / "gradebook.db")) as book:
        graded = dict(book.execute(GRADED).fetchall())
    assert graded == pytest.approx(desk_marks(people))
    # The model answers earn all of 10 + 10 + 12; the drop outside of zones was worked by hand in tests/desk.
    assert graded == pytest.approx({"amy": 32.0, "bob": PART})


@pytest.mark.parametrize(("name", "mark"), [("amy", "32.0"), ("bob", f"{PART:.2f}")])
def test_each_reads_the_mark_on_the_page_from_the_exchange(people: Class, name: str, mark: str) -> None:
    page = feedback(getattr(people, name))
    assert f"(Score: {mark} / 32.0)" in page
    assert "It reaches S1." in page


def test_no_code_of_a_trainee_was_run(people: Class) -> None:
    submitted = people.course / "submitted" / "amy" / HOMEWORK / f"{HOMEWORK}.ipynb"
    assert "ran.txt" in submitted.read_text(encoding="utf-8")
    assert not (people.hub.home / "ran.txt").exists()


def test_the_exchange_hides_what_was_handed_in(people: Class) -> None:
    exchange = people.hub.home / "exchange"
    assert exchange.stat().st_mode & 0o7777 == 0o1777
    assert (exchange / COURSE / "inbound").stat().st_mode & 0o777 == 0o733
    assert {path.name.split("+")[0] for path in (exchange / COURSE / "inbound").iterdir()} == {"amy", "bob"}


def test_who_hands_in_under_a_name_that_is_not_the_accounts_is_told_of(people: Class) -> None:
    told = (people.hub.home / "marking.txt").read_text(encoding="utf-8")
    assert len(re.findall(r"claims to be submitted by (?:amy|bob) but is owned by", told)) == 2


def test_nobody_reaches_the_server_of_another(people: Class) -> None:
    for person, other in ((people.bob, "amy"), (people.tutor, "bob")):
        assert person.try_to("GET", f"/user/{other}/api/contents").status_code == 403
        assert person.try_to("GET", f"/hub/api/users/{other}").status_code in {403, 404}


def test_somebody_else_is_not_let_in(people: Class) -> None:
    assert Person(people.hub, "carol").sign_in() == 403


def test_a_phone_opens_the_notebook_without_the_file_browser(people: Class) -> None:
    path = f"/hub/user-redirect/doc/tree/{HOMEWORK}/{HOMEWORK}.ipynb"
    page = people.amy.browse("GET", path, follow_redirects=True)
    assert page.status_code == 200
    assert page.url.path == f"/user/amy/doc/tree/{HOMEWORK}/{HOMEWORK}.ipynb"


def test_formgrader_is_off(people: Class) -> None:
    assert people.tutor.try_to("GET", "/user/tutor/formgrader").status_code == 404


def test_a_homework_that_is_too_large_is_not_taken(people: Class) -> None:
    content = {"type": "file", "format": "text", "content": "x" * 5_000_001}
    people.bob.own("PUT", f"api/contents/{HOMEWORK}/large.txt", content)
    told = people.bob.own("POST", "assignments/submit", {"course_id": COURSE, "assignment_id": HOMEWORK})
    assert told["success"] is False
    assert "Directory size is too big" in told["value"]


def test_the_exercise_server_is_kept_running_by_the_hub(people: Class) -> None:
    first = wait_for(lambda: answering(people.hub.served), "the exercise server")
    assert first.status_code == 200
    assert "Service exercises" not in people.hub.log


def serving(people: Class) -> list[int]:
    """Return the processes of the exercise server."""
    found = [(pid, Path(f"/proc/{pid}/cmdline").read_bytes()) for pid in processes_in(people.hub.home)]
    return [pid for pid, command in found if b"zonelib\0serve\0" in command]


def test_the_exercise_server_that_is_killed_is_started_again_by_the_hub(people: Class) -> None:
    wait_for(lambda: answering(people.hub.served), "the exercise server")
    (killed,) = serving(people)
    os.kill(killed, signal.SIGKILL)
    assert wait_for(lambda: next((pid for pid in serving(people) if pid != killed), None), "another server")
    assert wait_for(lambda: answering(people.hub.served), "the exercise server").status_code == 200
    assert "Service exercises exited with status" in people.hub.log


def test_everything_ends_with_the_hub(people: Class) -> None:
    """Last in the file: the hub is gone afterwards."""
    people.hub.process.terminate()
    people.hub.process.wait(60)
    assert processes_in(people.hub.home) == []
    assert answering(people.hub.served) is None
