"""The walkthrough for writing a pack, followed to the letter: its blocks are a pack, and it decides.

Every number here is made up with the pack, so all checks are by arithmetic (D).
"""

import json
import re
import tomllib
from pathlib import Path
from typing import Any

import jsonschema  # type: ignore[import-untyped]
import pytest
from click.testing import CliRunner

from tests.rules.cases import accessory, by_rule, found, joist, one_route
from tests.rules.cases import judged as judged_under
from tests.rules.timber import run, stud
from zonelib import FileFault, Pack, Verdict, judge, load_pack, read_case
from zonelib.cli.schema import command

GUIDE = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
RCD = {"ma": 10}
WALL = {"thickness": 200, "build": "timber-stud"}


def walkthrough() -> str:
    """Return the TOML blocks of the section, one after the other."""
    section = GUIDE.partition("## How to add a pack\n")[2].partition("\n## ")[0]
    return "\n".join(re.findall(r"```toml\n(.*?)```", section, re.DOTALL))


@pytest.fixture
def pack(tmp_path: Path) -> Pack:
    path = tmp_path / "larch.toml"
    path.write_text(walkthrough(), encoding="utf-8")
    return load_pack(path)


@pytest.fixture
def judged(tmp_path: Path, pack: Pack) -> Any:
    def judge_file(data: dict[str, Any]) -> Verdict:
        file = tmp_path / "case.json"
        file.write_text(json.dumps({**data, "pack": "larch.toml"}), encoding="utf-8")
        return judge(read_case(file), pack)

    return judge_file


def test_the_blocks_meet_the_published_schema() -> None:
    schema = json.loads(CliRunner().invoke(command, ["pack"]).output)
    faults = jsonschema.Draft202012Validator(schema).iter_errors(tomllib.loads(walkthrough()))
    assert [fault.message for fault in faults] == []


SLANT = {"points": [[100, 100], [500, 1500]], "joins": [], "rcd": None}


def level(y: float, **changes: Any) -> dict[str, Any]:
    return {"points": [[500, y], [900, y]], "joins": [], **changes}


@pytest.mark.parametrize(
    ("changes", "fails"),
    [
        ({}, set()),
        ({"rcd": {"ma": 10.1}}, {"wall-rcd"}),
        ({**SLANT, "depth": 40}, set()),
        ({**SLANT, "depth": 39.9}, {"wall-zone", "wall-line", "wall-rcd"}),
        (level(2345), set()),
        (level(2345.1), {"wall-zone"}),
        (level(2205), set()),
        (level(2204.9), {"wall-zone"}),
        (level(450, protection="steel-plate"), set()),
    ],
)
def test_its_walls(judged: Any, changes: dict[str, Any], fails: set[str]) -> None:
    stated = {"points": [[1200, 450], [1200, 2300]], "rcd": RCD, "joins": ["S1"], **WALL, **changes}
    assert {one.rule for one in judged(one_route(**stated)).failures} == fails


@pytest.mark.parametrize(("thickness", "passed"), [(90, True), (90.1, False)])
def test_its_thin_wall(judged: Any, thickness: float, passed: bool) -> None:
    behind = accessory("S1", 1200, 450, face="rear", locatable_from_reverse=True)
    stated = {**WALL, "thickness": thickness, "accessories": [behind], "rcd": RCD}
    assert judged(one_route([[1200, 450], [1200, 2300]], **stated)).passed is passed


@pytest.mark.parametrize(
    ("data", "rule", "status"),
    [
        (joist(holes=[{"diameter": 40}]), "joist-hole-size", "pass"),
        (joist(holes=[{"diameter": 40.1}]), "joist-hole-size", "fail"),
        (joist(holes=[{"y": 50}]), "joist-cover", "pass"),
        (joist(holes=[{"y": 49.9}]), "joist-cover", "fail"),
        (joist(holes=[{}, {"x": 1080}]), "joist-hole-spacing", "pass"),
        (joist(holes=[{}, {"x": 1079.9, "y": 150}]), "joist-hole-spacing", "fail"),
        (joist(holes=[{}]), "joist-hole-position", "not-applicable"),
        (joist(notches=[{"depth": 25}]), "joist-notch-depth", "pass"),
        (joist(notches=[{"depth": 25.1}]), "joist-notch-depth", "fail"),
        (joist(notches=[{"x": 730}]), "joist-notch-position", "pass"),
        (joist(notches=[{"x": 730.1}]), "joist-notch-position", "fail"),
        (joist(holes=[{}], notches=[{}]), "joist-notch-gap", "not-applicable"),
        (joist(holes=[{}], kind="rafter"), "joist-kind", "pass"),
        (joist(holes=[{}], kind="i-joist"), "joist-kind", "fail"),
        (stud(holes=[{"diameter": 35}]), "stud-hole-size", "pass"),
        (stud(holes=[{"diameter": 35.1}]), "stud-hole-size", "fail"),
        (stud(holes=[{"diameter": 70}], bearing=False), "stud-hole-size", "pass"),
        (stud(holes=[{"x": 40}]), "stud-cover", "pass"),
        (stud(holes=[{"x": 39.9}]), "stud-cover", "fail"),
        (stud(holes=[{}], notches=[{}]), "stud-notch-gap", "not-applicable"),
        (run(below_top=40), "run-cover", "pass"),
        (run(below_top=39.9), "run-cover", "fail"),
    ],
)  # fmt: skip
def test_its_timber(judged: Any, data: dict[str, Any], rule: str, status: str) -> None:
    assert by_rule(judged(data))[rule] == status


