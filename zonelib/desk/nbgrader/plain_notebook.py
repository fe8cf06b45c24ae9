"""Read a submitted notebook as text only; where it is none, the released one stands in."""

import json
from pathlib import Path
from typing import Any, cast

import nbformat
from nbconvert.exporters import NotebookExporter

from zonelib.desk.walk import LARGEST

__all__ = ["PlainNotebook", "new_cell", "node", "plain_notebook"]

KINDS: dict[str, dict[str, Any]] = {
    "code": {"outputs": [], "execution_count": None},
    "markdown": {},
    "raw": {},
}
MOST_CELLS = 2000


class PlainNotebook(NotebookExporter):
    """Reads notebooks for autograding, and lets none of them stop the class."""

    def from_file(self, file_stream: Any, resources: Any = None, **kw: Any) -> tuple[Any, Any]:
        """Read cell by cell; a notebook that cannot be read is replaced by the released one."""
        released = self._released(resources or {})
        try:
            notebook = plain_notebook(file_stream.read(LARGEST + 1), known=_sources(released))
        except (ValueError, RecursionError):
            self.log.warning("%s is not a notebook; the released one stands in.", file_stream.name)
            notebook = plain_notebook(released, known=_sources(released))
        convert: Any = self.from_notebook_node
        output, told = convert(notebook, resources=resources, **kw)
        return output, told

    def _released(self, resources: dict[str, Any]) -> str:
        names, converter = resources["nbgrader"], cast("Any", self.parent)
        courses = converter.coursedir
        folder = courses.format_path(courses.release_directory, ".", names["assignment"])
        path = Path(folder) / f"{names['notebook']}.ipynb"
        return path.read_text(encoding="utf-8") if path.is_file() else ""


def _sources(released: str) -> set[str]:
    """Return the sources of the released cells: the tutor's own words, which may hold markup."""
    return {_source(cell) for cell in json.loads(released)["cells"]} if released else set()


def plain_notebook(text: str, *, known: set[str] | frozenset[str] = frozenset()) -> Any:
    """Return a notebook of a text's cells with their source and nbgrader metadata, and nothing else.

    Parameters
    ----------
    text : str
        What the file holds.
    known : set of str
        Sources whose markup is kept; any other text is shown as it was typed.

    Raises
    ------
    ValueError
        If it is not a notebook of format 4.
    """
    if len(text) > LARGEST:
        raise ValueError("too large for a notebook")
    data = json.loads(text)
    cells = data.get("cells") if isinstance(data, dict) and data.get("nbformat") == 4 else None  # noqa: PLR2004
    if not isinstance(cells, list) or len(cells) > MOST_CELLS:
        raise ValueError("not a notebook of format 4")
    plain = [_cell(cell, number, known) for number, cell in enumerate(cells)]
    return node({"nbformat": 4, "nbformat_minor": 5, "metadata": {}, "cells": plain})


def _cell(cell: Any, number: int, known: set[str] | frozenset[str]) -> Any:
    kind = cell.get("cell_type") if isinstance(cell, dict) else None
    if not isinstance(kind, str) or kind not in KINDS:
        raise ValueError("a cell of no known kind")
    source = _source(cell)
    if kind != "code" and source not in known:
        source = source.replace("<", "&lt;")
    return new_cell(kind, f"c{number}", source, metadata=_nbgrader(cell.get("metadata")))


def _source(cell: Any) -> str:
    source = cell.get("source") if isinstance(cell, dict) else None
    lines = source if isinstance(source, list) else [source]
    texts = [line for line in lines if isinstance(line, str)]
    if len(texts) < len(lines):
        raise ValueError("a cell without text")
    return "".join(texts).encode("utf-8", "replace").decode("utf-8")


def _nbgrader(metadata: Any) -> dict[str, Any]:
    named = metadata.get("nbgrader") if isinstance(metadata, dict) else None
    return {"nbgrader": named} if isinstance(named, dict) and isinstance(named.get("grade_id"), str) else {}


def new_cell(kind: str, identity: str, source: str, *, metadata: dict[str, Any]) -> dict[str, Any]:
    """Return a cell as data."""
    return {"cell_type": kind, "id": identity[:64], "source": source, "metadata": metadata, **KINDS[kind]}


def node(data: dict[str, Any]) -> Any:
    """Return data as nbformat holds them."""
    return nbformat.from_dict(data)  # type: ignore[no-untyped-call]
