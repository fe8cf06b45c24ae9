"""How lessons look in a notebook, live and stored."""

from functools import cache
from html import escape
from pathlib import Path

from ipywidgets import HTML, VBox

from zonelib.draw import Scene
from zonelib.sheet.showing import show
from zonelib.sheet.still import png

__all__ = ["picture", "say", "still", "style"]

STYLE = Path(__file__).parents[1] / "static" / "lesson.css"


@cache
def style() -> str:
    """Return the style sheet as a notebook takes it."""
    return f"<style>{STYLE.read_text(encoding='utf-8')}</style>"


def say(markdown: str) -> None:
    """Show words."""
    show({"text/markdown": markdown, "text/plain": markdown})


def picture(scene: Scene) -> None:
    """Show a scene as a picture that needs no trust to be seen, with its words under it."""
    show({"image/png": png(scene), "text/plain": scene.title})
    words = f"<details><summary>This picture in words</summary><p>{escape(scene.description)}</p></details>"
    show({"text/html": words, "text/plain": scene.description})


def still(html: str, text: str, box: VBox, *, scene: Scene | None = None) -> None:
    """Show what stands without a kernel, then the box of widgets.

    The box brings the style, and is shown without words of its own: a stored lesson can leave it out.
    """
    show({"text/html": f"<div class='zl-lesson-still'>{html}</div>", "text/plain": text})
    if scene is not None:
        show({"image/png": png(scene), "text/plain": scene.title})
    box.children = (HTML(style()), *box.children)
    box.add_class("zl-lesson")
    view = "application/vnd.jupyter.widget-view+json"
    show({view: box._repr_mimebundle_()[view]})
