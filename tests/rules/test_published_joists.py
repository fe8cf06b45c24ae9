"""FACTS 2: solid joists, from published tables (T), the quoted clause (Q) and arithmetic (D)."""

from typing import Any

import pytest

from tests.rules.cases import UK, by_rule, found, joist, judged
from tests.rules.outside import stated

# LABC guidance and NHBC Standards 6.4.18 (T): clear span; holes from, to; notches from, to [mm].
SPANS = [
    (2000, 500, 800, 140, 500),
    (2500, 625, 1000, 175, 625),
    (3000, 750, 1200, 210, 750),
    (3500, 875, 1400, 245, 875),
    (4000, 1000, 1600, 280, 1000),
    (4500, 1125, 1800, 315, 1125),
]
# LABC guidance (T): depth; largest hole; deepest notch, printed to one place [mm]. The printed 31.3, 43.8,
# 18.8, 21.9, 28.1 and 56.3 are rounded; a limit is never rounded up (FACTS 2), so the exact share is tested.
DEPTHS = [
    (100, 25.0, 12.5),
    (125, 31.3, 15.6),
    (150, 37.5, 18.8),
    (175, 43.8, 21.9),
    (200, 50.0, 25.0),
    (225, 56.3, 28.1),
    (250, 62.5, 31.3),
]


def of(data: dict[str, Any], rule: str) -> str:
    return by_rule(judged(data))[rule]


def hole_at(x: float, span: float) -> str:
    return of(joist(span=span, holes=[{"x": x}]), "joist-hole-position")


def notch_from(left: float, right: float, span: float) -> str:
    one = {"x": (left + right) / 2, "length": right - left}
    return of(joist(span=span, notches=[one]), "joist-notch-position")


@pytest.mark.outside("joist-hole-position", "joist-notch-position", source="LABC table of spans", grade="T")
@pytest.mark.parametrize(("span", "low", "high", "first", "last"), SPANS)
@pytest.mark.parametrize("mirrored", [False, True])
def test_the_table_of_spans(
    span: float, low: float, high: float, first: float, last: float, *, mirrored: bool
) -> None:
    def seen(x: float) -> float:
        return span - x if mirrored else x

    assert [hole_at(seen(x), span) for x in (low, high)] == ["pass", "pass"]
    assert [hole_at(seen(x), span) for x in (low - 0.1, high + 0.1)] == ["fail", "fail"]

    def notch(left: float, right: float) -> str:
        return notch_from(min(seen(left), seen(right)), max(seen(left), seen(right)), span)

    assert notch(first, first + 40) == notch(last - 40, last) == notch(first, last) == "pass"
    assert notch(first - 0.1, first + 40) == notch(last - 40, last + 0.1) == "fail"


@pytest.mark.outside("joist-hole-size", "joist-notch-depth", source="LABC table of depths", grade="T")
@pytest.mark.parametrize(("depth", "hole", "notch"), DEPTHS)
def test_the_table_of_depths(depth: float, hole: float, notch: float) -> None:
    def size(diameter: float) -> str:
        return of(joist(depth=depth, holes=[{"y": depth / 2, "diameter": diameter}]), "joist-hole-size")

    def cut(deep: float) -> str:
        return of(joist(depth=depth, notches=[{"depth": deep}]), "joist-notch-depth")

    largest, deepest = depth / 4, depth / 8
    assert (size(largest), size(largest + 0.1)) == ("pass", "fail")
    assert (cut(deepest), cut(deepest + 0.1)) == ("pass", "fail")
    assert largest == pytest.approx(hole, abs=0.051)
    assert deepest == pytest.approx(notch, abs=0.051)


@pytest.mark.outside("joist-notch-depth", source="one guide's table, over its own limit", grade="T")
def test_a_rounded_up_limit_of_one_guide_is_not_taken_over() -> None:
    # FACTS 2: one guide prints 19 for a joist of 150; an eighth is 18.75.
    assert of(joist(depth=150, notches=[{"depth": 19}]), "joist-notch-depth") == "fail"
    assert of(joist(depth=150, notches=[{"depth": 18.75}]), "joist-notch-depth") == "pass"


@pytest.mark.outside("joist-hole-size", "joist-notch-depth", source="caps of the LABC table", grade="T")
def test_the_caps_of_the_table_never_govern_up_to_250() -> None:
    # FACTS 2: caps of 65 and 35 mm (T) lie above a quarter and an eighth of the deepest joist (D).
    limits = UK.joists
    assert limits is not None
    assert limits.deepest is not None
    assert limits.hole.diameter * limits.deepest < 65
    assert limits.notch.depth * limits.deepest < 35


