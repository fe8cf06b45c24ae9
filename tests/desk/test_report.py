"""The class report: what it finds in a small class, its page, and its tables read back."""

import csv
import json
import subprocess
from collections.abc import Callable, Iterator
from html import unescape
from pathlib import Path
from typing import Any

import pandas as pd
import pytest
from odf.namespaces import TABLENS
from odf.opendocument import load
from odf.table import TableCell

from tests.desk.small_class import ODD, hand_in, hand_in_class, lay_bundles, paper
from zonelib.desk.overrides import NAME
from zonelib.desk.overriding import Asked, change_mark
from zonelib.desk.report.alike import EXPECTED, alike_pairs
from zonelib.desk.report.charts import band_counts
from zonelib.desk.report.clauses import Met, clause_table, met_by_class
from zonelib.desk.report.figures import item_words, reliability_words
from zonelib.desk.report.make import Made, make_report
from zonelib.desk.report.misheld import misunderstood
from zonelib.desk.report.reading import ClassMarks, read_marks
from zonelib.desk.report.sets import paper_sets
from zonelib.desk.run import mark_folder
from zonelib.desk.statistics import Item, Reliability
from zonelib.site.faults import FileFault

Zonelib = Callable[..., subprocess.CompletedProcess[str]]
DROP = ("bedroom-drop",)
DOWN: dict[str, Any] = {"points": [[700, 2400], [700, 450], [1250, 450]]}
"""The bank's own typical answer: straight down, then level."""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Made:
    """Return the report on twelve trainees, of whom one has an odd name and one handed in nothing."""
    home = tmp_path_factory.mktemp("class")
    inbox = hand_in_class(home, trainees=11)
    (inbox / "C-003.json").rename(inbox / "C-003.part")
    odd = inbox / "=cmd|' <script>x"
    odd.mkdir()
    (inbox / "C-003.part").rename(odd / "x.json")
    (inbox / "C-012").mkdir()
    (inbox / "C-012" / "notes.txt").write_text("nothing yet", encoding="utf-8")
    mark_folder(inbox, home / "marked")
    change_mark(home / "marked", Asked("C-001", "bedroom-drop"), score=6.5, reason="=1+1 seen by hand")
    return make_report(home / "marked")


def page(made: Made) -> str:
    return made.written[0].read_text(encoding="utf-8")


def test_the_page_stands_alone_and_runs_nothing(made: Made) -> None:
    text = page(made)
    for outside in ("<script", "<link", "src=", "@import", "url(http", "<style type", "onload"):
        assert outside not in text
    assert "=cmd|' <script>x" in unescape(text)


def test_the_page_has_every_part_the_edition_and_the_safety_words(made: Made) -> None:
    text = unescape(page(made))
    for words in (
        "What to teach next", "Marks: hw", "Exercises: hw", "Clauses", "What seems to be misunderstood",
        "Answers to look at together", "Marks that a tutor changed", "What this report does not tell",
        "Rules: BS 7671:2018+A2:2022, 522.6 not checked against A4:2026.", "bathroom locations",
        "Teaching aid. Local codes and a licensed electrician decide.", "prove dead with a proved tester",
    ):  # fmt: skip
        assert words in text


def test_every_drawing_has_title_description_and_ids_of_its_own(made: Made) -> None:
    text = page(made)
    ids = [part.split('"')[0] for part in text.split(' id="')[1:]]
    assert len(ids) == len(set(ids))
    assert text.count("<svg ") == text.count("<title id=") == text.count("<desc id=") >= 3


def test_those_who_handed_in_nothing_count_in_no_figure(made: Made) -> None:
    (one,) = made.found.sets
    assert (one.people, one.absent) == (11, ("C-012",))
    assert all(item.people == 11 for item in one.items)
    assert "Handed in nothing, and counted in no figure: C-012." in unescape(page(made))


def test_small_classes_are_told_so_on_the_page(made: Made) -> None:
    assert "Indicative only: 11 people." in page(made)
    assert "indicative only)" in page(made)


def test_marks_on_the_page_are_those_that_count(made: Made) -> None:
    (row,) = [one for one in made.found.marks.rows if (one.trainee, one.exercise) == ("C-001", *DROP)]
    assert (row.score, row.share) == (6.5, 0.65)
    assert row.computed == pytest.approx(row.earned or -1)
    total = sum(one.score for one in made.found.marks.rows if one.trainee == "C-001")
    assert f"{round(total, 2):g} (changed)" in page(made)
    assert "seen by hand" in page(made)


def test_the_csv_holds_what_the_page_rests_on_and_no_formula(made: Made) -> None:
    with (made.written[0].parent / "report-marks.csv").open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert len(rows) == 36
    assert "'=cmd|' <script>x" in {row["trainee"] for row in rows}
    (changed,) = [row for row in rows if row["changed"]]
    assert (float(changed["mark"]), changed["reason"]) == (6.5, "'=1+1 seen by hand")


