"""What the cells of a lesson call: a wall as a picture, its zones in words, a depth to change."""

from collections.abc import Collection
from html import escape
from typing import Any

from ipywidgets import HTML, IntSlider, Layout, VBox

from zonelib.draw import EVERY_PART, Scene, svg, wall_scene
from zonelib.rules.course import course_for
from zonelib.rules.engine import Verdict, judge
from zonelib.rules.load import case_and_pack
from zonelib.rules.pack import Citation, Pack, load_pack
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.zones import zones as zones_of
from zonelib.sheet.files import notebook_folder
from zonelib.sheet.showing import show
from zonelib.sheet.still import STYLE, png
from zonelib.sheet.trouble import plainly
from zonelib.site.faults import FileFault
from zonelib.site.model import Case, Route

__all__ = ["clauses", "explain", "look", "safety", "try_depth", "zones_in_words"]

PLAIN = EVERY_PART - {"zones", "other-zones", "findings", "points", "safety", "legend", "notes"}
"""A wall as anyone sees it."""

MARKED = EVERY_PART - {"safety"}
"""The safety words stand once in a lesson, in their own box."""

RUN = "To move the depth, run this cell: click in it, then press Shift and Enter."


def look(file: str, *, zones: bool = True, routes: Collection[str] = ()) -> None:
    """Show a wall, its zones, and some of its cables.

    Parameters
    ----------
    file : str
        A case file; a path counts from the notebook's folder.
    zones : bool
        Whether the zones are drawn.
    routes : collection of str
        Ids of the cables to draw. With one, only the zones that serve it are filled.
    """
    case, pack = _read(file)
    _picture(_scene(case, pack, routes, parts=MARKED if zones else PLAIN))


def explain(file: str, route: str) -> None:
    """Show a cable with what fails on it, and say why."""
    case, pack = _read(file)
    alone, verdict = _judged(case, pack, route)
    _picture(_scene(alone, pack, [route], parts=MARKED, verdict=verdict))
    lines = [f"{n}. {one.text}" for n, one in enumerate(verdict.failures, 1)]
    _say("\n\n".join(lines or ["Every rule is met."]))


def zones_in_words(file: str) -> None:
    """Say where each zone of the front face lies, for a cable joined to every accessory."""
    case, pack = _read(file)
    book = Rulebook(pack, case.readings)
    found = zones_of(case.walls[0], "front", book, joined=None)
    _say("\n".join(dict.fromkeys(f"- {one.source}: {one.reason} ({one.clause})" for one in found)))


def try_depth(file: str, route: str, *, deepest: int = 80) -> None:
    """Show a cable with a slider for its depth; zones and verdict follow at once.

    Parameters
    ----------
    file, route : str
        A case file, and the id of a cable in it.
    deepest : int
        Where the slider ends [mm].
    """
    case, pack = _read(file)
    start = int(case_route(case, route).depth[0])
    wide = Layout(width="32em", max_width="100%")
    slider = IntSlider(start, 0, deepest, description="Depth, mm", layout=wide)
    page = HTML(_depth_page(case, pack, route, depth=start))

    def redraw(change: dict[str, Any]) -> None:
        page.value = _depth_page(case, pack, route, depth=change["new"])

    slider.observe(redraw, names=["value"])
    box = VBox([slider, page])
    box.add_class("zl-sheet")
    alone, verdict = _judged(case, pack, route)
    words = _depth_words(verdict, depth=start)
    still = f"<style>{STYLE}</style><div class='zl-still'><p>{words}</p></div>"
    show({"text/html": still, "text/plain": words})
    show(_png_data(_scene(alone, pack, [route], parts=MARKED, verdict=verdict)))
    show({**box._repr_mimebundle_(), "text/plain": RUN})


def clauses(*names: str, pack: str = "uk") -> None:
    """Show clauses with what they are about, in our own words, and how each was checked."""
    rules = _rules(pack)
    rows = [_clause(rules.citations[name]) for name in names]
    _say("\n".join([*rows, "", f"Edition: {rules.stated_edition}."]))


def _rules(name: str) -> Pack:
    """Return a pack, signed off where the course of the notebook's folder says so."""
    try:
        course, pack = course_for(notebook_folder()), load_pack(name)
    except FileFault as fault:
        raise plainly(fault) from fault
    return course.signed(pack) if course else pack


def _clause(citation: Citation) -> str:
    checked = f"How we know: {citation.checked}."
    return f"- **{citation.document}, {citation.clause}.** {citation.about} {checked}"


def safety(pack: str = "uk") -> None:
    """Show the safety words of a country, in their one box."""
    rules = load_pack(pack)
    head = f"**Safety.** {rules.safety.aid} {rules.safety.lay}"
    lines = [
        head,
        "",
        "Before you drill into a real wall:",
        "",
        *(f"- {line}" for line in rules.safety.drill),
    ]
    _say("\n".join(f"> {line}".rstrip() for line in lines))


def case_route(case: Case, name: str) -> Route:
    """Return one cable of a case."""
    return next(route for route in case.routes if route.id == name)


def _read(file: str) -> tuple[Case, Pack]:
    """Read a case file, its faults told without a traceback."""
    try:
        return case_and_pack(notebook_folder(holding=file) / file)
    except FileFault as fault:
        raise plainly(fault) from fault


def _judged(case: Case, pack: Pack, route: str, *, depth: float | None = None) -> tuple[Case, Verdict]:
    """Judge one cable alone, at another depth if one is given [mm]."""
    chosen = case_route(case, route)
    if depth is not None:
        chosen = chosen.model_copy(update={"depth": (float(depth),) * len(chosen.depth)})
    alone = case.model_copy(update={"routes": (chosen,)})
    return alone, judge(alone, pack)


def _scene(
    case: Case, pack: Pack, routes: Collection[str], *, parts: Collection[str], verdict: Verdict | None = None
) -> Scene:
    found = verdict.findings if verdict else ()
    wall = case.walls[0].id
    return wall_scene(case, wall, "front", pack, findings=found, routes=routes, show=parts)


def _depth_page(case: Case, pack: Pack, route: str, *, depth: float) -> str:
    alone, verdict = _judged(case, pack, route, depth=depth)
    drawing = svg(_scene(alone, pack, [route], parts=MARKED, verdict=verdict), name=f"depth-{route}")
    return f'<p role="status">{_depth_words(verdict, depth=depth)}</p>{drawing}'


def _depth_words(verdict: Verdict, *, depth: float) -> str:
    """Say what the rule for zones finds on each face, once for each."""
    found = {f"{one.where.face}": one.reason for one in verdict.findings if one.rule == "wall-zone"}
    faces = [f"{face.capitalize()} face: {reason}." for face, reason in found.items()]
    return " ".join([f"{depth:g} mm below the front.", *faces])


def _picture(scene: Scene) -> None:
    """Show a scene as a picture that needs no trust to be seen, with its words under it."""
    show(_png_data(scene))
    words = f"<details><summary>This picture in words</summary><p>{escape(scene.description)}</p></details>"
    show({"text/html": words, "text/plain": scene.description})


def _png_data(scene: Scene) -> dict[str, Any]:
    return {"image/png": png(scene), "text/plain": scene.title}


def _say(markdown: str) -> None:
    show({"text/markdown": markdown, "text/plain": markdown})