# words; holes; notches; rule; status; source (201 and 204 are of 522.6) and grade
Row = tuple[str, list[dict[str, Any]], list[dict[str, Any]], str, str, str]
ROWS: list[Row] = [
    ("50 of cover", [{"y": 60}], [], "joist-cover", "pass", ".201 Q"),
    ("49.9 of cover to the bottom", [{"y": 59.9}], [], "joist-cover", "fail", ".201 Q"),
    ("49.9 of cover to the top", [{"y": 140.1}], [], "joist-cover", "fail", ".201 Q"),
    ("less cover, but a plate", [{"y": 20, "protection": "steel-plate"}], [], "joist-cover", "pass",
     ".201 Q"),
    ("less cover in plastic", [{"y": 20, "protection": "plastic-conduit"}], [], "joist-cover", "fail",
     ".204 P"),
    ("a notch, bare", [], [{"protection": "none"}], "joist-cover", "fail", ".201 Q"),
    ("a notch, thin steel", [], [{"protection": "steel-capping"}], "joist-cover", "fail", ".204 P"),
    ("a notch under a plate", [], [{}], "joist-cover", "pass", ".204 Q"),
    ("2 off the centre line", [{"y": 102}], [], "joist-hole-centre", "pass", "LABC (2 mm ours) T"),
    ("2.1 off the centre line", [{"y": 97.9}], [], "joist-hole-centre", "fail", "LABC (2 mm ours) T"),
    ("3 diameters apart", [{"x": 900}, {"x": 960}], [], "joist-hole-spacing", "pass", "LABC T"),
    ("less than 3 apart", [{"x": 900}, {"x": 959.9}], [], "joist-hole-spacing", "fail", "LABC T"),
    ("3 of the larger", [{"x": 900}, {"x": 975, "diameter": 25}], [], "joist-hole-spacing", "pass", "LABC T"),
    ("under 3 of the larger", [{"x": 974.9}, {"x": 900, "diameter": 25}], [], "joist-hole-spacing", "fail",
     "LABC T"),
    ("100 between notch and hole", [{"x": 830}], [{"x": 700}], "joist-notch-gap", "pass", "NHBC 6.4.18 T"),
    ("99.9 between them", [{"x": 829.9}], [{"x": 700}], "joist-notch-gap", "fail", "NHBC 6.4.18 T"),
    ("100 on the other side", [{"x": 1000}], [{"x": 1130}], "joist-notch-gap", "pass", "NHBC 6.4.18 T"),
    ("a notch in the top", [], [{}], "joist-notch-edge", "pass", "LABC P"),
    ("a notch in the bottom", [], [{"edge": "bottom"}], "joist-notch-edge", "fail", "LABC P"),
    ("nothing cut", [], [], "joist-kind", "not-applicable", "DESIGN 5.11 D"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("holes", "notches", "rule", "status"),
    [pytest.param(*row[1:5], id=f"{row[0]} [{row[5]}]", marks=stated(row[5], row[3])) for row in ROWS],
)
def test_a_published_limit(
    holes: list[dict[str, Any]], notches: list[dict[str, Any]], rule: str, status: str
) -> None:
    assert of(joist(holes=holes, notches=notches), rule) == status


# Over 250 ask an engineer (T); nothing else is cut by rule of thumb (P).
@pytest.mark.outside("joist-kind", source="NHBC 6.4.18", grade="T")
@pytest.mark.outside("joist-kind", source="LABC, NHBC", grade="P")
@pytest.mark.parametrize(
    ("changes", "status", "decides"),
    [
        ({"depth": 250}, "pass", ""),
        ({"depth": 250.1}, "fail", "an engineer"),
        ({"kind": "trussed-rafter"}, "fail", "an engineer"),
        ({"kind": "rafter"}, "fail", "an engineer"),
        ({"kind": "i-joist"}, "fail", "the maker"),
        ({"kind": "metal-web"}, "fail", "gaps"),
    ],
)
def test_who_decides_on_a_member(changes: dict[str, Any], status: str, decides: str) -> None:
    middle = changes.get("depth", 200) / 2
    verdict = judged(joist(holes=[{"y": middle}, {"y": middle, "x": 1100}], notches=[{}], **changes))
    kind = found(verdict, "joist-kind")
    assert kind.status == status
    assert decides in kind.text
    rest = {status for rule, status in by_rule(verdict).items() if rule not in {"joist-kind", "joist-cover"}}
    assert rest == ({"pass"} if status == "pass" else {"not-applicable"})
    assert by_rule(verdict)["joist-cover"] == "pass"


# FACTS 2: a centred hole keeps 50 top and bottom only if it is no larger than depth - 100.
@pytest.mark.outside("joist-cover", "joist-hole-size", source="arithmetic on both limits", grade="D")
@pytest.mark.parametrize(
    ("depth", "diameter", "cover", "size"),
    [
        (100, 0.1, "fail", "pass"),
        (125, 25, "pass", "pass"),
        (125, 25.1, "fail", "pass"),
        (400 / 3, 100 / 3, "pass", "pass"),
        (400 / 3, 100 / 3 + 0.1, "fail", "fail"),
        (150, 37.5, "pass", "pass"),
        (150, 37.6, "pass", "fail"),
    ],
)
def test_cover_and_size_together(depth: float, diameter: float, cover: str, size: str) -> None:
    data = joist(depth=depth, holes=[{"y": depth / 2, "diameter": diameter}])
    assert (of(data, "joist-cover"), of(data, "joist-hole-size")) == (cover, size)


@pytest.mark.outside("joist-cover", source="BS 7671 522.6.201", grade="Q")
def test_an_rcd_is_no_option_in_a_joist() -> None:
    # A joist has no route and no RCD in the file; the words say so where a notch is bare.
    assert "RCD does not" in found(judged(joist(notches=[{"protection": "none"}])), "joist-cover").text


def test_to_the_cable_or_to_the_edge_comes_to_the_same() -> None:
    # DESIGN 5: the cable lies at the hole's bottom for the bottom, at its top for the top.
    for value in UK.readings["joist_cover_to"].values:
        data = {**joist(holes=[{"y": 59.9, "cable_diameter": 6}]), "readings": {"joist_cover_to": value}}
        assert of(data, "joist-cover") == "fail"


def test_every_finding_about_a_joist_names_it() -> None:
    verdict = judged(joist(holes=[{}, {"x": 1900}], notches=[{}]))
    assert {one.where.joist for one in verdict.findings} == {"J1"}
    pair = found(verdict, "joist-notch-gap")
    assert (pair.subject, pair.where.other) == ("N1", "H1")
