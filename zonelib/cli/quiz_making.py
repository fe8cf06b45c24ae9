"""``zonelib quiz new``: exercises, time and candidates become a quiz with its slips of codes."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from zonelib.cli.quiz_places import course_place, database_place, opened

if TYPE_CHECKING:
    from zonelib.desk.server.candidates import Listed
    from zonelib.desk.server.making import Mode, Plan

__all__ = ["new"]

NAME = re.compile(r"[a-z0-9][a-z0-9-]{0,39}")
PATH = click.Path(dir_okay=False, path_type=Path)


@click.command("new")
@click.argument("name")
@click.argument("exercises", metavar="EXERCISE...", nargs=-1, required=True)
@click.option("--candidates", required=True, type=PATH, help="CSV: candidate, and maybe extra and name.")
@click.option("--minutes", type=click.FloatRange(1, 600), help="Time for everyone; a quiz needs it.")
@click.option("--extra", multiple=True, metavar="C-014=10", help="More minutes (or 25%) for one. Repeatable.")
@click.option("--title", default="", help="Heading of its pages; by default its name.")
@click.option("--as", "mode", default="quiz", type=click.Choice(["quiz", "homework", "practice"]))
@click.option("--slips", type=PATH, help="PDF of the codes; by default <name>-slips.pdf.")
@click.option("--address", default="", help="What the slips tell candidates to open.")
@click.option("--rooms", default=8, type=click.IntRange(1, 200), help="Of each exercise that varies; 8.")
@click.option("--same-order", is_flag=True, help="The same order of questions for everyone.")
@course_place
@database_place
def new(
    name: str,
    exercises: tuple[str, ...],
    *,
    candidates: Path,
    minutes: float | None,
    extra: tuple[str, ...],
    title: str,
    mode: "Mode",
    slips: Path | None,
    address: str,
    rooms: int,
    same_order: bool,
    course: Path,
    database: str | None,
) -> None:
    """Make the quiz NAME of EXERCISE...: names of the library's exercises, or paths of exercise files.

    Each candidate gets a code. Codes are printed on slips and kept nowhere else, so print them now.
    """
    from zonelib.desk.server.candidates import extra_of, read_candidates, with_extra
    from zonelib.desk.server.choosing import chosen
    from zonelib.desk.server.making import Candidate, Plan

    _hold_to_form(name, mode, minutes)
    listed = with_extra(read_candidates(candidates), extra)
    seconds = minutes * 60 if minutes else None
    plan = Plan(
        id=name,
        title=(title or name)[:200],
        mode=mode,
        seconds=seconds,
        exercises=chosen(exercises, course, rooms=min(rooms, len(listed))),
        candidates=[Candidate(one.number, extra_of(one.extra, seconds)) for one in listed],
        shuffled=not same_order,
    )
    codes = _made(plan, course, database)
    out = _slips(slips or Path(f"{name}-slips.pdf"), listed, codes, plan=plan, address=address)
    click.echo(f"Made: {name}, {len(exercises)} exercises, {len(listed)} candidates.")
    click.echo(f"Codes to print and cut: {out}. They are kept nowhere else.")
    click.echo(f"Next: zonelib serve {course}, then zonelib quiz open {name}")


def _hold_to_form(name: str, mode: "Mode", minutes: float | None) -> None:
    if not NAME.fullmatch(name):
        raise click.ClickException(
            f'Found the name "{name[:60]}". Use 1 to 40 small letters, digits, dashes.'
        )
    if mode == "quiz" and minutes is None:
        raise click.ClickException("A quiz needs a time: give --minutes 30, or --as homework for none.")
    if mode != "quiz" and minutes is not None:
        raise click.ClickException(f"A {mode} has no time limit: leave out --minutes.")


def _made(plan: "Plan", course: Path, database: str | None) -> dict[str, str]:
    from zonelib.desk.server.making import make_sitting
    from zonelib.desk.server.running import sittings_there

    with opened(course, database) as (store, now), store.writing() as connection:
        if plan.id in {one.id for one in sittings_there(connection)}:
            raise click.ClickException(f"There is a sitting of the name {plan.id} already. Choose another.")
        return make_sitting(connection, plan, secret=store.secret, now=now)


def _slips(path: Path, listed: "list[Listed]", codes: dict[str, str], *, plan: "Plan", address: str) -> Path:
    from zonelib.desk.server.candidates import extra_of
    from zonelib.desk.server.slips import Slip, write_slips

    def minutes(one: "Listed") -> str:
        return f"{(plan.seconds + extra_of(one.extra, plan.seconds)) / 60:g} minutes" if plan.seconds else ""

    slips = [Slip(one.number, codes[one.number], minutes(one), one.name) for one in listed]
    return write_slips(path, slips, title=plan.title, address=address)
