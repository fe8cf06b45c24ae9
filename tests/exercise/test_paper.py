"""Worksheets and marking sheets: to scale, whole, and without the answer where it has to be found."""

import re
from itertools import pairwise
from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader
from shapely import LineString

from zonelib.cli.paper import command
from zonelib.draw.paper import Form, Plan, Sheet, Words
from zonelib.draw.paper.fitting import fitted
from zonelib.draw.paper.grid import grid_lines, grid_steps
from zonelib.draw.paper.pages import BAR, save_sheets
from zonelib.draw.printing import PRINTED_EM
from zonelib.exercise.bundle import Bundle, freeze
from zonelib.exercise.load import exercise_path, read_exercise
from zonelib.exercise.paper import marking_sheet, worksheet
from zonelib.exercise.paper.plain import paragraphs
from zonelib.site.geometry import face_outline

ONE_OF_EACH = (
    "bedroom-drop", "store-given-run", "dining-inspection", "office-which-clauses", "utility-deepest-chase",
    "landing-joist", "hall-pictures", "loft-zones",
)  # fmt: skip
MM = 72 / 25.4
"""Points to a millimetre."""

Span = tuple[float, float]


def frozen(name: str) -> Bundle:
    return freeze(read_exercise(exercise_path(name)))


def plan_of(sheet: Sheet) -> Plan:
    return next(one for one in sheet.blocks if isinstance(one, Plan))


def words_of(sheet: Sheet) -> str:
    return " ".join(one.text for one in sheet.blocks if isinstance(one, Words))


def cells_of(sheet: Sheet) -> list[str]:
    rows = [row for one in sheet.blocks if isinstance(one, Form) for row in one.rows]
    return [cell for row in rows for cell in row]


def spans(path: Path) -> set[Span]:
    """Return width and height of every path on the first page of a PDF [mm]."""
    stream = PdfReader(path).pages[0].get_contents()
    assert stream is not None
    found: set[Span] = set()
    points: list[Span] = []
    for line in stream.get_data().decode("latin-1").splitlines():
        if step := re.fullmatch(r"(-?[\d.]+) (-?[\d.]+) ([ml])", line):
            if step[3] == "m":
                points = []
            points.append((float(step[1]), float(step[2])))
            xs, ys = zip(*points, strict=True)
            found.add((round((max(xs) - min(xs)) / MM, 1), round((max(ys) - min(ys)) / MM, 1)))
    return found


def test_the_wall_is_as_large_on_paper_as_the_stated_scale_says(tmp_path: Path) -> None:
    sheet = worksheet(frozen("bedroom-drop"), holder="C-014")
    save_sheets([sheet], tmp_path / "s.pdf", title="t")
    told = re.search(r"Scale 1 : (\d+)", PdfReader(tmp_path / "s.pdf").pages[0].extract_text())
    assert told is not None
    scale = int(told[1])
    assert (round(3200 / scale, 1), round(2400 / scale, 1)) in spans(tmp_path / "s.pdf")


def test_the_bar_to_check_the_printer_by_is_100_mm(tmp_path: Path) -> None:
    save_sheets([worksheet(frozen("loft-zones"))], tmp_path / "s.pdf", title="t")
    assert (BAR, 0.0) in spans(tmp_path / "s.pdf")


@pytest.mark.parametrize("name", ONE_OF_EACH)
def test_a_worksheet_holds_question_and_form_and_not_the_model_answer(name: str) -> None:
    exercise = read_exercise(exercise_path(name))
    bundle = freeze(exercise)
    blank, marked = worksheet(bundle, holder="C-014"), marking_sheet(exercise, bundle)
    first = next(iter(paragraphs(exercise.question))).text
    assert first in words_of(blank)
    assert bundle.pack.safety.aid in blank.foot
    assert bundle.pack.stated_edition in marked.foot
    filled = set(cells_of(marked)) - set(cells_of(blank)) | {words_of(marked)}
    assert len(filled) > 1
    assert "Model answer" not in words_of(blank)
    for one in exercise.wrong:
        assert one["words"] in words_of(marked)
        assert one["words"] not in words_of(blank)


