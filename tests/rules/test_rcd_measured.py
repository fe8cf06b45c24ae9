"""What is measured of an RCD says what failed: a number only where the number fails."""

from typing import Any

import pytest

from tests.rules.cases import found, judged, one_route

SLANT = [(1200, 450), (2400, 2100)]
RULES = ("wall-rcd", "metal-wall")
NO_NUMBER = (None, None, "")


def finding(rule: str, rcd: dict[str, Any] | None) -> dict[str, Any]:
    return found(judged(one_route(SLANT, build="metal-stud", rcd=rcd)), rule).as_data()


# FACTS 1: at most 30 mA, not time-delayed (415.1.1, M), upstream of the cable (D)
@pytest.mark.outside(*RULES, source="BS 7671 415.1.1", grade="M")
@pytest.mark.parametrize("rule", RULES)
@pytest.mark.parametrize(
    ("rcd", "measured", "words"),
    [
        (None, (None, 30, "mA"), "no RCD that counts"),
        ({"ma": 100}, (100, 30, "mA"), "no RCD that counts"),
        ({"ma": 30, "delayed": True}, NO_NUMBER, "no RCD that counts: it is time-delayed"),
        ({"ma": 30, "at": "outlet"}, NO_NUMBER, "no RCD that counts: it sits at the outlet"),
        ({"ma": 10, "at": "outlet", "delayed": True}, NO_NUMBER,
         "no RCD that counts: it sits at the outlet and it is time-delayed"),
        ({"ma": 100, "delayed": True}, (100, 30, "mA"), "no RCD that counts: it is time-delayed"),
    ],
)  # fmt: skip
def test_a_number_is_given_only_where_it_fails(
    rule: str, rcd: dict[str, Any] | None, measured: tuple[Any, ...], words: str
) -> None:
    one = finding(rule, rcd)
    assert one["status"] == "fail"
    assert (one["measured"], one["limit"], one["unit"]) == measured
    assert one["reason"].endswith(words)


@pytest.mark.parametrize("rule", RULES)
def test_an_rcd_that_counts_keeps_its_numbers(rule: str) -> None:
    one = finding(rule, {"ma": 30})
    assert (one["status"], one["measured"], one["limit"], one["operator"]) == ("pass", 30, 30, "<=")


def test_every_flaw_is_told_in_full() -> None:
    text = finding("wall-rcd", {"ma": 100, "at": "outlet", "delayed": True})["text"]
    for words in ("protects nothing behind it", "cuts off too late", "rated 100 mA, above 30 mA"):
        assert words in text
