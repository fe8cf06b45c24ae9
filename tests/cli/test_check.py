"""What `zonelib check` promises: exit statuses, one line per file, keys of the JSON, a readable report."""

import json
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.cli.files import FAILING, PASSING, SLANT, UP, lines, run, written
from tests.rules.cases import joist, one_route

Zonelib = Callable[..., subprocess.CompletedProcess[str]]
BAD = Path(__file__).resolve().parents[1] / "site" / "bad"

# DESIGN 4, the contract
KEYS = ["file", "pack", "edition", "passed", "findings"]
FINDING = [
    "rule",
    "clause",
    "status",
    "subject",
    "where",
    "measured",
    "limit",
    "operator",
    "unit",
    "reason",
    "text",
]
WHERE = {"wall", "face", "legs", "from_mm", "to_mm", "joist", "other"}
RULES = {
    "wall-zone", "wall-rcd", "metal-wall", "route-joins", "route-on-wall", "depth-in-wall", "chase-depth",
    "chase-line", "joist-cover", "joist-kind", "joist-hole-size", "joist-hole-position", "joist-hole-centre",
    "joist-hole-spacing", "joist-notch-depth", "joist-notch-position", "joist-notch-edge", "joist-notch-gap",
    "fixing",
}  # fmt: skip
FIXING = {"id": "F1", "wall": "W1", "face": "front", "x": 2600, "y": 1500, "penetration": 30, "diameter": 5}


@pytest.fixture
def good(tmp_path: Path) -> str:
    return written(tmp_path, "good.json", PASSING)


@pytest.fixture
def failing(tmp_path: Path) -> str:
    return written(tmp_path, "failing.json", FAILING)


@pytest.fixture
def broken(tmp_path: Path) -> str:
    return written(tmp_path, "broken.toml", "pack = \n")


def test_the_exit_status_tells_the_gravest_of_all_files(good: str, failing: str, broken: str) -> None:
    assert run("check", good).exit_code == 0
    assert run("check", good, failing).exit_code == 1
    assert run("check", broken, failing, good).exit_code == 2
    assert run("check", failing, broken, good).exit_code == 2
    assert run("check", "--json", good, broken).exit_code == 2


def test_a_caution_is_no_fail(tmp_path: Path) -> None:
    path = written(tmp_path, "deep.json", one_route(UP, fixings=[{**FIXING, "penetration": 60}]))
    result = run("check", "--json", path)
    assert result.exit_code == 0
    assert lines(result)[0]["passed"] is True
    assert lines(result)[0]["findings"][-1]["status"] == "caution"


def test_one_line_per_file_in_the_order_given(good: str, failing: str, broken: str) -> None:
    told = lines(run("check", "--json", failing, broken, good, failing))
    assert [one["file"] for one in told] == [failing, broken, good, failing]
    assert [one.get("passed") for one in told] == [False, None, True, False]
    assert ["error" in one for one in told] == [False, True, False, False]


def test_the_keys_of_a_line(failing: str) -> None:
    (line,) = lines(run("check", "--json", failing))
    assert list(line)[:5] == KEYS
    for finding in line["findings"]:
        assert list(finding) == FINDING
        assert set(finding["where"]) <= WHERE
        assert finding["rule"] in RULES
        assert finding["status"] in {"pass", "fail", "caution", "not-applicable"}
        assert finding["operator"] in {"<=", ">=", "<", ">", "=="}
        assert (finding["measured"] is None) or finding["unit"] in {"mm", "mA"}
        assert finding["reason"]
        assert finding["text"]


def test_every_rule_of_the_contract_is_reached(tmp_path: Path) -> None:
    data = {**one_route(SLANT, fixings=[FIXING]), **joist(holes=[{}, {"x": 1100}], notches=[{}])}
    (line,) = lines(run("check", "--json", written(tmp_path, "all.json", data)))
    assert {finding["rule"] for finding in line["findings"]} == RULES


def test_which_rules_have_a_finding_per_what(tmp_path: Path) -> None:
    # DESIGN 4: per route and face, per route, per leg.
    data = one_route([(1200, 450), (1200, 2300), (300, 2300)])
    (line,) = lines(run("check", "--json", written(tmp_path, "case.json", data)))
    counts: dict[str, int] = {}
    for finding in line["findings"]:
        counts[finding["rule"]] = counts.get(finding["rule"], 0) + 1
    per_leg = dict.fromkeys(["route-on-wall", "depth-in-wall", "chase-depth", "chase-line"], 2)
    assert counts == {"wall-zone": 2, "wall-rcd": 1, "metal-wall": 1, "route-joins": 1, **per_leg}


def test_rules_without_a_clause_have_none(failing: str) -> None:
    (line,) = lines(run("check", "--json", failing))
    clauses = {finding["rule"]: finding["clause"] for finding in line["findings"]}
    assert [clauses[rule] for rule in ("route-joins", "route-on-wall", "depth-in-wall")] == ["", "", ""]
    assert clauses["wall-zone"] == "522.6.202"


