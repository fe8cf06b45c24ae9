"""The sheets of one exercise."""

from collections.abc import Iterator
from functools import partial

from zonelib.draw import Scene
from zonelib.draw.paper import Block, Form, Plan, Sheet, Words
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.messages import marks
from zonelib.exercise.model import Exercise
from zonelib.exercise.paper.forms import form_of
from zonelib.exercise.paper.plain import paragraphs
from zonelib.exercise.report import marked_scenes, safety_words
from zonelib.exercise.trial import Trial, trials

__all__ = ["marking_sheet", "worksheet"]

NAMED = 8
"""Letters of a bundle's hash that are printed."""


def worksheet(bundle: Bundle, *, holder: str = "") -> Sheet:
    """Return what a trainee works on: question, drawings with a grid, and a form.

    Parameters
    ----------
    bundle : Bundle
        The frozen exercise, plain or a variant.
    holder : str
        Who it is for; "" leaves a line to write on.
    """
    exercise = bundle.exercise
    blocks = [*paragraphs(exercise.question), *_asked(bundle), *_blank_plans(bundle), *form_of(bundle)]
    return Sheet(exercise.title, holder, _foot(bundle), tuple(blocks))


def marking_sheet(exercise: Exercise, bundle: Bundle, *, holder: str = "") -> Sheet:
    """Return what a tutor marks by: the model answer drawn and written, clauses, and typical mistakes.

    Parameters
    ----------
    exercise : Exercise
        With its model answer.
    bundle : Bundle
        The same, frozen.
    holder : str
        Whose worksheet it goes with.
    """
    model, _, *wrong = trials(exercise, bundle)
    blocks: list[Block] = [Words("Model answer. Another answer that meets each line below earns the same.")]
    blocks += _model_plans(bundle, model)
    blocks += form_of(bundle, exercise.model)
    blocks += [_criteria(bundle, model), *_mistakes(wrong)]
    return Sheet(f"Marking sheet: {exercise.title}", holder, _foot(bundle), tuple(blocks))


def _asked(bundle: Bundle) -> Iterator[Words]:
    total = sum(rule.marks for rule in bundle.criteria)
    asks = "; ".join(f"{rule.words} ({marks(rule.marks)})" for rule in bundle.criteria)
    yield Words(f"{marks(total)} marks: {asks}.", size=8.5)


def _blank_plans(bundle: Bundle) -> list[Plan]:
    count = len(bundle.kind.blank(bundle))
    return [Plan(partial(_blank, bundle, n), grid=True) for n in range(count)]


def _blank(bundle: Bundle, at: int) -> Scene:
    return bundle.kind.blank(bundle)[at]


def _model_plans(bundle: Bundle, model: Trial) -> list[Plan]:
    count = len(marked_scenes(bundle, model.result))
    return [Plan(partial(_marked, bundle, model, n)) for n in range(count)]


def _marked(bundle: Bundle, model: Trial, at: int) -> Scene:
    return marked_scenes(bundle, model.result)[at]


def _criteria(bundle: Bundle, model: Trial) -> Form:
    found = model.result.verdict.findings if model.result.verdict else ()
    rows = []
    for rule in bundle.criteria:
        clauses = dict.fromkeys(one.clause for one in found if one.rule in rule.rules and one.clause)
        rows.append((rule.words, marks(rule.marks), ", ".join(clauses)))
    if not any(clauses for *_, clauses in rows):
        return Form(("marks are given for", "marks"), tuple(row[:2] for row in rows), (9, 1))
    return Form(("marks are given for", "marks", "clause"), tuple(rows), (6, 1, 3))


def _mistakes(wrong: list[Trial]) -> Iterator[Words]:
    if wrong:
        yield Words("Typical mistakes", bold=True)
    for one in wrong:
        yield Words(f"– {one.words} {marks(one.result.score)} of {marks(one.result.points)} marks.", size=8.5)


def _foot(bundle: Bundle) -> str:
    which = f"{bundle.exercise.id}, version {bundle.hash[:NAMED]}"
    variant = f", variant {bundle.variant}" if bundle.variant else ""
    return f"{which}{variant}. {' '.join(safety_words(bundle))}"