def test_the_spreadsheet_opens_again_with_the_same_and_no_formula(made: Made) -> None:
    path = made.written[1]
    sheets = pd.read_excel(path, engine="odf", sheet_name=None)
    assert list(sheets) == ["marks", "exercises", "sets", "clauses", "misconceptions", "changes"]
    beside = pd.read_csv(path.parent / "report-marks.csv")
    assert sheets["marks"]["trainee"].tolist() == beside["trainee"].tolist()
    assert sheets["marks"]["mark"].tolist() == pytest.approx(beside["mark"].tolist())
    cells = load(path).spreadsheet.getElementsByType(TableCell)
    assert len(cells) > 400
    assert not [one for one in cells if one.attributes.get((TABLENS, "formula"))]


def test_the_same_class_gives_the_same_page(made: Made) -> None:
    again = make_report(made.found.marks.folder, out=made.found.marks.folder / "again")
    assert again.written[0].read_text(encoding="utf-8") == page(made)


def marked(home: Path, answers: dict[str, dict[str, Any]]) -> ClassMarks:
    """Return a class that answers one exercise."""
    asked = paper(DROP)
    lay_bundles(asked, home / "exercises" / "hw")
    for name, answer in answers.items():
        hand_in(home / "submitted", name, {DROP[0]: answer}, asked)
    mark_folder(home / "submitted", home / "marked")
    return read_marks(home / "marked")


def test_a_clause_is_satisfied_of_the_answers_in_which_it_plays_a_part(tmp_path: Path) -> None:
    right = dict(paper(DROP)[0][0].model)
    table = clause_table(marked(tmp_path, {"a": right, "b": DOWN, "c": {"points": []}}))
    assert table == {"a": {"522.6.202": Met(1, 1)}, "b": {"522.6.202": Met(0, 1)}}
    assert met_by_class(table) == {"522.6.202": Met(1, 2)}


def test_what_an_inspection_gives_is_no_failing_of_who_inspects(tmp_path: Path) -> None:
    asked = paper(("dining-inspection",))
    lay_bundles(asked, tmp_path / "exercises" / "hw")
    hand_in(tmp_path / "submitted", "a", {asked[0][0].id: dict(asked[0][0].model)}, asked)
    mark_folder(tmp_path / "submitted", tmp_path / "marked")
    assert clause_table(read_marks(tmp_path / "marked")) == {}


def test_a_misconception_is_named_with_who_seems_to_hold_it(tmp_path: Path) -> None:
    right = dict(paper(DROP)[0][0].model)
    slant = {"points": [[700, 2400], [1250, 450]]}
    found = misunderstood(marked(tmp_path, {"a": DOWN, "b": DOWN, "c": right, "d": slant}))
    assert (found.looked_at, found.open) == (3, 1)
    (one,) = found.found
    assert (one.misconception.id, one.trainees) == ("rcd-alone", ("a", "b"))
    assert one.example.answer == DOWN


def spread_out(count: int) -> Iterator[dict[str, Any]]:
    """Yield answers that all lose marks, each by a way of its own."""
    for at in range(count):
        x = 720 + 10 * at
        yield {"points": [[700, 2400], [700, 2330], [x, 2330], [x, 450], [1250, 450]]}


def class_of(home: Path, first: dict[str, Any], second: dict[str, Any]) -> ClassMarks:
    rest = {f"n-{at:02}": one for at, one in enumerate(spread_out(10))}
    return marked(home, {"a": first, "b": second} | rest)


def test_two_who_share_an_answer_of_unlikely_detail_are_to_be_looked_at(tmp_path: Path) -> None:
    (found,) = alike_pairs(class_of(tmp_path, ODD, ODD))
    assert (found.trainees, found.unusual) == (("a", "b"), 3)
    # By hand: three numbers that nothing suggests, 1 in 20 each, and 12 people make 66 pairs.
    assert found.expected == pytest.approx(66 / 20**3)
    assert found.expected < EXPECTED


def test_the_same_drawn_otherwise_is_the_same(tmp_path: Path) -> None:
    other = {"points": [*ODD["points"][:2], [800, 1735], *ODD["points"][2:]]}
    assert [one.trainees for one in alike_pairs(class_of(tmp_path, ODD, other))] == [("a", "b")]


def test_right_answers_and_common_ones_never_count(tmp_path: Path) -> None:
    right = {"points": [[700, 2400], [700, 2317], [1247, 2317], [1247, 450], [1250, 450]]}
    marks = class_of(tmp_path / "right", right, right)
    assert {row.computed for row in marks.rows if row.trainee in "ab"} == {10.0}
    assert alike_pairs(marks) == ()
    assert alike_pairs(class_of(tmp_path / "common", DOWN, DOWN)) == ()


def test_the_banks_own_typical_answers_hold_no_unusual_number(tmp_path: Path) -> None:
    under_the_band = {"points": [[700, 2400], [700, 2150], [1250, 2150], [1250, 450]]}
    assert alike_pairs(class_of(tmp_path, under_the_band, under_the_band)) == ()


def test_full_marks_lie_in_the_last_tenth() -> None:
    assert band_counts([0.0, 0.1, 0.29, 0.3, 1.0]) == (1, 1, 1, 1, 0, 0, 0, 0, 0, 1)


