"""One homework at the hub from release to feedback, and what each of the three saw."""

import json
import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.hub.hub import DOCS, ROOT, Hub
from tests.hub.person import Person
from zonelib.exercise.bundle import read_bundle
from zonelib.exercise.load import bank_path, read_exercise

COURSE, HOMEWORK = "wiring-1", "hw1"
NAMES = ("bedroom-drop", "living-room-corner", "kitchen-hatch")
DRAWN = {"points": [[700, 2400], [700, 450], [1250, 450]]}
"""Straight down and across: it reaches S1, and its drop lies in no zone."""

RELEASE = (f"nbgrader generate_assignment {HOMEWORK}", f"nbgrader release_assignment {HOMEWORK}")
MARK = (
    f"nbgrader collect {HOMEWORK}",
    f"nbgrader autograde {HOMEWORK}",
    f"nbgrader generate_feedback {HOMEWORK}",
    f"nbgrader release_feedback {HOMEWORK}",
)


@dataclass(frozen=True)
class Class:
    """Three people with servers at one hub, after the homework."""

    hub: Hub
    tutor: Person
    amy: Person
    bob: Person

    @property
    def course(self) -> Path:
        """The tutor's folder of the course."""
        return self.hub.home / "tutor" / "course"


def lay_out(home: Path) -> None:
    """Lay the configuration, the exchange, the tutor's course and what the service serves."""
    (home / "etc").mkdir()
    shutil.copy(DOCS / "jupyter_server_config.py", home / "etc")
    shutil.copy(DOCS / "nbgrader_config.py", home / "etc" / "class_config.py")
    shutil.copy(Path(__file__).with_name("nbgrader_config.py"), home / "etc" / "nbgrader_config.py")
    (home / "exchange").mkdir()
    (home / "exchange").chmod(0o1777)
    course = home / "tutor" / "course"
    shutil.copytree(ROOT / "solutions" / HOMEWORK, course / "solutions" / HOMEWORK)
    shutil.copy(ROOT / "nbgrader_config.py", course)
    shutil.copytree(ROOT / "exercises" / HOMEWORK, home / "served" / "exercises" / HOMEWORK)


def draw_by_program(person: Person, answers: dict[str, Any]) -> str:
    """Set answers on the sheets of the fetched notebook, in a kernel that the hub's proxy leads to."""
    lines = ["import json", "from zonelib.sheet import Sheet, hand_in"]
    lines += [f"Sheet({name!r}).set(**json.loads({json.dumps(one)!r}))" for name, one in answers.items()]
    return person.run("\n".join([*lines, "print(hand_in('C-014'))"]), HOMEWORK)


def add_a_cell(person: Person, code: str) -> None:
    """Save the notebook with one more cell, as JupyterLab does."""
    path = f"api/contents/{HOMEWORK}/{HOMEWORK}.ipynb"
    notebook = person.own("GET", path)["content"]
    cell = {"cell_type": "code", "id": "mine", "source": code, "metadata": {}, "outputs": []}
    notebook["cells"].insert(0, cell | {"execution_count": None})
    person.own("PUT", path, {"type": "notebook", "content": notebook})


def write_answer(person: Person, answer: dict[str, Any]) -> None:
    """Lay an answer beside the notebook as a file, as a trainee who brought it on a stick."""
    fetched = person.hub.home / person.name / HOMEWORK / f"{NAMES[0]}.bundle.json"
    head = {
        "schema": 1,
        "exercise": NAMES[0],
        "bundle": read_bundle(fetched).hash,
        "variant": None,
        "candidate": "C-015",
    }
    record = head | {"revision": 3, "saved_at": "2026-11-25T10:00:00Z", "answer": answer}
    person.own("PUT", f"api/contents/{HOMEWORK}/answers", {"type": "directory"})
    path = f"api/contents/{HOMEWORK}/answers/{NAMES[0]}.json"
    person.own("PUT", path, {"type": "file", "format": "text", "content": json.dumps(record)})


def hold(hub: Hub) -> Class:
    """Go through the homework, each in their own server; return the three."""
    people = Class(hub, *(Person(hub, name) for name in ("tutor", "amy", "bob")))
    trio = (people.tutor, people.amy, people.bob)
    for person in trio:
        assert person.sign_in() == 302
        person.start()
    for person in trio:
        person.wait()
    people.tutor.shell(*RELEASE, folder="course")
    for person in (people.amy, people.bob):
        person.press("fetch", HOMEWORK, COURSE)
    models = {name: dict(read_exercise(bank_path(name)).model) for name in NAMES}
    draw_by_program(people.amy, models)
    add_a_cell(people.amy, f"open({str(hub.home / 'ran.txt')!r}, 'w').close()")
    write_answer(people.bob, DRAWN)
    for person in (people.amy, people.bob):
        person.press("submit", HOMEWORK, COURSE)
    (hub.home / "marking.txt").write_text(people.tutor.shell(*MARK, folder="course"), encoding="utf-8")
    return people
