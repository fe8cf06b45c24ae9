"""The ``choose`` kind on the pad: choices to tick below a drawing."""

from zonelib.draw import Scene
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.kinds.choose.marking import choices
from zonelib.exercise.kinds.choose.task import ChooseTask
from zonelib.exercise.marking import Result
from zonelib.sheet.kinds.base import Data, PadKind, figured

__all__ = ["PAD"]


def _offered(bundle: Bundle) -> list[Data]:
    """Return the choices, each with the name that a message will call it by; only a tutor's own lack it."""
    own = bundle.exercise.task_as(ChooseTask).ask == "own"
    return [
        {"id": one.id, "words": f"{one.id}: {one.words}" if own else one.words} for one in choices(bundle)
    ]


class _ChoosePad(PadKind):
    """Choices in their frozen order; which are right stays here."""

    name = "choose"
    intro = "start-choose"

    def task(self, bundle: Bundle) -> Data:
        task = bundle.exercise.task_as(ChooseTask)
        about = f"The question is about cable {task.of}." if task.of else ""
        return {**figured(bundle), "about": about, "options": _offered(bundle), "pick": task.pick}

    def offered(self, bundle: Bundle) -> list[str]:
        return [one["words"] for one in _offered(bundle)]

    def stretches(self, bundle: Bundle, result: Result) -> list[Data]:
        known = [one.id for one in choices(bundle)]
        return [
            {"n": one.n, "face": "front", "text": one.text, "option": one.title.partition(":")[0]}
            for one in result.messages
            if one.n and one.title.partition(":")[0] in known
        ]

    def count(self, answer: Data) -> str:
        return f"{len(answer.get('chosen', ()))} ticked"

    def still(self, bundle: Bundle, result: Result) -> Scene | None:  # noqa: ARG002  ticks are no part of it
        return next(iter(bundle.kind.blank(bundle)), None)


PAD = _ChoosePad()
