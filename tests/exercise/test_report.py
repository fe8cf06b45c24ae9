"""A marked answer as HTML and as text: every reason, numbered as on the picture, and nothing that runs."""

import re
from html.parser import HTMLParser
from typing import Any

import pytest

from zonelib.exercise import AnswerRecord, Bundle, Result, bank_path, freeze, mark, read_exercise
from zonelib.exercise.messages import in_order, most_serious_first
from zonelib.exercise.report import result_html, result_text

BUNDLE = freeze(read_exercise(bank_path("kitchen-hatch")))
SLANT = {"points": [[1000, 2400], [2200, 950]], "depth": [40], "protection": ["plastic-conduit"], "rcd": None}
MODEL = read_exercise(bank_path("kitchen-hatch")).model
STRAY = {"points": [[1000, 2400], [1000, 2300]]}


def marked(answer: dict[str, Any], *, bundle: Bundle = BUNDLE) -> Result:
    record = {
        "schema": 1,
        "exercise": bundle.exercise.id,
        "bundle": bundle.hash,
        "revision": 1,
        "saved_at": "now",
    }
    return mark(bundle, AnswerRecord.model_validate({**record, "answer": answer}))


class Page(HTMLParser):
    """Collects tags, handlers and ids, and whether every tag is closed."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.open: list[str] = []
        self.names: list[str] = []
        self.handlers: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.open.append(tag)
        self.names += [value for name, value in attrs if name == "id" and value]
        self.handlers += [
            name for name, value in attrs if name.startswith("on") or "javascript:" in (value or "")
        ]

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


@pytest.mark.parametrize("answer", [SLANT, MODEL, STRAY, {}], ids=["slant", "model", "stray", "empty"])
def test_the_page_stands_alone_and_runs_nothing(answer: dict[str, Any]) -> None:
    page = Page(result_html(BUNDLE, marked(answer)))
    assert page.open == []
    assert page.handlers == []
    assert "script" not in page.tags
    assert len(page.names) == len(set(page.names))
    assert not re.search(r"(src|href)=", result_html(BUNDLE, marked(answer)))


def test_every_failed_finding_is_told_under_its_number_on_the_picture() -> None:
    result = marked(SLANT)
    page = result_html(BUNDLE, result)
    assert result.verdict
    for n, finding in enumerate(result.verdict.failures, start=1):
        assert (
            f'<span class="zl-n">{n}</span> <b>{finding.reason[:1].upper()}{finding.reason[1:]}.</b>' in page
        )
        assert f'data-n="{n}"' in page


@pytest.mark.parametrize("answer", [SLANT, MODEL, STRAY, {}], ids=["slant", "model", "stray", "empty"])
def test_each_criterion_is_listed_with_marks_and_reason(answer: dict[str, Any]) -> None:
    result = marked(answer)
    page, text = result_html(BUNDLE, result), result_text(BUNDLE, result)
    assert page.count('<th scope="row">') == len(result.criteria)
    assert sum(one.marks for one in result.criteria) == result.points
    for one in result.criteria:
        assert f"- {one.words}: " in text


@pytest.mark.parametrize("answer", [SLANT, MODEL, {}], ids=["slant", "model", "empty"])
def test_edition_and_safety_words_are_always_there(answer: dict[str, Any]) -> None:
    pack = BUNDLE.pack
    for text in (result_html(BUNDLE, marked(answer)), result_text(BUNDLE, marked(answer))):
        assert pack.stated_edition in text
        assert pack.safety.aid in text
        assert pack.safety.drill[-1] in text


def test_what_a_trainee_or_tutor_wrote_stays_text() -> None:
    exercise = read_exercise(bank_path("kitchen-hatch"))
    sly = freeze(exercise.model_copy(update={"title": "<img src=x onerror=alert(1)>"}))
    page = Page(result_html(sly, marked({"points": [["<script>", 1]]}, bundle=sly)))
    assert "img" not in page.tags
    assert "script" not in page.tags


def test_what_waits_for_a_whole_route_is_told_once() -> None:
    rules = [one.rule for one in in_order(marked(STRAY))]
    assert "route-joins" in rules
    assert all(rules)


def test_a_needless_covering_is_told_though_no_rule_fails() -> None:
    armoured = {**MODEL, "protection": ["earthed-steel-conduit", "none"] * 2}
    messages = in_order(marked(armoured))
    assert [one.n for one in messages] == [0]
    assert "covering" in messages[0].text.lower()


def test_the_most_serious_comes_first_and_keeps_its_number() -> None:
    messages = most_serious_first(marked(SLANT))
    assert messages[0].rule == "route-on-wall"
    assert sorted(one.n for one in messages if one.n) == [one.n for one in in_order(marked(SLANT)) if one.n]
    assert messages[0].n > 1


def test_full_marks_leave_nothing_to_change() -> None:
    page = result_html(BUNDLE, marked(MODEL))
    assert "12 of 12 marks" in page
    assert "What to change" not in page
