"""Pick from the bank: by kind, by how hard an exercise is, by rule, and by clause."""

from collections.abc import Iterator
from dataclasses import dataclass

from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.kinds import NAMES
from zonelib.exercise.load import bank_names, bank_path, read_exercise
from zonelib.exercise.model import Exercise
from zonelib.exercise.trial import marked_answer
from zonelib.rules.engine import judge
from zonelib.site.faults import Fault, FileFault

__all__ = ["Picked", "pick"]

LEAST, MOST = 1, 5


@dataclass(frozen=True)
class Picked:
    """One exercise of the bank, as a tutor chooses it.

    Attributes
    ----------
    name, kind, title : str
        Its name in the bank, its kind, and its heading.
    difficulty : int
        From 1, first steps, to 5, assessment.
    rules, clauses : tuple of str
        What it is about, and the clauses that its model answer meets there.
    varies : bool
        Whether each trainee can have a room of their own.
    """

    name: str
    kind: str
    difficulty: int
    title: str
    rules: tuple[str, ...]
    clauses: tuple[str, ...]
    varies: bool


def pick(
    *, kind: str = "", difficulty: tuple[int, int] = (LEAST, MOST), rule: str = "", clause: str = ""
) -> list[Picked]:
    """Return the exercises of the bank that fit, the easiest first; what is left out fits all.

    Parameters
    ----------
    kind, rule : str
        Such as ``route``, and ``wall-rcd``.
    difficulty : tuple of int
        Least and most, 1 to 5.
    clause : str
        How a clause begins, such as ``522.6.203``.

    Raises
    ------
    FileFault
        If there is no such kind or difficulty.
    """
    _checked(kind, difficulty)
    found = [
        one
        for one in _fitting(kind, difficulty, rule)
        if not clause or any(cited.startswith(clause) for cited in one.clauses)
    ]
    return sorted(found, key=lambda one: (one.difficulty, one.name))


def _checked(kind: str, difficulty: tuple[int, int]) -> None:
    if kind and kind not in NAMES:
        raise FileFault("pick", [Fault("kind", f'"{kind}"', ", ".join(NAMES))])
    least, most = difficulty
    if not LEAST <= least <= most <= MOST:
        raise FileFault(
            "pick", [Fault("difficulty", f"{least} to {most}", f"{LEAST} to {MOST}, the least first")]
        )


def _fitting(kind: str, difficulty: tuple[int, int], rule: str) -> Iterator[Picked]:
    for name in bank_names():
        one = read_exercise(bank_path(name))
        hard = difficulty[0] <= one.difficulty <= difficulty[1]
        if hard and kind in ("", one.kind) and (not rule or rule in one.aim):
            yield _picked(name, one)


def _picked(name: str, one: Exercise) -> Picked:
    bundle = freeze(one)
    home = (bundle.pack.walls.clause,) if "wall-zone" in one.aim else ()
    clauses = tuple(dict.fromkeys(_clauses(one, bundle))) or home  # no cable, no finding: zones to be drawn
    return Picked(name, one.kind, one.difficulty, one.title, one.aim, clauses, one.variants is not None)


def _clauses(one: Exercise, bundle: Bundle) -> Iterator[str]:
    """Yield the clauses behind what is found of the model answer, else of the wall as it is given."""
    verdict = marked_answer(bundle, one.model).verdict or judge(bundle.case, bundle.pack)
    for finding in verdict.findings:
        if finding.clause and finding.rule in one.aim:
            yield finding.clause
