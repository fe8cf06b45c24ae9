"""``zonelib quiz mark`` and ``verify``: what a sitting's answers earn, and whether its log holds."""

import sys
from collections.abc import Iterator
from pathlib import Path

import click

from zonelib.cli.quiz_places import opened
from zonelib.desk.linked import Carried, carry_changes, write_link

__all__ = ["mark_sitting", "verify_log"]


def mark_sitting(name: str, course: Path, database: str | None, *, out: Path) -> None:
    """Mark a sitting's answers into a folder."""
    from zonelib.desk.run import mark_folder
    from zonelib.desk.server.carrying import link_to
    from zonelib.desk.server.handing import first_choices, handed_in, write_handed
    from zonelib.desk.server.running import sitting_named

    with opened(course, database) as (store, now), store.reading() as connection:
        sitting = sitting_named(connection, name, locked=False)
        if sitting.mode == "quiz" and sitting.state == "open":
            raise click.ClickException(f"{name} is open. Close it first: zonelib quiz close {name}")
        handed, common = handed_in(connection, name, now=now), first_choices(connection, name)
        link = link_to(connection, name, course=course, database=database)
    folder = write_handed(name, handed, common, out)
    write_link(out, link)
    carried = carry_changes(out, database=database)  # before marking, so that the pages are made with them
    mark_folder(folder, out)
    click.echo(f"{len(handed)} seats marked: {out / 'marks.csv'}, {out / 'feedback'}")
    click.echo(f"What was handed in lies in {folder}. Class report: zonelib report {out}")
    for line in _changes_told(carried):
        click.echo(line)


def _changes_told(carried: Carried | None) -> Iterator[str]:
    """Yield what there is to say of marks that were changed by hand."""
    if carried and carried.trouble:
        yield f"Marks changed by hand did not reach the server: {carried.trouble} Run this again."
    if carried and carried.sent:
        yield f"Marks changed by hand that the server did not know: {carried.sent}. It has them now."
    if carried and carried.brought:
        yield f"Marks changed by hand that the server brought along: {carried.brought}."


def verify_log(name: str, course: Path, database: str | None, *, seal: str | None) -> None:
    """Print whether a log holds; the exit status is 1 where it does not."""
    from zonelib.desk.server.events import last_hash, sealed_by, verify
    from zonelib.desk.server.running import sitting_named

    with opened(course, database) as (store, _), store.reading() as connection:
        sitting_named(connection, name, locked=False)
        lines, broken = verify(connection, name)
        known = seal is None or sealed_by(connection, name, seal)
        last = last_hash(connection, name)
    for one in broken:
        click.echo(f"- {one}")
    if not known:
        click.echo(f"- The log has no line with the seal {seal}.")
    if broken or not known:
        click.echo(f"The log of {name} does not hold: it was changed after it was written.")
        sys.exit(1)
    click.echo(f"The log of {name} holds: {lines} lines. Last line: {last}")
