"""Two pens, one scene: the same shapes, text as text, nothing a reader's browser could run."""

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from hypothesis import given, settings
from matplotlib.colors import to_rgb
from matplotlib.font_manager import FontProperties
from matplotlib.patches import Circle, PathPatch
from matplotlib.textpath import TextPath
from pypdf import PdfReader

from tests.draw.walls import SLANT, UK, any_case, case_of, route, scene_of, socket, wall
from zonelib.draw import svg, wall_scene
from zonelib.draw.figure import figure, save, save_pages
from zonelib.draw.look import LOOK, PAPER_SAND
from zonelib.draw.metrics import text_width
from zonelib.draw.scene import joined
from zonelib.draw.shapes import Dots, Line, Text
from zonelib.site.model import Case

NS = "{http://www.w3.org/2000/svg}"
ODD = "S<1>&\"'$x$"


def parsed(text: str) -> ET.Element:
    return ET.fromstring(text)  # noqa: S314 - our own output


@settings(max_examples=15)
@given(case=any_case())
def test_both_pens_draw_the_same(case: Case) -> None:
    scene = scene_of(case)
    root = parsed(svg(scene))
    drawn = figure(scene).axes[0]
    assert all(len(shape.points) > 0 for shape in scene.shapes if isinstance(shape, Line | Dots))
    shapes = [one for one in root if one.tag in (f"{NS}path", f"{NS}circle")]
    assert len(shapes) == sum(isinstance(one, PathPatch | Circle) for one in drawn.patches)
    assert [one.text for one in root.iter(f"{NS}text")] == [one.get_text() for one in drawn.texts]
    assert len(list(root.iter(f"{NS}rect"))) == len([one for one in scene.texts if one.plate])


def test_the_figure_is_as_large_as_the_svg() -> None:
    scene = scene_of(SLANT)
    root, drawn = parsed(svg(scene)), figure(scene)
    assert drawn.get_size_inches()[0] * 96 == pytest.approx(float(root.attrib["width"]), abs=0.5)
    assert drawn.get_size_inches()[1] * 96 == pytest.approx(float(root.attrib["height"]), abs=0.5)


def test_the_svg_keeps_the_coordinates_the_pad_relies_on() -> None:
    for face, x in (("front", 1200), ("rear", 2400)):
        root = parsed(svg(scene_of(case_of({"walls": [wall(accessories=[socket()])]}), face)))  # type: ignore[arg-type]
        assert [root.attrib[f"data-{key}"] for key in ("length", "height", "face")] == ["3600", "2400", face]
        (outline,) = [
            one for one in root if one.get("data-name") == "S1" and one.get("data-part") == "accessories"
        ]
        corner = re.match(r"M(-?[\d.]+) (-?[\d.]+)L", outline.attrib["d"])
        assert corner is not None
        assert [float(corner[1]), float(corner[2])] == [x - 73, 2400 - 450 + 43]


def test_a_failing_stretch_takes_the_focus_and_speaks() -> None:
    root = parsed(svg(scene_of(SLANT), name="p7"))
    (focused,) = [one for one in root.iter() if one.get("tabindex") == "0"]
    assert focused.attrib["id"] == "p7-n1"
    assert focused.attrib["data-n"] == "1"
    assert focused.attrib["role"] == "img"
    assert "leg 1 (a to b)" in focused.attrib["aria-label"]
    assert root.attrib["aria-labelledby"] == "p7-title p7-desc"
    assert {"p7-title", "p7-desc"} <= {one.get("id") for one in root.iter()}
    ids = [one.get("id") for one in root.iter() if one.get("id")]
    assert len(ids) == len(set(ids))


def test_every_word_of_a_case_is_escaped() -> None:
    things = [socket(ODD), socket("</style><script>alert(1)</script>", 3000)]
    data = wall(id=ODD, accessories=things)
    case = case_of(
        {"walls": [data], "routes": [route([(1200, 450), (300, 2330)], wall=ODD, id=ODD, joins=[ODD])]}
    )
    text = svg(scene_of(case), name=ODD)
    root = parsed(text)
    assert "script" not in {one.tag.removeprefix(NS) for one in root.iter()}
    assert "<script" not in text
    assert f"{ODD} socket" in [one.text for one in root.iter(f"{NS}text")]
    assert not [name for one in root.iter() for name in one.attrib if name.lower().startswith("on")]


def test_dollars_in_an_id_are_letters_not_formulas(tmp_path: Path) -> None:
    case = case_of({"walls": [wall(accessories=[socket(ODD)])]})
    save(scene_of(case), tmp_path / "odd.png")
    assert (tmp_path / "odd.png").stat().st_size > 10_000
    assert f"{ODD} socket" in [text.get_text() for text in figure(scene_of(case)).axes[0].texts]