@pytest.mark.parametrize(
    ("discrimination", "facility", "people", "words"),
    [
        (None, 1.0, 40, "not defined"),
        (-0.1, 0.5, 40, "negative: look at what it asks"),
        (0.1, 0.95, 40, "nearly everybody has it"),
        (0.4, 0.5, 40, "very good"),
        (0.39, 0.5, 40, "good"),
        (0.2, 0.5, 12, "marginal, indicative"),
        (0.19, 0.5, 40, "low"),
    ],
)
def test_what_is_said_of_an_exercise(
    discrimination: float | None, facility: float, people: int, words: str
) -> None:
    assert item_words(Item("a", people, facility, discrimination, None, None, None)).startswith(words)


def test_what_is_said_of_a_reliability() -> None:
    first, second, _ = reliability_words(Reliability("alpha", 0.696, 1.33, 12, 10))
    assert first == "alpha 0.70 (12 people, 10 exercises, indicative only)."
    assert second.startswith("Standard error of a total: 13 percentage points.")
    (only,) = reliability_words(Reliability("KR-20", None, None, 30, 1))
    assert only.startswith("KR-20: not defined (30 people, 1 exercises).")


def test_below_ten_people_there_is_the_facility_alone(tmp_path: Path) -> None:
    marks = marked(tmp_path, {"a": DOWN, "b": dict(paper(DROP)[0][0].model)})
    (one,) = paper_sets(marks)
    assert one.reliability is None
    text = page(make_report(tmp_path / "marked"))
    assert "2 people are too few for more than the facility." in text
    assert "Upper less lower</th>" not in text


def test_a_set_that_nobody_handed_in_is_told(tmp_path: Path) -> None:
    marked(tmp_path, {"a": {"points": []}})
    lines = (tmp_path / "marked" / "marks.csv").read_text(encoding="utf-8").replace("hand-in file", "")
    (tmp_path / "marked" / "marks.csv").write_text(lines, encoding="utf-8")
    assert "Nobody has handed anything in." in page(make_report(tmp_path / "marked"))


def test_lateness_takes_marks_but_is_no_failing_of_an_exercise(tmp_path: Path) -> None:
    marks = marked(tmp_path, {"a": dict(paper(DROP)[0][0].model)})
    path = tmp_path / "marked" / "marks.csv"
    path.write_text(path.read_text(encoding="utf-8").replace(",10.0,10.0,", ",9.0,10.0,"), encoding="utf-8")
    (row,) = read_marks(marks.folder).rows
    assert (row.score, row.share, row.lost_marks) == (9.0, 1.0, False)


def test_what_cannot_be_read_is_told_with_what_to_do(tmp_path: Path) -> None:
    with pytest.raises(
        FileFault, match=r"marks\.csv: found nothing there; allowed: a folder that zonelib mark"
    ):
        read_marks(tmp_path)
    marked(tmp_path, {"a": DOWN})
    folder = tmp_path / "marked"
    (folder / NAME).write_text("trainee,computed,score\r\na,nan,3\r\n", encoding="utf-8")
    with pytest.raises(FileFault, match=r"line 2: found computed 'nan', score '3'"):
        read_marks(folder)
    (folder / NAME).unlink()
    (folder / "findings.jsonl").write_text("{", encoding="utf-8")
    with pytest.raises(FileFault, match="line 1: found no JSON"):
        read_marks(folder)
    (folder / "findings.jsonl").unlink()
    (folder / "marks.csv").write_text("trainee,assignment\r\na,hw\r\n", encoding="utf-8")
    with pytest.raises(FileFault, match="a line: found no 'exercise'"):
        read_marks(folder)


def test_the_command_writes_and_names_the_files(zonelib: Zonelib, tmp_path: Path) -> None:
    marked(tmp_path, {"a": DOWN, "b": DOWN, "c": DOWN})
    ran = zonelib("report", tmp_path / "marked", "--out", tmp_path / "out")
    assert ran.returncode == 0, ran.stderr
    assert "Teach next: Clause 522.6.202: Met in 0 of the 3 answers" in ran.stdout
    assert {path.name for path in (tmp_path / "out").iterdir()} == {
        "report.html", "report.ods", "report-marks.csv", "report-exercises.csv", "report-sets.csv",
        "report-clauses.csv", "report-misconceptions.csv", "report-changes.csv",
    }  # fmt: skip
    none = zonelib("report", tmp_path / "none")
    assert (none.returncode, "Traceback" in none.stderr) == (2, False)


def test_findings_hold_the_answers_the_report_rests_on(tmp_path: Path) -> None:
    marks = marked(tmp_path, {"a": DOWN})
    lines = (marks.folder / "findings.jsonl").read_text(encoding="utf-8").splitlines()
    (answer,) = [one["answer"] for one in map(json.loads, lines) if "answer" in one]
    assert answer == {"points": [[700.0, 2400.0], [700.0, 450.0], [1250.0, 450.0]]}
    assert list(marks.bundles) == [marks.rows[0].bundle]
