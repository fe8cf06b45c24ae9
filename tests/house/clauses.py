"""Write docs/clauses.md: `python -m tests.house.clauses`.

Each clause of each pack, what we say it asks, how sure we are, the rules that rest on it, and the checks that
hold those rules against the world. It is the list that someone with the book goes through.
"""

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from functools import cache

from tests.house.files import ROOT
from tests.house.specimen import specimen
from tests.rules.outside import GRADES, Check, checks
from zonelib import Pack, load_pack
from zonelib.rules.pack import pack_names

PAGE = ROOT / "docs" / "clauses.md"
HEAD = """# Clauses, rules and checks

This page is made by `python -m tests.house.clauses`. A test fails while it is older than its sources.
It lists what to compare with the book before a course [signs a pack off](../README.md#your-course).
No sentence of a standard is reproduced: the words are ours.

Grades say how a clause, or a value in a check, reached us: {grades}. Behind each test stand the grades
of its values. A number says how many rows of its table have that grade.
The tests lie in [tests/rules](../tests/rules).
"""
COLUMNS = (
    "Clause",
    "What it asks, in our words",
    "Grade",
    "How it was checked",
    "Rules",
    "Checks from outside",
)


@cache
def rules_of(name: str) -> Mapping[str, set[str]]:
    """Return the rules a pack judges by, each with the clauses its findings cite."""
    pack = load_pack(name)
    found: dict[str, set[str]] = defaultdict(set)
    for one in specimen(pack).findings:
        found[one.rule] |= {whole(pack, one.clause)} if one.clause else set()
    if "wall-zone" in found:
        found["wall-zone"] |= {whole(pack, zone.clause) for zone in pack.zones}
    for rule in {"wall-rcd", "metal-wall"} & set(found):
        found[rule] |= {whole(pack, pack.rcd.clause)} if pack.rcd else set()
    return found


def whole(pack: Pack, clause: str) -> str:
    """Return the cited clause that a clause is, or is a part of."""
    return clause if clause in pack.citations else clause.partition("(")[0]


def unchecked(name: str, found: Iterable[Check]) -> set[str]:
    """Return a pack's rules that nothing from outside holds; without a clause any pack's check will do."""
    found = list(found)
    own = {rule for check in found if check.pack == name for rule in check.rules}
    every = {rule for check in found for rule in check.rules}
    return {rule for rule, cited in rules_of(name).items() if rule not in (own if cited else every)}


def about(pack: Pack, clause: str, found: Iterable[Check]) -> list[Check]:
    """Return the checks that name a clause, and those that name none but whose rule is at home in it."""
    home = {rule for rule, cited in rules_of(pack.id).items() if clause == _first(pack, cited)}
    own = [check for check in found if check.pack == pack.id]
    return [
        check
        for check in own
        if clause in (named := _named(pack, check)) or (not named and home & set(check.rules))
    ]


def _first(pack: Pack, cited: set[str]) -> str:
    return next((clause for clause in pack.citations if clause in cited), "")


def _named(pack: Pack, check: Check) -> set[str]:
    whole_number = r"(?<![\w.]){}(?!\w|\.\d)"
    return {one for one in pack.citations if re.search(whole_number.format(re.escape(one)), check.source)}


def page() -> str:
    """Return the text of the page."""
    found = list(checks())
    parts = [HEAD.format(grades=", ".join(f"**{letter}** {words}" for letter, words in GRADES.items()))]
    parts += [_pack(load_pack(name), found) for name in pack_names()]
    return "\n".join([*parts, _geometry(found), _sizes(found)])


def _pack(pack: Pack, found: list[Check]) -> str:
    rules = rules_of(pack.id)
    lines = [f"## {pack.country}: `{pack.id}`", "", f"Edition: {pack.stated_edition}.", "", *_heads(COLUMNS)]
    for name, citation in pack.citations.items():
        resting = [rule for rule, cited in rules.items() if name in cited]
        told = _tests(about(pack, name, found))
        where = f"{citation.document}, {citation.clause}"
        lines.append(_row(where, citation.about, citation.grade, citation.checked, _code(resting), told))
    return "\n".join([*lines, ""])


def _geometry(found: list[Check]) -> str:
    rules: dict[str, set[str]] = defaultdict(set)
    for name in pack_names():
        for rule, cited in rules_of(name).items():
            rules[rule] |= cited
    lines = ["## Rules that rest on no clause", "", *_heads(("Rule", "Checks from outside"))]
    free = [rule for rule, cited in rules.items() if not cited]
    lines += [_row(f"`{rule}`", _tests(one for one in found if rule in one.rules)) for rule in free]
    return "\n".join([*lines, ""])


def _sizes(found: list[Check]) -> str:
    lines = ["## Sizes of real things", "", *_heads(("Source", "Grade", "Checks"))]
    by_source: dict[tuple[str, str], list[Check]] = defaultdict(list)
    for one in found:
        if not one.rules:
            by_source[one.source, one.grade].append(one)
    lines += [_row(source, grade, _tests(each)) for (source, grade), each in by_source.items()]
    return "\n".join([*lines, ""])


def _tests(found: Iterable[Check]) -> str:
    """Return the tests of some checks, each with the grades of its values and how many rows have them."""
    grades: dict[str, Counter[str]] = defaultdict(Counter)
    for check in found:
        grades[check.test][check.grade] += 1
    return "<br>".join(f"{test} ({_graded(counted)})" for test, counted in grades.items())


def _graded(counted: Counter[str]) -> str:
    return ", ".join(grade if times == 1 else f"{grade} {times}" for grade, times in counted.items())


def _heads(names: Iterable[str]) -> Iterator[str]:
    names = list(names)
    yield _row(*names)
    yield "|" + " --- |" * len(names)


def _row(*cells: str) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _code(names: Iterable[str]) -> str:
    return ", ".join(f"`{name}`" for name in names)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
