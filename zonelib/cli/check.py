"""``zonelib check``: judge case files."""

import json
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import click

from zonelib.cli.course import course_lines, course_option
from zonelib.cli.report import Offers, show_faults, show_verdict
from zonelib.rules.course import Course, course_for, read_course
from zonelib.rules.deciding import deciding_readings
from zonelib.rules.engine import Verdict, judge
from zonelib.rules.load import case_and_pack
from zonelib.rules.pack import Pack, load_pack
from zonelib.site.faults import FileFault
from zonelib.site.model import Case

__all__ = ["command"]


@click.command("check")
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="One JSON object per file, one line each.")
@click.option(
    "--pack", "pack_file", metavar="FILE", help="Judge by this pack instead of the one each file names."
)
@click.option("--remedies", "mend", is_flag=True, help="Show under each failed finding what would mend it.")
@click.option("--existing", is_flag=True, help="With --remedies: the cables are in the walls already.")
@course_option
def command(
    files: tuple[Path, ...], *, as_json: bool, pack_file: str | None, course_file: Path | None, mend: bool,
    existing: bool,
) -> None:  # fmt: skip
    """Judge what is drawn in each case FILE by every rule of its pack.

    The exit status is 0 if all pass, 1 if any fails, 2 if any cannot be read.
    """
    pack = load_pack(pack_file) if pack_file else None
    stated = read_course(course_file) if course_file else None
    offer = partial(_advice, existing=existing) if mend else _no_advice
    sys.exit(max(_check(path, pack, stated, as_json=as_json, offer=offer) for path in files))


def _advice(case: Case, pack: Pack, verdict: Verdict, *, existing: bool) -> Offers:
    """Return what would mend each failed finding."""
    from zonelib.coach.remedies.offer import remedies  # scipy takes a while: only those who ask for it wait

    failed = (one for one in verdict.findings if one.status == "fail")
    return {one: remedies(case, pack, one, existing=existing) for one in failed}


def _no_advice(_: Case, __: Pack, ___: Verdict) -> Offers:
    return {}


def _check(
    path: Path, pack: Pack | None, stated: Course | None, *, as_json: bool,
    offer: Callable[[Case, Pack, Verdict], Offers],
) -> int:  # fmt: skip
    """Judge one file and return its exit status."""
    try:
        course = stated or course_for(path.parent)
        case, chosen = case_and_pack(path, pack, course=course)
    except FileFault as fault:
        if as_json:
            click.echo(json.dumps(_unreadable(path, fault)))
        else:
            show_faults(fault)
        return 2
    verdict = judge(case, chosen)
    decided_by, offers = deciding_readings(case, chosen, verdict), offer(case, chosen, verdict)
    if as_json:
        data = {"file": str(path), **_with_remedies(verdict, offers), "decided_by": decided_by}
        click.echo(json.dumps(data | ({"course": str(course.path)} if course else {})))
    else:
        choices = _choices(case, chosen, decided_by)
        show_verdict(path, verdict, chosen, decided_by=choices, course=course_lines(course), offers=offers)
    return 0 if verdict.passed else 1


def _with_remedies(verdict: Verdict, offers: Offers) -> dict[str, Any]:
    """Return the verdict as data, with what would mend it where that was asked for."""
    data = verdict.as_data()
    for one, finding in zip(verdict.findings, data["findings"], strict=True):
        if one in offers:
            finding["remedies"] = [each.as_data() for each in offers[one]]
    return data


def _choices(case: Case, pack: Pack, names: tuple[str, ...]) -> list[str]:
    """Return each deciding reading with its question and the value chosen."""
    readings = [(name, pack.readings[name]) for name in names]
    return [
        f"{one.question} Here: {case.readings.get(name, one.values[0])} ({name})." for name, one in readings
    ]


def _unreadable(path: Path, fault: FileFault) -> dict[str, Any]:
    errors = [{"path": one.path, "found": one.found, "allowed": one.allowed} for one in fault.faults]
    return {"file": str(path), "error": "; ".join(map(str, fault.faults)), "errors": errors}