def test_a_part_of_a_clause_is_cited_by_the_whole(tmp_path: Path) -> None:
    path = tmp_path / "larch.toml"
    text = walkthrough().replace('cover_clause = "4.2"', 'cover_clause = "4.2(c)"')
    path.write_text(text, encoding="utf-8")
    finding = found(judged_under(joist(holes=[{}]), load_pack(path)), "joist-cover")
    assert finding.clause == "4.2(c)"
    assert finding.text.endswith(" Clause 4.2 of LI 100:2020.")


def test_a_verdict_by_it_says_that_it_is_made_up(judged: Any) -> None:
    assert judged(joist()).edition == "LI 100:2020, made up, for practice only"


# One slip at a time in the walkthrough's pack: what is replaced, by what, and the fault's first words.
@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        ("far = 200\n", "", "zones.#1.far: found nothing; allowed: how far from the top the zone ends"),
        ("far = 200\n", "far = 50\n", "zones.#1.far: found 50; allowed: above near, 50"),
        ('direction = "vertical"\n', "", "zones.#2.direction: found nothing; allowed: vertical, horizontal"),
        ("below {source}", "below {scource}", 'zones.#2.reason: found "straight above and below {scource}"'),
        ("below {source}", "below {source", "zones.#2.reason: found"),
        ('policy = "zone-and-rcd-or-covering"', 'policy = "zone"', 'walls.policy: found "zone"; allowed: '),
        ("framed = true\n", "", ""),
        ("[protections.none]", "[protections.bare]", "protections: found no table none"),
        ('rafter = { words = "rafter"', 'rafters = { words = "rafter"', "joists.kinds: found no table for "),
        ("clear_of_holes = 60", "clear_of_holes = 60\nspacing = 3", "joists.hole: found both spacing"),
        ('to = "1/4"', "to = 0.25\nfrom = 0.3", "joists.notch: found from 0.3 to 0.25; allowed: from"),
        ('diameter = "1/5"', 'diameter = "a fifth"', 'joists.hole.diameter: found "a fifth"; allowed: a'),
        ('diameter = "1/5"', 'diameter = "5/1"', "joists.hole.diameter: found "),
        ('values = ["no", "yes"]', 'values = ["no", "no"]', "readings.external_corners.values: found no, no"),
        ('cover_clause = "4.2"\nclause = "7"\nbearing', 'cover_clause = "4.3"\nclause = "7"\nbearing',
         'studs.cover_clause: found "4.3"; allowed: a clause with a citation: 4.2, 7'),
        ('other = { hole = "1/2"', 'other = { holes = "1/2"', "studs.other.hole: found nothing"),
    ],
)  # fmt: skip
def test_a_slip_in_it_is_told(tmp_path: Path, old: str, new: str, fault: str) -> None:
    text = walkthrough()
    assert old in text
    path = tmp_path / "larch.toml"
    path.write_text(text.replace(old, new), encoding="utf-8")
    if not fault:
        assert load_pack(path).id == "larch"
        return
    with pytest.raises(FileFault, match=re.escape(fault)):
        load_pack(path)


def test_each_policy_needs_what_it_decides_by(tmp_path: Path) -> None:
    head, _, rest = walkthrough().partition("[safety]")
    text = f"zones = []\n[safety]{rest}"
    bare = head + re.sub(r"\[\[zones\]\].*?(?=\[builds)", "", text, flags=re.DOTALL)
    path = tmp_path / "larch.toml"
    path.write_text(bare, encoding="utf-8")
    with pytest.raises(FileFault, match="zones: found an empty list; allowed: at least one zone"):
        load_pack(path)
    edges = bare.replace('"zone-and-rcd-or-covering"', '"edge-clearance-only"')
    path.write_text(edges, encoding="utf-8")
    assert load_pack(path).zones == ()
    path.write_text(edges.replace("framed = true\n", ""), encoding="utf-8")
    with pytest.raises(FileFault, match="builds: found none that is framed; allowed: framed = true in one"):
        load_pack(path)
