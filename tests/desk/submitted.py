"""A class that hands in every kind of thing, with the mark each must get and words of the reason."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from tests.desk.course import (
    ASSIGNMENT,
    MODEL,
    NAME,
    PARTIAL,
    SHORT,
    Class,
    graded,
    handed_in,
    mirror,
    record,
)

# By hand: the cable lies outside from 144.85 mm (150 less half of 10.3) to 1912.15 mm (where the strip of
# S1 begins, 493 mm up, less 5.15 mm), of 2,500 mm. So 2 + 7 / 2 * (1 - 1767.3 / 2500) + 1.
PART = 4.0258
SCRIPT = "<script>alert(1)</script>"


@dataclass(frozen=True)
class Case:
    """What one trainee hands in, the mark, and words that stand in the note or the feedback."""

    trainee: str
    lay: Callable[[Class, str], None]
    mark: float
    words: str


def loop(cells: list[Any]) -> None:
    for cell in cells:
        if cell["cell_type"] == "code":
            cell["source"] = "open('ran.txt', 'w').close()\nwhile True:\n    pass"


def looping(room: Class, trainee: str) -> None:
    room.notebook(trainee, loop)
    room.answer(trainee, MODEL)


def from_mirror(room: Class, trainee: str) -> None:
    def change(cells: list[Any]) -> None:
        cells[-2]["metadata"] = {}
        cells.append({"cell_type": "code", "source": "", "metadata": {}, "execution_count": None})
        cells[-1]["outputs"] = mirror(record(room.hash, MODEL))

    room.notebook(trainee, change)


def hand_in_alone(room: Class, trainee: str) -> None:
    room.write(trainee, "download (3).txt", json.dumps(handed_in(record(room.hash, MODEL))))


def copied(room: Class, trainee: str) -> None:
    room.notebook(trainee, lambda cells: cells.append(graded(cells)))
    room.answer(trainee, PARTIAL)


def deleted(room: Class, trainee: str) -> None:
    room.notebook(trainee, lambda cells: cells.__delitem__(slice(1, None)))
    room.answer(trainee, PARTIAL)


def typed_mark(room: Class, trainee: str) -> None:
    def change(cells: list[Any]) -> None:
        cell = graded(cells)
        cell["source"] = "10.0"
        data = {"text/plain": "10.0"}
        cell["outputs"] = [
            {"output_type": "execute_result", "metadata": {}, "data": data, "execution_count": 1}
        ]

    room.notebook(trainee, change)


def worth_more(room: Class, trainee: str) -> None:
    room.notebook(trainee, lambda cells: graded(cells)["metadata"]["nbgrader"].update(points=1000.0))
    room.answer(trainee, PARTIAL)


def not_graded(room: Class, trainee: str) -> None:
    room.notebook(trainee, lambda cells: graded(cells)["metadata"]["nbgrader"].update(grade=False))


def old_version(room: Class, trainee: str) -> None:
    room.notebook(trainee, lambda cells: graded(cells)["metadata"]["nbgrader"].update(schema_version=1))
    room.answer(trainee, MODEL)


def other_name(room: Class, trainee: str) -> None:
    room.notebook(trainee, lambda cells: graded(cells)["metadata"]["nbgrader"].update(grade_id="easy"))
    room.answer(trainee, MODEL)


def own_bundle(room: Class, trainee: str) -> None:
    source = room.home / "solutions" / ASSIGNMENT / f"{NAME}.bundle.json"
    eased = json.loads(source.read_text(encoding="utf-8"))
    eased["exercise"]["route"]["supply"] = "selv"
    room.notebook(trainee)
    room.write(trainee, f"{NAME}.bundle.json", json.dumps(eased))
    room.answer(trainee, PARTIAL)


def markup(room: Class, trainee: str) -> None:
    def change(cells: list[Any]) -> None:
        shown = {"source": SCRIPT, "metadata": {"raw_mimetype": "text/html"}}
        cells += [{**shown, "cell_type": kind} for kind in ("markdown", "raw")]

    room.notebook(trainee, change)
    room.answer(trainee, PARTIAL, candidate=SCRIPT, saved_at=f"={SCRIPT}")


def newer(room: Class, trainee: str) -> None:
    room.answer(trainee, MODEL, revision=9)
    room.write(trainee, "x.json", json.dumps(handed_in(record(room.hash, PARTIAL, revision=8))))


def same_revision(room: Class, trainee: str) -> None:
    room.answer(trainee, PARTIAL, revision=8)
    room.write(trainee, "x.json", json.dumps(handed_in(record(room.hash, MODEL, revision=8))))


def changed_after(room: Class, trainee: str) -> None:
    room.notebook(trainee)
    changed = handed_in(record(room.hash, PARTIAL))
    changed["answers"][0]["answer"] = MODEL
    room.write(trainee, "x.json", json.dumps(changed))


def no_notebook(room: Class, trainee: str) -> None:
    room.write(trainee, f"{ASSIGNMENT}.ipynb", "<html>not a notebook")
    hand_in_alone(room, trainee)


def answer(parts: Any, **head: Any) -> Callable[[Class, str], None]:
    return lambda room, trainee: room.answer(trainee, parts, **head)


def text(name: str, raw: str) -> Callable[[Class, str], None]:
    def lay(room: Class, trainee: str) -> None:
        room.notebook(trainee)
        room.write(trainee, name, raw)

    return lay


ANSWERS = f"answers/{NAME}.json"
CLOSED = {"depth": [60, 60], "protection": ["armoured-cable"] * 2, "rcd": {"ma": 300}}
NAN, FAR = {"points": [[float("nan"), 2400], [1250, 450]]}, {"points": [[1e308, 1e308], [1250, 450]]}
MILLION = {"points": [[700, 2400]] * 20_000}

CASES = (
    Case("full", answer(MODEL), 10.0, "It reaches S1."),
    Case("partial", answer(PARTIAL), PART, "29% of the length is in order"),
    Case("stub", answer(SHORT), 0.0, "S1"),
    Case(
        "nothing",
        lambda room, trainee: room.notebook(trainee),
        0.0,
        "No answer to this exercise was handed in.",
    ),
    Case("empty", answer({"points": []}), 0.0, "Nothing is drawn yet."),
    Case("garbage", text(ANSWERS, "%PDF-1.4 \x00\x01"), 0.0, "The file is not JSON"),
    Case("looping", looping, 10.0, "It reaches S1."),
    Case("mirror", from_mirror, 10.0, "may be older"),
    Case("handin-alone", hand_in_alone, 10.0, "Marked from the hand-in file."),
    Case("no-notebook", no_notebook, 10.0, "Marked from the hand-in file."),
    Case("copied", copied, PART, "29% of the length"),
    Case("deleted", deleted, PART, "29% of the length"),
    Case("typed-mark", typed_mark, 0.0, "No answer to this exercise was handed in."),
    Case("worth-more", worth_more, PART, "29% of the length"),
    Case("not-graded", not_graded, 0.0, "No answer to this exercise was handed in."),
    Case("old-version", old_version, 10.0, "It reaches S1."),
    Case("other-name", other_name, 10.0, "It reaches S1."),
    Case("other-bundle", answer(MODEL, bundle="0" * 64), 0.0, "another version of the exercise"),
    Case("own-bundle", own_bundle, PART, "29% of the length"),
    Case("nan", answer(NAN), 0.0, "The answer cannot be read."),
    Case("far", answer(FAR), 0.0, "The answer cannot be read."),
    Case("million", answer(MILLION), 0.0, "The answer cannot be read."),
    Case("deep", text(ANSWERS, '{"a":' * 5000 + "1" + "}" * 5000), 0.0, "lists inside lists, very deep"),
    Case("selv", answer(PARTIAL | {"supply": "selv"}), 0.0, "supply"),
    Case("closed-parts", answer(PARTIAL | CLOSED), PART, "29% of the length"),
    Case("markup", markup, PART, "29% of the length"),
    Case("newer", newer, 10.0, "Marked from the answers folder."),
    Case("same-revision", same_revision, 10.0, "Marked from the hand-in file."),
    Case("changed-after", changed_after, 10.0, "the file was changed after it was made"),
)