def test_the_edition_says_what_it_was_not_checked_against(good: str) -> None:
    (line,) = lines(run("check", "--json", good))
    assert line["pack"] == "uk"
    assert line["edition"] == "BS 7671:2018+A2:2022, 522.6 not checked against A4:2026"
    assert "522.6 not checked against A4:2026" in run("check", good).stdout


def test_no_number_is_beyond_json(tmp_path: Path) -> None:
    path = written(tmp_path, "case.json", one_route([(1200, 450), (1200, 450), (1200, 450)], joins=[]))
    for line in run("check", "--json", path, path).stdout.splitlines():
        json.loads(line, parse_constant=pytest.fail)


@pytest.mark.parametrize("name", sorted(path.name for path in BAD.iterdir()))
def test_a_bad_file_ends_in_status_2_and_the_next_is_judged(name: str, good: str) -> None:
    result = run("check", "--json", str(BAD / name), good)
    told, other = lines(result)
    assert result.exit_code == 2
    assert isinstance(result.exception, SystemExit)
    assert told["file"] == str(BAD / name)
    assert "allowed: " in told["error"]
    assert other["passed"] is True
    report = run("check", str(BAD / name), good)
    assert f"{name} cannot be used:" in report.stderr
    assert "good.json: all rules met" in report.stdout
    assert "Traceback" not in report.output + result.output


def test_a_missing_file_and_a_folder(tmp_path: Path, good: str) -> None:
    result = run("check", "--json", str(tmp_path / "none.toml"), str(tmp_path), good)
    assert result.exit_code == 2
    assert [one.get("error", "") for one in lines(result)] == [
        "the file: found No such file or directory; allowed: a file you may read",
        "the file: found Is a directory; allowed: a file you may read",
        "",
    ]


def test_a_pack_from_outside_judges_in_place_of_the_named_one(
    tmp_path: Path, root: Path, failing: str
) -> None:
    text = (root / "zonelib" / "rules" / "packs" / "uk.toml").read_text(encoding="utf-8")
    pack = written(
        tmp_path,
        "other.toml",
        text.replace('id = "uk"', 'id = "other"').replace("trigger_depth = 50", "trigger_depth = 5"),
    )
    (line,) = lines(run("check", "--json", "--pack", pack, failing))
    assert (line["pack"], line["passed"]) == ("other", True)


def test_a_pack_that_cannot_be_read_is_told_without_a_traceback(zonelib: Zonelib, good: str) -> None:
    ended = zonelib("check", "--pack", "none.toml", good)
    assert ended.returncode == 2
    assert "none.toml" in ended.stderr
    assert "Traceback" not in ended.stderr


def test_both_ways_of_calling_give_the_same(zonelib: Zonelib, failing: str, broken: str) -> None:
    script = Path(sys.executable).with_name("zonelib")
    for options in ([], ["--json"]):
        ours = zonelib("check", *options, failing, broken)
        theirs = subprocess.run(
            [script, "check", *options, failing, broken], capture_output=True, text=True, check=False
        )
        assert (ours.returncode, ours.stdout, ours.stderr) == (2, theirs.stdout, theirs.stderr)


def test_nothing_to_check_is_told(zonelib: Zonelib) -> None:
    ended = zonelib("check")
    assert ended.returncode == 2
    assert "Missing argument 'FILES...'" in ended.stderr


def report(tmp_path: Path, data: Any) -> str:
    return run("check", written(tmp_path, "case.json", data)).stdout


def test_the_report_explains_each_failure_and_lists_the_rest(tmp_path: Path) -> None:
    text = report(tmp_path, FAILING)
    assert "case.json: 2 findings to mend" in text
    assert re.search(r"^  1\. wall-zone, R1 on W1 front, leg 1 \(a to b\)$", text, re.MULTILINE)
    assert re.search(r"^  2\. wall-rcd, R1 on W1, leg 1 \(a to b\)$", text, re.MULTILINE)
    assert [
        text.index(part) for part in ("1. wall-zone", "2. wall-rcd", "  Met", "  Does not apply")
    ] == sorted(text.index(part) for part in ("1. wall-zone", "2. wall-rcd", "  Met", "  Does not apply"))
    assert "The circuit has no RCD." in text
    assert "route-joins, R1 on W1, leg 1 (a to b): reaches what it joins" in text


def test_the_report_ends_in_the_safety_words(tmp_path: Path) -> None:
    for data in (PASSING, FAILING):
        text = " ".join(report(tmp_path, data).split())
        assert "Teaching aid. Local codes and a licensed electrician decide." in text
        assert "prove dead with a proved tester" in text
        assert text.endswith("ask a registered electrician.")


def test_the_report_keeps_to_its_width(tmp_path: Path) -> None:
    rows = report(tmp_path, FAILING).splitlines()
    assert max(map(len, rows[1:])) <= 96


def test_one_finding_is_not_called_findings(tmp_path: Path) -> None:
    assert "1 finding to mend" in report(tmp_path, one_route(UP, rcd=None))
