"""What is fed: each reader of files that others write, with files to begin from."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from tests.fuzz.mutate import mutated
from tests.fuzz.seeds import (
    bundles,
    class_files,
    files_of_tables,
    findings,
    hand_ins,
    notebooks,
    papers,
    progress,
    zips,
)
from tests.fuzz.zipped import mutated_zip
from zonelib.coach.mastery.policy import read_policy
from zonelib.coach.mastery.record import merged
from zonelib.coach.mastery.record import read_record as read_progress
from zonelib.desk.classlist import read_class
from zonelib.desk.groups import find_groups
from zonelib.desk.nbgrader.plain_notebook import plain_notebook
from zonelib.desk.overrides import read_changes
from zonelib.desk.report.reading import read_marks
from zonelib.desk.server.candidates import read_candidates
from zonelib.desk.submissions import files_of, read_files
from zonelib.exercise.answer import AnswerRecord, read_record
from zonelib.exercise.bundle import freeze, read_bundle
from zonelib.exercise.handin import read_hand_in
from zonelib.exercise.load import read_exercise
from zonelib.exercise.marking import mark
from zonelib.rules.course import read_course
from zonelib.rules.engine import judge
from zonelib.rules.load import case_and_pack
from zonelib.rules.pack import load_pack
from zonelib.site.faults import Fault, FileFault

__all__ = ["TARGETS", "Target"]

Reader = Callable[[bytes, Path], object]


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
    change : callable
        Make one file out of another.
    """

    name: str
    seeds: Callable[[], list[bytes]]
    read: Reader
    change: Callable[..., bytes] = mutated


def _file(name: str, read: Callable[[Path], object]) -> Reader:
    """Return a reader of bytes that lays them down under a name first."""

    def reading(data: bytes, folder: Path) -> object:
        path = folder / name
        path.write_bytes(data)
        return read(path)

    return reading


def _judged(path: Path) -> None:
    """Judge a case; each finding has words that can be printed."""
    for one in judge(*case_and_pack(path)).findings:
        assert one.reason.encode()
        assert one.text.encode()


def _answer(data: bytes, _: Path) -> None:
    _marked(read_record(data))


def _marked(record: AnswerRecord) -> None:
    bundle = bundles().get(record.bundle)
    if bundle and bundle.exercise.id == record.exercise:
        result = mark(bundle, record)
        assert 0 <= result.score <= result.points


def _frozen(path: Path) -> object:
    return freeze(read_exercise(path), folder=path.parent)


def _submitted(path: Path) -> None:
    """Read all that is handed in as a run does; what cannot be used is told in words, never raised."""
    for group in find_groups(path.parent, ()):
        for one in read_files(group, (), *files_of(group)):
            assert all(trouble.words and str(trouble).encode() for trouble in one.contents.troubles)


def _plain(data: bytes, _: Path) -> None:
    """Read a notebook as nbgrader's adapter does; where it is none, the released one stands in."""
    try:
        assert plain_notebook(data.decode("utf-8", "replace")).cells is not None
    except (ValueError, RecursionError) as error:
        raise FileFault("a notebook", [Fault("the file", "no notebook", "one of format 4")]) from error


def _found(path: Path) -> object:
    (path.parent / "marks.csv").write_bytes(class_files("marks")[0])
    return read_marks(path.parent)


def _practised(data: bytes, _: Path) -> None:
    record = read_progress(data)
    assert merged([record, record]).checks is not None
    assert read_progress(record.as_text()) == record


def _tables(name: str, read: Callable[[Path], object]) -> tuple[Target, Target]:
    """Return the targets of a form that is read as TOML and as JSON."""
    return (
        Target(name, lambda: files_of_tables(name)[0], _file(f"{name}.toml", read)),
        Target(f"{name}-json", lambda: files_of_tables(name)[1], _file(f"{name}.json", read)),
    )


def _table(name: str, file: str, read: Callable[[Path], object]) -> Target:
    return Target(name, lambda: class_files(name), _file(file, read))


TARGETS = {
    one.name: one
    for one in (
        *_tables("case", _judged),
        *_tables("pack", load_pack),
        *_tables("course", read_course),
        *_tables("exercise", _frozen),
        _tables("policy", read_policy)[1],
        Target(
            "bundle", lambda: [one.text.encode() for one in bundles().values()], _file("a.json", read_bundle)
        ),
        Target("answer", papers, _answer),
        Target("hand-in", hand_ins, lambda data, _: read_hand_in(data)),
        Target("progress", progress, _practised),
        Target("notebook", notebooks, _file("hw1.ipynb", _submitted)),
        Target("zip", zips, _file("hw1.zip", _submitted), mutated_zip),
        Target("plain-notebook", notebooks, _plain),
        Target("findings", findings, _file("findings.jsonl", _found)),
        _table("marks", "marks.csv", lambda path: read_marks(path.parent)),
        _table("overrides", "overrides.csv", lambda path: read_changes(path.parent)),
        _table("class-list", "class.csv", read_class),
        _table("candidates", "candidates.csv", read_candidates),
    )
}
