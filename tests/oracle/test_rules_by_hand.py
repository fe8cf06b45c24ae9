"""The other wall rules at their edges, worked out on paper (FACTS 3 and 8; grades beside each)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest

from tests.oracle.compare import findings
from tests.oracle.plainly import expected
from tests.oracle.sample import sample

RISE = [(1200, 450), (1200, 2330)]
LEVEL = [(1200, 450), (2000, 450)]
SLANT = [(1200, 450), (1500, 900)]
RCD = {"rcd": {"ma": 30}}
# Plaster of 13 mm on both sides of a leaf of 100.
BRICK = {"build": "masonry", "thickness": 126}
METAL = {"build": "metal-stud", "thickness": 150}

PAPER: dict[str, tuple[dict[str, Any], dict[str, str]]] = {
    # 50 to the front, 120 - 50 - 6 = 64 to the rear (Q: exactly 50 is not concerned).
    "at 50 mm from a face no rule of the wall's zones applies": (
        sample(SLANT, wall={"thickness": 120}, depth=50),
        {"wall-zone": "not-applicable", "wall-rcd": "not-applicable"},
    ),
    "at 49.9 mm the zone and the RCD are asked for (Q)": (
        sample(SLANT, wall={"thickness": 120}, depth=49.9),
        {"wall-zone": "fail", "wall-rcd": "fail"},
    ),
    "an RCD is no way out of the zone (P)": (sample(SLANT, **RCD), {"wall-zone": "fail", "wall-rcd": "pass"}),
    "where the reading says so, an RCD is a way out of the zone": (
        sample(SLANT, readings={"rcd_outside_zone": "yes"}, **RCD),
        {"wall-zone": "pass", "wall-rcd": "pass"},
    ),
    "an RCD of 30.1 mA does not count (M, D)": (sample(RISE, rcd={"ma": 30.1}), {"wall-rcd": "fail"}),
    "a delayed RCD does not count (M, D)": (
        sample(RISE, rcd={"ma": 30, "delayed": True}),
        {"wall-rcd": "fail"},
    ),
    "an RCD at the outlet does not count (M, D)": (
        sample(RISE, rcd={"ma": 30, "at": "outlet"}),
        {"wall-rcd": "fail"},
    ),
    # 60 to the front, 150 - 60 - 6 = 84 to the rear (D).
    "among metal studs a deep cable needs an RCD": (
        sample(RISE, wall=METAL, depth=60),
        {"wall-zone": "not-applicable", "wall-rcd": "not-applicable", "metal-wall": "fail"},
    ),
    "among metal studs a deep cable with an RCD passes (D)": (
        sample(RISE, wall=METAL, depth=60, **RCD),
        {"metal-wall": "pass"},
    ),
    "SELV passes slanting and 10 deep among metal studs (D)": (
        sample(SLANT, wall=METAL, depth=10, supply="selv"),
        {"wall-zone": "pass", "wall-rcd": "not-applicable", "metal-wall": "pass"},
    ),
    "plastic capping in the zone still needs an RCD (D)": (
        sample(RISE, depth=10, protection="plastic-capping"),
        {"wall-zone": "pass", "wall-rcd": "fail"},
    ),
    # 40.3 - 13 + 6 = 33.3 against 100 / 3 = 33.33 (T).
    "an upright chase of 33.3 mm in a leaf of 100 passes": (
        sample(RISE, wall=BRICK, depth=40.3),
        {"chase-line": "pass", "chase-depth": "pass"},
    ),
    # 40.4 - 13 + 6 = 33.4.
    "an upright chase of 33.4 mm in a leaf of 100 fails": (
        sample(RISE, wall=BRICK, depth=40.4),
        {"chase-depth": "fail"},
    ),
    # 23.6 - 13 + 6 = 16.6 against 100 / 6 = 16.67 (T).
    "a level chase of 16.6 mm in a leaf of 100 passes": (
        sample(LEVEL, wall=BRICK, depth=23.6),
        {"chase-depth": "pass"},
    ),
    "a level chase of 16.7 mm in a leaf of 100 fails": (
        sample(LEVEL, wall=BRICK, depth=23.7),
        {"chase-depth": "fail"},
    ),
    # 7 - 13 + 6 = 0.
    "a cable within the plaster cuts no chase": (
        sample(LEVEL, wall=BRICK, depth=7),
        {"chase-line": "not-applicable", "chase-depth": "not-applicable"},
    ),
    "a slanting chase is refused": (
        sample(SLANT, wall=BRICK, depth=20),
        {"chase-line": "fail", "chase-depth": "not-applicable"},
    ),
    # 60 and 126 - 60 - 6 = 60: the finish of 3 counts, 60 - 3 + 6 = 63 against (126 - 16) / 3 = 36.7.
    "midway in the wall the chase is cut from the thinner finish": (
        sample(RISE, wall=BRICK | {"rear": {"finish": 3}}, depth=60),
        {"chase-depth": "fail"},
    ),
    # The plate's edge is at 1273; 1273.0005 is equal.
    "a route that ends on the plate's edge touches it": (
        sample([(1273.0005, 450), (2000, 450)]),
        {"route-joins": "pass"},
    ),
    "a route that ends a tenth of a millimetre off the plate does not touch it": (
        sample([(1273.1, 450), (2000, 450)]),
        {"route-joins": "fail"},
    ),
    "a route along the wall's foot lies on the wall": (
        sample([(0, 0), (3600, 0)]),
        {"route-on-wall": "pass"},
    ),
    "a route a tenth of a millimetre below the foot does not": (
        sample([(0, -0.1), (3600, -0.1)]),
        {"route-on-wall": "fail"},
    ),
    # 100 - 94 - 6 = 0, and 100 - 94.1 - 6 = -0.1.
    "a cable flush with the rear is within the wall": (sample(RISE, depth=94), {"depth-in-wall": "pass"}),
    "a cable proud of the rear is not within the wall": (sample(RISE, depth=94.1), {"depth-in-wall": "fail"}),
}


def _worst(statuses: Sequence[tuple[str, str]], rule: str) -> str:
    order = ["fail", "pass", "not-applicable"]
    return min((status for name, status in statuses if name == rule), key=order.index)


@pytest.mark.parametrize("sentence", PAPER)
def test_the_engine_says_what_paper_says(sentence: str) -> None:
    case, due = PAPER[sentence]
    given = [(f.rule, f.status) for f in findings(case)]
    assert {rule: _worst(given, rule) for rule in due} == due


@pytest.mark.parametrize("sentence", PAPER)
def test_the_second_computation_says_what_paper_says(sentence: str) -> None:
    case, due = PAPER[sentence]
    given = [(e.rule, e.status) for e in expected(case)]
    assert {rule: _worst(given, rule) for rule in due} == due
