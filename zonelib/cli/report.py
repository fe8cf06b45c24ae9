"""Verdicts and zones as a reader at a terminal wants them."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from textwrap import wrap

from rich.console import Console
from rich.text import Text

from zonelib.coach.remedies.remedy import Advice, Remedy
from zonelib.rules.engine import Verdict
from zonelib.rules.finding import Finding
from zonelib.rules.pack import Pack
from zonelib.rules.words import leg_words, mm
from zonelib.rules.zones import Zone
from zonelib.site.faults import FileFault

__all__ = ["Offers", "show_drilling", "show_faults", "show_lines", "show_list", "show_verdict", "show_zones"]

Offers = Mapping[Finding, Sequence[Advice]]

_WIDTH = 96


def _console(*, stderr: bool = False) -> Console:
    # A notebook that runs a command wants its text, not a piece of HTML for each line.
    console = Console(stderr=stderr, highlight=False, soft_wrap=False, force_jupyter=False)
    if console.width <= _WIDTH:
        return console
    return Console(stderr=stderr, highlight=False, width=_WIDTH, force_jupyter=False)


def _put(console: Console, words: str, *, indent: int, style: str = "") -> None:
    """Print words wrapped and indented: no blanks at the end of a line, no word broken, such as a path."""
    room = max(console.width - indent, 20)
    for line in wrap(words, room, break_long_words=False, break_on_hyphens=False):
        console.print(Text(" " * indent + line, style=style), soft_wrap=True)


def show_faults(fault: FileFault) -> None:
    """Print what is amiss in a file, on the error stream."""
    console = _console(stderr=True)
    console.print(Text(f"{fault.file} cannot be used:"), soft_wrap=True)
    for one in fault.faults:
        _put(console, str(one), indent=2)


def show_verdict(
    path: Path, verdict: Verdict, pack: Pack, *, decided_by: Iterable[str] = (), course: Iterable[str] = (),
    offers: Offers | None = None,
) -> None:  # fmt: skip
    """Print every failed finding and caution in full, the others in a line each, then what they rest on."""
    console = _console()
    console.print(Text(f"{path}: {_summary(verdict)}", style="bold"), soft_wrap=True)
    for number, finding in enumerate(verdict.failures, start=1):
        console.print()
        _put(console, f"{number}. {finding.rule}, {_subject(finding)}", indent=2, style="bold")
        _put(console, finding.text, indent=5)
        for line in _offered((offers or {}).get(finding, ())):
            _put(console, line, indent=7)
    _brief(console, "Met", (one for one in verdict.findings if one.status == "pass"))
    cautions = (one for one in verdict.findings if one.status == "caution")
    _lines(console, "Take care", (f"{one.rule}, {_subject(one)}: {one.text}" for one in cautions))
    _brief(console, "Does not apply", (one for one in verdict.findings if one.status == "not-applicable"))
    _lines(console, "Another reading of the rules would change this", decided_by)
    show_lines(console, [f"By {verdict.edition}.", *course, pack.safety.aid, *pack.safety.drill])


def _offered(advice: Sequence[Advice]) -> Iterator[str]:
    """Yield what would mend a finding, each with its cost, then what would not."""
    possible = [one for one in advice if isinstance(one, Remedy)]
    for number, one in enumerate(possible):
        yield f"{'Or' if number else 'To mend it'}: {one.words} {one.cost}"
    yield from (f"Not possible: {one.words}" for one in advice if not isinstance(one, Remedy))


def _summary(verdict: Verdict) -> str:
    failed = len(verdict.failures)
    return "all rules met" if not failed else f"{failed} finding{'s' if failed > 1 else ''} to mend"


def _subject(finding: Finding) -> str:
    where = finding.where
    legs = f", {leg_words(where.legs)}" if where.legs else ""
    place = f"{where.wall or where.room or where.joist or where.stud} {where.face or ''}".strip()
    return f"{finding.subject} on {place}{legs}"


def _brief(console: Console, heading: str, findings: Iterable[Finding]) -> None:
    _lines(console, heading, (f"{one.rule}, {_subject(one)}: {one.reason}" for one in findings))


def _lines(console: Console, heading: str, lines: Iterable[str]) -> None:
    lines = list(dict.fromkeys(lines))
    if lines:
        console.print()
        _put(console, heading, indent=2, style="bold")
    for line in lines:
        _put(console, line, indent=5)


def show_list(heading: str, lines: Iterable[str]) -> None:
    """Print a heading, and what belongs to it in indented lines."""
    console = _console()
    _put(console, heading, indent=0, style="bold")
    for line in lines:
        _put(console, line, indent=2)


def show_lines(console: Console, lines: Iterable[str]) -> None:
    """Print closing lines after a gap."""
    console.print()
    for line in lines:
        _put(console, line, indent=2, style="dim")


def show_zones(
    path: Path, pieces: Iterable[tuple[str, Zone]], pack: Pack, *, course: Iterable[str] = ()
) -> None:
    """Print each face's zones with their extent and reason."""
    console = _console()
    console.print(Text(f"{path}: zones by {pack.stated_edition}", style="bold"), soft_wrap=True)
    named = (
        (f"{zone.wall} {zone.face}, for {'all accessories' if joined == 'all' else f'route {joined}'}", zone)
        for joined, zone in pieces
    )
    _pieces(console, named)
    show_lines(console, [*course, pack.safety.aid, pack.safety.lay])


def show_drilling(
    path: Path, pieces: Iterable[tuple[str, Zone]], pack: Pack, drill: float, *, course: Iterable[str] = ()
) -> None:
    """Print where on each face a drill is to be kept away, why, and how to make sure."""
    console = _console()
    console.print(Text(f"{path}: where not to drill, by {pack.stated_edition}", style="bold"), soft_wrap=True)
    named = ((f"{zone.wall} {zone.face}, keep a {mm(drill)} mm drill out of", zone) for _, zone in pieces)
    _pieces(console, named)
    elsewhere = "Elsewhere the rules expect no cable. That is no promise, and depth is none either."
    show_lines(console, [elsewhere, *course, pack.safety.aid, *pack.safety.drill])


def _pieces(console: Console, named: Iterable[tuple[str, Zone]]) -> None:
    before = ""
    for heading, zone in named:
        if heading != before:
            console.print()
            _put(console, heading, indent=2, style="bold")
        before = heading
        left, bottom, right, top = zone.area.bounds
        extent = f"x {mm(left)} to {mm(right)}, y {mm(bottom)} to {mm(top)} mm"
        _put(console, f"{extent}: {zone.reason} ({zone.clause})", indent=5)
