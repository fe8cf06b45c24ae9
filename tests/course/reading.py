"""How easily each lesson reads, by an index from outside.

``python -m tests.course.reading`` writes docs/lessons.md.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import textstat

from tests.course.lessons import PATHS, asked, code, parts_of, prose, read, shown, source
from tests.house.files import ROOT
from tests.house.test_plain_words import sentences

PAGE = ROOT / "docs" / "lessons.md"
HARDEST = 7.0
"""Flesch-Kincaid grade, in years of school; who has seven behind them is twelve or thirteen."""


@dataclass(frozen=True)
class Reading:
    """The figures of one lesson."""

    title: str
    minutes: int
    words: int
    longest: int
    grade: float
    ease: float
    pictures: int
    exercises: int


def plain(markdown: str) -> str:
    """Return what a reader reads: sentences, each with its full stop, marks of layout left out."""
    read = [re.sub(r"[*_`>#]|^\d+\. |^- ", "", one).strip() for one in sentences(markdown)]
    return " ".join(one if one.endswith((".", "?", "!")) else f"{one.rstrip(':;,')}." for one in read if one)


def text_of(path: Path) -> str:
    """Return the words of a lesson: its prose, and its questions with their reasons."""
    return plain("\n\n".join([prose(read(path)), *asked(parts_of(path))]))


def reading(path: Path) -> Reading:
    lesson, text = read(path), text_of(path)
    title, minutes = source(lesson["cells"][0]).split("\n")[0], re.search(r"about (\d+) minutes", text)
    assert minutes
    lengths = [len(re.findall(r"\w[\w’'./,-]*", one)) for one in re.split(r"(?<=[.?!]) ", text)]
    return Reading(
        title=title.removeprefix("# "),
        minutes=int(minutes[1]),
        words=sum(lengths),
        longest=max(lengths),
        grade=round(textstat.flesch_kincaid_grade(text), 1),
        ease=round(textstat.flesch_reading_ease(text)),
        pictures=sum(bool(shown(cell, "image/png")) for cell in code(lesson)),
        exercises=sum("Sheet.from_bank(" in source(cell) for cell in code(lesson)),
    )


def page() -> str:
    return "\n".join([*_head(), *(_row(path) for path in PATHS), ""])


def _head() -> Iterator[str]:
    yield "# The lessons, and how they read\n"
    yield "`python -m tests.course.reading` writes this page; a test fails when it differs.\n"
    yield "Grade is the Flesch-Kincaid grade by textstat 0.7.7, in years of school."
    yield f"No lesson may be over {HARDEST:g}. Ease is the Flesch reading ease: 80 and more is easy."
    yield "Words are those of the lesson, its questions and their reasons. No sentence has over 25 words.\n"
    yield "| lesson | minutes | words | longest sentence | grade | ease | pictures | exercises |"
    yield "|---|---|---|---|---|---|---|---|"


def _row(path: Path) -> str:
    one = reading(path)
    figures = (one.minutes, one.words, one.longest, one.grade, one.ease, one.pictures, one.exercises)
    return f"| [{one.title}](../lessons/{path.name}) | {' | '.join(map(str, figures))} |"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
