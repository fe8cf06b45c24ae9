"""What a notebook or a server has to know of a kind of exercise to let it be answered on the pad."""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from zonelib.draw import Scene, svg
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds import kind_named
from zonelib.exercise.marking import Result
from zonelib.sheet.trouble import SheetTrouble
from zonelib.sheet.words import say
from zonelib.site.faults import Fault, faults_of
from zonelib.site.model import Wall

__all__ = ["Data", "PadKind", "counted", "figured", "pictured", "wall_part"]

SNAP = 5
"""Grid of the pad [mm]."""

MOST_TOLD = 3
"""Troubles of one answer that are told at once."""

Data = dict[str, Any]


class PadKind(ABC):
    """How one kind of exercise is answered on the pad; its tool in the browser has the same name.

    What stands around the drawing belongs to the tool, not to widgets of a notebook: so a server has it too.

    Attributes
    ----------
    name : str
        Of the kind, and of the tool in ``static/pad``.
    intro : str
        Which entry of ``words.toml`` stands in the panel before the first check.
    """

    name: str
    intro: str = "start"

    @abstractmethod
    def task(self, bundle: Bundle) -> Data:
        """Return what the tool is given, beside kind, exercise, title and snap.

        What it draws on is ``wall`` (see `wall_part`) with ``pictures`` and ``alt`` (see `pictured`);
        without a ``wall`` there is no drawing. No model answer and no verdict may be in it.
        """

    @abstractmethod
    def stretches(self, bundle: Bundle, result: Result) -> list[Data]:
        """Return what a check found as the pad draws it, under the numbers of the result's messages.

        Each has ``n``, ``face``, ``text``, and ``points`` (a line), ``rings`` with ``style`` (areas)
        or ``at`` (a place) [mm]. Leave ``text`` empty for what only the panel should tell.
        """

    @abstractmethod
    def count(self, answer: Data) -> str:
        """Return how much is answered, such as "3 points"."""

    @abstractmethod
    def still(self, bundle: Bundle, result: Result) -> Scene | None:
        """Return the picture that stands for the sheet without a kernel, with the answer as it was saved.

        None where the question has none.
        """

    def offered(self, bundle: Bundle) -> list[str]:  # noqa: ARG002  a kind may need it
        """Return the choices of a question, to be read where no kernel runs; most kinds have none."""
        return []

    def troubles(self, value: object, task: Data) -> list[str]:  # noqa: ARG002  a kind may need it
        """Say what keeps a value from the browser from being an answer; empty for an answer.

        Parameters
        ----------
        value : object
            Anything at all.
        task : dict
            What the pad was given.
        """
        form = kind_named(self.name).answer
        try:
            form.model_validate(value)
        except ValidationError as error:
            found = faults_of(error, value if isinstance(value, dict) else {}, form)
            return [_phrase(one) for one in found[:MOST_TOLD]]
        except RecursionError:
            return ["it holds lists too deep"]
        return []

    def held(self, bundle: Bundle, saved: Data) -> Data:  # noqa: ARG002  a kind may need it
        """Return a saved answer's data as the pad holds it."""
        return saved

    def changed(self, bundle: Bundle, before: Data, parts: Data) -> Data:  # noqa: ARG002  as above
        """Return an answer with some parts set anew, as `Sheet.set` takes them.

        Raises
        ------
        SheetTrouble
            If the kind has no such part, or the exercise does not open it.
        """
        self.refuse_strange(parts)
        values = {**before, **parts}
        if self.troubles(values, {}):
            return values  # the pad refuses it, and says why
        answer = kind_named(self.name).answer.model_validate(values)
        return dict(answer.model_dump(mode="json", by_alias=True))

    def refuse_strange(self, parts: Data) -> None:
        """Raise `SheetTrouble` for parts that an answer of this kind does not have."""
        known = kind_named(self.name).answer.model_fields
        if strange := [part for part in parts if part not in known]:
            raise SheetTrouble(say("no-part", part=", ".join(strange), parts=", ".join(known)))

    def common(self, bundle: Bundle) -> Data:
        """Return the whole task: what every tool is given, and what this one is."""
        stated = {"kind": self.name, "exercise": bundle.exercise.id, "title": bundle.exercise.title}
        return {**stated, "snap": SNAP, **self.task(bundle)}


def _phrase(fault: Fault) -> str:
    """Tell of a fault shortly: hostile input is not repeated at length."""
    return f"{fault.path[:60]}: found {fault.found[:60]}; allowed: {fault.allowed[:120]}"


def counted(many: int, word: str) -> str:
    """Return a number of things in words.

    >>> counted(1, "area"), counted(3, "area")
    ('1 area', '3 areas')
    """
    return f"{many} {word}" if many == 1 else f"{many} {word}s"


def pictured(bundle: Bundle, scenes: Mapping[str, Scene]) -> Data:
    """Return pictures and their text alternatives by face."""
    name = f"pad-{bundle.exercise.id}"
    return {
        "pictures": {face: svg(scene, name=f"{name}-{face}") for face, scene in scenes.items()},
        "alt": {face: scene.description for face, scene in scenes.items()},
    }


def figured(bundle: Bundle) -> Data:
    """Return the question's own drawings, to be looked at and not drawn on, with their words."""
    scenes = bundle.kind.blank(bundle)
    name = f"figure-{bundle.exercise.id}"
    return {
        "figures": [
            {"svg": svg(scene, name=f"{name}-{at}"), "words": scene.description}
            for at, scene in enumerate(scenes)
        ],
        "alt": {"front": " ".join(scene.description for scene in scenes)},
    }


def wall_part(wall: Wall, *, hidden: bool = True) -> Data:
    """Return a wall to draw on, with what is on it; `hidden` takes in what is out of sight."""
    keys = {"id", "kind", "face", "x", "y", "width", "height"}
    top = [list(point) for point in wall.profile]
    seen = [one for one in wall.accessories if hidden or one.visible]
    return {
        "wall": {"id": wall.id, "length": wall.length, "top": top, "thickness": wall.thickness},
        "accessories": [one.model_dump(include=keys) for one in seen],
        "openings": [one.model_dump() for one in wall.openings],
    }
