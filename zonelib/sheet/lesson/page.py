"""How lessons look in a notebook, live and stored."""

from functools import cache
from html import escape
from pathlib import Path
from typing import Any

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


def still(html: str, text: str, *widgets: Any, scene: Scene | None = None) -> None:
    """Show what stands without a kernel, then the widgets.

    A widget is shown without words of its own, so that a stored lesson can leave it out.
    """
    show({"text/html": f"{style()}<div class='zl-lesson-still'>{html}</div>", "text/plain": text})
    if scene is not None:
        show({"image/png": png(scene), "text/plain": scene.title})
    for widget in widgets:
        widget.add_class("zl-lesson")
        view = "application/vnd.jupyter.widget-view+json"
        show({view: widget._repr_mimebundle_()[view]})
