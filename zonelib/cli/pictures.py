"""Drawings as files: SVG, PNG or PDF by the ending of the name."""

from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from zonelib.draw import Scene, svg

__all__ = ["known_ending", "write_pictures"]

ENDINGS = (".svg", ".png", ".pdf")


def known_ending(out: Path) -> None:
    """Refuse a name that ends in nothing we can write."""
    if out.suffix.lower() not in ENDINGS:
        raise click.UsageError(
            f'--out: found "{out.name}"; allowed: a name that ends in {", ".join(ENDINGS)}.'
        )


def write_pictures(scenes: Sequence[Scene], out: Path) -> Iterator[Path]:
    """Write drawings and yield each file: one, or one for each with wall and face in its name."""
    try:
        if out.suffix.lower() == ".pdf":
            yield _pages(scenes, out)
            return
        for scene in scenes:
            path = out if len(scenes) == 1 else out.with_stem(f"{out.stem}-{_safe(scene.wall)}-{scene.face}")
            yield _picture(scene, path)
    except OSError as error:
        raise click.ClickException(f"{out} cannot be written: {error.strerror}.") from error


def _picture(scene: Scene, path: Path) -> Path:
    if path.suffix.lower() == ".svg":
        path.write_text(svg(scene), encoding="utf-8")
    else:
        from zonelib.draw.figure import save

        save(scene, path)
    return path


def _pages(scenes: Sequence[Scene], path: Path) -> Path:
    from zonelib.draw.figure import save_pages

    save_pages(scenes, path)
    return path


def _safe(name: str) -> str:
    """Return an id as a part of a file's name."""
    return "".join(letter if letter.isalnum() or letter in "-_" else "_" for letter in name)
