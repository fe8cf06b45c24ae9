"""A marked answer for a reader: a piece of HTML that stands alone, and the same as plain text."""

from collections.abc import Iterator
from html import escape
from importlib import resources

from zonelib.draw import Scene, svg
from zonelib.draw.printing import large_text
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result
from zonelib.exercise.messages import headline, in_order, marks, sentence
from zonelib.exercise.told import Message

__all__ = ["marked_scenes", "passed_words", "result_html", "result_text", "safety_words"]

ASKS = ("Asks", "Marks", "Gained", "Reason")
LONG = 1.7
"""A picture so many times as wide as high has no text beside it on paper."""

_FULL = {True: ' class="zl-full"', False: ""}


def result_html(bundle: Bundle, result: Result, *, name: str = "marked") -> str:
    """Return a marked answer as HTML: picture, criteria, messages, what is met, safety words.

    Parameters
    ----------
    bundle : Bundle
        What was answered.
    result : Result
        Of marking it.
    name : str
        Start of every id in it; give each report on a page its own.

    Returns
    -------
    str
        One element, with its style and without scripts. All of the trainee's and tutor's text is escaped.
    """
    return "\n".join(
        [
            '<section class="zl-report">',
            f"<style>{_style()}</style>",
            f"<h3>{escape(bundle.exercise.title)}</h3>",
            f'<p class="zl-score"><b>{marks(result.score)} of {marks(result.points)} marks</b></p>',
            *_pictures(bundle, result, name),
            *_messages(in_order(result)),
            *_criteria(result),
            *_passed(result),
            *_safety(bundle),
            "</section>",
        ]
    )


def _style() -> str:
    return resources.files("zonelib.exercise").joinpath("report.css").read_text(encoding="utf-8")


def marked_scenes(bundle: Bundle, result: Result) -> tuple[Scene, ...]:
    """Return the drawings of a marked answer; none of one that was not judged."""
    return tuple(bundle.kind.scenes(bundle, result)) if result.status == "marked" else ()


def _pictures(bundle: Bundle, result: Result, name: str) -> Iterator[str]:
    with large_text():
        scenes = marked_scenes(bundle, result)
    for number, scene in enumerate(scenes, start=1):
        drawing = svg(scene, name=f"{name}-{scene.face}-{number}")
        long = " zl-long" if scene.view.width > LONG * scene.view.height else ""
        yield f'<div class="zl-report-picture{long}">{drawing}</div>'


def _messages(messages: tuple[Message, ...]) -> Iterator[str]:
    if messages:
        yield "<h4>What to change</h4>"
        yield "<ul>"
        yield from map(_message, messages)
        yield "</ul>"


def _message(one: Message) -> str:
    number = f'<span class="zl-n">{one.n}</span> ' if one.n else ""
    return f"<li>{number}<b>{escape(one.title)}.</b> {escape(one.text)}</li>"


def _criteria(result: Result) -> Iterator[str]:
    yield "<h4>What marks are given for</h4>"
    heads = "".join(f'<th scope="col">{word}</th>' for word in ASKS)
    yield f'<table class="zl-asks"><thead><tr>{heads}</tr></thead><tbody>'
    for one in result.criteria:
        cells = (marks(one.marks), marks(one.gained), sentence(one.reason))
        row = "".join(f"<td>{escape(cell)}</td>" for cell in cells)
        yield f'<tr{_FULL[one.met]}><th scope="row">{escape(one.words)}</th>{row}</tr>'
    yield "</tbody></table>"
    met = [f"{one.words} ({marks(one.marks)})" for one in result.criteria if one.met]
    if met:
        yield f'<p class="zl-in-full"><b>In full:</b> {escape("; ".join(met))}.</p>'


def passed_words(result: Result) -> tuple[str, ...]:
    """Return the rules that hold or do not apply, each once, with reason and clause."""
    findings = result.verdict.findings if result.verdict else ()
    held = [one for one in findings if one.status in ("pass", "not-applicable")]
    words = [
        f"{one.rule.replace('-', ' ')}{f', {one.where.face} face' if one.where.face else ''}: {one.reason}"
        + (f" ({one.clause})" if one.clause else "")
        for one in held
    ]
    return tuple(dict.fromkeys(words))


def _passed(result: Result) -> Iterator[str]:
    words = passed_words(result)
    if words:
        yield "<details><summary>Rules that are met or do not apply</summary><ul>"
        yield from (f"<li>{escape(line)}</li>" for line in words)
        yield "</ul></details>"


def safety_words(bundle: Bundle) -> tuple[str, ...]:
    """Return the edition and the safety words, in the pack's own terms."""
    pack = bundle.pack
    return (f"Rules: {pack.stated_edition}.", pack.safety.aid, pack.safety.lay, *pack.safety.drill)


def _safety(bundle: Bundle) -> Iterator[str]:
    edition, aid, lay, *drill = map(escape, safety_words(bundle))
    yield f'<div class="zl-safety"><p>{edition} <b>{aid}</b> {lay}</p>'
    yield "<details><summary>Before you drill into a real wall</summary><ul>"
    yield from (f"<li>{line}</li>" for line in drill)
    yield "</ul></details></div>"


def result_text(bundle: Bundle, result: Result) -> str:
    """Return a marked answer as plain text."""
    return "\n".join(_lines(bundle, result))


def _lines(bundle: Bundle, result: Result) -> Iterator[str]:
    yield bundle.exercise.title
    yield f"{marks(result.score)} of {marks(result.points)} marks. {headline(result)}"
    for one in result.criteria:
        yield f"- {one.words}: {marks(one.gained)} of {marks(one.marks)}. {sentence(one.reason)}"
    for message in in_order(result):
        yield f"{message.n or '*'}. {message.title}. {message.text}"
    yield from (f"  {line}" for line in passed_words(result))
    yield " ".join(safety_words(bundle))
