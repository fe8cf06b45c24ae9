"""All remedies of a failed finding, in the order a tradesman would try them, each proven."""

from collections.abc import Callable, Iterator
from itertools import islice

from zonelib.coach.remedies.along_joists import along_side, cover_run, keep_on_joist
from zonelib.coach.remedies.covering import choose_covering, flat_covering
from zonelib.coach.remedies.deepening import deepen, fit_depth, shallower
from zonelib.coach.remedies.holes import cover_cut, move_hole, use_gap
from zonelib.coach.remedies.moving import move_leg
from zonelib.coach.remedies.notches import hole_instead, mend_notch
from zonelib.coach.remedies.proof import mends
from zonelib.coach.remedies.remedy import Advice, Remedy
from zonelib.coach.remedies.rerouting import another_way, covered_way, reach
from zonelib.coach.remedies.screws import move_fixing
from zonelib.coach.remedies.studs import cover_stud_cut, mend_stud_hole, mend_stud_notch
from zonelib.coach.remedies.supply import choose_rcd, depth_is_no_way
from zonelib.coach.remedies.task import Task
from zonelib.coach.remedies.voids import meet_void
from zonelib.rules.finding import Finding
from zonelib.rules.pack import Pack
from zonelib.site.model import Case

__all__ = ["remedies"]

MOST_TRIED = 16
"""Changes of one kind that are judged before the kind is given up."""

Maker = Callable[[Task], Iterator[Advice]]


def lay_flat(task: Task) -> Iterator[Advice]:
    """Yield the legs laid less deep; where that alone breaks another rule, in a covering as well."""
    yield from shallower(task)
    yield from flat_covering(task)


MAKERS: dict[str, tuple[Maker, ...]] = {
    "wall-zone": (move_leg, another_way, deepen, choose_covering, covered_way),
    "wall-line": (another_way, deepen, covered_way),
    "wall-edge": (deepen, choose_covering),
    "wall-rcd": (choose_rcd, deepen, choose_covering),
    "metal-wall": (choose_rcd, depth_is_no_way, choose_covering),
    "route-joins": (reach, covered_way),
    "route-on-wall": (move_leg, another_way, covered_way),
    "route-in-void": (meet_void,),
    "depth-in-wall": (fit_depth,),
    "chase-depth": (lay_flat, another_way),
    "chase-line": (another_way, covered_way),
    "joist-kind": (use_gap,),
    "joist-cover": (move_hole, mend_notch, hole_instead, cover_cut),
    "joist-hole-size": (move_hole,),
    "joist-hole-position": (move_hole,),
    "joist-hole-centre": (move_hole,),
    "joist-hole-edge": (move_hole,),
    "joist-hole-spacing": (move_hole,),
    "joist-notch-depth": (mend_notch, hole_instead),
    "joist-notch-length": (mend_notch, hole_instead),
    "joist-notch-position": (mend_notch, hole_instead),
    "joist-notch-edge": (mend_notch, hole_instead),
    "joist-notch-gap": (mend_notch, move_hole, hole_instead),
    "run-cover": (along_side, cover_run),
    "run-on-joist": (keep_on_joist, along_side),
    "stud-cover": (mend_stud_hole, cover_stud_cut),
    "stud-hole-size": (mend_stud_hole,),
    "stud-hole-edge": (mend_stud_hole,),
    "stud-notch-depth": (mend_stud_notch,),
    "stud-notch-gap": (mend_stud_notch,),
    "fixing": (move_fixing,),
}
"""For each rule, what is tried when it fails: the change a tradesman would make first comes first."""


def remedies(case: Case, pack: Pack, finding: Finding, *, existing: bool = False) -> tuple[Advice, ...]:
    """Return what would mend a failed finding, and what would not.

    Parameters
    ----------
    case : Case
        What was judged.
    pack : Pack
        By which rules.
    finding : Finding
        A failed finding of the case.
    existing : bool
        Whether the cable is in the wall already: then it may keep its way, and a covering is put over it.

    Returns
    -------
    tuple of Remedy and Impossible
        One at most for each kind of change. Each remedy was applied and judged again: its finding is
        mended, and nothing fails that did not fail before.
    """
    task = Task(case, pack, finding, existing)
    found: list[Advice] = []
    for maker in MAKERS.get(finding.rule, ()) if finding.status == "fail" else ():
        found += [one for one in _first(task, maker) if not _known(one, found)]
    return tuple(found)


def _first(task: Task, maker: Maker) -> Iterator[Advice]:
    """Yield the first proven change of a maker; else what it says is not possible."""
    not_possible: list[Advice] = []
    for one in islice(maker(task), MOST_TRIED):
        if not isinstance(one, Remedy):
            not_possible.append(one)
        elif mends(task, one.case):
            yield one
            return
    yield from not_possible


def _known(one: Advice, found: list[Advice]) -> bool:
    return isinstance(one, Remedy) and any(isinstance(old, Remedy) and old.case == one.case for old in found)
