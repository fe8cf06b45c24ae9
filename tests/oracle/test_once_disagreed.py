"""Cases in which the engine and the text once parted company, each as small as it would go."""

from __future__ import annotations

from typing import Any

import pytest

from tests.oracle.compare import disagreements, findings
from tests.oracle.sample import sample

HATCH = {"id": "H1", "kind": "hatch", "x": 1000, "y": 500, "width": 1000, "height": 1000}

# What the text says; the rule; the status it is due.
CASES: dict[str, tuple[dict[str, Any], str, str]] = {
    # 1500 - 1494.8505 = 5.1495, and 5.15 less the tolerance is 5.149. The face round an opening is met within
    # the tolerance as a zone's edge is.
    "half a thousandth too near the face round an opening is equal and passes": (
        sample([(1100, 1494.8505), (1900, 1494.8505)], wall={"openings": [HATCH]}),
        "wall-zone",
        "pass",
    ),
    # The top rises 1600 in 100 to the wall's very end, and the route runs up that end to it.
    "a route up the end of the wall to a steep top lies on the wall": (
        sample(
            [(1000, 35), (1000, 2400)],
            wall={"length": 1000, "top": [[0, 800], [900, 800], [1000, 2400]], "front": {}},
            socket={"x": 500},
        ),
        "route-on-wall",
        "pass",
    ),
}


@pytest.mark.parametrize("sentence", CASES)
def test_the_engine_now_says_what_the_text_says(sentence: str) -> None:
    case, rule, status = CASES[sentence]
    given = [f for f in findings(case) if f.rule == rule and f.where.face in {None, "front"}]
    assert [f.status for f in given] == [status]
    assert disagreements(case) == []
