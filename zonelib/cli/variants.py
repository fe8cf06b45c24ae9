"""``zonelib exercise variants``: look at the rooms that are made of an exercise."""

from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from zonelib.cli.course import course_option
from zonelib.cli.pictures import write_pictures
from zonelib.cli.report import show_list
from zonelib.exercise.load import exercise_path, read_exercise
from zonelib.exercise.messages import marks
from zonelib.exercise.report import marked_scenes
from zonelib.exercise.trial import marked_answer
from zonelib.rules.course import course_for
from zonelib.rules.words import mm

if TYPE_CHECKING:
    from zonelib.coach.variants.vary import Family, Room

__all__ = ["variants"]

FOLDER = click.Path(file_okay=False, path_type=Path)


@click.command("variants")
@click.argument("file", metavar="FILE")
@click.option("--seed", type=click.IntRange(min=0), default=0, show_default=True, help="The first seed.")
@click.option("--count", type=click.IntRange(1, 1000), default=1, show_default=True, help="How many rooms.")
@click.option("--out", type=FOLDER, help="Folder for pictures of each question and its model answer.")
@course_option
def variants(file: str, *, seed: int, count: int, out: Path | None, course_file: Path | None) -> None:
    """Show rooms of the exercise FILE that its table [variants] makes: question, answers, how hard each is.

    The same seed always gives the same room.
    """
    from zonelib.coach.variants.checking import must_vary  # scipy takes a while: only this command waits
    from zonelib.coach.variants.vary import family_of

    path = exercise_path(file)
    family = family_of(read_exercise(path), folder=path.parent, course=course_for(Path(), course_file))
    must_vary(family, ())
    show_list(f"{family.exercise.id}: {family.exercise.title}, as it is written", [_hard(family)])
    for one in range(seed, seed + count):
        room = family.room(one)
        show_list(f"Seed {one}, variant {room.exercise.variant}", _lines(room))
        for written in _pictures(room, out) if out else ():
            click.echo(f"Wrote {written}")


def _lines(room: "Room") -> Iterator[str]:
    yield from room.exercise.question.strip().splitlines()
    if hints := room.exercise.hints:
        yield f"Hint: {hints.step}"
    yield f"Model answer: {room.exercise.model}"
    for one in room.exercise.wrong:
        yield f"{marks(one['marks'])} marks: {one['words']}"
    yield _hard(room)
    if room.refused:
        why = (f"{times}, as {words}" for words, times in Counter(room.refused).items())
        yield f"Drawn before it and not taken: {'; '.join(why)}."


def _hard(one: "Family | Room") -> str:
    hard = one.profile.difficulty
    tight = f"{mm(hard.margin)} mm at the tightest place"
    return f"How hard: {hard.legs} legs or parts, {tight}, {hard.traps} typical answers that lose marks."


def _pictures(room: "Room", out: Path) -> Iterator[Path]:
    out.mkdir(parents=True, exist_ok=True)
    name = f"{room.exercise.id}.{room.exercise.variant}"
    model = marked_scenes(room.bundle, marked_answer(room.bundle, room.exercise.model))
    for what, scenes in (("question", tuple(room.bundle.kind.blank(room.bundle))), ("model", model)):
        if scenes:
            yield from write_pictures(scenes, out / f"{name}-{what}.png")
