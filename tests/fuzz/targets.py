"""What is fed: each reader of files that others write, with files to begin from."""

import io
import json
import tomllib
import zipfile
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.house.files import ROOT
from zonelib.coach.mastery.record import read_record as read_progress
from zonelib.desk.classlist import read_class
from zonelib.desk.groups import find_groups
from zonelib.desk.overrides import read_changes
from zonelib.desk.submissions import files_of, read_files
from zonelib.exercise.answer import AnswerRecord, read_record
from zonelib.exercise.bundle import Bundle, freeze, read_bundle
from zonelib.exercise.handin import read_hand_in
from zonelib.exercise.load import exercise_path, read_exercise
from zonelib.exercise.marking import mark
from zonelib.rules.course import read_course
from zonelib.rules.engine import judge
from zonelib.rules.load import case_and_pack
from zonelib.rules.pack import load_pack

__all__ = ["TARGETS", "Target"]

ONE_OF_EACH = (
    "bedroom-drop", "store-given-run", "dining-inspection", "office-which-clauses", "utility-deepest-chase",
    "landing-joist", "hall-pictures", "loft-zones", "bedroom-over-the-ceiling",
)  # fmt: skip
COURSE = b'schema = 1\n[[packs]]\npack = "uk"\nreadings = { blank_plates = "no" }\n'
CHANGES = (
    b"trainee,assignment,exercise,computed,score,reason,by,when\n"
    b"C-01,hw1,bedroom-drop,5,6,seen in class,tutor,2026-11-25T10:00:00Z\n"
)
CLASS = b"candidate,name\nC-01,Ann\nC-02,Bob Smith\n"


@dataclass(frozen=True)
class Target:
    """One reader.

    Attributes
    ----------
    name : str
        Of the target.
    seeds : callable
        Return files that it reads.
    read : callable
        Read a file; what it may raise is a `FileFault`.
    """

    name: str
    seeds: Callable[[], list[bytes]]
    read: Callable[[bytes, Path], object]


@cache
def bundles() -> dict[str, Bundle]:
    return {one.hash: one for one in (freeze(read_exercise(exercise_path(name))) for name in ONE_OF_EACH)}


def cases() -> list[bytes]:
    return [path.read_bytes() for path in sorted((ROOT / "docs" / "examples").glob("*.toml"))]


def cases_as_json() -> list[bytes]:
    return [json.dumps(tomllib.loads(one.decode())).encode() for one in cases()]


def exercises() -> list[bytes]:
    return [exercise_path(name).read_bytes() for name in ONE_OF_EACH]


def exercises_as_json() -> list[bytes]:
    return [json.dumps(tomllib.loads(one.decode())).encode() for one in exercises()]


def packs() -> list[bytes]:
    return [path.read_bytes() for path in sorted((ROOT / "zonelib" / "rules" / "packs").glob("*.toml"))]


def packs_as_json() -> list[bytes]:
    return [json.dumps(tomllib.loads(one.decode())).encode() for one in packs()]


@cache
def records() -> list[AnswerRecord]:
    return [_record(one) for one in bundles().values()]


def _record(bundle: Bundle) -> AnswerRecord:
    model = read_exercise(exercise_path(bundle.exercise.id)).model
    return AnswerRecord(
        schema=1, exercise=bundle.exercise.id, bundle=bundle.hash, candidate="C-01", revision=3,
        saved_at="2026-11-25T10:00:00Z", answer=model,
    )  # fmt: skip


def answers() -> list[bytes]:
    return [one.as_text().encode() for one in records()]


def hand_ins() -> list[bytes]:
    made = [one.model_dump(mode="json", by_alias=True) for one in records()[:2]]
    whole = {"schema": 1, "kind": "hand-in", "candidate": "C-01", "handed_in_at": "2026-11-25T10:00:00Z"}
    return [json.dumps({**whole, "answers": made, "receipt": "AAAAA-AAAAA"}).encode()]


def notebooks() -> list[bytes]:
    return [(ROOT / "exercises" / "hw1" / "hw1.ipynb").read_bytes()]


def zips() -> list[bytes]:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as whole:
        for n, one in enumerate(answers()):
            whole.writestr(f"hw1/answers/{n}.json", one, zipfile.ZIP_DEFLATED)
    return [made.getvalue()]


def _file(name: str, read: Callable[[Path], object]) -> Callable[[bytes, Path], object]:
    """Return a reader of bytes that lays them down under a name first."""

    def reading(data: bytes, folder: Path) -> object:
        path = folder / name
        path.write_bytes(data)
        return read(path)

    return reading


def _judged(path: Path) -> object:
    return judge(*case_and_pack(path))


def _marked(data: bytes, _: Path) -> object:
    record = read_record(data)
    bundle = bundles().get(record.bundle)
    return mark(bundle, record) if bundle else record


def _frozen(path: Path) -> object:
    return freeze(read_exercise(path), folder=path.parent)


def _submitted(path: Path) -> object:
    groups = find_groups(path.parent, ())
    return [read_files(one, (), *files_of(one)) for one in groups]


TARGETS = {
    one.name: one
    for one in (
        Target("case", cases, _file("case.toml", _judged)),
        Target("case-json", cases_as_json, _file("case.json", _judged)),
        Target("pack", packs, _file("pack.toml", load_pack)),
        Target("pack-json", packs_as_json, _file("pack.json", load_pack)),
        Target("course", lambda: [COURSE], _file("course.toml", read_course)),
        Target("exercise", exercises, _file("exercise.toml", _frozen)),
        Target("exercise-json", exercises_as_json, _file("exercise.json", _frozen)),
        Target(
            "bundle", lambda: [one.text.encode() for one in bundles().values()], _file("a.json", read_bundle)
        ),
        Target("answer", answers, _marked),
        Target("hand-in", hand_ins, lambda data, _: read_hand_in(data)),
        Target("progress", lambda: [b'{"schema": 1, "checks": []}'], lambda data, _: read_progress(data)),
        Target("notebook", notebooks, _file("hw1.ipynb", _submitted)),
        Target("zip", zips, _file("hw1.zip", _submitted)),
        Target(
            "overrides", lambda: [CHANGES], _file("overrides.csv", lambda path: read_changes(path.parent))
        ),
        Target("class-list", lambda: [CLASS], _file("class.csv", read_class)),
    )
}
