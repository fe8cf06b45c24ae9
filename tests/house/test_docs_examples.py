"""The examples in docstrings do what they show."""

import doctest
import importlib

import pytest

from tests.house.files import ROOT, texts

MODULES = sorted(
    ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
    for path in texts(".py")
    if path.relative_to(ROOT).parts[0] == "zonelib" and ">>>" in path.read_text(encoding="utf-8")
)


@pytest.mark.parametrize("name", MODULES)
def test_each_example_gives_what_it_shows(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    found = doctest.testmod(importlib.import_module(name))
    assert found.attempted > 0
    assert found.failed == 0


def test_an_example_that_is_out_of_date_is_known_when_seen() -> None:
    parsed = doctest.DocTestParser().get_doctest(">>> 1 + 1\n3\n", {}, "stale", None, 0)
    assert doctest.DocTestRunner(verbose=False).run(parsed, out=lambda _text: None).failed == 1


def test_no_example_is_passed_over() -> None:
    assert MODULES
    left_out = "doctest: +" + "SKIP"
    assert [p.name for p in texts(".py") if left_out in p.read_text(encoding="utf-8")] == []