def test_a_blank_form_does_not_tell_how_many_legs_the_model_has() -> None:
    sheets = [worksheet(frozen(name)) for name in ("bedroom-drop", "kitchen-hatch")]
    rows = [len(one.rows) for sheet in sheets for one in sheet.blocks if isinstance(one, Form)]
    assert len(set(rows)) == 1


def test_each_sheet_names_its_candidate_and_its_version(tmp_path: Path) -> None:
    bundle = frozen("bedroom-drop")
    save_sheets([worksheet(bundle, holder="C-014")], tmp_path / "s.pdf", title="t")
    text = PdfReader(tmp_path / "s.pdf").pages[0].extract_text()
    assert "C-014" in text
    assert bundle.hash[:8] in text
    assert "page 1 of" in text


@pytest.mark.parametrize(("width", "height", "scale"), [(190, 200, 20), (150, 200, 30), (400, 400, 10)])
def test_the_largest_scale_that_fits_is_taken(width: float, height: float, scale: int) -> None:
    seen = fitted(plan_of(worksheet(frozen("bedroom-drop"))), width, height)
    assert seen.scale == scale
    assert seen.width <= width
    assert seen.height <= height
    assert seen.scene.em / scale == pytest.approx(PRINTED_EM)


def test_the_grid_stays_within_a_sloping_wall() -> None:
    bundle = frozen("loft-zones")
    wall = face_outline(bundle.case.walls[0]).buffer(0.01)
    scene = fitted(plan_of(worksheet(bundle)), 190, 200).scene
    lines = list(grid_lines(scene, grid_steps(25)[0]))
    assert len(lines) > 50
    assert all(wall.covers(LineString(line)) for line in lines)


def test_nothing_is_laid_below_the_last_line_of_a_page(tmp_path: Path) -> None:
    long = Sheet("Long", "", "Foot", tuple(Words(f"Line {n}.") for n in range(200)))
    count = save_sheets([long], tmp_path / "s.pdf", title="t")
    pages = PdfReader(tmp_path / "s.pdf").pages
    told = [re.findall(r"Line (\d+)\.", page.extract_text()) for page in pages]
    assert len(pages) == count > 1
    assert [int(n) for page in told for n in page] == list(range(200))
    assert all(abs(len(a) - len(b)) < len(a) for a, b in pairwise(told))


def test_the_same_sheets_are_the_same_bytes(tmp_path: Path) -> None:
    for name in ("a.pdf", "b.pdf"):
        save_sheets([worksheet(frozen("bedroom-drop"))], tmp_path / name, title="t")
    assert (tmp_path / "a.pdf").read_bytes() == (tmp_path / "b.pdf").read_bytes()


def test_lists_and_bold_words_of_a_question_are_printed_plainly() -> None:
    found = [one.text for one in paragraphs("A **bold** word\nruns on.\n\n- one\n- two\n  and more")]
    assert found == ["A bold word runs on.", "– one", "– two and more"]


def test_a_class_gets_rooms_of_its_own_with_the_number_on_each_page(tmp_path: Path) -> None:
    (tmp_path / "class.csv").write_text("candidate,name\nC-01,Ann\nC-02,Bob\n", encoding="utf-8")
    asked = ["bedroom-drop", "--class", str(tmp_path / "class.csv"), "--variants", "--answers"]
    done = CliRunner().invoke(
        command, [*asked, "--course-folder", str(tmp_path), "--out", str(tmp_path / "c.pdf")]
    )
    assert done.exit_code == 0, done.output
    texts = [page.extract_text() for page in PdfReader(tmp_path / "c.pdf").pages]
    numbers = [set(re.findall(r"C-0\d", text)) for text in texts]
    assert {frozenset(one) for one in numbers} == {frozenset({"C-01"}), frozenset({"C-02"})}
    variants = set(re.findall(r"variant (\w+)", " ".join(texts)))
    assert len(variants) == 2
    assert "Ann" not in " ".join(texts)


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (["--out", "sheet.txt"], 'found "sheet.txt"; allowed: a name that ends in .pdf'),
        (["--out", "sheet.pdf", "--variants"], "found no --class"),
    ],
)
def test_what_cannot_be_printed_is_told(more: list[str], told: str) -> None:
    done = CliRunner().invoke(command, ["bedroom-drop", *more])
    assert done.exit_code == 2
    assert told in done.output
