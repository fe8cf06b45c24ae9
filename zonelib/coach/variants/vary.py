"""One room of many: drawn, fitted, and taken only where it is the same exercise and as hard."""

import json
from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from zonelib.coach.shortest import shortest_length
from zonelib.coach.variants.drawing import drawn, plain_values, set_all, whole
from zonelib.coach.variants.following import Following, case_of
from zonelib.coach.variants.marks import Crossed
from zonelib.coach.variants.places import PlaceFlaw, Places
from zonelib.coach.variants.profile import Profile, differs, profile_of
from zonelib.coach.variants.seeds import Stream, variant_of
from zonelib.coach.variants.wording import phrases_of, reworded
from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.kinds import kind_named
from zonelib.exercise.kinds.number.quantity import quantity
from zonelib.exercise.kinds.number.task import NumberTask
from zonelib.exercise.kinds.route.task import RouteTask
from zonelib.exercise.model import Exercise, Variants
from zonelib.rules.course import Course
from zonelib.site.faults import Fault, FileFault
from zonelib.site.model import Case

__all__ = ["Family", "Room", "family_of", "vary"]

MOST_DRAWS = 200
"""Before a file's ranges are said to give nothing."""

Data = dict[str, Any]


def vary(
    exercise: Exercise, seed: int, *, folder: Path | None = None, course: Course | None = None
) -> Exercise:
    """Return a room of an exercise that differs and is equally hard.

    Parameters
    ----------
    exercise : Exercise
        One with a table ``[variants]``.
    seed : int
        Which room: the same exercise and seed give the same room, on any machine.
    folder, course : Path, Course, optional
        As for `freeze`: where a pack given by path is looked for, and whose readings count.

    Raises
    ------
    FileFault
        If the exercise has no such table, is of a kind that cannot vary, or its ranges give no room.
    """
    return family_of(exercise, folder=folder, course=course).room(seed).exercise


@dataclass(frozen=True)
class Room:
    """A room that was taken.

    Attributes
    ----------
    exercise, bundle : Exercise, Bundle
        The exercise in that room.
    profile : Profile
        How it is solved, and how hard it is.
    refused : tuple of str
        Why those before it were not taken.
    """

    exercise: Exercise
    bundle: Bundle
    profile: Profile
    refused: tuple[str, ...]

    @property
    def nameless(self) -> str:
        """Its bundle's text without its name: two rooms of which it is equal are one room."""
        return self.bundle.text.replace(f'"variant":"{self.exercise.variant}"', "")


