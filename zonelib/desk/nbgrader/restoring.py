"""Give each cell back what the gradebook says of it, whatever a trainee has made of its metadata."""

from typing import Any

from nbgrader.api import Gradebook
from nbgrader.preprocessors import NbGraderPreprocessor

from zonelib.desk.nbgrader.plain_notebook import new_cell, node

__all__ = ["RestoreCells"]

RESTORED = "This cell was missing and has been put back."


class RestoreCells(NbGraderPreprocessor):  # type: ignore[misc]  # nbgrader ships no types
    """Keeps one cell for each name in the gradebook, adds the missing graded ones, and frees all others.

    nbgrader stops the whole class at a copied graded cell or at metadata of another version, and gives full
    marks to what it cannot read; none of this is left to the notebook.
    """

    def preprocess(self, nb: Any, resources: Any) -> tuple[Any, Any]:
        """Rewrite the nbgrader metadata of every cell from the gradebook."""
        names = resources["nbgrader"]
        with Gradebook(names["db_url"]) as book:
            stated = _stated(book.find_notebook(names["notebook"], names["assignment"]))
        taken: set[str] = set()
        for cell in reversed(nb.cells):
            self._restore(cell, stated, taken)
        nb.cells += [
            _missing(*stated[name]) for name in stated if name not in taken and _counts(stated[name][0])
        ]
        return nb, resources

    def _restore(self, cell: Any, stated: dict[str, tuple[dict[str, Any], str]], taken: set[str]) -> None:
        """Restore one cell; the last of several copies keeps the name."""
        name = cell.metadata.pop("nbgrader", {}).get("grade_id")
        if name in taken:
            self.log.warning("The cell %s is there more than once; the last copy is kept.", name)
        elif name in stated:
            taken.add(name)
            cell.metadata["nbgrader"] = node(stated[name][0])


def _stated(notebook: Any) -> dict[str, tuple[dict[str, Any], str]]:
    """Return metadata and source of every cell the gradebook knows, by name."""
    points = {cell.name: float(cell.max_score) for cell in notebook.grade_cells}
    tasks = {cell.name: float(cell.max_score) for cell in notebook.task_cells}
    solutions = {cell.name for cell in notebook.solution_cells}
    stated = {}
    for cell in notebook.source_cells:
        name = cell.name
        kinds = {"grade": name in points, "solution": name in solutions, "task": name in tasks}
        worth = {**points, **tasks}.get(name)
        meta = {"grade_id": name, "schema_version": 3, "locked": bool(cell.locked), **kinds}
        meta |= {"checksum": cell.checksum, "cell_type": cell.cell_type}
        stated[name] = (meta | ({} if worth is None else {"points": worth}), cell.source)
    return stated


def _counts(meta: dict[str, Any]) -> bool:
    return bool(meta["grade"] or meta["task"])


def _missing(meta: dict[str, Any], source: str) -> Any:
    note = f"# {RESTORED}" if meta["cell_type"] == "code" else RESTORED
    text = source if meta["locked"] else f"{note}\n\n{source}"
    data = new_cell(meta["cell_type"], f"put-back-{meta['grade_id']}", text, metadata={"nbgrader": meta})
    return node(data)
