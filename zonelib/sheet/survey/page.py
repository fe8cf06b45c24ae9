"""What stands below the fields: what is amiss, the plan, and the room with where not to drill."""

from collections.abc import Iterator
from html import escape

from zonelib.draw import svg
from zonelib.sheet.survey.case import walk_of
from zonelib.sheet.survey.closing import closing
from zonelib.sheet.survey.sketch import plan_svg, plan_words
from zonelib.sheet.survey.words import say
from zonelib.sheet.survey.work import Survey
from zonelib.site.plan import corner_at

__all__ = ["drawing_html", "plan_html", "status_html"]


def status_html(survey: Survey) -> str:
    """Return whether it is saved, and each fault with the place it is about."""
    faults = "".join(
        f'<li class="zl-fail"><b>{escape(one.name)}:</b> {escape(one.words)}</li>'
        for one in survey.state.told
    )
    return f'<div role="status"><p>{escape(survey.said)}</p><ul>{faults}</ul></div>'


def plan_html(survey: Survey) -> str:
    """Return the plan as walked, whether it closes, and its corners."""
    walk = walk_of(survey.notes)
    told = "".join(f"<p>{escape(one)}</p>" for one in (*closing(walk, survey.notes), *_corners(survey)))
    if walk is None:
        return f'<div role="status">{told}</div>'
    words = f"<details><summary>{say('in-words')}</summary><p>{escape(plan_words(walk))}</p></details>"
    return f'<h4>{say("plan-heading")}</h4><div role="status">{told}</div>{plan_svg(walk)}{words}'


def _corners(survey: Survey) -> Iterator[str]:
    if survey.state.case is None:
        return
    plan = survey.state.case.rooms[0].plan
    found = [
        say("corner", corner=corner_at(plan, at) or say("straight"), one=at or len(plan), other=at + 1)
        for at in range(len(plan))
    ]
    yield say("corners", found="; ".join(found)) + "."


def drawing_html(survey: Survey) -> str:
    """Return the room unfolded with what to do before drilling, and all of it in words."""
    shown = survey.avoided()
    if shown is None:
        return f"<p>{escape(say('no-drawing'))}</p>"
    out = survey.state.left_out
    left = f'<p class="zl-amiss">{escape(say("left-out", names=", ".join(out)))}</p>' if out else ""
    lists = "".join(
        f"<p><b>{escape(wall)}</b></p><ul>{''.join(f'<li>{escape(one)}</li>' for one in words)}</ul>"
        for wall, words in shown.words.items()
    )
    told = f"<p>{escape(shown.scene.description.partition('Keep away on wall')[0])}</p>{lists}"
    words = f"<details><summary>{say('in-words')}</summary>{told}</details>"
    label = escape(say("scroll"), quote=True)
    picture = svg(shown.scene, name="survey")
    drawing = f'<div class="zl-room" role="region" tabindex="0" aria-label="{label}">{picture}</div>'
    head = f"<h4>{say('drawing-heading')}</h4>{left}<p>{escape(say('scroll'))}</p>"
    return f"{head}{drawing}{words}{_safety(survey)}"


def _safety(survey: Survey) -> str:
    pack = survey.pack
    first = [say("avoid-blank"), say("avoid-rear"), say("before")]
    listed = "".join(f"<li>{escape(one)}</li>" for one in pack.safety.drill)
    last = f"{pack.safety.aid} {say('edition', edition=pack.stated_edition)}"
    lines = f'<p>{escape(" ".join(first))}</p><ul class="zl-drill">{listed}</ul><p>{escape(last)}</p>'
    return f'<div class="zl-safe">{lines}</div>'