@dataclass(frozen=True)
class Family:
    """All rooms of an exercise.

    Attributes
    ----------
    exercise, bundle, profile : Exercise, Bundle, Profile
        The exercise as it is written.
    variants : Variants
        How it varies.
    folder, course : Path or None, Course or None
        As for `freeze`.
    """

    exercise: Exercise
    bundle: Bundle
    profile: Profile
    variants: Variants
    folder: Path | None = None
    course: Course | None = None

    def room(self, seed: int) -> Room:
        """Return the room of a seed.

        Raises
        ------
        FileFault
            If none of many draws gives one.
        """
        stream, refused = Stream(self.exercise.id, seed), list[str]()
        for _ in range(MOST_DRAWS):
            try:
                found = self._tried(drawn(self.variants, stream), variant_of(seed))
            except _Refused as why:
                refused.append(str(why))
                continue
            return Room(*found, tuple(refused))
        raise FileFault(f"the exercise {self.exercise.id}", [_no_room(refused)])

    def _tried(self, values: Data, variant: str) -> tuple[Exercise, Bundle, Profile]:
        try:
            made, bundle, searched = self._made(values, variant)
        except Crossed as crossed:
            raise _Refused(str(crossed)) from None
        except PlaceFlaw:
            raise  # a slip in the table, which no other draw mends
        except (FileFault, ValidationError, ZeroDivisionError) as error:
            raise _Refused(f"it makes no exercise: {str(error).splitlines()[0]}") from error
        profile = profile_of(made, bundle, solved_on=searched)
        if why := differs(self.profile, profile, self.variants.band):
            raise _Refused(why)
        marked = zip(made.wrong, profile.marks, strict=True)
        wrong = tuple({**one, "marks": marks} for one, marks in marked)
        return made.model_copy(update={"wrong": wrong}), bundle, profile

    def _made(self, values: Data, variant: str) -> tuple[Exercise, Bundle, Bundle]:
        """Return an exercise with drawn values, all that follows from them, and its bundle.

        The last is the bundle before its shortest length was known, on which that was sought.

        Raises
        ------
        Crossed, FileFault, ValidationError, ZeroDivisionError
            If the values make no exercise.
        """
        plain, data = json.loads(self._text), json.loads(self._text)
        places = Places(data)
        set_all(self.variants, values, places)
        following = Following(plain, data, self.bundle, case_of(data, self.bundle))
        following.write_given()
        set_all(self.variants, values, places)  # what is named stays where it was set
        following.write_answers()
        set_all(self.variants, values, places)
        case = case_of(data, self.bundle)
        self._work_out(data, case)
        set_all(self.variants, values, places)
        phrases = self.phrases(data, values)
        reworded(data, phrases)
        made = type(self.exercise).model_validate({**data, "variant": variant})
        self._refuse_faults(made, case)
        return self._with_shortest(made)

    def phrases(self, data: Data, values: Data) -> dict[str, str]:
        """Return what each phrase of the texts becomes in a room."""
        return phrases_of(self.variants.words, plain=self._known, new=(Places(data), values))

    @cached_property
    def _text(self) -> str:
        """The exercise's data, of which each room needs a copy of its own."""
        return json.dumps(plain_data(self.exercise))

    @cached_property
    def _known(self) -> tuple[Places, Data]:
        """What phrases are taken from in the exercise as it is written."""
        plain = Places(plain_data(self.exercise))
        return plain, plain_values(self.variants, plain)

    def _work_out(self, data: Data, case: Case) -> None:
        """Write the number that is asked into the model answer."""
        if self.exercise.kind != "number":
            return
        task = NumberTask.model_validate(data["number"])
        if found := quantity(case, self.bundle.pack, task):
            data["model"]["value"] = whole(found.value)

    def _refuse_faults(self, made: Exercise, case: Case) -> None:
        if faults := list(kind_named(made.kind).faults(made, case, self.bundle.pack)):
            raise FileFault(made.id, faults)

    def _with_shortest(self, made: Exercise) -> tuple[Exercise, Bundle, Bundle]:
        bundle = freeze(made, folder=self.folder, course=self.course)
        if made.kind != "route":
            return made, bundle, bundle
        task = made.task_as(RouteTask).model_copy(update={"shortest": shortest_length(bundle)})
        made = made.model_copy(update={"route": task})
        return made, freeze(made, folder=self.folder, course=self.course), bundle


class _Refused(Exception):
    """Why a drawn room is not taken."""


def plain_data(exercise: Exercise) -> Data:
    """Return an exercise's data as it may be changed."""
    return exercise.model_dump(mode="json", by_alias=True, exclude={"variants"}, exclude_unset=True)


def family_of(exercise: Exercise, *, folder: Path | None = None, course: Course | None = None) -> Family:
    """Return the family of an exercise with a table ``[variants]``.

    Raises
    ------
    FileFault
        If it has none, or is of a kind that cannot vary.
    """
    if exercise.variants is None:
        raise FileFault(f"the exercise {exercise.id}", [NO_TABLE])
    bundle = freeze(exercise, folder=folder, course=course)
    return Family(exercise, bundle, profile_of(exercise, bundle), exercise.variants, folder, course)


NO_TABLE = Fault("variants", "nothing", "a table [variants] that says what may differ")


def _no_room(refused: list[str]) -> Fault:
    (why, times), *_ = Counter(refused).most_common(1)
    found = f"ranges of which {len(refused)} draws gave no room, {times} times because {why}"
    return Fault("variants", found, "ranges, or a band, that leave room")
