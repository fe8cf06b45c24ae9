"""What a notebook shows of a sheet without a kernel: words and a picture, never an error box."""

from base64 import b64encode
from html import escape
from io import BytesIO
from typing import Any

from markdown_it import MarkdownIt

from zonelib.draw import Scene
from zonelib.exercise.bundle import Bundle
from zonelib.exercise.marking import Result
from zonelib.exercise.report import safety_words
from zonelib.sheet.kinds import pad_for
from zonelib.sheet.words import say

__all__ = ["png", "question_html", "still_picture", "still_words"]

STYLE = """
.jp-OutputArea-child:has(.zl-still) ~ .jp-OutputArea-child .jp-OutputArea-output.lm-Panel:not(:has(*)) {
  display: none;
}
.jp-OutputArea:has(.zl-sheet) .jp-OutputArea-child:has(.zl-still),
.jp-OutputArea:has(.zl-sheet) .jp-OutputArea-child:has(.zl-still) + .jp-OutputArea-child,
.jp-OutputArea-child:has(.zl-sheet) + .jp-OutputArea-child { display: none; }
"""
"""Live, the still part gives way to the sheet; without a kernel, the sheet's empty place gives way."""


def question_html(bundle: Bundle) -> str:
    """Return the question as HTML; markup of its own in it stays text."""
    return str(MarkdownIt("commonmark", {"html": False}).render(bundle.exercise.question))


def still_words(bundle: Bundle) -> dict[str, Any]:
    """Return the words that stand for a sheet, by MIME type."""
    title, edition, *safe = bundle.exercise.title, *safety_words(bundle)[:3]
    choices = pad_for(bundle).offered(bundle)
    listed = "".join(f"<li>{escape(one)}</li>" for one in choices)
    offered = f"<ul>{listed}</ul>" if listed else ""
    parts = f"<p><b>{escape(title)}</b></p>{question_html(bundle)}{offered}<p>{escape(say('run'))}</p>"
    small = f"<p><small>{escape(' '.join([edition, *safe]))}</small></p>"
    question = "\n- ".join([bundle.exercise.question.strip(), *choices])
    text = f"{title}\n\n{question}\n\n{say('run')}"
    return {
        "text/html": f"<style>{STYLE}</style><div class='zl-still'>{parts}{small}</div>",
        "text/plain": text,
    }


def still_picture(bundle: Bundle, result: Result) -> dict[str, Any]:
    """Return the picture that stands for a sheet, with the answer as it was saved, by MIME type."""
    scene = pad_for(bundle).still(bundle, result)
    if scene is None:
        return {"text/plain": say("no-picture")}
    return {"image/png": png(scene), "text/plain": scene.description}


def png(scene: Scene) -> str:
    """Return a scene as a PNG in base64, as a notebook stores it."""
    from zonelib.draw.figure import figure

    picture = BytesIO()
    figure(scene).savefig(picture, format="png", dpi=96)
    return b64encode(picture.getvalue()).decode()
