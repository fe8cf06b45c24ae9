"""Write docs/bank.md: `python -m tests.course.bank_page`.

Every exercise of the bank: what it asks, the rules and clauses a trainee meets there, and the misconceptions
that its typical answers tell apart. It is the list from which a tutor picks.
"""

from collections import Counter
from collections.abc import Callable

from tests.exercise.answers import NAMES, bundle, exercise
from tests.house.clauses import rules_of
from tests.house.files import ROOT
from zonelib import load_pack
from zonelib.coach.diagnosis.lens import Lens
from zonelib.coach.diagnosis.misconception import library
from zonelib.coach.diagnosis.telling import told_apart, typical_answers
from zonelib.exercise.kinds import NAMES as KINDS

PAGE = ROOT / "docs" / "bank.md"
HEAD = """# The bank

This page is made by `python -m tests.course.bank_page`. A test fails while it is older than the exercises.
The files lie in `zonelib/exercise/bank`. `zonelib exercise preview NAME` shows one, and what it marks.

Level 1 is for first steps, level 5 for an assessment.
Behind each exercise stand the rules it is about, and the clauses that those rest on.
The last column names the [misconceptions](#misconceptions) that its typical answers show.
Those with one number look alike there. `zonelib exercise misconceptions NAME` says which answer shows which.
"""
COLUMNS = ("Name", "Level", "Title", "Rules", "Clauses", "Misconceptions told apart")
TITLES = {
    "route": "Run a cable",
    "zones": "Draw the zones",
    "fixings": "Hang things",
    "joist": "Cut a joist",
    "inspect": "Inspect an installation",
    "protect": "Make a given run acceptable",
    "choose": "Choose",
    "number": "Give a number",
}


Told = Callable[[str], str]
"""Which misconceptions an exercise of that name tells apart."""


def page(told: Told) -> str:
    """Return the text of the page."""
    parts = [f"{HEAD}\n{_same_for_all()}", _counts()]
    for kind in KINDS:
        ours = [name for name in NAMES if exercise(name).kind == kind]
        ours.sort(key=lambda name: (exercise(name).difficulty, name))
        rows = [_row(*COLUMNS), "|" + " --- |" * len(COLUMNS), *(row(name, told(name)) for name in ours)]
        parts.append("\n".join([f"## {TITLES[kind]}: `{kind}`", "", *rows, ""]))
    return "\n".join([*parts, _misconceptions()])


def row(name: str, told: str) -> str:
    """Return the line of one exercise."""
    one = exercise(name)
    rules = ", ".join(f"`{rule}`" for rule in one.aim)
    return _row(f"`{name}`", str(one.difficulty), one.title, rules, ", ".join(clauses(name)), told)


def clauses(name: str) -> list[str]:
    """Return the clauses that stand behind the rules an exercise is about, in the pack's order."""
    pack = load_pack(exercise(name).case["pack"])
    cited = {clause for rule in exercise(name).aim for clause in rules_of(pack.id).get(rule, ())}
    return [clause for clause in pack.citations if clause in cited]


def told(name: str) -> str:
    """Return the misconceptions an exercise shows; those it cannot tell from each other share a number."""
    lens = Lens(bundle(name))
    shown = told_apart(lens, typical_answers(lens, exercise(name)))
    groups = list(dict.fromkeys(shown.values()))
    alike = Counter(shown.values())
    numbers = {those: f" ({groups.index(those) + 1})" if alike[those] > 1 else "" for those in groups}
    return ", ".join(f"{one}{numbers[those]}" for one, those in shown.items()) or "none"


def _same_for_all() -> str:
    """Return which exercises have no rooms that could differ."""
    alike = [f"`{name}`" for name in NAMES if exercise(name).variants is None]
    rooms = "[a room of their own](variants.md)"
    return f"Each trainee can have {rooms} of every exercise but these: {', '.join(alike)}.\n"


def _counts() -> str:
    levels = range(1, 6)
    lines = [_row("Kind", *(f"Level {level}" for level in levels), "All"), "|" + " --- |" * 7]
    for kind in KINDS:
        found = Counter(exercise(name).difficulty for name in NAMES if exercise(name).kind == kind)
        lines.append(_row(f"`{kind}`", *(str(found[level]) for level in levels), str(found.total())))
    every = Counter(exercise(name).difficulty for name in NAMES)
    lines.append(_row("all", *(str(every[level]) for level in levels), str(every.total())))
    return "\n".join([*lines, ""])


def _misconceptions() -> str:
    lines = ["## Misconceptions", "", _row("Name", "What somebody takes for granted", "What is so")]
    rows = (_row(name, one.words, one.truth) for name, one in library().items())
    return "\n".join([*lines, "| --- | --- | --- |", *rows, ""])


def written(text: str) -> dict[str, str]:
    """Return for each exercise that a page lists what it says of misconceptions."""
    lines = [line.split(" | ") for line in text.splitlines()]
    return {
        cells[0].strip("| `"): cells[-1].removesuffix(" |") for cells in lines if len(cells) == len(COLUMNS)
    }


def _row(*cells: str) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


if __name__ == "__main__":
    PAGE.write_text(page(told), encoding="utf-8", newline="\n")