def test_an_id_in_letters_the_font_lacks_is_drawn_without_a_warning(tmp_path: Path) -> None:
    save(scene_of(case_of({"walls": [wall(accessories=[socket("插座")])]})), tmp_path / "wall.png")
    assert (tmp_path / "wall.png").read_bytes().startswith(b"\x89PNG")


def test_text_in_a_pdf_is_text_and_the_file_does_not_change(tmp_path: Path) -> None:
    scenes = [scene_of(SLANT), scene_of(SLANT, "rear")]
    for name in ("one.pdf", "two.pdf"):
        save_pages(scenes, tmp_path / name)
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()
    read = "\n".join(page.extract_text() for page in PdfReader(tmp_path / "one.pdf").pages)
    for words in ("Wall W1, front face", "Wall W1, rear face", "top of the wall · 150", "S1 socket"):
        assert words in read


def test_every_class_has_a_look_in_ordinary_and_in_forced_colours() -> None:
    text = svg(scene_of(SLANT))
    forced = text[text.index("@media (forced-colors:active)") :]
    for css in LOOK:
        assert text.count(f".zl-picture .{css}{{") == 2
        assert f".zl-picture .{css}{{" in forced
    assert {shape.css for shape in scene_of(SLANT).shapes} <= set(LOOK)
    assert set(re.findall(r"(?:fill|stroke):([^;}]+)", forced)) <= {
        "Canvas", "CanvasText", "GrayText", "Highlight", "HighlightText", "none",
    }  # fmt: skip


def luminance(colour: str) -> float:
    parts = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in to_rgb(colour)]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def contrast(one: str, other: str) -> float:
    """WCAG 2.2, 1.4.3: relative luminance (FACTS and the recommendation agree on the formula)."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_measured_as_the_recommendation_does() -> None:
    assert contrast("#ffffff", "#000000") == pytest.approx(21.0)
    assert contrast("#ffffff", "#767676") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("css", [css for css in LOOK if css.startswith("text") and css != "text-number"])
@pytest.mark.parametrize("ground", PAPER_SAND)
def test_text_stands_out_from_paper_and_sand(css: str, ground: str) -> None:
    assert contrast(LOOK[css].fill, ground) >= 4.5


def test_a_number_stands_out_from_its_disc() -> None:
    assert contrast(LOOK["text-number"].fill, LOOK["number"].fill) >= 4.5


@pytest.mark.parametrize("css", [css for css, style in LOOK.items() if style.stroke and css != "number"])
@pytest.mark.parametrize("ground", PAPER_SAND)
def test_lines_stand_out_from_paper_and_sand(css: str, ground: str) -> None:
    assert contrast(LOOK[css].stroke, ground) >= 3.0


def test_failing_and_compliant_differ_in_more_than_colour() -> None:
    assert LOOK["cable"].dash == ()
    assert LOOK["cable-fails"].dash != ()
    assert LOOK["zone-edge"].dash == ()
    assert LOOK["other-zone"].dash != ()


@pytest.mark.parametrize(
    "text", ["S1 socket", "top of the wall · 150", "WMW @ 10.3 × 6", "Éé ijl", "fused connection"]
)
@pytest.mark.parametrize("bold", [False, True])
def test_text_takes_no_more_room_than_reckoned(text: str, bold: bool) -> None:
    font = FontProperties(family="DejaVu Sans", weight="bold" if bold else "normal")
    outline = TextPath((0, 0), text, size=100, prop=font)
    assert outline.get_extents().width <= text_width(text, 100, bold=bold)
    assert text_width(text, 100, bold=bold) <= 1.35 * outline.get_extents().width


def test_scenes_can_stand_side_by_side_in_one_drawing() -> None:
    one = scene_of(SLANT)
    both = joined([one, one.shifted(one.view.width)])
    assert both.view.width == pytest.approx(2 * one.view.width)
    assert len(both.shapes) == 2 * len(one.shapes)
    labels = [shape for shape in both.shapes if isinstance(shape, Text) and shape.text == "S1 socket"]
    assert labels[1].x - labels[0].x == pytest.approx(one.view.width)
    assert len(list(parsed(svg(both)).iter(f"{NS}text"))) == 2 * len(one.texts)


def test_a_wall_scene_needs_no_findings() -> None:
    scene = wall_scene(SLANT, "W1", "front", UK)
    assert "Number" not in scene.description
