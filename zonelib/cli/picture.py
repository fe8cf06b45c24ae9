"""``zonelib picture``: draw the walls of a case file."""

from collections.abc import Sequence
from pathlib import Path

import click

from zonelib.cli.course import course_lines, course_option
from zonelib.cli.pictures import known_ending, write_pictures
from zonelib.draw import room_scene, wall_scene
from zonelib.rules.course import course_for
from zonelib.rules.engine import Verdict, judge
from zonelib.rules.load import case_and_pack
from zonelib.site.model import Case, Side, Wall
from zonelib.site.room import RoomWall

__all__ = ["command"]

SIDES: tuple[Side, Side] = ("front", "rear")


@click.command("picture")
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--out", required=True, type=click.Path(path_type=Path), help="Where to write: .svg, .png or .pdf."
)
@click.option("--wall", "wall_id", metavar="ID", help="This wall only.")
@click.option("--room", "room_id", metavar="ID", help="This room only, unfolded: its walls side by side.")
@click.option("--face", type=click.Choice(SIDES), help="This face only; the rear is drawn mirrored.")
@click.option("--route", "route_id", metavar="ID", help="This route only, on its wall.")
@course_option
def command(
    file: Path, *, out: Path, wall_id: str | None, room_id: str | None, face: Side | None,
    route_id: str | None, course_file: Path | None,
) -> None:  # fmt: skip
    """Draw the walls of the case FILE with their zones and routes, judged.

    Without options: each wall that has a route (or every wall, where there is no route), its front, and its
    rear too where a zone of the rear decides; each room that has a route, unfolded. A failing stretch has
    the number that `zonelib check` gives it.
    Where several pictures are due, a PDF has one page for each; an SVG or PNG becomes one file for each, with
    wall and face in its name.
    """
    known_ending(out)
    course = course_for(file.parent, course_file)
    case, pack = case_and_pack(file, course=course)
    _known("--route", route_id, [route.id for route in case.routes])
    _known("--wall", wall_id, [wall.id for wall in case.walls])
    _known("--room", room_id, [room.id for room in case.rooms])
    verdict = judge(case, pack)
    found, routes = verdict.findings, [route_id] if route_id else None
    rooms = [room_id] if room_id else [] if wall_id else _rooms(case, route_id)
    walls = [] if room_id else _walls(case, wall_id, route_id, drawn=bool(rooms))
    scenes = [room_scene(case, room, pack, findings=found, routes=routes) for room in rooms]
    scenes += [
        wall_scene(case, wall.id, side, pack, findings=found, routes=routes)
        for wall in walls
        for side in _faces(wall, face, case, verdict)
    ]
    for path in write_pictures(scenes, out):
        click.echo(f"Wrote {path}")
    click.echo(" ".join([f"{pack.stated_edition}.", *course_lines(course), pack.safety.aid]))


def _rooms(case: Case, route_id: str | None) -> list[str]:
    """Return the rooms that have a route to be drawn; without any route in the file, every room."""
    routes = [route.room for route in case.routes if route_id in (None, route.id)]
    return [room.id for room in case.rooms if room.id in routes or not case.routes]


def _walls(case: Case, wall_id: str | None, route_id: str | None, *, drawn: bool) -> list[Wall]:
    routes = [route for route in case.routes if route_id in (None, route.id)]
    plain = [wall for wall in case.walls if not isinstance(wall, RoomWall)]
    if route_id and wall_id and wall_id != routes[0].wall:
        place = f'"{routes[0].wall}", the wall of {route_id}' if routes[0].wall else "no wall, but --room"
        raise click.UsageError(f'--wall: found "{wall_id}"; allowed: {place}.')
    wanted = [wall_id] if wall_id else [route.wall for route in routes] or [wall.id for wall in plain]
    walls = [wall for wall in case.walls if wall.id in wanted]
    if not walls and not drawn:
        raise click.UsageError("The file has no wall to draw.")
    return walls


def _known(option: str, name: str | None, names: Sequence[str]) -> None:
    if name is not None and name not in names:
        allowed = ", ".join(names) or "no name, as the file holds none"
        raise click.UsageError(f'{option}: found "{name}"; allowed: {allowed}.')


def _faces(wall: Wall, face: Side | None, case: Case, verdict: Verdict) -> list[Side]:
    if face:
        return [face]
    return [side for side in SIDES if side == "front" or _rear_matters(wall, case, verdict)]


def _rear_matters(wall: Wall, case: Case, verdict: Verdict) -> bool:
    """Tell whether the rear has something to show: a zone that decides, or accessories where nothing runs."""
    if any(route.wall == wall.id for route in case.routes):
        return any(
            finding.rule == "wall-zone"
            and finding.status != "not-applicable"
            and (finding.where.wall, finding.where.face) == (wall.id, "rear")
            for finding in verdict.findings
        )
    return any(one.face == "rear" for one in wall.accessories)
