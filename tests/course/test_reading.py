"""Lessons read easily, and every trade term is explained by the time it stands."""

import re
from pathlib import Path

import pytest
import textstat

from tests.course.lessons import PATHS, asked, called, parts_of, prose, read
from tests.course.reading import HARDEST, PAGE, page, plain, reading, text_of
from tests.house.test_plain_words import BLAME, LONGEST, long_ones
from zonelib.sheet import glossary as module
from zonelib.sheet.glossary import Term, glossary, glossary_page

each_lesson = pytest.mark.parametrize("path", [pytest.param(path, id=path.stem) for path in PATHS])
each_term = pytest.mark.parametrize("name", list(glossary()))
TRADE = [
    "accessory", "capping", "chase", "clause", "conduit",
    "consumer-unit", "corner", "covering", "cover", "depth", "edition", "face", "finish",
    "fixing", "joist", "leaf", "leg", "notch", "partition", "prove-dead", "rcd",
    "remedy", "route", "selv", "span", "stud", "trunking", "unfolded", "void", "zone",
]  # fmt: skip
"""Trade terms that a glossary of this subject cannot do without."""


@each_lesson
def test_a_lesson_reads_easily(path: Path) -> None:
    found = reading(path)
    assert found.grade <= HARDEST
    assert found.longest <= LONGEST


def test_the_page_tells_the_figures_as_they_are() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "run: python -m tests.course.reading"


def test_layout_is_no_part_of_what_is_read() -> None:
    told = "# Head\n\nOne **bold** word:\n\n- a point\n- `code` here.\n\n| a | b |\n"
    assert plain(told) == "One bold word. a point. X here."


def test_hard_words_are_known_when_seen() -> None:
    hard = "Notwithstanding contemporaneous regulatory considerations, practitioners demonstrate competence."
    assert textstat.flesch_kincaid_grade(hard) > HARDEST


def test_the_glossary_holds_the_trade_terms() -> None:
    assert [name for name in TRADE if name not in glossary()] == []


def first_stand(term: Term) -> str:
    """Return the number of the first lesson in which a term stands, or that which explains it."""
    forms = "|".join(re.escape(form) for form in {term.term, *term.forms})
    loose = 0 if term.term.isupper() else re.IGNORECASE
    known = re.compile(rf"(?<![\w-])({forms})(?![\w-])", loose)
    for path in PATHS:
        told = prose({"cells": read(path)["cells"][:-1]})  # the last one names other lessons
        if known.search("\n".join([told, *asked(parts_of(path))])):
            return path.name[:2]
    return term.first


@each_term
def test_a_term_is_explained_in_the_lesson_where_it_first_stands_or_before(name: str) -> None:
    assert glossary()[name].first <= first_stand(glossary()[name])


@each_term
def test_the_lesson_that_explains_a_term_shows_its_words(name: str) -> None:
    (path,) = [path for path in PATHS if path.name.startswith(glossary()[name].first)]
    told = ", ".join(called(read(path), "words"))
    assert f'"{name}"' in told


@each_term
def test_an_explanation_is_short_and_uses_no_word_that_blames(name: str) -> None:
    words = glossary()[name].words
    assert long_ones(words) == []
    assert BLAME.findall(words) == []
    assert words.endswith(".")


def test_the_glossary_page_shows_every_term_from_a_to_z(monkeypatch: pytest.MonkeyPatch) -> None:
    kept: list[dict[str, str]] = []
    monkeypatch.setattr(module, "show", kept.append)
    glossary_page()
    terms = re.findall(r"^\*\*(.+?)\*\* – ", kept[0]["text/markdown"], re.MULTILINE)
    assert len(terms) == len(glossary())
    assert terms == sorted(terms, key=str.lower)


def test_every_lesson_has_words_of_its_own() -> None:
    assert [path.name for path in PATHS if len(text_of(path)) < 1500] == []
